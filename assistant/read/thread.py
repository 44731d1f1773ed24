"""A thread is one conversation: what was said before, and short answers to the coach's question.

The turns are read in order, the follower's like messages of their own. What they said of kit and limits holds until it is
taken back; "that one" is what the coach offered last, or, while he asks, what the follower asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from assistant.read.looks import as_pool, fitting
from assistant.read.places import counted
from assistant.read.planned import plain_of
from assistant.read.things import mentions
from assistant.rulebook import Rulebook
from assistant.values import Asked, Kit, Limit, Plan, Question, Reason, Turn
from assistant.words import Text, prepare

_SHORT = 12  # words of an answer that only answers
_MOST_OFFERED = 3


@dataclass(frozen=True)
class Before:
    """What the thread holds before a message: nothing at its beginning."""

    exercises: tuple[str, ...] = ()  # what the follower asked about last
    offered: tuple[str, ...] = ()  # what the coach's last turn named
    options: tuple[str, ...] = ()  # what an unsettled name may mean
    things: tuple[str, ...] = ()  # kit the coach asked about
    asks: bool = False  # the coach's last turn is a question
    has: tuple[Kit, ...] = ()
    lacks: tuple[Kit, ...] = ()
    limits: tuple[Limit, ...] = ()
    wants: tuple[str, ...] = ()
    item: str | None = None
    turns: int = 0
    known: tuple[str, ...] = field(default=())  # every exercise met in the thread, newest first


def after_coach(before: Before, turn: Turn, book: Rulebook) -> Before:
    """The thread after a turn of the coach: what he offers, or what he asks."""
    text = prepare(turn.text, book)
    named = turn.exercises or tuple(dict.fromkeys(hit.ids[0] for hit in text.names if not hit.weak))
    asks = turn.asked_back or "?" in turn.text
    named = named or _changed(text, before, book)
    options = next((tuple(card.exercises) for card in book.ambiguous.values() if card.ask in turn.text), ())
    if asks and not options:
        options = named if len(named) > 1 else before.options
    things = tuple(dict.fromkeys(thing for m in mentions(text, book, _spans(text)) if _in_question(m.first, text) for thing in
                                 (m.ids[:1] if m.one_of else m.ids)))  # fmt: skip
    return replace(before, offered=named, options=options, things=things if asks else (), asks=asks, turns=before.turns + 1,
                   item=turn.item or before.item, known=_known(named, before))  # fmt: skip


def _changed(text: Text, before: Before, book: Rulebook) -> tuple[str, ...]:
    """ "Use the handles", about push-ups: the neighbour of the exercise that needs the things the coach names."""
    things = {thing for m in mentions(text, book, ()) for thing in m.ids}
    near = [ex for asked in before.exercises for ex in book.graph.successors(asked)] if things else []
    pool = [ex for ex in dict.fromkeys(near) if any(need & things for need in book.exercises[ex].need_sets)]
    found = fitting(text, 0, len(text.words) - 1, as_pool(pool, None), book) if pool else []
    return (found[0].exercise,) if len(found) == 1 else ()


def after_follower(before: Before, question: Question, item: str | None) -> Before:
    """The thread after a message of the follower."""
    asked = tuple(dict.fromkeys(one.id for one in question.exercises)) or before.exercises
    options = next((one.options for one in question.exercises if one.doubt and one.options), ())
    wants = question.wants if question.wants[0] not in ("other", "feedback") else before.wants
    return Before(asked, (), options, (), False, question.has, question.lacks, question.limits, wants, item or before.item,
                  before.turns + 1, _known(asked, before))  # fmt: skip


def _known(new: Sequence[str], before: Before) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*new, *before.known)))


def _spans(text: Text) -> list[tuple[int, int]]:
    return [(hit.first, hit.last) for hit in text.names if not hit.weak]


def _in_question(at: int, text: Text) -> bool:
    last = max(n for n, w in enumerate(text.words) if w.sentence == text.words[at].sentence)
    return "?" in text.raw[text.words[last].end : text.words[last].end + 2]


def picked(text: Text, before: Before, plan: Plan | None, book: Rulebook) -> list[Asked]:
    """The one of several meanings a short answer picks: "the backpack one", "straight arms", "the first"."""
    if not (before.options and before.asks) or not text.words or len(text.words) > _SHORT:
        return []
    pool = as_pool(before.options, plan)
    found = counted(text, pool, book) or fitting(text, 0, len(text.words) - 1, pool, book)
    if len(found) != 1:
        return []
    because = (Reason("thread", "", text.raw, "", book.orders["words"].texts["answers_which"]),)
    return [Asked(found[0].exercise, text.raw, 0, len(text.raw), "thread", found[0].item or None, because=because)]


def referred(before: Before, plan: Plan | None, book: Rulebook | None = None) -> list[Asked]:
    """What "that one" or a message without a name is about; with a `book`, the plain exercise that it is a kind of."""
    asked_about = before.exercises if before.asks or not before.offered else ()
    about = asked_about or before.offered[:_MOST_OFFERED]
    if book and len(about) == 1 and (plain := plain_of(about[0], book)):
        about = (plain,)
    return _of_thread(about, plan)


def taken_up(text: Text, before: Before, plan: Plan | None) -> list[Asked]:
    """ "The one you gave me": what the coach offered last."""
    return _of_thread(before.offered[:_MOST_OFFERED], plan) if text.find("offered") and not before.asks else []


def _of_thread(ids: Sequence[str], plan: Plan | None) -> list[Asked]:
    slots = {it.exercise: it.item for it in plan.items} if plan else {}
    because = (Reason("thread", "", "", "", "what the thread was about"),)
    return [Asked(ex, "", 0, 0, "thread", slots.get(ex), because=because) for ex in ids]


def yes_or_no(text: Text, before: Before) -> tuple[list[Kit], list[Kit]]:
    """Kit that a "yes" or "no" to the coach's question says is there or missing."""
    if not (before.asks and before.things):
        return [], []
    yes = [h for h in text.find("answer/yes") if h.first <= 1]
    no = [h for h in text.find("answer/no") if h.first <= 1]
    hit = min((*yes, *no), key=lambda h: h.first, default=None)
    if hit is None:
        return [], []
    kits = [Kit(thing, hit.words, hit.start, hit.end) for thing in before.things]
    return (kits, []) if hit.cls == "answer/yes" else ([], kits)


def still_there(before: Sequence[Kit], has: Sequence[Kit], lacks: Sequence[Kit]) -> list[Kit]:
    """Kit said earlier that nothing said now takes back; its words are not in this message, so it has no span."""
    now = {k.id for k in (*has, *lacks)}
    return [replace(k, start=0, end=0) for k in before if k.id not in now]


def still_limits(
    before: Before, limits: Sequence[Limit], denied: Sequence[str], has: Sequence[Kit], book: Rulebook
) -> list[Limit]:
    """Limits said earlier that hold until they are denied or the missing thing has turned up."""
    now, there = {limit.id for limit in limits}, {k.id for k in has}
    result = []
    for limit in before.limits:
        without = set(book.limits[limit.id].without) if limit.id in book.limits else {limit.what}
        # quiet with what the coach offered is not quiet without it: the limit holds while that exercise is the one at hand
        eased = bool(before.offered) and limit.kind == "pain"
        taken_back = limit.id in denied and not eased
        if limit.id in now or taken_back or (limit.kind == "equipment" and without & there):
            continue
        result.append(replace(limit, start=0, end=0))
    return result

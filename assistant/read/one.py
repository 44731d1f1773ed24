"""One message read against what the thread held before it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.read import thread
from assistant.read.facts import facts_of
from assistant.read.kit import Found, kit
from assistant.read.limits import limits as read_limits
from assistant.read.missing import with_missing
from assistant.read.names import Around
from assistant.read.pointers import asked_of, pointers
from assistant.read.quantities import reached
from assistant.read.thread import Before
from assistant.read.unsure import not_understood, question_back, vague_pain
from assistant.read.wants import Scene
from assistant.read.wants import wants as read_wants
from assistant.rulebook import Rulebook
from assistant.values import Asked, Kit, Plan, PlanItem, Profile, Question, Reason
from assistant.words import Text


def one(text: Text, plan: Plan | None, item: str | None, profile: Profile, before: Before, book: Rulebook) -> Question:
    """The Question of one prepared message."""
    around = Around(plan, item, before.known, () if before.asks else before.offered)
    found = pointers(text, around, before, book)
    ids = [ex for hit in found.hits for ex in hit.ids] + [
        s.exercise for p in (*found.pointed, *found.looks) for s in p.slots
    ]
    about = ids or _fallback_ids(plan, item, before)
    said = _with_answer(kit(text, book, about, found.spans, profile, found.told), text, before)
    around = replace(around, lacks=said.lacks)
    asked = thread.taken_up(text, before, plan) if not found.hits else []
    asked = asked or asked_of(text, found, around, book) or thread.picked(text, before, plan, book)
    about = [one_.id for one_ in asked] or about
    facts = facts_of(about, (k.id for k in said.has), (k.id for k in said.lacks), book)
    stated, denied = read_limits(text, book, facts)
    limits, said = with_missing(stated, said, about, profile, book)
    answering = before.wants if before.asks else ()
    scene = Scene(limits, said.lacks, len({a.id for a in asked}), said.asked_about or bool(said.has), answering)
    wants, because = read_wants(text, book, facts, scene)
    wants = (
        ("swap",) if vague_pain(text) and set(wants) <= {"feedback", "other"} and _of_training(text, about) else wants
    )
    asked = _with_pressed(asked, text, plan, item)
    chat = bool(text.find("thanks")) and "?" not in text.raw
    asked, wants = _about(
        asked, wants, found, limits, said, plan, item, before, chat, bool(text.find("plain-one")), book
    )
    said = _with_earlier(said, before)
    now = list(limits)
    limits += thread.still_limits(before, limits, [d.id for d in denied], said.has, book)
    denied = [d for d in denied if d.id not in {limit.id for limit in limits}]
    rule, choices = question_back(text, asked, now, wants, plan, book)
    return Question(
        wants, tuple(asked), tuple(limits), said.has, said.lacks, tuple(denied), not_understood(text),
        reached(text, asked), rule, choices, (*because, *said.because),
    )  # fmt: skip


def _of_training(text: Text, about: list[str]) -> bool:
    """Whether something that hurts may hurt in training: an exercise is at hand, "it" hurts, or something is asked."""
    return bool(about or text.find("pronoun") or text.find("ask") or "?" in text.raw) and not text.find("thanks")


def _fallback_ids(plan: Plan | None, item: str | None, before: Before) -> list[str]:
    slot = plan.slot(item) if plan else None
    return [slot.exercise] if slot else list(before.exercises)


def _with_answer(said: Found, text: Text, before: Before) -> Found:
    """The kit of this message with a yes or no to the coach's question about kit."""
    yes, no = thread.yes_or_no(text, before)
    own = {k.id for k in (*said.has, *said.lacks)}
    has = (*said.has, *(k for k in yes if k.id not in own))
    lacks = (*said.lacks, *(k for k in no if k.id not in own))
    return replace(said, has=has, lacks=lacks)


def _with_earlier(said: Found, before: Before) -> Found:
    """The kit with what was said of it earlier in the thread."""
    has = (*said.has, *thread.still_there(before.has, said.has, said.lacks))
    lacks = (*said.lacks, *thread.still_there(before.lacks, said.has, said.lacks))
    return replace(said, has=has, lacks=lacks)


def _about(
    asked, wants, found, limits, said, plan, item, before, chat, plain, book
) -> tuple[list[Asked], tuple[str, ...]]:
    """The exercises where none was named: the whole session, the slot pointed at, the thread, what the missing kit is for."""
    whole = [p for p in found.pointed if p.kind == "whole"]
    if wants == ("other",) and chat and not limits and not said.lacks:
        return [], wants  # "ignore my last one, wrong page": no exercise is meant
    if asked:
        unmet = _needing(said.lacks, plan, book) if wants[0] in ("swap", "easier") else []
        missing = {k.id for k in said.lacks}
        needed = {
            thing for one_ in asked for need in book.exercises[one_.id].need_sets if need <= missing for thing in need
        }
        asked = [*asked, *(one_ for one_ in unmet if not needed & _things_of(one_.id, book))]
        return asked, tuple(w for w in wants if w != "whole-session") or wants
    if plan and ("whole-session" in wants or (whole and wants[0] not in ("feedback", "other"))):
        if wants[0] == "kit":
            wants = tuple(w for w in wants if w != "whole-session")
        elif "whole-session" not in wants and wants[0] in ("swap", "easier", "harder"):
            wants = ("whole-session", *wants[1:])
        words = whole[0].because if whole else ()
        return [Asked(s.exercise, "", 0, 0, "place", s.item, because=words) for s in _loaded(plan, book)], wants
    if wants == ("other",):
        return [], wants
    slot = plan.slot(item) if plan else None
    same = item is None or item == before.item or (slot and slot.exercise in before.known)
    in_thread = before.turns and (before.offered or before.exercises) and same
    if slot and not in_thread:
        because = (Reason("item", "", "", "", book.orders["words"].texts["pointed_slot"]),)
        return [Asked(slot.exercise, "", 0, 0, "place", slot.item, because=because)], wants
    if before.turns and (before.offered or before.exercises):
        return thread.referred(before, plan, book if plain else None), wants
    return _needing(said.lacks, plan, book) if wants[0] in ("swap", "easier") else [], wants


def _with_pressed(asked: list[Asked], text: Text, plan: Plan | None, item: str | None) -> list[Asked]:
    """ "Why is this harder than a push-up", with a slot pressed: "this" is the slot."""
    slot = plan.slot(item) if plan else None
    if slot is None or not asked or not text.find("ask/why") or any(a.id == slot.exercise for a in asked):
        return asked
    return [Asked(slot.exercise, "", 0, 0, "place", slot.item), *asked] if text.find("this-slot") else asked


def _loaded(plan: Plan, book: Rulebook) -> list[PlanItem]:
    """The slots that train: warm-up and stretches are left as they are."""
    cards = ((it, book.exercises.get(it.exercise)) for it in plan.items)
    return [
        it for it, card in cards if card and getattr(book.families.get(card.family), "weight", "loaded") == "loaded"
    ]


def _things_of(exercise: str, book: Rulebook) -> set[str]:
    return {thing for need in book.exercises[exercise].need_sets for thing in need}


def _needing(lacks: Iterable[Kit], plan: Plan | None, book: Rulebook) -> list[Asked]:
    """ "no bar today" is about the slots that need one."""
    missing = {k.id: k for k in lacks}
    result = []
    for it in plan.items if plan else ():
        unmet = [need for need in book.exercises[it.exercise].need_sets if need <= missing.keys()]
        if unmet:
            kit_ = min((missing[thing] for thing in unmet[0]), key=lambda k: k.start)
            card = book.equipment[kit_.id]
            because = (Reason(card.id, card.at, kit_.words, "", book.orders["words"].texts["needs_missing"]),)
            result.append(Asked(it.exercise, kit_.words, kit_.start, kit_.end, "place", it.item, because=because))
    return result

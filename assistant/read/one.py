"""One message read against what the thread held before it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from assistant.read import thread
from assistant.read.facts import facts_of
from assistant.read.kit import Found, kit
from assistant.read.limits import limits as read_limits
from assistant.read.looks import Described, as_pool, described, told
from assistant.read.missing import with_missing
from assistant.read.names import Around, asked_by_name, names, said_fine
from assistant.read.places import Pointed, places
from assistant.read.quantities import reached
from assistant.read.thread import Before
from assistant.read.unsure import not_understood, question_back, vague_pain
from assistant.read.wants import Scene
from assistant.read.wants import wants as read_wants
from assistant.rulebook import Rulebook
from assistant.values import Asked, Kit, Plan, PlanItem, Profile, Question, Reason
from assistant.words import Text
from assistant.words.names import NameHit


@dataclass(frozen=True)
class _Pointers:
    """Everything in the words that points at exercises."""

    pointed: list[Pointed]
    looks: list[Described]
    hits: list[NameHit]

    @property
    def spans(self) -> list[tuple[int, int]]:
        """Word spans in which a thing is part of a name or a description."""
        described = [(d.first, d.until) for d in self.looks if d.until >= d.first]
        return [*described, *((h.first, h.last) for h in self.hits)]

    @property
    def told(self) -> list[int]:
        """Places of all words of the descriptions."""
        return [n for d in self.looks for n in range(d.first, d.last + 1)]


def one(text: Text, plan: Plan | None, item: str | None, profile: Profile, before: Before, book: Rulebook) -> Question:
    """The Question of one prepared message."""
    around = Around(plan, item, before.known, () if before.asks else before.offered)
    found = _pointers(text, around, before, book)
    ids = [ex for hit in found.hits for ex in hit.ids] + [
        s.exercise for p in (*found.pointed, *found.looks) for s in p.slots
    ]
    about = ids or _fallback_ids(plan, item, before)
    said = _with_answer(kit(text, book, about, found.spans, profile, found.told), text, before)
    around = replace(around, lacks=said.lacks)
    asked = thread.taken_up(text, before, plan) if not found.hits else []
    asked = asked or _asked(text, found, around, book) or thread.picked(text, before, plan, book)
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
    asked, wants = _about(asked, wants, found, limits, said, plan, item, before, book)
    said = _with_earlier(said, before)
    now = list(limits)
    limits += thread.still_limits(before, limits, [d.id for d in denied], said.has, book)
    denied = [d for d in denied if d.id not in {limit.id for limit in limits}]
    rule, choices = question_back(text, asked, now, wants, plan, book)
    return Question(
        wants, tuple(asked), tuple(limits), said.has, said.lacks, tuple(denied), not_understood(text),
        reached(text, asked), rule, choices, (*because, *said.because),
    )  # fmt: skip


def _asks(text: Text) -> bool:
    """Whether anything is asked or in the way; what only tells a story describes no exercise of the whole book."""
    return bool("?" in text.raw or any(text.find(family) for family in ("ask", "sensation", "difficulty")))


def _of_training(text: Text, about: list[str]) -> bool:
    """Whether something that hurts may hurt in training: an exercise is at hand, "it" hurts, or something is asked."""
    return bool(about or text.find("pronoun") or text.find("ask") or "?" in text.raw) and not text.find("thanks")


def _pointers(text: Text, around: Around, before: Before, book: Rulebook) -> _Pointers:
    pointed = places(text, around.plan, book)
    locating = [n for p in pointed for n in p.locating]
    pool = as_pool((*around.planned, *before.known), around.plan) if not around.plan else [
        *around.plan.items, *as_pool((ex for ex in before.known if ex not in around.planned), None)]  # fmt: skip
    looks = described(text, pool, book, pointed)
    looks = [d for d in looks if not any(d.first <= h.last and h.first <= d.last and not h.weak for h in text.names)]
    hits = names(text, around, locating, elsewhere=any(p.slots for p in pointed))
    hits = [h for h in hits if not (h.weak or h.ambiguous) or not any(d.first <= h.first <= d.last for d in looks)]
    if not hits and not looks and not any(p.slots or p.kind == "whole" for p in pointed) and not before.turns:
        looks = told(text, around.plan.items if around.plan else (), book) if around.plan or _asks(text) else []
        looks = looks if around.item is None or not around.plan else [d for d in looks if d.sure]
    elif not hits and looks and text.find("ask/why"):
        compared = told(text, around.plan.items if around.plan else (), book, looks[0].first)
        looks = [*(d for d in compared if d.slots[0] not in looks[0].slots), *looks]
    return _Pointers(pointed, looks, hits)


def _asked(text: Text, found: _Pointers, around: Around, book: Rulebook) -> list[Asked]:
    """Every exercise pointed at, by name, place or description, in order of mention, each once."""
    pointed = [p for p in found.pointed if p.kind != "part" or len(p.slots) == 1]
    pointed = [p for p in pointed if not said_fine(p.first, p.last, text)] or pointed
    placed = [(p.first, a) for p in pointed for a in _by_place(p.slots, p, text, False)]
    placed += [(d.first, a) for d in found.looks for a in _by_place(d.slots, d, text, len(d.slots) > 1, d.rivals)]
    named = [(h.first, a) for h in found.hits for a in asked_by_name(h, text, around, book)]
    placed = [one_ for one_ in placed if not _same_spot(one_, named, found, text)]
    result: dict[str, Asked] = {}
    for _, one_ in sorted((*placed, *named), key=lambda pair: pair[0]):
        result.setdefault(one_.id, one_)
    if not result:
        result = {a.id: a for p in found.pointed if p.kind == "part" for a in _by_place(p.slots, p, text, False)}
    return list(result.values())


def _same_spot(placed: tuple[int, Asked], named: list[tuple[int, Asked]], found: _Pointers, text: Text) -> bool:
    """Whether a description only repeats in other words an exercise that the message names outright."""
    at = placed[0]
    return any(d.first == at for d in found.looks) and bool(named)


def _by_place(
    slots: Iterable[PlanItem], place: Pointed | Described, text: Text, doubt: bool, rivals: Sequence[PlanItem] = ()
) -> list[Asked]:
    """The slots of a place or a description; `rivals` may be meant as well."""
    words, start, end = text.quote(place.first, place.last), text.words[place.first].start, text.words[place.last].end
    doubt = doubt or bool(rivals)
    options = tuple(s.exercise for s in (*slots, *rivals)) if doubt else ()
    return [Asked(s.exercise, words, start, end, "place", s.item or None, doubt, options, place.because) for s in slots]


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


def _about(asked, wants, found, limits, said, plan, item, before, book) -> tuple[list[Asked], tuple[str, ...]]:
    """The exercises where none was named: the whole session, the slot pointed at, the thread, what the missing kit is for."""
    whole = [p for p in found.pointed if p.kind == "whole"]
    if asked:
        unmet = _needing(said.lacks, plan, book) if wants[0] in ("swap", "easier") else []
        needed = {thing for one_ in asked for need in book.exercises[one_.id].need_sets for thing in need}
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
    in_thread = before.turns and (before.offered or before.exercises) and (item is None or item == before.item)
    slot = plan.slot(item) if plan else None
    if slot and not in_thread:
        because = (Reason("item", "", "", "", book.orders["words"].texts["pointed_slot"]),)
        return [Asked(slot.exercise, "", 0, 0, "place", slot.item, because=because)], wants
    if before.turns and (before.offered or before.exercises):
        return thread.referred(before, plan), wants
    return _needing(said.lacks, plan, book) if wants[0] in ("swap", "easier") else [], wants


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

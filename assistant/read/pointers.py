"""Everything in a message that points at exercises - names, places, descriptions - and which of it is meant.

A name beats a description of the same exercise; a description stands beside a name where two things are compared, or
where it is told in a sentence of its own and fits well.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from assistant.read.compared import compared, compares
from assistant.read.looks import Described, as_pool, described, told
from assistant.read.names import Around, asked_by_name, likened, names, said_fine
from assistant.read.narrowed import narrowed
from assistant.read.places import Pointed, places
from assistant.read.planned import plain_of
from assistant.read.slots import partners
from assistant.read.thread import Before
from assistant.rulebook import Rulebook
from assistant.values import Asked, Plan, PlanItem
from assistant.words import Text
from assistant.words.names import NameHit

_COMPARED, _BESIDE = 2.5, 4.0  # likeness of a description that stands beside a name: in a comparison, elsewhere
_BETWEEN = 4  # words of a correction between two places: "A2, no wait, B1"


@dataclass(frozen=True)
class Pointers:
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


def pointers(text: Text, around: Around, before: Before, book: Rulebook) -> Pointers:
    """What `text` names, places and describes."""
    plan = around.plan
    pointed, looks = narrowed(text, _kept(places(text, plan, book), text), book)
    pool = [*plan.items, *as_pool((ex for ex in before.known if ex not in around.planned), None)] if plan else \
        as_pool(before.known, None)  # fmt: skip
    looks += described(text, pool, book, [*pointed, *looks])
    looks, named = _apart(sorted(looks, key=lambda d: d.first), text, around)
    locating = {n for p in pointed for n in p.locating} | named
    pointed = [_with_partner(p, [*looks, *(o for o in pointed if o.kind != "partner")], plan) for p in pointed]
    hits = names(text, around, locating, elsewhere=bool(looks) or any(p.slots for p in pointed))
    hits = [h for h in hits if not (h.weak or h.ambiguous) or not any(d.first <= h.first <= d.last for d in looks)]
    nothing = not hits and not looks and not any(p.slots or p.kind == "whole" for p in pointed)
    if nothing and compares(text):
        looks = compared(text, hits, looks, plan, book)
    if nothing and not looks and not before.turns and not text.find("report-only"):
        looks = told(text, plan.items if plan else (), book) if plan or _asks(text) else []
        looks = looks if around.item is None or not plan else [d for d in looks if d.sure]
    if compares(text) and len({h.ids for h in hits}) + len(looks) + sum(bool(p.slots) for p in pointed) < 2:
        looks = sorted([*looks, *compared(text, hits, looks, plan, book)], key=lambda d: d.first)
    return Pointers(pointed, looks, hits)


def _asks(text: Text) -> bool:
    """Whether anything is asked or in the way; what only tells a story describes no exercise of the whole book."""
    return bool("?" in text.raw or any(text.find(family) for family in ("ask", "sensation", "difficulty")))


def _kept(pointed: list[Pointed], text: Text) -> list[Pointed]:
    """Without places withdrawn by a correction: "A2, no, B1"."""
    cues = {n for cue in text.find("correct") for n in range(cue.first, cue.last + 1)}
    gone = [one for one, after in zip(pointed, pointed[1:], strict=False)
            if 0 < after.first - one.last - 1 <= _BETWEEN and cues.issuperset(range(one.last + 1, after.first))]  # fmt: skip
    return [p for p in pointed if p not in gone]


def _apart(looks: list[Described], text: Text, around: Around) -> tuple[list[Described], set[int]]:
    """The descriptions that stand beside the names of the message, and the words of names that are part of one:
    "the one where you lean over the hands and do push-ups from there"."""
    likened_ = likened(text)
    kept: list[Described] = []
    inside: set[int] = set()
    for d in looks:
        named = [h for h in text.names if not h.weak and h.first not in likened_]
        over = [h for h in named if d.first <= h.last and h.first <= d.last]
        if not over:
            kept.append(d)
        elif len(d.slots) == 1 and all(h.first > d.first + 2 and h.ids[0] not in around.planned for h in over):
            kept.append(d)
            inside |= {h.first for h in over}
    return kept, inside


def _with_partner(place: Pointed, others: Sequence[Described | Pointed], plan: Plan | None) -> Pointed:
    """ "The diagonal one is fine, its partner is not": the other slot of the pair of what was pointed at before."""
    if place.kind != "partner" or place.slots or plan is None:
        return place
    before = [one for one in others if one.last < place.first and len(one.slots) == 1]
    nearest = max(before, key=lambda one: one.last, default=None)
    return replace(place, slots=tuple(partners(plan, nearest.slots[0]))) if nearest else place


def asked_of(text: Text, found: Pointers, around: Around, book: Rulebook) -> list[Asked]:
    """Every exercise pointed at, by name, place or description, in order of mention, each once."""
    pointed = [p for p in found.pointed if p.kind != "part" or len(p.slots) == 1]
    pointed = [p for p in pointed if not said_fine(p.first, p.last, text)] or pointed
    placed = [(p.first, a) for p in pointed for a in _by_place(p.slots, p, text, False)]
    named = [(h.first, a) for h in found.hits for a in asked_by_name(h, text, around, book)]
    looks = [d for d in found.looks if not found.hits or _stands_beside(d, found, named, text)]
    if named or any(p.slots for p in pointed) or any(len(d.slots) == 1 for d in looks):
        looks = [d for d in looks if len(d.slots) == 1]  # a vague description adds nothing to what is known
    if len(looks) + len(named) + len(pointed) > 1:
        looks = [d for d in looks if not said_fine(d.first, d.last, text)]
    placed += [(d.first, a) for d in looks for a in _by_place(d.slots, d, text, len(d.slots) > 1, d.rivals)]
    result: dict[str, Asked] = {}
    for _, one_ in sorted((*placed, *named), key=lambda pair: pair[0]):
        result.setdefault(one_.id, one_)
    for plain in _plain_ones(result.values(), text, around, book):
        result.setdefault(plain.id, plain)
    if not result:
        result = {a.id: a for p in found.pointed if p.kind == "part" for a in _by_place(p.slots, p, text, False)}
    return list(result.values())


def _plain_ones(asked: Iterable[Asked], text: Text, around: Around, book: Rulebook) -> list[Asked]:
    """ "Push-ups on the knuckles and the normal ones": what the one named is a kind of."""
    hits = text.find("plain-one")
    asked = list(asked)
    if not hits or len(asked) != 1 or not (plain := plain_of(asked[0].id, book)):
        return []
    return [Asked(plain, hits[0].words, hits[0].start, hits[0].end, "name")]


def _stands_beside(d: Described, found: Pointers, named: list[tuple[int, Asked]], text: Text) -> bool:
    """Whether a description tells of another exercise than the names of the message."""
    if len(d.slots) != 1 or d.rivals or any(a.id == d.slots[0].exercise for _, a in named):
        return False
    set_apart = compares(text) or text.find("other-one")
    apart = {text.words[h.first].sentence for h in found.hits}.isdisjoint({text.words[d.first].sentence})
    return d.like >= (_COMPARED if set_apart else _BESIDE) and bool(set_apart or apart and d.led)


def _by_place(
    slots: Iterable[PlanItem], place: Pointed | Described, text: Text, doubt: bool, rivals: Sequence[PlanItem] = ()
) -> list[Asked]:
    """The slots of a place or a description; `rivals` may be meant as well."""
    words, start, end = text.quote(place.first, place.last), text.words[place.first].start, text.words[place.last].end
    doubt = doubt or bool(rivals)
    options = tuple(s.exercise for s in (*slots, *rivals)) if doubt else ()
    return [Asked(s.exercise, words, start, end, "place", s.item or None, doubt, options, place.because) for s in slots]

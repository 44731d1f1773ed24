"""What a follower has, and whether an exercise's needs are met by it: HOUSE rules of kit, stand-ins and conditions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from weakref import WeakKeyDictionary

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Standin
from assistant.values import Message, Question, Reason

EVERYTHING = "all-equipment"


@dataclass(frozen=True)
class Met:
    """How one exercise's needs are met: with what, from where, under which condition."""

    things: tuple[str, ...] = ()
    standin: Standin | None = None
    said: bool = False
    household: bool = False
    condition: str | None = None
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Kit:
    """What is there: said or remembered, planned for today, taken for granted in a household; and what is missing."""

    said: frozenset[str]
    planned: frozenset[str]
    household: frozenset[str]
    missing: frozenset[str]
    bare: bool = False  # nothing at all is there
    _found: dict[tuple[str, ...], Met | None] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def there(self) -> frozenset[str]:
        """Everything that may be used."""
        return (self.said | self.planned | self.household) - self.missing


def kit_of(question: Question, message: Message, asked: str, book: Rulebook) -> Kit:
    """The kit of this follower for the exercise `asked`, strongest word first: message, profile, plan, household."""
    said_now, taken = {k.id for k in question.has}, _taken(question, message, book)
    bare = EVERYTHING in taken
    missing = (taken | {k.id for k in question.lacks}) - said_now
    remembered = set(message.profile.has)
    seat = remembered & {"wheelchair"}  # the seat someone already sits on is never taken away
    said = said_now | (seat if bare else remembered - missing)
    planned: set[str] = set()
    if not bare:
        for needed in _planned_needs(message, asked, book):
            if missing.isdisjoint(needed) and said.isdisjoint(needed):
                planned.add(needed[0])
    household = frozenset() if bare else _index(book).household - missing
    return Kit(frozenset(said), frozenset(planned), household, frozenset(missing), bare)


def _taken(question: Question, message: Message, book: Rulebook) -> set[str]:
    """What the limits take away, those said now and those remembered and not denied now."""
    denied = {d.id for d in question.denied}
    ids = [limit.id for limit in question.limits] + [name for name in message.profile.limits if name not in denied]
    return {thing for name in ids if name in book.limits for thing in book.limits[name].without}


def _planned_needs(message: Message, asked: str, book: Rulebook) -> Iterator[tuple[str, ...]]:
    """The needs of the asked exercise and of the day's plan, each as alternatives in the card's order."""
    needs = _index(book).needs
    ids = [asked] + ([item.exercise for item in message.plan.items] if message.plan else [])
    return (needed for id_ in dict.fromkeys(ids) for needed in needs.get(id_, ()))


def meets(card: Exercise, kit: Kit, book: Rulebook) -> Met | None:
    """How `kit` meets the needs of `card`, or None; the safest way is taken: said, planned, household, stand-in."""
    parts, index, id_ = [], _index(book), card.id
    for options in index.needs[id_]:
        part = _met_line(options, id_, kit, index)
        if part is None:
            return None
        parts.append(part)
    if len(parts) < 2:
        return parts[0] if parts else Met()
    return Met(
        tuple(t for p in parts for t in p.things),
        next((p.standin for p in parts if p.standin), None),
        any(p.said for p in parts),
        any(p.household for p in parts),
        " ".join(dict.fromkeys(p.condition for p in parts if p.condition)) or None,
        tuple(r for p in parts for r in p.because),
    )


def unmet(card: Exercise, kit: Kit, book: Rulebook) -> list[tuple[str, ...]]:
    """The needs of `card` that are not met, each as its alternatives."""
    index, id_ = _index(book), card.id
    return [options for options in index.needs[id_] if _met_line(options, id_, kit, index) is None]


def _met_line(options: tuple[str, ...], exercise: str, kit: Kit, index: _Index) -> Met | None:
    if options not in kit._found:
        kit._found[options] = _met_by_kit(options, kit, index)
    return kit._found[options] or _met_by_standin(options, exercise, kit, index)


def _met_by_kit(options: tuple[str, ...], kit: Kit, index: _Index) -> Met | None:
    things = index.things[options]
    if kit.there.isdisjoint(things):
        return None
    for pool, said, household in ((kit.said, True, False), (kit.planned, False, False), (kit.household, False, True)):
        for thing in things:
            if thing in pool and thing not in kit.missing:
                because = index.reasons.get(thing)
                condition = because.says if household and because else None
                return Met((thing,), None, said, household, condition, (because,) if because else ())
    return None


def _met_by_standin(options: tuple[str, ...], exercise: str, kit: Kit, index: _Index) -> Met | None:
    usual = index.standins.get(exercise, ())
    for standin in sorted(usual, key=lambda one: kit.said.isdisjoint(one.things)):  # what he spoke of first
        if not set(standin.for_kit).isdisjoint(options) and kit.there.issuperset(standin.things):
            said = not kit.said.isdisjoint(standin.things)
            reason = standin.reason(" + ".join(standin.things), standin.condition)
            return Met(tuple(standin.things), standin, said, not said, standin.condition, (reason,))
    return None


@dataclass(frozen=True)
class _Index:
    """The needs of every exercise, what would do for a need, the stand-ins of an exercise, the reason a thing gives."""

    needs: Mapping[str, tuple[tuple[str, ...], ...]]
    things: Mapping[tuple[str, ...], tuple[str, ...]]  # each thing named, and after it what serves as it
    standins: Mapping[str, tuple[Standin, ...]]
    reasons: Mapping[str, Reason]
    household: frozenset[str]


_INDEXES: WeakKeyDictionary[Rulebook, _Index] = WeakKeyDictionary()


def _index(book: Rulebook) -> _Index:
    found = _INDEXES.get(book)
    if found is None:
        found = _INDEXES[book] = _indexed(book)
    return found


def _indexed(book: Rulebook) -> _Index:
    needs = {card.id: tuple(tuple(line.split(" or ")) for line in card.needs) for card in book.exercises.values()}
    serving: dict[str, list[str]] = {}
    for card in book.equipment.values():
        for kind in card.serves_as:
            serving.setdefault(kind, []).append(card.id)
    lines = {options for lines in needs.values() for options in lines}
    things = {line: tuple(t for option in line for t in (option, *serving.get(option, ()))) for line in lines}
    standins: dict[str, tuple[Standin, ...]] = {}
    for standin in book.standins.values():
        for exercise in standin.only_for:
            standins[exercise] = (*standins.get(exercise, ()), standin)
    reasons = {card.id: card.reason(card.id, card.condition) for card in book.equipment.values()}
    household = frozenset(card.id for card in book.equipment.values() if card.household)
    return _Index(needs, things, standins, reasons, household)

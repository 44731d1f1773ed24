"""What may be done in turn: the `apart` cards against two exercises, and what a swap does to a pair of the plan."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.dose.case import Case, used
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Apart, Exercise
from assistant.rulebook.cards.shape import Restriction
from assistant.values import Dose, Message, Reason


def kept_apart(one: Exercise, other: Exercise, book: Rulebook) -> Reason | None:
    """Why `one` and `other` are not done in turn: the first `apart` card that holds, or None where they may be.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> kept_apart(book.exercises["pull-up"], book.exercises["hanging-knee-raise"], book).rule
    'grip-twice'
    """
    cards: Mapping[str, Apart] = book.cards["apart"]
    return next((card.reason() for card in cards.values() if _holds(card, one, other, book)), None)


def not_in_turn(dose: Dose, case: Case, message: Message) -> Dose:
    """`dose` with a sentence where the swap would put two things in turn that are kept apart and were not before."""
    if case.same:
        return dose
    for partner in _partners(case, message):
        reason = kept_apart(case.option, partner, case.book)
        if reason and not kept_apart(case.asked, partner, case.book):
            name = partner.name.split(" (")[0].lower()
            return used(dose, case.book, "pair-apart", {"partner": name, "why": reason.says})
    return dose


def _partners(case: Case, message: Message) -> list[Exercise]:
    """The exercises that share the letter of the slot: A2 and A3 for A1; none for warm-up and cool-down."""
    plan = message.plan
    slot = plan.slot(case.swap.item) if plan and case.swap.item else None
    if slot is None or slot.item[:1].upper() in ("W", "Z") or not slot.item[1:]:
        return []
    alike = (it for it in plan.items if it.item[:1] == slot.item[:1] and it.item != slot.item)
    return [case.book.exercises[it.exercise] for it in alike if it.exercise in case.book.exercises]


def _holds(card: Apart, one: Exercise, other: Exercise, book: Rulebook) -> bool:
    if card.same_pattern:
        light = any(book.families[each.family].weight == "light" for each in (one, other))
        return one.trains[0] == other.trains[0] and not light
    if card.both and _meets(one, card.both) and _meets(other, card.both):
        return True
    if any(_meets(each, row) for each in (one, other) for row in card.alone):
        return True
    pairs = ((one, other), (other, one)) if card.one else ()
    return any(_meets(a, card.one) and any(_meets(b, row) for row in card.other) for a, b in pairs)


def _meets(card: Exercise, row: Restriction) -> bool:
    return all(bound.holds(card.asks.get(quantity, 0.0)) for quantity, bound in row.items())

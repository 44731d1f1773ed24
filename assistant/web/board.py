"""The inbox as a page sees it: which knot is open, what comes next, which slots are a pair."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from assistant.inbox import Knot, Row, Session, Slot


@dataclass(frozen=True)
class Place:
    """Where a message hangs: on a knot of a slot, or (both None) among those who should stop first."""

    slot: Slot | None
    knot: Knot | None
    rows: tuple[Row, ...]


def waiting(session: Session) -> Iterator[Row]:
    """Every waiting message of the session once, from the top of the page to its bottom."""
    seen: set[str] = set()
    slots = (*session.slots, session.loose)
    for row in (*session.stop_first, *(row for slot in slots for knot in slot.knots for row in knot.rows)):
        if row.id not in seen:
            seen.add(row.id)
            yield row


def place(session: Session, message: str) -> Place | None:
    """Where `message` hangs on the page, or None when it waits no longer."""
    if any(row.id == message for row in session.stop_first):
        return Place(None, None, session.stop_first)
    for slot in (*session.slots, session.loose):
        for knot in slot.knots:
            if any(row.id == message for row in knot.rows):
                return Place(slot, knot, knot.rows)
    return None


def following(order: list[str], message: str, gone: set[str]) -> str | None:
    """The id after `message` in `order` that is not in `gone`, going round once.

    >>> following(["a", "b", "c"], "b", {"b", "c"})
    'a'
    """
    at = order.index(message) if message in order else 0
    return next((one for one in (*order[at:], *order[:at]) if one not in gone and one != message), None)


def pairs(items: list[str]) -> set[str]:
    """The items joined with the one before: A2 goes with A1. Warm-up and cool-down items stand alone.

    >>> sorted(pairs(["W1", "W2", "A1", "A2", "B1", "Z1"]))
    ['A2']
    """
    joined = zip(items, items[1:], strict=False)
    return {second for first, second in joined if first[:1] == second[:1] and first[:1] not in ("W", "Z")}

"""What the frames of cards may ask besides words: `asked`, `has`, `lacks`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Bound
from assistant.words.frames import Facts


def facts_of(asked: Iterable[str], has: Iterable[str], lacks: Iterable[str], book: Rulebook) -> Facts:
    """A function that answers a frame's `asked: {quantity: bound}`, `has: id`, `lacks: id`."""
    cards = [book.exercises[ex] for ex in asked if ex in book.exercises]
    there, missing = set(has), set(lacks)

    def holds(slot: str, value: Any) -> bool:
        if slot == "asked":
            return any(all(_bound(b).holds(card.asks.get(q, 0.0)) for q, b in value.items()) for card in cards)
        wanted = {value} if isinstance(value, str) else set(value)
        return bool(wanted & (there if slot == "has" else missing))

    return holds


def _bound(text: Any) -> Bound:
    how, _, value = str(text).partition(" ")
    return Bound(how=how, value=float(value))  # type: ignore[arg-type]

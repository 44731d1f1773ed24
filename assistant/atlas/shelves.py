"""Families in the order of the book with their exercises, all of them or those that are looked for by name."""

from __future__ import annotations

import re
from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Family
from assistant.words import prepare


@dataclass(frozen=True)
class Shelf:
    """A family with the exercises shown; `of` is how many it has, `steps` how many easier steps within it."""

    family: Family
    exercises: tuple[Exercise, ...]
    of: int
    steps: int


def shelves(book: Rulebook, looked_for: str = "") -> tuple[Shelf, ...]:
    """Every family with all its exercises; with `looked_for` only what is called like that, families without left out.

    >>> from assistant.rulebook import load
    >>> [card.id for shelf in shelves(load(), "chinnups") for card in shelf.exercises]
    ['chin-up']
    """
    found = called(looked_for, book) if looked_for.strip() else frozenset(book.exercises)
    return tuple(
        shelf for shelf in (_shelf(family, found, book) for family in book.families.values()) if shelf.exercises
    )


def called(text: str, book: Rulebook) -> frozenset[str]:
    """The exercises with every typed word in a name of theirs; where there is none, those it is read as in a message."""
    typed = _plain(text).split()
    if not typed:
        return frozenset()
    found = frozenset(card.id for card in book.exercises.values() if _has(card, typed))
    return found or frozenset(hit.name for hit in prepare(text, book).find("exercise"))


def _has(card: Exercise, typed: list[str]) -> bool:
    """Whether one of its names has a word that begins with each typed one."""
    return any(
        all(any(word.startswith(one) for word in words) for one in typed)
        for words in (_plain(name).split() for name in (card.name, card.id, *card.called))
    )


def _plain(text: str) -> str:
    return " ".join(re.findall(r"\w+", text.lower().replace("'", "").replace("’", "")))


def _shelf(family: Family, found: frozenset[str], book: Rulebook) -> Shelf:
    cards = [card for card in book.exercises.values() if card.family == family.id]
    ids = {card.id for card in cards}
    steps = sum(len(ids & set(card.easier)) for card in cards)
    return Shelf(family, tuple(card for card in cards if card.id in found), len(cards), steps)

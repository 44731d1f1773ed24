"""How each exercise looks, as plain words that can be compared with a beginner's description.

A portrait holds the words of an exercise's `looks`, of its names and of its kit; several words that are one (classes
sight/*) are one here. A word weighs the more the fewer exercises share it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import log

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.words import Text
from assistant.words.lexicon import lexicon
from assistant.words.tokens import split

_ON_CARD, _IN_NAME, _IN_KIT = 0.9, 0.6, 0.4  # of the weight of a word that stands in `looks`
_SHORTEST = 4  # letters of a word outside the classes


@dataclass(frozen=True)
class Portrait:
    """Words → weight (1 of the looks, less of names and kit), and the weight of all that is seen."""

    words: Mapping[str, float]
    seen: float

    def likeness(self, said: Mapping[str, float]) -> tuple[float, int]:
        """How well words said (each with its weight) fit, and how many of them are met."""
        met = [(weight * self.words[word], self.words[word]) for word, weight in said.items() if word in self.words]
        score = sum(weight for weight, _ in met)
        shown = sum(weight for weight, share in met if share == 1.0)
        return score * (0.6 + 0.4 * min(shown / self.seen, 1.0)) if self.seen else score, len(met)


@dataclass(frozen=True)
class Gallery:
    """The portraits of all exercises, and what a word weighs."""

    portraits: Mapping[str, Portrait]
    weights: Mapping[str, float]


@lru_cache(maxsize=4)
def gallery(book: Rulebook) -> Gallery:
    """The portraits of `book`, made on first use."""
    words = {card.id: _words_of(card, book) for card in book.exercises.values()}
    met = Counter(word for of_card in words.values() for word, share in of_card.items() if share == 1.0)
    every = Counter(word for of_card in words.values() for word in of_card)
    weights = {word: log(len(words) / (met[word] or every[word])) for word in every}
    portraits = {
        ex: Portrait(of_card, sum(weights[w] for w, share in of_card.items() if share == 1.0))
        for ex, of_card in words.items()
    }
    return Gallery(portraits, weights)


def _words_of(card: Exercise, book: Rulebook) -> dict[str, float]:
    things = [book.equipment[thing] for need in card.need_sets for thing in need if thing in book.equipment]
    kit = [text for thing in things for text in (thing.name, *thing.called)]
    words: dict[str, float] = dict.fromkeys(_on_card(card.looks, book), 1.0)
    for word in _on_card([card.name, *card.called], book):
        words.setdefault(word, _IN_NAME)
    for word in _on_card(kit, book, plain=False):
        words.setdefault(word, _IN_KIT)
    return words | {f"position-{card.position}": _ON_CARD} | {f"trains-{what}": _ON_CARD for what in card.trains}


def _on_card(texts: Iterable[str], book: Rulebook, plain: bool = True) -> set[str]:
    """The words of looks on a card; a card is no message, so nothing but the classes is looked up."""
    words = split("\n".join(texts))
    spans = [s for s in lexicon(book).spans(words) if s[2].name.startswith(("sight/", "sight-none/"))]
    blocked = [(first, last, entry.name) for first, last, entry in spans if entry.kind == "block"]
    found, covered = set(), set()
    for first, last, entry in sorted(spans, key=lambda s: s[0] - s[1]):
        over = set(range(first, last + 1))
        none = entry.name.startswith("sight-none")
        if entry.kind == "block" or not none and over & covered:
            continue
        if any(a <= first and last <= b and name == entry.name for a, b, name in blocked):
            continue
        covered |= over
        if not none:
            found.add(entry.name.removeprefix("sight/"))
    return found | {w.stem for n, w in enumerate(words) if plain and n not in covered and _tells(w.stem)}


def _tells(word: str) -> bool:
    return len(word) >= _SHORTEST and word.isalpha()


def tokens(text: Text, among: Iterable[int]) -> list[tuple[str, int]]:
    """What the words of `text` at the places `among` say of looks, each with its place."""
    places = set(among)
    hits = [h for h in text.find("sight") if h.first in places and h.last in places]
    found = [(h.name, h.first) for h in hits]
    covered = {n for h in hits for n in range(h.first, h.last + 1)}
    covered |= {h.first for h in text.find("sight-none")}
    plain = ((text.words[n].stem, n) for n in places - covered)
    return found + [(word, n) for word, n in plain if _tells(word)]

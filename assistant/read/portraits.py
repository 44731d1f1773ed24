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
from assistant.rulebook.pause import collector_paused
from assistant.words import Text, split_phrase, stem
from assistant.words.lexicon import Entry, lexicon

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
    with collector_paused():
        sights = _Sights(book)
        words = {card.id: _words_of(card, book, sights) for card in book.exercises.values()}
    met = Counter(word for of_card in words.values() for word, share in of_card.items() if share == 1.0)
    every = Counter(word for of_card in words.values() for word in of_card)
    weights = {word: log(len(words) / (met[word] or every[word])) for word in every}
    portraits = {
        ex: Portrait(of_card, sum(weights[w] for w, share in of_card.items() if share == 1.0))
        for ex, of_card in words.items()
    }
    return Gallery(portraits, weights)


def _words_of(card: Exercise, book: Rulebook, sights: _Sights) -> dict[str, float]:
    words: dict[str, float] = dict.fromkeys(sights.on_card(card.looks), 1.0)
    for word in sights.on_card([card.name, *card.called]):
        words.setdefault(word, _IN_NAME)
    for thing in {thing for need in card.need_sets for thing in need if thing in book.equipment}:
        for word in sights.of_kit(thing):
            words.setdefault(word, _IN_KIT)
    return words | {f"position-{card.position}": _ON_CARD} | {f"trains-{what}": _ON_CARD for what in card.trains}


class _Sights:
    """The phrases of the classes sight/* of one book by their stems, and the words of its kit, looked up once a thing."""

    def __init__(self, book: Rulebook):
        self._book = book
        self._phrases: dict[tuple[str, ...], list[Entry]] = {}
        self._lengths: dict[str, list[int]] = {}  # of the phrases that open with a stem, longest first
        for key, entries in lexicon(book).table.items():
            for entry in entries:
                if entry.name.startswith("sight"):
                    self._phrases.setdefault(key, []).append(entry)
        for key in sorted(self._phrases, key=len, reverse=True):
            if len(key) not in self._lengths.setdefault(key[0], []):
                self._lengths[key[0]].append(len(key))
        self._kit: dict[str, set[str]] = {}

    def of_kit(self, thing: str) -> set[str]:
        """The classes that the names of a thing fall under."""
        if thing not in self._kit:
            card = self._book.equipment[thing]
            self._kit[thing] = self.on_card([card.name, *card.called], plain=False)
        return self._kit[thing]

    def on_card(self, texts: Iterable[str], plain: bool = True) -> set[str]:
        """The words of looks on a card; a card is no message, so nothing but the classes is looked up."""
        found: set[str] = set()
        for words in map(split_phrase, texts):
            stems = tuple(map(stem, words))
            met = self._met(words, stems)
            covered = _seen(met, found) if met else ()
            if plain:
                found.update(word for n, word in enumerate(stems) if n not in covered and _tells(word))
        return found

    def _met(self, words: tuple[str, ...], stems: tuple[str, ...]) -> list[tuple[int, int, Entry]]:
        found = []
        for first, opening in enumerate(stems):
            for length in self._lengths.get(opening, ()):
                if first + length > len(stems):
                    continue
                for entry in self._phrases.get(stems[first : first + length], ()):
                    exact = zip(entry.exact, words[first:], strict=False)
                    if not entry.exact or all(not form or form == word for form, word in exact):
                        found.append((first, first + length - 1, entry))
        return found


def _seen(met: list[tuple[int, int, Entry]], found: set[str]) -> set[int]:
    """The places covered by the classes met, the longest of overlapping ones; their names join `found`."""
    blocked = [(first, last, entry.name) for first, last, entry in met if entry.kind == "block"]
    covered: set[int] = set()
    for first, last, entry in sorted(met, key=lambda m: m[0] - m[1]):
        over, none = set(range(first, last + 1)), entry.name.startswith("sight-none")
        if entry.kind == "block" or not none and over & covered:
            continue
        if any(a <= first and last <= b and name == entry.name for a, b, name in blocked):
            continue
        covered |= over
        if not none:
            found.add(entry.name.removeprefix("sight/"))
    return covered


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

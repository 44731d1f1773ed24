"""The book's words compiled once: every phrase of every card that text is matched against, and the vocabulary.

One table from stemmed phrases to entries serves word classes with their look-alikes, equipment names, cues of scope,
figures of speech and the literal phrases in frames.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from weakref import WeakKeyDictionary

from rapidfuzz.distance import OSA
from rapidfuzz.process import extractOne

from assistant.rulebook import Rulebook
from assistant.words.names import NameIndex
from assistant.words.tokens import Word, fold, split_phrase, stem

_SHORTEST_CORRECTED = 5  # letters; shorter words have too many neighbours (READING trap: crowd/crow, plan/plank)
_LONG = 8  # from this length two slips are forgiven


@dataclass(frozen=True, slots=True)
class Entry:
    """What a phrase means when it is met. `kind`: class, block (a look-alike of a class), cue or figure."""

    kind: str
    name: str
    at: str
    exact: tuple[str, ...] = ()  # words that must stand as they are, unstemmed; "" = any form


class Lexicon:
    """The compiled phrases of one rulebook. `table` maps a tuple of stems to its entries."""

    def __init__(self, book: Rulebook):
        self.table: dict[tuple[str, ...], list[Entry]] = {}
        self.longest: dict[str, int] = {}
        self.spelled = {
            fold(word): split_phrase(name.removeprefix("spelling/").replace("-", " "))
            for name, card in book.wordclasses.items()
            if name.startswith("spelling/")
            for word in card.words
        }
        self.names = NameIndex(book)
        vocabulary: set[str] = set(self.names.vocabulary)
        for phrase, entry in _phrases(book):
            key, exact, words = _key(phrase)
            if not key:
                continue
            self.table.setdefault(key, []).append(Entry(entry.kind, entry.name, entry.at, exact))
            self.longest[key[0]] = max(self.longest.get(key[0], 0), len(key))
            vocabulary.update(words)
        self.english = _english(book.root / "words" / "english.txt")
        self.vocabulary = sorted(word for word in vocabulary if len(word) >= _SHORTEST_CORRECTED)
        self.stems = {stem(word) for word in vocabulary} | {stem(word) for word in self.spelled}
        self.correct = lru_cache(maxsize=16384)(self._correct)

    def known(self, word: Word) -> bool:
        """Plain English, a number, or a word of the book."""
        return word.stem in self.english or word.stem in self.stems or not word.norm.isalpha()

    def _correct(self, norm: str) -> str | None:
        """The one word of the book that `norm` is a slip of, or None."""
        if len(norm) < _SHORTEST_CORRECTED:
            return None
        slips = 2 if len(norm) >= _LONG else 1
        found = extractOne(norm, self.vocabulary, scorer=OSA.distance, score_cutoff=slips)
        if found is None or (found[0][0] != norm[0] and found[0][1] != norm[0]):
            return None
        return found[0]

    def at(self, words: list[Word], first: int) -> Iterator[tuple[int, Entry]]:
        """Entries whose phrase starts at word `first`, longest first, each with its last word."""
        for length in range(self.longest.get(words[first].stem, 0), 0, -1):
            part = words[first : first + length]
            if len(part) < length or any(word.gap > 1 for word in part[1:]):
                continue
            for entry in self.table.get(tuple(word.stem for word in part), ()):
                if all(not form or form == word.norm for form, word in zip(entry.exact, part, strict=False)):
                    yield first + length - 1, entry


_COMPILED: WeakKeyDictionary[Rulebook, Lexicon] = WeakKeyDictionary()


def lexicon(book: Rulebook) -> Lexicon:
    """The lexicon of `book`, compiled on first use."""
    if book not in _COMPILED:
        _COMPILED[book] = Lexicon(book)
    return _COMPILED[book]


def _key(phrase: str) -> tuple[tuple[str, ...], tuple[str, ...], list[str]]:
    exact_all = phrase.startswith("=")
    words = split_phrase(phrase)
    exact = words if exact_all else tuple(word if f"={word}" in phrase.split() else "" for word in words)
    return tuple(stem(word) for word in words), exact if any(exact) else (), list(words)


def _phrases(book: Rulebook) -> Iterator[tuple[str, Entry]]:
    for card in book.wordclasses.values():
        if card.id.startswith("spelling/"):
            continue
        yield from ((phrase, Entry("class", card.id, card.at)) for phrase in card.words)
        yield from ((phrase, Entry("block", card.id, card.at)) for phrase in card.not_)
    for card in book.equipment.values():
        for phrase in {card.name, *card.called}:
            yield phrase.split("(")[0], Entry("class", f"thing/{card.id}", card.at)
    for card in book.nevers.values():
        yield from ((phrase, Entry("class", f"never/{card.id}", card.at)) for phrase in card.called)
    for card in book.cues.values():
        yield from ((phrase, Entry("cue", card.id, card.at)) for phrase in card.words)
    for card in book.figures.values():
        yield from ((phrase, Entry("figure", card.id, card.at)) for phrase in card.words)
    for shelf in (book.limits, book.signs, book.wants):
        for card in shelf.values():
            for phrase, at in frame_phrases(card):
                yield phrase, Entry("class", f"phrase/{phrase}", at)


def frame_phrases(card) -> Iterator[tuple[str, str]]:
    """The literal phrases in a card's frames, each with the card's place."""
    for frame in card.when:
        for part in (frame, frame.get("not") or {}):
            phrases = part.get("phrase", [])
            yield from ((phrase, card.at) for phrase in ([phrases] if isinstance(phrases, str) else phrases))


@lru_cache(maxsize=4)
def _english(path: Path) -> frozenset[str]:
    if not path.is_file():
        return frozenset()
    lines = path.read_text(encoding="utf-8").splitlines()
    return frozenset(word for line in lines if not line.startswith("#") for word in line.split())

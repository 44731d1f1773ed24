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
from assistant.rulebook.pause import collector_paused
from assistant.words.frames import FrameIndex
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

    @property
    def rivals(self) -> str:
        """Among what only the longest counts: the family of a class, a literal phrase alone, all cues, all figures."""
        if self.kind != "class":
            return self.kind
        return self.name if self.name.startswith("phrase/") else self.name.partition("/")[0]


class Lexicon:
    """The compiled phrases of one rulebook. `table` maps a tuple of stems to its entries."""

    def __init__(self, book: Rulebook):
        self.table: dict[tuple[str, ...], list[Entry]] = {}
        self._lengths: dict[str, list[int]] = {}  # of the phrases that open with a stem, longest first
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
            lengths = self._lengths.setdefault(key[0], [])
            if len(key) not in lengths:
                lengths.append(len(key))
            vocabulary.update(words)
        for lengths in self._lengths.values():
            lengths.sort(reverse=True)
        self.english = _english(book.root / "words" / "english.txt")
        self.vocabulary = sorted(word for word in vocabulary if len(word) >= _SHORTEST_CORRECTED)
        self.stems = {stem(word) for word in vocabulary} | {stem(word) for word in self.spelled}
        self.limits = FrameIndex(book.limits.values(), lambda card: card.when)
        self.denials = FrameIndex(book.limits.values(), lambda card: card.denied_when)
        self.signs = FrameIndex(book.signs.values(), lambda card: card.when)
        self.wants = FrameIndex(book.wants.values(), lambda card: card.when)
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

    def spans(self, words: list[Word]) -> list[tuple[int, int, Entry]]:
        """Every phrase met in `words` as its first word, last word and entry; of one first word the longest first."""
        stems = tuple(word.stem for word in words)
        found = []
        for first, opening in enumerate(stems):
            for length in self._lengths.get(opening, ()):
                last = first + length - 1
                entries = self.table.get(stems[first : last + 1]) if last < len(stems) else None
                if entries is None or any(word.gap > 1 for word in words[first + 1 : last + 1]):
                    continue
                for entry in entries:
                    if not entry.exact or _as_written(entry.exact, words[first : last + 1]):
                        found.append((first, last, entry))
        return found


_COMPILED: WeakKeyDictionary[Rulebook, Lexicon] = WeakKeyDictionary()


def lexicon(book: Rulebook) -> Lexicon:
    """The lexicon of `book`, compiled on first use."""
    if book not in _COMPILED:
        with collector_paused():
            _COMPILED[book] = Lexicon(book)
    return _COMPILED[book]


def _as_written(exact: tuple[str, ...], words: list[Word]) -> bool:
    return all(not form or form == word.norm for form, word in zip(exact, words, strict=True))


def _key(phrase: str) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    words = split_phrase(phrase)
    exact: tuple[str, ...] = ()
    if "=" in phrase:
        written = phrase.split()
        exact = words if phrase.startswith("=") else tuple(w if f"={w}" in written else "" for w in words)
    return tuple(map(stem, words)), exact if any(exact) else (), words


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

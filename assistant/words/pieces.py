"""Words in the one form in which names are compared: plural endings dropped, articles left out, several ways made one.

`push-ups`, `pushups`, `press ups` become one piece `pushup` (classes same/* in rules/words/names.yaml).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.words.tokens import Word, split_phrase


@dataclass(frozen=True, slots=True)
class Piece:
    """One word of a message as it is compared; `first`, `last` are the words it was made of, `gap` as of a Word."""

    token: str
    first: int
    last: int
    gap: int = 0
    known: bool = True
    plural: bool = False
    filler: bool = False
    may_open: bool = False
    may_close: bool = False


def singular(word: str) -> str:
    """The word without its plural ending.

    >>> [singular(w) for w in ("dips", "presses", "press", "taps", "abs")]
    ['dip', 'press', 'press', 'tap', 'ab']
    """
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ss", "us", "is")) or not word.endswith("s") or len(word) < 3:
        return word
    return word[:-2] if word.endswith(("ches", "shes", "sses", "xes")) else word[:-1]


def singulars(words: Iterable[str]) -> tuple[str, ...]:
    """Every word without its plural ending."""
    return tuple(singular(word) for word in words)


def words_of(book: Rulebook, name: str) -> set[str]:
    """The words of class `name/<name>`; none where the book has no such class."""
    card = book.wordclasses.get(f"name/{name}")
    return set(card.words) if card else set()


class Forms:
    """What turns words into pieces: the articles, fillers and `same/` classes of one book."""

    def __init__(self, book: Rulebook):
        self.articles, self.fillers = words_of(book, "article"), words_of(book, "filler")
        self._same: dict[tuple[str, ...], str] = {}
        for card in book.wordclasses.values():
            if card.id.startswith("same/"):
                self._same |= {singulars(split_phrase(word)): card.id.removeprefix("same/") for word in card.words}
        self._opens = {key[0] for key in self._same}
        self._longest = max(map(len, self._same), default=0)

    def pieces(self, words: Sequence[Word]) -> list[Piece]:
        """The pieces of `words`, the strongest punctuation before each kept as its gap."""
        kept = [n for n, word in enumerate(words) if word.norm not in self.articles]
        bare = [singular(words[n].norm) for n in kept]
        result: list[Piece] = []
        at = 0
        while at < len(kept):
            length = self._same_length(bare, at)
            part = kept[at : at + max(length, 1)]
            token = self._same[tuple(bare[at : at + length])] if length else bare[at]
            since = result[-1].last + 1 if result else part[0]
            gap = max(words[n].gap for n in range(since, part[0] + 1))
            plural = bare[at + len(part) - 1] != words[part[-1]].norm
            known = bool(length) or words[part[0]].known
            result.append(Piece(token, part[0], part[-1], gap, known, plural, token in self.fillers))
            at += len(part)
        return result

    def _same_length(self, bare: list[str], at: int) -> int:
        if bare[at] not in self._opens:
            return 0
        longest = min(self._longest, len(bare) - at)
        return next((n for n in range(longest, 0, -1) if tuple(bare[at : at + n]) in self._same), 0)

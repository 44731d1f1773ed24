"""Raw text → words with offsets: lower-cased, apostrophes dropped, contractions joined, endings stemmed."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

import snowballstemmer

_STEMMER = snowballstemmer.stemmer("english")
_WORD = re.compile(
    r"(?P<slot>[A-Za-z]\d(?![A-Za-z0-9]))|(?P<number>\d+(?:[.,]\d+)?)|(?P<word>[^\W\d_]+(?:['’`´][^\W\d_]+)*)"
    r"|(?P<sign>[\U0001F300-\U0001FAFF\u2600-\u27BF\u2190-\u21FF])"
)
_APOSTROPHES = str.maketrans("", "", "'’`´")
_PLAIN = re.compile(r"=?[A-Za-z' -]+$")
_FOLD = re.compile(r"(.)\1{2,}")
_VERB_NOT = (
    "do",
    "does",
    "did",
    "is",
    "are",
    "was",
    "were",
    "has",
    "have",
    "had",
    "can",
    "could",
    "would",
    "should",
    "wo",
)
SENTENCE_END, CLAUSE_END, COMMA = 3, 2, 1


@dataclass(frozen=True, slots=True)
class Word:
    """One word as typed and as read. `start`, `end` are offsets into the raw text; `gap` is the strength of the
    punctuation before it (0 none, 1 comma, 2 clause, 3 sentence); `known` = plain English or a word of the book."""

    raw: str
    norm: str
    stem: str
    start: int
    end: int
    gap: int = 0
    clause: int = 0
    sentence: int = 0
    known: bool = True

    def placed(self, clause: int, sentence: int) -> Word:
        """The same word with its clause and sentence; written out, because every word of every message passes here."""
        return Word(self.raw, self.norm, self.stem, self.start, self.end, self.gap, clause, sentence, self.known)


@lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """The word without its ending (Snowball English).

    >>> stem("hurting"), stem("wrists"), stem("aches") == stem("aching")
    ('hurt', 'wrist', True)
    """
    return _STEMMER.stemWord(word)


@lru_cache(maxsize=65536)
def fold(word: str) -> str:
    """Lower case, no apostrophes, letters repeated three times or more reduced to two.

    >>> fold("Soooo"), fold("Can’t")
    ('soo', 'cant')
    """
    word = word.lower()
    if not word.isalpha():
        word = word.translate(_APOSTROPHES)
    return _FOLD.sub(r"\1\1", word) if _FOLD.search(word) else word


def split_phrase(phrase: str) -> tuple[str, ...]:
    """A card's phrase as its folded words, with `do not` joined like in a message.

    >>> split_phrase("can't put weight on"), split_phrase("=sick")
    (('cant', 'put', 'weight', 'on'), ('sick',))
    """
    if _PLAIN.match(phrase) and "not" not in phrase:
        return tuple(fold(phrase.lstrip("=")).replace("-", " ").split())
    return tuple(word.norm for word in split(phrase))


def split(raw: str) -> list[Word]:
    """The words of `raw` in order.

    >>> [w.norm for w in split("I can NOT do 3x8, ok?")]
    ['i', 'cant', 'do', '3', 'x8', 'ok']
    """
    words: list[Word] = []
    last = 0
    for found in _WORD.finditer(raw):
        norm = fold(found[0])
        gap = _gap(raw[last : found.start()]) if words else SENTENCE_END
        if found.lastgroup == "sign" or words and not words[-1].raw[0].isalnum():
            gap = max(gap, CLAUSE_END)
        last = found.end()
        if norm == "not" and words and gap == 0 and words[-1].norm in _VERB_NOT:
            words[-1] = _joined(words[-1], raw, found.end())
            continue
        if norm == "cannot":
            norm = "cant"
        words.append(Word(found[0], norm, stem(norm), found.start(), found.end(), gap))
    return words


def _joined(word: Word, raw: str, end: int) -> Word:
    norm = {"can": "cant", "will": "wont"}.get(word.norm, word.norm + "nt")
    return replace(word, raw=raw[word.start : end], norm=norm, stem=stem(norm), end=end)


def _gap(between: str) -> int:
    if between in ("", " "):
        return 0
    if re.search(r"[.!?\n\r…]", between):
        return SENTENCE_END
    if re.search(r"[;()\[\]—–]|\s-+\s|--|->|/{2}", between):
        return CLAUSE_END
    return COMMA if re.search(r"[,:]", between) else 0

"""Text → words with their clauses, classes and scope; prepared once a message for both `read` and `screen`.

Comes in: the raw text and the rulebook. Goes out: a `Text` with every hit of every word class, each with the scopes
that hold over it. All words and phrases lie in rules/words/ and on the cards that use them.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from assistant.rulebook import Rulebook
from assistant.words.clauses import with_clauses
from assistant.words.frames import Match, match
from assistant.words.lexicon import Lexicon, lexicon
from assistant.words.names import NameHit
from assistant.words.scope import CueHit, scopes
from assistant.words.tokens import Word, fold, split, split_phrase, stem

__all__ = ["Hit", "Match", "Text", "Word", "fold", "match", "prepare", "split_phrase", "stem"]


# "no pain" is no sign: a negation before these is no part of one
_MEANS_NEGATION = (
    "part", "thing", "phrase", "exercise", "sensation", "lack", "amount", "denies", "unfelt",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hit:
    """A class met in the text: words `first` to `last`, offsets into the raw text, scopes, and the card's place."""

    cls: str
    first: int
    last: int
    start: int
    end: int
    clause: int
    words: str
    scopes: frozenset[str] = frozenset()
    at: str = ""

    @property
    def family(self) -> str:
        """`part` of `part/knee`."""
        return self.cls.partition("/")[0]

    @property
    def name(self) -> str:
        """`knee` of `part/knee`."""
        return self.cls.partition("/")[2]


@dataclass(frozen=True)
class Text:
    """A prepared text. `word_scopes[n]` are the scopes of word n; `names` are the exercise names found."""

    raw: str
    words: tuple[Word, ...]
    hits: tuple[Hit, ...]
    word_scopes: tuple[frozenset[str], ...]
    cues: tuple[CueHit, ...] = ()
    names: tuple[NameHit, ...] = ()
    _index: dict[str, list[Hit]] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def by_class(self) -> dict[str, list[Hit]]:
        """Hits by class and by family, in order."""
        index: dict[str, list[Hit]] = {}
        for hit in self.hits:
            index.setdefault(hit.cls, []).append(hit)
            index.setdefault(hit.family, []).append(hit)
        return index

    def find(self, prefix: str) -> list[Hit]:
        """Hits of class `part/knee`, or of the whole family `part`."""
        return self.by_class.get(prefix, [])

    def quote(self, first: int, last: int) -> str:
        """The raw text from word `first` to word `last`."""
        return self.raw[self.words[first].start : self.words[last].end]


def prepare(raw: str, book: Rulebook) -> Text:
    """`raw` read into words, clauses, classes and scope with the words of `book`.

    >>> from assistant.rulebook import load
    >>> [(h.cls, h.words) for h in prepare("my wrists hurt", load()).find("part")]
    [('part/wrist', 'wrists')]
    """
    lex = lexicon(book)
    words = _corrected(split(raw), lex)
    spans = _longest(lex.spans(words))
    names = lex.names.find(words)
    positions = {cls: {s[0] for s in spans if s[2].name == cls} for cls in ("clause/opens", "clause/subject")}
    words = with_clauses(words, positions["clause/opens"], positions["clause/subject"])
    cues = _cues(spans, words, book)
    parts = [(first, last) for first, last, entry in spans if entry.name.startswith("part/")]
    over = scopes(words, cues, parts)
    for first, last, entry in spans:
        if entry.kind == "figure" and _figurative(book.figures[entry.name], words, first, last):
            for n in range(first, last + 1):
                over[n] = over[n] | {"figure"}
    hits = [_hit(raw, words, over, first, last, e.name, e.at) for first, last, e in spans if e.kind == "class"]
    hits += [_hit(raw, words, over, n.first, n.last, f"exercise/{n.ids[0]}", n.at) for n in names]
    hits.sort(key=lambda hit: (hit.first, -hit.last, hit.cls))
    return Text(raw, tuple(words), tuple(hits), tuple(over), tuple(cues), tuple(names))


def _hit(raw, words, over, first, last, cls, at) -> Hit:
    start, end = words[first].start, words[last].end
    held = over[first] if first == last else frozenset.intersection(*over[first : last + 1])
    return Hit(cls, first, last, start, end, words[first].clause, raw[start:end], held, at)


def _corrected(words: list[Word], lex: Lexicon) -> list[Word]:
    """Set spellings replaced, slips corrected, every word marked known or not."""
    result: list[Word] = []
    for word in words:
        norm = word.norm
        if norm not in lex.spelled and not lex.known(word):
            folded = _single(norm)
            norm = folded if stem(folded) in lex.english or stem(folded) in lex.stems else (lex.correct(norm) or norm)
        spelled = lex.spelled.get(norm, (norm,))
        for n, part in enumerate(spelled):
            known = part != word.norm or lex.known(word)
            gap = word.gap if n == 0 else 0
            same = part == word.norm and gap == word.gap and known == word.known
            result.append(word if same else replace(word, norm=part, stem=stem(part), known=known, gap=gap))
    return result


def _single(norm: str) -> str:
    """`norm` with doubled letters single: what "soo" or "paain" was meant to be."""
    return "".join(letter for n, letter in enumerate(norm) if n == 0 or letter != norm[n - 1])


def _longest(spans: list[tuple]) -> list[tuple]:
    """Per family of classes (and for cues) only the longest of overlapping spans; look-alikes take out what they cover."""
    blocks: dict[str, list[tuple[int, int]]] = {}
    for first, last, entry in spans:
        if entry.kind == "block":
            blocks.setdefault(entry.name, []).append((first, last))
    taken: dict[str, dict[int, tuple[int, int]]] = {}
    seen: set[tuple[int, int, str]] = set()
    result = []
    for first, last, entry in sorted(spans, key=lambda s: (s[0] - s[1], s[0])):
        name = entry.name
        if entry.kind == "block" or (first, last, name) in seen:
            continue
        if name in blocks and any(a <= first and last <= b for a, b in blocks[name]):
            continue
        own = (first, last)
        words = taken.setdefault(entry.rivals, {})
        if first == last:
            if words.setdefault(first, own) != own:
                continue
        elif any(words.get(n, own) != own for n in range(first, last + 1)):
            continue
        else:
            words.update(dict.fromkeys(range(first, last + 1), own))
        seen.add((first, last, name))
        result.append((first, last, entry))
    return sorted(result, key=lambda s: (s[0], -s[1]))


def _cues(spans: list[tuple], words: list[Word], book: Rulebook) -> list[CueHit]:
    """Cues with a reach: not those inside a longer phrase of a class (there the negation is part of the sign)."""
    swallowing = [
        (first, last)
        for first, last, entry in spans
        if entry.kind == "class" and last > first and entry.name.partition("/")[0] not in _MEANS_NEGATION
    ]
    result = []
    for first, last, entry in spans:
        if entry.kind != "cue":
            continue
        card = book.cues[entry.name]
        if any(a <= first and last <= b and b - a > last - first for a, b in swallowing):
            continue
        before = {w.norm for w in words[:first] if w.clause == words[first].clause}
        if before & set(card.not_after):
            continue
        result.append(CueHit(card, first, last))
    return result


def _figurative(card, words, first: int, last: int) -> bool:
    """Whether the guard of the figure of speech allows taking it out: no guard word near, `only_with` words there."""
    near = [w for w in words if w.sentence == words[first].sentence]
    norms = {w.stem for w in near}
    outside = {w.stem for n, w in enumerate(words) if not first <= n <= last and w.sentence == words[first].sentence}
    joined = " ".join(w.norm for w in near)
    if any(_stands(phrase, outside, joined) for phrase in card.guard):
        return False
    return not card.only_with or any(_stands(phrase, norms, joined) for phrase in card.only_with)


def _stands(phrase: str, stems: set[str], joined: str) -> bool:
    parts = split_phrase(phrase)
    if len(parts) == 1:
        return stem(parts[0]) in stems
    return f" {' '.join(parts)} " in f" {joined} "

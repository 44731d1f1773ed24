"""The spellings of names compiled for comparison: words in one form, plural endings dropped, several ways made one.

The words this needs (articles, fillers, several ways to write one word, look-alikes) stand in rules/words/names.yaml.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from rapidfuzz.distance import OSA

from assistant.rulebook import Rulebook
from assistant.words.tokens import Word, split_phrase

_UNEVEN = {"feet": "foot", "calves": "calf", "flies": "fly", "flys": "fly", "presses": "press", "benches": "bench"}
_SHORTEST_SLIP = 5  # letters of a plain English word taken for a slip of a word of names
_SHORTEST_UNKNOWN_SLIP = 3


@dataclass(frozen=True, slots=True)
class Target:
    """What a spelling means. No `ids` = a thing or a look-alike: it only takes its words away."""

    ids: tuple[str, ...]
    at: str
    ambiguous: str | None = None
    weak: bool = False
    verb: bool = False  # a verb as often as a name
    bare: bool = False  # a name only in the plural or after an article
    lookalike: bool = False
    plurals: frozenset[int] = frozenset()  # words of the spelling that stand in the plural on the card


@dataclass(frozen=True, slots=True)
class Piece:
    """One word of a message as it is compared; `first`, `last` are the words it was made of."""

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

    >>> [singular(w) for w in ("dips", "presses", "press", "feet", "taps", "abs")]
    ['dip', 'press', 'press', 'foot', 'tap', 'ab']
    """
    if word in _UNEVEN:
        return _UNEVEN[word]
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ss", "us", "is")) or not word.endswith("s") or len(word) < 3:
        return word
    return word[:-2] if word.endswith(("ches", "shes", "xes")) else word[:-1]


class Spellings:
    """All spellings of one rulebook: `exact` by joined letters, `loose` by sorted content words."""

    def __init__(self, book: Rulebook):
        self._read_words(book)
        self.exact: dict[str, Target] = {}
        self.loose: dict[tuple[str, ...], Target | None] = {}
        self._tokens: set[str] = set()
        self._ends: set[str] = set()
        self._sizes: dict[int, list[str]] = {}
        self._bands: dict[int, list[str]] = {}
        self._slips: dict[str, tuple[str, ...]] = {}
        self.vocabulary: set[str] = set()
        for spelling, target in self._targets(book):
            self._add(spelling, target)
        self._starts = {token for token in self._tokens if token not in self.fillers}
        for key, target in self.exact.items():
            if target.ids:
                self._sizes.setdefault(len(key), []).append(key)
        self._near: dict[str, list[str]] = {}
        for token in self._tokens:
            for part in _deletions(token):
                self._near.setdefault(part, []).append(token)

    def _read_words(self, book: Rulebook) -> None:
        def words(name: str) -> set[str]:
            card = book.wordclasses.get(f"name/{name}")
            return set(card.words) if card else set()

        self.articles, self.fillers, self.particles = words("article"), words("filler"), words("particle")
        self.before_verb = words("before-verb")
        self._weak = {_bare(split_phrase(w)) for w in words("weak")}
        self._verb = {_bare(split_phrase(w)) for w in words("verb-too")}
        self._only_noun = {_bare(split_phrase(w)) for w in words("bare")}
        self._modifiers = words("modifier")
        self._lookalikes: dict[str, list[tuple[tuple[str, ...], Target]]] = {}
        if card := book.wordclasses.get("name/look-alike"):
            for phrase in map(split_phrase, card.words):
                self._lookalikes.setdefault(phrase[0], []).append((phrase, Target((), card.at, lookalike=True)))
        self._same: dict[tuple[str, ...], str] = {}
        for card in book.wordclasses.values():
            if card.id.startswith("same/"):
                self._same |= {_bare(split_phrase(word)): card.id.removeprefix("same/") for word in card.words}
        self._same_opens = {key[0] for key in self._same}
        self._same_longest = max(map(len, self._same), default=0)

    def _targets(self, book: Rulebook) -> Iterator[tuple[str, Target]]:
        """Every spelling with its meaning; what comes later does not replace what came first."""
        not_in_book = book.wordclasses.get("name/not-in-book")
        for phrase in not_in_book.words if not_in_book else ():
            yield phrase, Target((), not_in_book.at)
        for thing in book.equipment.values():
            for phrase in thing.called:
                yield phrase, Target((), thing.at)
        for card in book.ambiguous.values():
            for phrase in card.called:
                yield phrase, Target(tuple(card.exercises), card.at, card.id)
        for card in book.exercises.values():
            for phrase in (re.sub(r"\(.*?\)", "", card.name), *card.called):
                yield phrase, Target((card.id,), card.at)
        for shortened in (_without_hold, _without_comma):
            for card in book.exercises.values():
                for phrase in shortened(re.sub(r"\(.*?\)", "", card.name).strip()):
                    yield phrase, Target((card.id,), card.at)

    def _add(self, spelling: str, target: Target) -> None:
        words = split_phrase(spelling)
        if not words:
            return
        pieces = self._pieces_of([Word(w, w, w, 0, 0) for w in words])
        if not pieces:
            return
        if target.ids:
            self._ends.add(pieces[-1].token)
            bare = _bare(words)
            target = replace(target, weak=bare in self._weak, verb=bare in self._verb, bare=bare in self._only_noun)
            self.vocabulary.update(word for word in words if word.isalpha())
            self.vocabulary.update(piece.token for piece in pieces if piece.token.isalpha())
        plurals = frozenset(n for n, piece in enumerate(pieces) if piece.plural)
        key = "".join(piece.token for piece in pieces)
        old = self.exact.get(key)
        if old is None:
            self.exact[key] = replace(target, plurals=plurals)
        elif old.ids == target.ids:
            self.exact[key] = replace(old, plurals=old.plurals | plurals)
        self._tokens.update(piece.token for piece in pieces)
        content = tuple(sorted(piece.token for piece in pieces if not piece.filler))
        if not target.ids or len(content) < 2 or self.particles.intersection(content):
            return
        known = self.loose.setdefault(content, target)
        if known is not None and known.ids != target.ids:
            self.loose[content] = None  # the same words mean two exercises: order decides, not this

    # -- a message ---------------------------------------------------------------------------------------------
    def pieces(self, words: Sequence[Word]) -> list[Piece]:
        """The words of a message as pieces, each knowing whether a name may open or close with it."""
        result = []
        for piece in self._pieces_of(words):
            opens = piece.token in self._starts or not piece.known or bool(self.slips(piece))
            result.append(
                replace(piece, may_open=opens and not piece.filler, may_close=opens or piece.token in self._ends)
            )
        return result

    def _pieces_of(self, words: Sequence[Word]) -> list[Piece]:
        kept = [n for n, word in enumerate(words) if word.norm not in self.articles]
        bare = [singular(words[n].norm) for n in kept]
        result: list[Piece] = []
        at = 0
        while at < len(kept):
            length = self._same_length(bare, at)
            token = self._same[tuple(bare[at : at + length])] if length else bare[at]
            part = kept[at : at + max(length, 1)]
            last = words[part[-1]]
            gap = max(
                (words[n].gap for n in range(part[0] if not result else result[-1].last + 1, part[0] + 1)), default=0
            )
            known = bool(length) or words[part[0]].known or token in self._starts_or_empty()
            result.append(
                Piece(token, part[0], part[-1], gap, known, singular(last.norm) != last.norm, token in self.fillers)
            )
            at += max(length, 1)
        return result

    def _starts_or_empty(self) -> set[str]:
        return getattr(self, "_starts", set())

    def _same_length(self, bare: list[str], at: int) -> int:
        if bare[at] not in self._same_opens:
            return 0
        longest = min(self._same_longest, len(bare) - at)
        return next((n for n in range(longest, 0, -1) if tuple(bare[at : at + n]) in self._same), 0)

    def lookalikes(self, words: Sequence[Word]) -> Iterator[tuple[int, int, Target]]:
        """Look-alike phrases in `words` as first word, last word and their card."""
        for first, word in enumerate(words):
            for phrase, target in self._lookalikes.get(word.norm, ()):
                if tuple(w.norm for w in words[first : first + len(phrase)]) == phrase:
                    yield first, first + len(phrase) - 1, target

    def exact_of(self, window: Sequence[Piece]) -> Target | None:
        """What the joined letters of the window mean."""
        return self.exact.get("".join(piece.token for piece in window))

    def loose_of(self, window: Sequence[Piece]) -> tuple[Target, int] | None:
        """What the content words of the window mean in any order; a changed order needs a filler between."""
        content = [piece.token for piece in window if not piece.filler]
        if len(content) < 2 or (len(content) == len(window) and not self._modifiers.intersection(content)):
            return None
        target = self.loose.get(tuple(sorted(content)))
        return (target, len(content)) if target else None

    def reads_as_sentence(self, window: Sequence[Piece], target: Target) -> bool:
        """`heels raise` is something heels do, `heel raises` is an exercise: a plural before a bare last word."""
        if len(window) < 2 or window[-1].plural:
            return False
        return any(piece.plural and n not in target.plurals for n, piece in enumerate(window[:-1]))

    def after_verb_mark(self, words: Sequence[Word], first: int, last: int) -> bool:
        """Whether the word at `first` is used as a verb: `to hang`, `i press`, `it hangs`."""
        if first == 0 or words[first].gap > 0:
            return False
        return words[first - 1].norm in self.before_verb

    # -- slips of the pen --------------------------------------------------------------------------------------
    def slips(self, piece: Piece) -> tuple[str, ...]:
        """Words of names one letter away; for plain English only long ones that open alike."""
        token = piece.token
        if len(token) < (_SHORTEST_SLIP if piece.known else _SHORTEST_UNKNOWN_SLIP) or token in self._starts:
            return ()
        if token not in self._slips:
            near = {word for part in _deletions(token) for word in self._near.get(part, ())}
            self._slips[token] = tuple(
                sorted(w for w in near if len(w) > 2 and w[0] == token[0] and OSA.distance(w, token) == 1)
            )
        return self._slips[token]

    def one_slip(self, window: Sequence[Piece]) -> Iterator[list[Piece]]:
        """The window with one of its words read as the word of a name next to it."""
        if len(window) < 2:
            return
        for n, piece in enumerate(window):
            for other in self.slips(piece):
                yield [*window[:n], replace(piece, token=other), *window[n + 1 :]]

    def keys_near(self, length: int) -> list[str]:
        """Joined names of nearly that length; others cannot reach the ratio."""
        if length not in self._bands:
            spread = max(1, length // 6)
            self._bands[length] = [
                key for n in range(length - spread, length + spread + 1) for key in self._sizes.get(n, ())
            ]
        return self._bands[length]


def _without_hold(name: str) -> list[str]:
    """"Chest-to-wall handstand hold" is also said without its last word."""
    first, _, last = name.rpartition(" ")
    return [first] if last == "hold" and len(split_phrase(first)) > 1 else []


def _without_comma(name: str) -> list[str]:
    """"Step-up, knee height" is also just a step-up, where no other is called so."""
    return [name.partition(",")[0]] if "," in name else []


def _bare(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(singular(word) for word in words)


def _deletions(word: str) -> set[str]:
    """The word and the word with one letter left out: two words one slip apart share one of these."""
    return {word, *(word[:n] + word[n + 1 :] for n in range(len(word)))}

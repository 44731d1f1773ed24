"""Exercise names in a run of words: windows of up to nine words against every spelling of the book.

Three ways, the surest first: the joined letters (`pull ups`, `pull-up`, `pullups` are one); the same content words with
only fillers between them (`push ups with feet on a chair`); a slip of the pen (rapidfuzz), only where a word is no plain
English or is one letter off a word of names. Longer names beat shorter ones inside them; names of things
(`pull up bar`) and look-alike phrases (`in a row`) take their words away from names.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rapidfuzz import fuzz
from rapidfuzz.process import extractOne

from assistant.rulebook import Rulebook
from assistant.words.pieces import Piece
from assistant.words.spellings import Spellings, Target
from assistant.words.tokens import CLAUSE_END, Word

_LONGEST = 9  # words in a window, fillers included
_LONGEST_GUESS = 4  # words in a window compared by letters
_SURE = 88.0  # rapidfuzz ratio from which a slip is believed (of 50 misspelt names 49 found, 11 false in 2,001 plain sentences)
_SHORTEST_GUESS = 5  # letters of a joined name
_RANK = {"exact": 3, "words": 2, "slip": 1, "kind": 0}


@dataclass(frozen=True, slots=True)
class NameHit:
    """A name met: the exercises it may mean, first and last word, how sure (0-100), and the card's place.

    `how`: `exact`, `words` (order-free), `slip`, `kind` (a kind and a head, "sheet rows"), `thing` (also the
    name of a thing); `weak` = a plain word, a verb or a thing that is a name only when the plan has it."""

    ids: tuple[str, ...]
    first: int
    last: int
    score: float
    at: str
    ambiguous: str | None = None
    how: str = "exact"
    weak: bool = False


@dataclass(frozen=True, slots=True)
class _Candidate:
    target: Target
    first: int  # positions among the pieces
    last: int
    size: int
    score: float
    how: str


class NameIndex:
    """Every spelling of every exercise of one rulebook, compiled. `vocabulary` are the words slips are corrected to."""

    def __init__(self, book: Rulebook):
        self.spellings = Spellings(book)
        self.vocabulary = self.spellings.vocabulary

    def find(self, words: Sequence[Word]) -> list[NameHit]:
        """The names in `words`, in order, none overlapping.

        >>> from assistant.rulebook import load
        >>> from assistant.words.tokens import split
        >>> [hit.ids for hit in NameIndex(load()).find(split("band assisted pull ups, then push ups on my knees"))]
        [('band-assisted-pull-up',), ('knee-push-up',)]
        """
        pieces = self.spellings.pieces(words)
        chosen: list[_Candidate] = []
        taken: set[int] = set()
        candidates = [*self._candidates(pieces), *self._lookalikes(pieces, words)]
        for found in sorted(candidates, key=_preference):
            span = range(found.first, found.last + 1)
            if not taken.intersection(span):
                taken.update(span)
                chosen.append(found)
        hits = [self._hit(found, pieces, words) for found in chosen if found.target.ids]
        return sorted(hits, key=lambda hit: hit.first)

    def _candidates(self, pieces: list[Piece]) -> Iterator[_Candidate]:
        book = self.spellings
        for first, piece in enumerate(pieces):
            if not piece.may_open:
                continue
            for last in range(first, min(first + _LONGEST, len(pieces))):
                if last > first and pieces[last].gap >= CLAUSE_END:
                    break
                if not pieces[last].may_close:
                    continue
                window = pieces[first : last + 1]
                found = book.exact_of(window)
                if found and not (found.ids and book.reads_as_sentence(window, found)):
                    yield _Candidate(found, first, last, len(window), 100.0, "exact")
                    continue
                loose = book.loose_of(window)
                if loose:
                    yield _Candidate(loose[0], first, last, loose[1], 95.0, "words")
                elif last - first < _LONGEST_GUESS:
                    yield from self._guess(window, first, last)
                if kind := book.kind_of(window):
                    yield _Candidate(kind, first, last, 2, 80.0, "kind")

    def _lookalikes(self, pieces: list[Piece], words: Sequence[Word]) -> Iterator[_Candidate]:
        """Phrases in which the words of a name are no exercise, as the pieces they cover."""
        for first, last, target in self.spellings.lookalikes(words):
            covered = [n for n, piece in enumerate(pieces) if piece.first <= last and first <= piece.last]
            if covered:
                yield _Candidate(target, covered[0], covered[-1], len(covered), 100.0, "exact")

    def _guess(self, window: list[Piece], first: int, last: int) -> Iterator[_Candidate]:
        """One word off: another form of a word in the window, or, with a word nobody knows, the letters of it all."""
        for swapped in self.spellings.one_slip(window):
            found = self.spellings.exact_of(swapped)
            if found and found.ids:
                yield _Candidate(found, first, last, len(window), 92.0, "slip")
                return
        key = "".join(piece.token for piece in window)
        if len(key) < _SHORTEST_GUESS or all(piece.known for piece in window):
            return
        best = extractOne(key, self.spellings.keys_near(len(key)), scorer=fuzz.ratio, score_cutoff=_SURE)
        if best:
            yield _Candidate(self.spellings.exact[best[0]], first, last, len(window), best[1], "slip")

    def _hit(self, found: _Candidate, pieces: list[Piece], words: Sequence[Word]) -> NameHit:
        first, last = pieces[found.first].first, pieces[found.last].last
        target, verb = found.target, self.spellings.after_verb_mark(words, first)
        singular = not pieces[found.last].plural
        weak = (
            target.weak or target.thing or (target.verb and verb and singular) or (target.bare and (verb or singular))
        )
        how = "thing" if target.thing else found.how
        return NameHit(target.ids, first, last, found.score, target.at, target.ambiguous, how, weak)


def _preference(found: _Candidate) -> tuple:
    """The longest first; of single words a look-alike or a thing before a name; then the surest, the first."""
    takes = not found.target.ids and (found.size == 1 or not found.target.lookalike)
    return (-found.size, not takes, -_RANK[found.how], -found.score, found.first)

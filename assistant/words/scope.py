"""Which words are denied, over, about another person, supposed, or doubtful: cues with direction and reach.

The method is the one of NegEx and ConText (Chapman et al. 2001; Harkema et al. 2009, J Biomed Inform 42:839): a cue has a
direction and a reach, other cues end it, look-alikes do nothing. Two things differ, because a hidden pain is the costly
error: a backward cue stops at the first body part it meets, and a cue swallowed by a longer phrase of a class (the
negation is the sign: "can't feel") has no reach.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from assistant.rulebook.cards import Cue
from assistant.words.tokens import COMMA, SENTENCE_END, Word, stem

_REACH = re.compile(r"(forward|backward|both)(?:, (?:(\d+) words?|(sentence|message)))?$")
_GLUE = {"and", "or", "nor", "my", "the", "both", "left", "right", "n", "your"}


@dataclass(frozen=True, slots=True)
class CueHit:
    """A cue found in the text, first and last word, and the card it stands on."""

    card: Cue
    first: int
    last: int


@dataclass(frozen=True)
class Reach:
    """How far a cue reaches: directions, at most `words` words, within clause, sentence or message."""

    forward: bool
    backward: bool
    words: int
    within: str


@lru_cache(maxsize=512)
def reach_of(text: str) -> Reach:
    """`reaches:` of a cue card, read.

    >>> reach_of("forward, 4 words")
    Reach(forward=True, backward=False, words=4, within='clause')
    """
    found = _REACH.match(text)
    if not found:
        raise ValueError(f"a reach reads 'forward', 'backward, 3 words' or 'both, sentence', not '{text}'")
    direction = found[1]
    return Reach(direction != "backward", direction != "forward", int(found[2] or 999), found[3] or "clause")


def scopes(words: list[Word], cues: list[CueHit], parts: list[tuple[int, int]]) -> list[frozenset[str]]:
    """The scopes of every word. `parts` are the body parts found, as (first, last) word."""
    result: list[set[str]] = [set() for _ in words]
    ends = {hit.first for hit in cues if hit.card.means == "end"}
    part_words = {n for first, last in parts for n in range(first, last + 1)}
    for hit in cues:
        if hit.card.means in ("end", "look-alike"):
            continue
        reach = reach_of(hit.card.reaches)
        borders = ends if hit.card.means in ("denied", "over", "doubt") else set()  # "my mate only holds 5 s" stays his
        stops = {stem(word) for phrase in hit.card.ends_at for word in phrase.split()[:1]}
        if reach.forward:
            for n in _walk(words, hit.last + 1, 1, reach, borders, stops):
                result[n].add(hit.card.means)
        if reach.backward:
            for n in _backward(words, hit, reach, borders, stops, part_words):
                result[n].add(hit.card.means)
    return [frozenset(found) for found in result]


def _walk(words, start, step, reach: Reach, ends, stops):
    """Positions from `start` in direction `step` until the reach, its borders or an ending cue."""
    origin = words[start - step]
    n, left = start, reach.words
    while 0 <= n < len(words) and left > 0:
        word = words[n]
        if step > 0 and word.gap == COMMA and reach.within == "clause":
            if n == start or not _list_goes_on(words, n):
                return
            left = reach.words
        if reach.within == "clause" and word.clause != origin.clause:
            return
        if reach.within == "sentence" and word.sentence != origin.sentence:
            return
        if n in ends or word.stem in stops:
            return
        if reach.words < 999 and (word if step > 0 else words[n + 1]).gap >= SENTENCE_END:
            return
        yield n
        n, left = n + step, left - 1


def _list_goes_on(words: list[Word], n: int) -> bool:
    """Whether the comma before word `n` only parts a list: "no pain, swelling or numbness", not "no pain, ankle hurts".

    `or`, `nor` join what is denied; without them only a list of at least three short items goes on, because a pain
    taken for denied is the costly error."""
    first = n
    while first > 0 and words[first - 1].clause == words[n].clause:
        first -= 1
    clause = [word for word in words[first:] if word.clause == words[n].clause]
    rest = clause[n - first :]
    if any(word.norm in ("or", "nor") for word in rest):
        return True
    commas = [k for k, word in enumerate(clause) if word.gap == COMMA and k]
    if len(commas) < 2:
        return False
    return max(b - a for a, b in zip(commas, [*commas[1:], len(clause)], strict=True)) <= 2


def _backward(words, hit: CueHit, reach: Reach, ends, stops, part_words):
    """Backwards, but only to the first body part (or parts joined by `and`, `or`)."""
    met = False
    for n in _walk(words, hit.first - 1, -1, reach, ends, stops):
        if met and n not in part_words and words[n].stem not in _GLUE:
            return
        met = met or n in part_words
        yield n

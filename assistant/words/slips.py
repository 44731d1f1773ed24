"""Words one letter away from a word of names: "spilt" squats, "revers" lunges.

Two words one slip apart share one of their forms with a letter left out; those forms are kept in a table, so that no
word is compared with all others.
"""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz.distance import OSA

_SHORTEST = 5  # letters of a plain English word taken for a slip; shorter ones have too many neighbours
_SHORTEST_UNKNOWN = 3


class Slips:
    """The words of names by their forms with one letter left out."""

    def __init__(self, tokens: Iterable[str]):
        self._near: dict[str, list[str]] = {}
        self._found: dict[str, tuple[str, ...]] = {}
        for token in tokens:
            for form in _forms(token):
                self._near.setdefault(form, []).append(token)

    def of(self, token: str, known: bool) -> tuple[str, ...]:
        """The words of names that `token` may be a slip of; `known` = it is plain English or a word of the book."""
        if len(token) < (_SHORTEST if known else _SHORTEST_UNKNOWN):
            return ()
        if token not in self._found:
            near = {word for form in _forms(token) for word in self._near.get(form, ())}
            close = (w for w in near if len(w) > 2 and w[0] == token[0] and OSA.distance(w, token) == 1)
            self._found[token] = tuple(sorted(close))
        return self._found[token]


def _forms(word: str) -> set[str]:
    return {word, *(word[:n] + word[n + 1 :] for n in range(len(word)))}

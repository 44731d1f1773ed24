"""Numbers said to be reached: "i get 3", "25 pushups easy", "i shake at 15" → reps or seconds of an exercise.

Numbers that are asked for ("A1 says 8", "i cant do 10 only 4") are not reached. Words: rules/words/quantities.yaml.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.values import Asked
from assistant.words import Text

_NEAR = 4  # words between a word of reaching and its number
_MOST = 999


def reached(text: Text, asked: Sequence[Asked]) -> tuple[tuple[str, int], ...]:
    """The best number reached by exercise id; with several exercises each number belongs to the nearest name."""
    found: dict[str, int] = {}
    if not asked:
        return ()
    for at, number in _numbers(text):
        owner = min(asked, key=lambda one: abs(one.start - text.words[at].start))
        found.setdefault(owner.id, number)
        found[owner.id] = max(found[owner.id], number) if number else found[owner.id]
    return tuple(found.items())


def _numbers(text: Text) -> list[tuple[int, int]]:
    """Word position and number of everything said to be reached."""
    words = text.words
    zero = [(hit.first, 0) for hit in text.find("reached/none")]
    if zero:
        return zero[:1]
    targets = {n for hit in text.find("reached/target") for n in range(hit.last + 1, hit.last + 1 + _NEAR)}
    result = []
    for n in range(len(words)):
        number = number_at(text, n)
        if number is None or n in targets or counts_other(text, n):
            continue
        reach = [
            h
            for h in text.find("reached/ahead")
            if 0 < n - h.last <= _NEAR and words[h.last].sentence == words[n].sentence
        ]
        after = [
            h
            for h in text.find("reached/behind")
            if 0 < h.first - n <= _NEAR and words[h.first].sentence == words[n].sentence
        ]
        if reach or after:
            result.append((n, number))
    return result


def number_at(text: Text, n: int) -> int | None:
    """The number that word `n` is, in digits or spelled; None for any other word."""
    words, norm = text.words, text.words[n].norm
    if norm[:1] == "x" and norm[1:].isdigit():
        return int(norm[1:])  # "3x12": twelve
    if n > 0 and words[n - 1].norm == "x" and norm.isdigit():
        return int(norm)
    if not norm.isdigit() or (n + 1 < len(words) and words[n + 1].norm[:1] == "x"):
        spelled = next((h.name for h in text.find("said-number") if h.first == n), None)
        return int(spelled) if spelled else None
    return int(norm) if int(norm) <= _MOST else None


def counts_other(text: Text, n: int) -> bool:
    """Whether the number counts something else: kilograms, weeks, sets, hours, years."""
    return any(h.first in (n + 1, n - 1) for h in text.find("unit-other"))

"""Limits told by numbers: fewer reps or seconds than are written, one side behind the other.

"The sheet says 30, I had 19 on the right and only 11 on the left" names no limit and means two. A number is the target,
or what was reached, by the words near it (classes of rules/words/quantities.yaml).
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.read.quantities import counts_other, number_at
from assistant.rulebook import Rulebook
from assistant.rulebook import cards as c
from assistant.words import Hit, Match, Text

_NEAR = 4  # words between a number and the word that says what it is
_ACROSS = 22  # words between what is written and what was reached
_LESS = 0.85  # share of the target below which it was not reached
_SIDES = 0.8  # share of the better side below which the other is weaker
_ALONE = 2  # words of a sentence that is no more than a number
_SIDED = ("on-left", "on-right", "on-good", "on-other")
_NOT_HIS = frozenset({"other-person", "what-if", "over"})


@dataclass(frozen=True)
class _Number:
    at: int
    value: int
    unit: str | None  # "seconds", "reps", or not said


def counted(text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """The limits that the numbers of `text` tell.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> book = load()
    >>> text = prepare("sheet says 30 seconds, I had 19 on the right and only 11 on the left", book)
    >>> [card.id for card, met in counted(text, book)]
    ['short-hold', 'weaker-side']
    """
    numbers = _numbers(text)
    found = [*_short(numbers, text), *_uneven(numbers, text)]
    return [(book.limits[name], met) for name, met in found if name in book.limits]


def _numbers(text: Text) -> list[_Number]:
    result = []
    for n in range(len(text.words)):
        value = number_at(text, n)
        label = n > 0 and any(hit.last == n - 1 for hit in text.find("number-label"))
        if value is None or value < 2 or counts_other(text, n) or label or text.word_scopes[n] & _NOT_HIS:
            continue
        result.append(_Number(n, value, _unit(text, n)))
    return result


def _unit(text: Text, n: int) -> str | None:
    after = {hit.name for hit in text.find("unit") if hit.first in (n + 1, n + 2)}
    return next((unit for unit in ("seconds", "reps") if unit in after), None)


def _short(numbers: list[_Number], text: Text) -> list[tuple[str, Match]]:
    """Fewer reached than written, in the same sentence or the one beside it."""
    targets = [number for number in numbers if _is_target(number, text)]
    for reached in numbers:
        if reached in targets or not _is_reached(reached, text):
            continue
        for target in targets:
            near = abs(target.at - reached.at) <= _ACROSS
            units = {number.unit for number in (reached, target)} - {None}
            if near and reached.value < _LESS * target.value and len(units) < 2:
                holding = "seconds" in units or not units and _held(reached, target, text)
                return [("short-hold" if holding else "few-reps", _between(reached.at, target.at, text))]
    return []


def _is_target(number: _Number, text: Text) -> bool:
    for hit in (*text.find("written"), *text.find("target-ahead")):
        ahead = 0 < number.at - hit.last < _NEAR and _same(hit, number, text)
        if ahead and not _number_between(hit, number, text):
            return True
    return any(
        0 < hit.first - number.at <= _NEAR
        and _same(hit, number, text)
        and all(number_at(text, n) is None for n in range(hit.last + 1, min(hit.last + _NEAR, len(text.words))))
        for hit in text.find("target-behind")
    )


def _number_between(hit: Hit, number: _Number, text: Text) -> bool:
    return any(number_at(text, n) is not None for n in range(hit.last + 1, number.at))


def _is_reached(number: _Number, text: Text) -> bool:
    if sum(word.sentence == text.words[number.at].sentence for word in text.words) <= _ALONE:
        return number.at > 0  # "The pike one. 4. Sheet says 6."
    near = [*text.find("reached/ahead"), *text.find("reached/behind"), *text.find("stops-at")]
    near += [hit for cls in ("difficulty/only", "difficulty/then-fail") for hit in text.find(cls)]
    return any(
        _same(hit, number, text)
        and number.at - hit.last >= -_NEAR
        and hit.first - number.at <= _NEAR + 1
        and abs(number.at - hit.first) <= _NEAR + 2
        for hit in near
    )


def _held(reached: _Number, target: _Number, text: Text) -> bool:
    """Whether what stands near one of two bare numbers is a hold ("I last 12, the plan says 20")."""
    return any(
        abs(hit.first - number.at) <= _NEAR and _same(hit, number, text)
        for number in (reached, target)
        for hit in text.find("hold-word")
    ) and not any(0 < reached.at - hit.last <= 2 for hit in text.find("act/do"))


def _same(hit: Hit, number: _Number, text: Text) -> bool:
    return text.words[hit.first].sentence == text.words[number.at].sentence


def _uneven(numbers: list[_Number], text: Text) -> list[tuple[str, Match]]:
    """One number said of the left and another of the right, clearly apart."""
    sided = [(side, number) for side in _SIDED for number in _of_side(numbers, side, text)]
    for side, one in sided:
        for another, other in sided:
            if side == another:
                continue
            small, big = sorted((one.value, other.value))
            units = {number.unit for number in (one, other)} - {None}
            apart = abs(one.at - other.at)
            if 0 < apart <= _ACROSS and small < _SIDES * big and len(units) < 2:
                return [("weaker-side", _between(one.at, other.at, text))]
    return []


def _of_side(numbers: list[_Number], side: str, text: Text) -> list[_Number]:
    """The numbers for which no other side word stands nearer than one of `side`."""
    sides = [hit for name in _SIDED for hit in text.find(name)]
    result = []
    for number in numbers:
        near = sorted((abs(hit.first - number.at), hit.family) for hit in sides if _same(hit, number, text))
        if near and near[0][1] == side and near[0][0] <= _ACROSS // 2:
            result.append(number)
    return result


def _between(one: int, other: int, text: Text) -> Match:
    first, last = sorted((one, other))
    start, end = text.words[first].start, text.words[last].end
    return Match(0, (), start, end, text.quote(first, last), frozenset(), text.words[first].clause)

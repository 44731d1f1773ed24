"""Numbers in a message, as digits and as words, and what they count: lengths and points of time.

Number words, units and points of time are word classes (`count/`, `span/`, `point/`, `timing/`); what they are worth
stands on the scale cards `counts`, `days` and `times`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from assistant.rulebook import Rulebook
from assistant.words import Hit, Text

_TENS = range(20, 100, 10)
_DIGITS = re.compile(r"\d+(?:[.,]\d+)?")
_SHORT_YEAR = re.compile(r"[3-9]\d")
_APOSTROPHES = ("'", "\u2019", "\u2018")


@dataclass(frozen=True)
class Number:
    """A number in the text: its value, its first and last word."""

    value: float
    first: int
    last: int


@dataclass(frozen=True)
class Time:
    """A time in the text: `ago` (a point back from now) or `lasting` (so long already), in days."""

    kind: Literal["ago", "lasting"]
    days: float
    first: int
    last: int


def numbers_in(text: Text, book: Rulebook) -> list[Number]:
    """Every number of `text` in order; `a` and `an` are not numbers here.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> [n.value for n in numbers_in(prepare("did 12 reps, then three", load()), load())]
    [12.0, 3.0]
    """
    worth = book.cards["scale"]["counts"].numbers
    found = [
        Number(float(word.norm.replace(",", ".")), n, n)
        for n, word in enumerate(text.words)
        if word.norm[0].isdigit() and _DIGITS.fullmatch(word.norm)
    ]
    counts = [hit for hit in text.find("count") if hit.name in worth and hit.words.lower() not in "an"]
    found += [Number(worth[hit.name], hit.first, hit.last) for hit in counts]
    return _spoken(sorted(found, key=lambda number: number.first), text)


def _spoken(numbers: list[Number], text: Text) -> list[Number]:
    """Numbers as they are spoken put together: "thirty six" is 36, "two point six" is 2.6."""
    result: list[Number] = []
    for number in numbers:
        before = result[-1] if result else None
        if before is not None and number.first == before.last + 1 and text.words[number.first].gap == 0:
            tens = before.value in _TENS and 0 < number.value < 10 and not text.words[before.last].norm.isdigit()
            if tens and before.first == before.last:
                result[-1] = Number(before.value + number.value, before.first, number.last)
                continue
        pointed = before is not None and number.first == before.last + 2 and before.value % 1 == 0
        if pointed and text.words[number.first - 1].norm == "point" and number.value < 10:
            result[-1] = Number(before.value + number.value / 10, before.first, number.last)
            continue
        result.append(number)
    return result


def times_in(text: Text, book: Rulebook) -> list[Time]:
    """Every length and point of time of `text` that is not ahead.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> [(t.kind, round(t.days)) for t in times_in(prepare("sore for 3 weeks, fell two months ago", load()), load())]
    [('lasting', 21), ('ago', 60)]
    """
    found = [*_lengths(text, book), *_points(text, book), *_years(text, book)]
    return sorted(found, key=lambda time: time.first)


def _lengths(text: Text, book: Rulebook) -> Iterator[Time]:
    days, times = book.cards["scale"]["days"].numbers, book.cards["scale"]["times"].numbers
    counts = {hit.last: hit for hit in text.find("count")}
    digits = {number.last: number for number in numbers_in(text, book)}
    points = {n for hit in text.find("point") for n in range(hit.first, hit.last + 1)}
    for unit in text.find("span"):
        if unit.first in points:
            continue
        before = _and_a_half(unit, counts, digits, text) or _number_before(unit, counts, digits, book)
        if before is None:
            before = _bare(unit, text, times["some"])
        if before is None:
            continue
        value, first = before
        kind = _kind(text, first, unit.last)
        if kind:
            yield Time(kind, value * days[unit.name], first, unit.last)


def _number_before(unit: Hit, counts: dict[int, Hit], digits: dict[int, Number], book: Rulebook):
    worth = book.cards["scale"]["counts"].numbers
    for gap in (1, 2):  # "half a year": one small word may stand between
        at = unit.first - gap
        if at in digits:
            return digits[at].value, digits[at].first
        if at in counts and gap == 1:
            hit = counts[at]
            half = counts.get(hit.first - 1)
            return (worth[half.name], half.first) if half and half.name == "half" else (worth[hit.name], hit.first)
    return None


def _and_a_half(unit: Hit, counts: dict[int, Hit], digits: dict[int, Number], text: Text) -> tuple[float, int] | None:
    """ "three and a half weeks" is 3.5 of the unit, not half of one."""
    half = counts.get(unit.first - 1)
    if half is None or half.name != "half":
        return None
    n = half.first - 1
    while n > 0 and text.words[n].norm in ("and", "a"):
        n -= 1
    whole = digits.get(n) if n < half.first - 1 else None
    return (whole.value + 0.5, whole.first) if whole else None


def _bare(unit: Hit, text: Text, some: float):
    """ "for weeks": several, where a plural unit has no number."""
    plural = unit.words.lower().endswith("s") and len(unit.words) > 3
    led = any(hit.last == unit.first - 1 for hit in text.find("timing/for"))
    return (some, unit.first) if plural and led else None


def _kind(text: Text, first: int, last: int) -> Literal["ago", "lasting"] | None:
    after = {hit.name for hit in text.find("timing") if hit.first == last + 1}
    before = {hit.name for hit in text.find("timing") if hit.last == first - 1}
    if "ago" in after or "after" in after:
        return "ago"
    return None if "future" in before else "lasting"


def _points(text: Text, book: Rulebook) -> Iterator[Time]:
    days = book.cards["scale"]["days"].numbers
    for hit in text.find("point"):
        before = {cue.name for cue in text.find("timing") if cue.last in (hit.first - 1, hit.first - 2)}
        if "since" in before or hit.name in ("ages", "forever"):
            yield Time("lasting", days[hit.name], hit.first, hit.last)
        elif before <= {"ago", "after", "for", "at"} or "in" in _norms(text, hit.first - 1):
            yield Time("ago", days[hit.name], hit.first, hit.last)


def _norms(text: Text, n: int) -> set[str]:
    return {text.words[n].norm} if n >= 0 else set()


def _years(text: Text, book: Rulebook) -> Iterator[Time]:
    """ "in 2016", "at 12": long ago."""
    times = book.cards["scale"]["times"].numbers
    old = times["year_days"] + 1
    at = {hit.last for name in ("timing/at", "timing/at-age") for hit in text.find(name)}
    counted = {hit.first for hit in text.find("number/counted")}
    for number in numbers_in(text, book):
        year = times["oldest_year"] <= number.value <= times["old_until_year"] and number.value == int(number.value)
        year = year or _short_year(text, number)
        age = number.first - 1 in at and number.value <= times["child_at_years"] and number.last + 1 not in counted
        if year or (age and _of_youth(text, number) and not _scaled(text, number)):
            yield Time("ago", old, number.first, number.last)


def _short_year(text: Text, number: Number) -> bool:
    """ "in '98": a year of the last century, written with an apostrophe for the century."""
    start, digits = text.words[number.first].start, text.words[number.first].norm
    led = text.raw[start : start + 1] in _APOSTROPHES or text.raw[max(0, start - 1) : start] in _APOSTROPHES
    return led and bool(_SHORT_YEAR.fullmatch(digits))


def _of_youth(text: Text, number: Number) -> bool:
    """ "broke my arm at 12" is an age; "woke me at 4" is a time of day, and a sign at an hour is a sign of today."""
    clause = text.words[number.first].clause
    told = [*text.find("event/broke"), *text.find("care/operation"), *text.find("timing/at-age")]
    return number.value == int(number.value) and any(hit.clause == clause for hit in told)


def _scaled(text: Text, number: Number) -> bool:
    """Whether the number is one of a scale: "at 7/10"."""
    if number.last + 1 >= len(text.words):
        return False
    between = text.raw[text.words[number.last].end : text.words[number.last + 1].start]
    return "/" in between or any(hit.first == number.last + 1 for hit in text.find("number/out-of-ten"))

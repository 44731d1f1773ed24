"""Numbers bound to what they measure: pain of ten, blood pressure, sugar, temperature, age, weeks.

Which words must stand near, which take a number away and what is plausible stands on the `reading` cards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Reading
from assistant.screen.numbers import Number, numbers_in, times_in
from assistant.words import Text

_NEAR = ("glucose_mmol_l", "glucose_mg_dl", "temperature_c", "temperature_f", "eye_pressure_mmhg")
_QUIET = ("other-person", "what-if")  # such numbers are no reading of the follower
_TEN = 10
_PART_OF_NAME = ("condition", "medicine", "amount", "exercise", "vision", "person", "care")  # "type 1", "minus 10"


@dataclass(frozen=True)
class Measured:
    """A number with the quantity it measures, and the words it stands on."""

    quantity: str
    value: float
    first: int
    last: int


def readings_in(text: Text, book: Rulebook) -> list[Measured]:
    """Every reading of `text`.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> [(m.quantity, m.value) for m in readings_in(prepare("bp was 182/110", load()), load())]
    [('systolic_mmhg', 182.0), ('diastolic_mmhg', 110.0)]
    """
    cards = book.cards["reading"]
    every = numbers_in(text, book)
    free = [number for number in every if not _named(text, number)]
    free = [number for number in free if not any(scope in text.word_scopes[number.first] for scope in _QUIET)]
    past = _long_past(text, book)
    free = [number for number in free if text.words[number.first].clause not in past]
    found = list(_pressures(text, free, cards))
    taken = {measured.first for measured in found}
    rest = [number for number in free if number.first not in taken]
    found += _pains(text, rest, cards["pain_of_10"])
    taken |= {measured.first for measured in found}
    for number in rest:
        if number.first not in taken:
            found += _near(text, number, cards)
    found += _ages(text, every, cards["age_years"])
    found += _weeks(text, rest, cards["weeks"])
    return sorted(found, key=lambda measured: measured.first)


def _long_past(text: Text, book: Rulebook) -> set[int]:
    """Clauses that speak of long ago: their numbers are no reading of today."""
    recent = book.cards["scale"]["times"].numbers["recent_days"]
    times = {
        text.words[time.first].clause for time in times_in(text, book) if time.kind == "ago" and time.days > recent
    }
    return times | {hit.clause for hit in text.find("when/old")}


def _named(text: Text, number: Number) -> bool:
    """Whether the number is part of a longer name, such as "type 1"."""
    return any(
        hit.first <= number.first and number.last <= hit.last and hit.last > hit.first
        for family in _PART_OF_NAME
        for hit in text.find(family)
    )


def _fits(card: Reading, value: float) -> bool:
    return card.low <= value <= card.high


def _distance(text: Text, number: Number, classes: list[str], clause: bool = True) -> int:
    """Words between the number and the nearest hit of `classes`, in its clause; a large number where there is none."""
    here = text.words[number.first].clause
    gaps = [
        max(hit.first - number.last, number.first - hit.last)
        for name in classes
        for hit in text.find(name)
        if (not clause or hit.clause == here) and not hit.first <= number.first <= hit.last
    ]
    return min(gaps, default=10**6)


def _pressures(text: Text, numbers: list[Number], cards: dict[str, Reading]) -> Iterator[Measured]:
    upper, lower = cards["systolic_mmhg"], cards["diastolic_mmhg"]
    used: set[int] = set()
    for high, low in zip(numbers, numbers[1:], strict=False):
        between = text.raw[text.words[high.last].end : text.words[low.first].start].strip().lower()
        paired = between in ("/", "over", "on", "-", "\\") and high.value > low.value
        if paired and _fits(upper, high.value) and _fits(lower, low.value):
            used |= {high.first, low.first}
            yield Measured("systolic_mmhg", high.value, high.first, high.last)
            yield Measured("diastolic_mmhg", low.value, low.first, low.last)
    for number in numbers:
        if number.first in used or not _fits(upper, number.value):
            continue
        counted = _distance(text, number, ["number/counted", "span"]) <= 1 and not _about(text, number)
        if not counted and _distance(text, number, upper.near) <= upper.words:
            yield Measured("systolic_mmhg", number.value, number.first, number.last)


def _about(text: Text, number: Number) -> bool:
    """ "in the 170s": about 170, not seconds."""
    n = number.last + 1
    plural = n < len(text.words) and text.words[n].norm == "s" and text.words[n].start == text.words[number.last].end
    return plural and number.first > 0 and text.words[number.first - 1].norm == "the"


def _pains(text: Text, numbers: list[Number], card: Reading) -> Iterator[Measured]:
    """Pain numbers: "7/10", "an 8 out of ten", "pain scale: seven", "from 2 to 6"; never effort, reps or ratings."""
    outs = {hit.first: hit for hit in text.find("number/out-of-ten")}
    bound: dict[int, bool] = {}
    for n, number in enumerate(numbers):
        if not _fits(card, number.value) or _is_the_ten(text, number):
            continue
        after = number.last + 1
        of_ten = after in outs or _slash_ten(text, number)
        end = outs[after].last if after in outs else number.last + (1 if of_ten else 0)
        ranged = n + 1 < len(numbers) and _joined(text, number, numbers[n + 1])
        if of_ten or (ranged and _is_of_ten(text, numbers[n + 1], outs)):
            bound[n] = _is_pain(text, number, end, card)
        else:
            bound[n] = _called(text, number, card) or (
                bound.get(n - 1, False) and _joined(text, numbers[n - 1], number)
            )
        if bound[n]:
            yield Measured("pain_of_10", number.value, number.first, number.last)


def _is_of_ten(text: Text, number: Number, outs) -> bool:
    return number.last + 1 in outs or _slash_ten(text, number)


def _slash_ten(text: Text, number: Number) -> bool:
    n = number.last + 1
    if n >= len(text.words):
        return False
    between = text.raw[text.words[number.last].end : text.words[n].start]
    return between.strip() == "/" and text.words[n].norm == "10"


def _is_the_ten(text: Text, number: Number) -> bool:
    """The 10 of "7/10" is no reading of its own."""
    n = number.first
    if text.words[n].norm != "10" or n == 0:
        return any(hit.first <= n <= hit.last for hit in text.find("number/out-of-ten"))
    return text.raw[text.words[n - 1].end : text.words[n].start].strip() == "/" or any(
        hit.first <= n <= hit.last for hit in text.find("number/out-of-ten")
    )


def _joined(text: Text, one: Number, other: Number) -> bool:
    between = text.raw[text.words[one.last].end : text.words[other.first].start].strip().lower()
    return between in ("-", "–", "to", "or")


def _is_pain(text: Text, number: Number, end: int, card: Reading) -> bool:
    """Of ten: pain unless an effort or a counted thing is nearer than any pain word."""
    if any(hit.first == end + 1 for hit in text.find("number/counted")):
        return False
    span = Number(number.value, number.first, end)
    pain = _distance(text, span, [name for name in card.near if name not in ("part", "number/pain-call")], clause=False)
    effort = _distance(text, span, ["number/effort"], clause=False)
    if number.value == _TEN and not any(text.find(family) for family in ("hurt", "part")):
        return False  # "10/10, would do it again" is praise
    return effort > 8 or pain <= effort


def _called(text: Text, number: Number, card: Reading) -> bool:
    """A bare number: called a pain number outright, or hinted at and a painful part named."""
    if _distance(text, number, ["number/counted", "span", "exercise", "thing"]) <= 1:
        return False
    if any(hit.last == number.first - 1 for hit in text.find("number/pain-scale")):
        return True
    if not any(hit.last == number.first - 1 for hit in text.find("number/pain-call")):
        return False
    sentence = text.words[number.first].sentence
    hurts = any(text.words[hit.first].sentence == sentence for hit in text.find("hurt"))
    last = number.last + 1 == len(text.words) or text.words[number.last + 1].gap > 0
    parts = any(text.words[hit.first].sentence == sentence for hit in text.find("part"))
    return hurts or (parts and last)


def _near(text: Text, number: Number, cards: dict[str, Reading]) -> Iterator[Measured]:
    for name in _NEAR:
        card = cards[name]
        near = _distance(text, number, card.near) <= card.words or _of_diabetic(text, number, name)
        if not _fits(card, number.value) or not near:
            continue
        if _distance(text, number, card.never) <= 1 or _distance(text, number, ["span"]) <= 1:
            continue
        if "number/outside" in card.never and _distance(text, number, ["number/outside"]) < 10**6:
            continue
        yield Measured(name, number.value, number.first, number.last)
        return


def _of_diabetic(text: Text, number: Number, name: str) -> bool:
    """Among words of diabetes a decimal is a sugar reading ("T1 and dipped to 3.1"), and so is what a meter shows."""
    if not text.find("condition/diabetes"):
        return False
    if name == "glucose_mmol_l" and number.value % 1 > 0:
        return True
    return name == "glucose_mg_dl" and _distance(text, number, ["number/shown"]) <= 4


def _ages(text: Text, numbers: list[Number], card: Reading) -> Iterator[Measured]:
    """ "im 13", "14yo", "turned 16", "daughter is 9"."""
    before = {hit.last for name in card.near for hit in text.find(name)}
    after = {hit.first for hit in text.find("number/age-after")}
    for number in numbers:
        if not _fits(card, number.value) or number.value != int(number.value):
            continue
        led = number.first - 1 in before or (number.first - 2 in before and text.words[number.first - 1].norm == "is")
        old = number.last + 1 in after
        counted = any(hit.first == number.last + 1 for hit in text.find("number/counted") + text.find("span"))
        if old or (led and not counted and not _slash_ten(text, number)):
            yield Measured("age_years", number.value, number.first, number.last)


def _weeks(text: Text, numbers: list[Number], card: Reading) -> Iterator[Measured]:
    units = {hit.first: hit for hit in text.find("span/week") + text.find("span/month")}
    for number in numbers:
        unit = units.get(number.last + 1)
        if unit is None or any(hit.first == unit.last + 1 for hit in text.find("timing/ago")):
            continue
        value = number.value * (1 if unit.name == "week" else 4.3)
        if _fits(card, value):
            yield Measured("weeks", value, number.first, unit.last)

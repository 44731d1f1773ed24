"""Effort marks of the trade: `@8`, `RPE 8`, `2 RIR`, `@70 %`, `@20 kg` → reps left, share of the best single, or load.

RIR is the number of clean reps left, RPE the effort out of 10. From 7 up, left = 10 - RPE (Zourdos 2016: 10 = 0 and
9 = 1 read in the abstract, the rest second-hand; Helms 2016 second-hand); below 7 the ranges are common practice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from assistant.values import BadInput

_BY_TENTHS = {10: (0, 0), 9.5: (0, 0), 9: (1, 1), 8.5: (1, 2), 8: (2, 2), 7.5: (2, 3), 7: (3, 3)}
_MODERATE, _LIGHT = (4, 6), None  # 5 to 6 of 10; 3 to 4 of 10 is light: no number of reps left can be told
_N = r"(\d+(?:\.\d+)?)"
_SPAN = rf"{_N}(?:\s*-\s*{_N})?"
_LEFT = re.compile(rf"@?\s*(?:{_SPAN}\s*rir\b|rir\s*:?\s*{_SPAN}(?![\d.]))")
_EFFORT = re.compile(rf"(?:@\s*(?:rpe\s*)?|\brpe\s*:?\s*){_N}(?:\s*-\s*{_N})?(?!\s*(?:%|kg|lb|[\d.]))|\b{_N}\s*rpe\b")
_SHARE = re.compile(rf"@\s*{_N}\s*%")
_LOAD = re.compile(rf"@\s*{_N}\s*kg\b")


@dataclass(frozen=True)
class Effort:
    """One mark as it was written: reps left (low, high), share of the best single (0 to 1), or a load in kg."""

    mark: str
    left: tuple[int, int] | None = None
    share: float | None = None
    load_kg: float | None = None


def left_at(rpe: float) -> tuple[int, int] | None:
    """Clean reps left (low, high) at an effort of `rpe` out of 10; None where it is too light to say.

    Raises BadInput outside 3 to 10 and between the half steps.

    >>> left_at(8), left_at(8.5), left_at(6), left_at(3)
    ((2, 2), (1, 2), (4, 6), None)
    """
    if rpe in _BY_TENTHS:
        return _BY_TENTHS[rpe]
    if 5 <= rpe < 7:
        return _MODERATE
    if 3 <= rpe < 5:
        return _LIGHT
    raise BadInput(f"An effort of {rpe:g} cannot be used: write 3 to 10 in half steps from 7 up, such as 8 or 8.5.")


def find_effort(text: str) -> Effort | None:
    """The first effort mark in `text`, or None; raises BadInput for a mark outside its scale.

    >>> find_effort("3x8 @8").left, find_effort("2-3 RIR").left, find_effort("@70 %").share, find_effort("@20 kg").load_kg
    ((2, 2), (2, 3), 0.7, 20.0)
    """
    bare = text.lower().replace("–", "-")
    if found := _SHARE.search(bare):
        return Effort(found[0], share=_within(float(found[1]), found[0]) / 100)
    if found := _LOAD.search(bare):
        return Effort(found[0], load_kg=float(found[1]))
    if found := _LEFT.search(bare):
        low, high = (float(n) for n in _ends(found.groups()))
        return Effort(found[0].strip(), left=(int(low), int(high)))
    if found := _EFFORT.search(bare):
        hard, easy = sorted((left_at(float(n)) for n in _ends(found.groups())), key=lambda left: left or (99, 99))
        return Effort(found[0].strip(), left=(hard[0], easy[1]) if hard and easy else None)
    return None


def effort_words(effort: Effort) -> str:
    """The mark with what it means, as it is kept beside a dose; `find_effort` reads it back.

    >>> effort_words(find_effort("RPE 8.5")), effort_words(find_effort("@20 kg"))
    ('rpe 8.5 (1-2 left)', '@20 kg')
    """
    if effort.left is None:
        return effort.mark
    low, high = effort.left
    return f"{effort.mark} ({low} left)" if low == high else f"{effort.mark} ({low}-{high} left)"


def _ends(groups: tuple[str | None, ...]) -> tuple[str, str]:
    """The two numbers of a span; a single number is both."""
    said = [number for number in groups if number]
    return said[0], said[-1]


def _within(percent: float, mark: str) -> float:
    if not 0 < percent <= 100:
        raise BadInput(f"'{mark}' is no share of the best single: write 1 to 100 %.")
    return percent

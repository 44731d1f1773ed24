"""Tempo: four counts in seconds, always kept as lowering - pause long - lifting - pause short.

Some coaches write lift - top pause - lowering - bottom pause instead. Which order is meant is decided by the first of
these that says so: words beside it, the place of an X, the coach's other tempos, the exercise's own tempo written the
same way, more seconds in place one, two or more seconds more in place three; otherwise lowering first is assumed. When
one of the last two decided, it is said in one line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from assistant.values import BadInput

Order = Literal["lowering", "lift"]
FAST_S = 1  # X, and 0 in the lifting place, count one second in all sums (trade notation; own choice)
LONG_LOWERING_S = 4  # from here on, with an X after it, the way up is not part of the work
SLOW_LIFT_S = 2  # from here on a lift is slow on purpose

_COUNT = r"(?:\d+|[xX])"
_SPACED = re.compile(rf"({_COUNT})\s*[-/.:–]\s*({_COUNT})\s*[-/.:–]\s*({_COUNT})(?:\s*[-/.:–]\s*({_COUNT}))?")
_JOINED = re.compile(r"([\dxX])([\dxX])([\dxX])([\dxX])?")
_WORDS: tuple[tuple[str, Order], ...] = (
    (r"\blower(?:ing)? first\b|\bdown first\b|\bdown\b.*\bup\b|\beccentric first\b", "lowering"),
    (r"\blift(?:ing)? first\b|\bup first\b|\bup\b.*\bdown\b|\bconcentric first\b", "lift"),
)


@dataclass(frozen=True)
class Tempo:
    """A tempo in the house order, how the order was decided, and what to say where that was not certain."""

    counts: tuple[str, str, str, str]
    by: str  # "words", "X", "other tempos", "card", "slow lowering", "slow lift", "assumed", "same either way"
    says: str = ""

    @property
    def text(self) -> str:
        """The notation: `3-0-1-0`."""
        return "-".join(self.counts)


def read_tempo(text: str, words: str = "", others: Order | None = None, card: str | None = None) -> Tempo:
    """The tempo written in `text`; `words` stand beside it, `others` is the order of the coach's other tempos.

    `card` is the exercise's own tempo: with a slow lift there, a long place three is no sign of the other order.
    Raises BadInput when it is no tempo.

    >>> read_tempo("40X0").text, read_tempo("X-0-3-1").text, read_tempo("1-0-3-0").says
    ('4-0-X-0', '3-1-X-0', "tempo '1-0-3-0' read as lift first: 3 s down, 1 s up; check the order")
    """
    written = _counts(text)
    order, by = _order(written, words.lower(), others, card)
    if order == "lowering":
        return Tempo(written, by, _unsure(text, "lowering first", written[0], written[2]) if by == "assumed" else "")
    lift, top, lowering, bottom = written
    says = _unsure(text, "lift first", lowering, lift) if by == "slow lift" else ""
    return Tempo((lowering, bottom, lift, top), by, says)


def order_shown(text: str, card: str | None = None) -> Order | None:
    """The order that a tempo shows beyond doubt, or None.

    >>> order_shown("4-0-1-0"), order_shown("X-0-3-0"), order_shown("2-0-2-0")
    ('lowering', 'lift', None)
    """
    order, by = _order(_counts(text), "", None, card)
    return order if by in ("X", "slow lowering") else None


def seconds(count: str) -> int:
    """A count as seconds; X counts as one."""
    return FAST_S if count == "X" else int(count)


def lift_s(count: str) -> int:
    """The lifting count as seconds; X and 0 both mean as fast as control allows and count as one.

    >>> lift_s("0"), lift_s("X"), lift_s("3")
    (1, 1, 3)
    """
    return FAST_S if count == "0" else seconds(count)


def lowering_only(tempo: str | None) -> bool:
    """Whether a tempo in the house order is for lowering alone: four seconds or more down, then up with help (X).

    >>> lowering_only("5-0-X-1"), lowering_only("2-0-X-0"), lowering_only(None)
    (True, False, False)
    """
    down, _, lift, _ = _counts(tempo) if tempo else ("0", "0", "0", "0")
    return lift == "X" and seconds(down) >= LONG_LOWERING_S


def _unsure(text: str, order: str, down: str, up: str) -> str:
    return f"tempo '{text.strip()}' read as {order}: {down} s down, {up} s up; check the order"


def _counts(text: str) -> tuple[str, str, str, str]:
    bare = text.strip()
    found = _SPACED.fullmatch(bare) or _JOINED.fullmatch(bare)
    if not found:
        raise BadInput(f"'{bare}' is not a tempo: write four counts, lowering first, such as 3-0-1-0 or 30X0.")
    a, b, c, d = ((count or "0").upper() for count in found.groups())
    return (a, b, c, d)


def _order(counts: tuple[str, str, str, str], words: str, others: Order | None, card: str | None) -> tuple[Order, str]:
    for pattern, order in _WORDS:
        if re.search(pattern, words):
            return order, "words"
    if "X" in (counts[0], counts[2]) and counts[0] != counts[2]:
        return ("lowering" if counts[2] == "X" else "lift"), "X"
    if others:
        return others, "other tempos"
    if card and _counts(card) == counts:
        return "lowering", "card"
    first, third = seconds(counts[0]), seconds(counts[2])
    if first > third:
        return "lowering", "slow lowering"
    if third >= first + 2 and not (card and seconds(_counts(card)[2]) >= SLOW_LIFT_S):
        return "lift", "slow lift"
    same = first == third and counts[1] == counts[3]
    return "lowering", "same either way" if same else "assumed"

"""From the best reps at one share of body weight to the reps at another: two equations, their range, its fit to a card.

Both equations were made for bars and plates; on a body they are within about two reps or a quarter, whichever is more.
"""

from __future__ import annotations

import math
from collections.abc import Mapping


def epley(best: float, share: float, new_share: float, numbers: Mapping[str, float]) -> float:
    """Reps at `new_share` for `best` reps at `share`: M = s(1 + r/k), r2 = k(M/t - 1).

    >>> round(epley(10, 0.64, 0.55, {"epley": 30}), 1)
    16.5
    """
    most = share * (1 + best / numbers["epley"])
    return numbers["epley"] * (most / new_share - 1)


def wathan(best: float, share: float, new_share: float, numbers: Mapping[str, float]) -> float:
    """Reps at `new_share` after Wathan; infinite where the curve has no answer (more than about thirty)."""
    floor, span, fall = (numbers[name] for name in ("wathan_floor", "wathan_span", "wathan_fall"))
    most = 100 * share / (floor + span * math.exp(-fall * best))
    bracket = (100 * new_share / most - floor) / span
    return math.inf if bracket <= 0 else -math.log(bracket) / fall


def reps_between(best: int, share: float, new_share: float, numbers: Mapping[str, float]) -> tuple[int, int]:
    """The whole reps of the smaller and of the larger answer, at least 0 and at most the cap, nothing taken off.

    >>> n = {"epley": 30, "wathan_floor": 48.8, "wathan_span": 53.8, "wathan_fall": 0.075, "cap": 30}
    >>> reps_between(10, 64, 55, n), reps_between(12, 64, 41, n)
    ((16, 17), (30, 30))
    """
    both = sorted(equation(best, share, new_share, numbers) for equation in (epley, wathan))
    low, high = (max(0, math.floor(min(reps, numbers["cap"]))) for reps in both)
    return low, high


def spread(reps: int, numbers: Mapping[str, float]) -> int:
    """How many reps more or fewer are still normal: two, or a quarter, whichever is more.

    >>> spread(4, {"spread_reps": 2, "spread_share": 0.25}), spread(15, {"spread_reps": 2, "spread_share": 0.25})
    (2, 4)
    """
    return max(int(numbers["spread_reps"]), math.ceil(reps * numbers["spread_share"]))

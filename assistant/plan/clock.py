"""How long a dose takes: work and clock time in seconds, as a low and a high end."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.plan.tempo import read_tempo, seconds
from assistant.values import Dose

NONE_WRITTEN = "2-0-1-0"  # the tempo when none is written (trade notation N10)


@dataclass(frozen=True)
class Clock:
    """Seconds under load in one set, in all sets, and with the rests between the sets."""

    set_s: tuple[int, int]
    work_s: tuple[int, int]
    total_s: tuple[int, int]


def rep_s(tempo: str | None) -> int:
    """Seconds of one rep at `tempo` (kept order; X counts one second).

    >>> rep_s("2-0-1-1"), rep_s("3-1-X-0"), rep_s(None)
    (4, 5, 3)
    """
    return sum(seconds(count) for count in read_tempo(tempo or NONE_WRITTEN, others="lowering").counts)


def clock(dose: Dose) -> Clock | None:
    """How long `dose` takes, without the time to set up; None where it is in metres or has no numbers.

    >>> clock(Dose(3, reps=(8, 12), tempo="2-0-1-1", rest_s=90)).total_s
    (276, 324)
    """
    one = dose.seconds or (dose.reps and tuple(n * rep_s(dose.tempo) for n in dose.reps))
    if not one:
        return None
    sides = 2 if dose.side else 1
    low, high = one[0] * sides, one[1] * sides
    rests = (dose.sets - 1) * (dose.rest_s or 0)
    work = (dose.sets * low, dose.sets * high)
    return Clock((low, high), work, (work[0] + rests, work[1] + rests))

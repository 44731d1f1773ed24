"""How long a dose takes: work and clock time in seconds, as a low and a high end."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.plan.tempo import lift_s, read_tempo, seconds
from assistant.values import Dose

NONE_WRITTEN = "2-0-1-0"  # the tempo when none is written (trade notation N10)


@dataclass(frozen=True)
class Clock:
    """Seconds under load in one set, in all sets, and with the rests between the sets."""

    set_s: tuple[int, int]
    work_s: tuple[int, int]
    total_s: tuple[int, int]


def rep_s(tempo: str | None) -> int:
    """Seconds of one rep at `tempo` (kept order; X, and 0 in the lifting place, count one second).

    >>> rep_s("2-0-1-1"), rep_s("3-1-X-0"), rep_s("3-0-0-0"), rep_s(None)
    (4, 5, 4, 3)
    """
    down, stretched, up, top = read_tempo(tempo or NONE_WRITTEN, others="lowering").counts
    return seconds(down) + seconds(stretched) + lift_s(up) + seconds(top)


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


def pair_clock(first: Dose, second: Dose, inside_s: int, after_s: int) -> tuple[int, int] | None:
    """Seconds (low, high) of two doses done in turn: `inside_s` between the two, `after_s` after each round.

    Where one has more sets, the sets left over follow, `after_s` apart. None where one has no clock.

    >>> row, push = Dose(3, reps=(8, 8), tempo="2-0-1-1"), Dose(3, reps=(10, 10), tempo="2-0-1-0")
    >>> pair_clock(row, push, inside_s=30, after_s=90)
    (456, 456)
    """
    one, two = clock(first), clock(second)
    if one is None or two is None:
        return None
    rounds, more = min(first.sets, second.sets), max(first.sets, second.sets)
    left = one if first.sets > second.sets else two
    rests = rounds * inside_s + (more - 1) * after_s
    low, high = (rounds * (one.set_s[end] + two.set_s[end]) + (more - rounds) * left.set_s[end] for end in (0, 1))
    return low + rests, high + rests


def apart_clock(first: Dose, second: Dose) -> tuple[int, int] | None:
    """Seconds (low, high) of two doses one after the other; the first one's rest stands between them.

    >>> row = Dose(3, reps=(8, 8), tempo="2-0-1-1", rest_s=90)
    >>> apart_clock(row, Dose(3, reps=(10, 10), tempo="2-0-1-0", rest_s=90))
    (636, 636)
    """
    one, two = clock(first), clock(second)
    if one is None or two is None:
        return None
    between = first.rest_s or 0
    return one.total_s[0] + between + two.total_s[0], one.total_s[1] + between + two.total_s[1]

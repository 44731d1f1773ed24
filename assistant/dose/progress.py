"""Going forward: the ready line, 2-for-2, the next load, the next session, the next small change."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from assistant.dose.case import STRAIGHT, Case, used
from assistant.plan import ReadyLine, read_ready, rep_s
from assistant.rulebook import Rulebook
from assistant.values import BadInput, Dose, Reason

Numbers = Mapping[str, float]


@dataclass(frozen=True)
class Ready:
    """Whether the next step is due, the sentence for the follower, and the rule. `due` is None where too little is known."""

    due: bool | None
    says: str
    because: Reason


def ready(
    line: ReadyLine, sessions: Sequence[Sequence[int]], book: Rulebook, next_straight_arm: float = 0,
    quiet_weeks: float | None = None,
) -> Ready:  # fmt: skip
    """Whether `line` is met: every written set at its number in as many sessions running as it says, the last ones counting.

    `sessions` are the reps, seconds or metres of each set, the oldest session first; `quiet_weeks` is asked for where the
    next step loads straight arms (its `straight_arm_load` in `next_straight_arm`).

    >>> from assistant.rulebook import load
    >>> line = ReadyLine(4, 8)
    >>> [ready(line, done, load()).due for done in ([[8, 8, 8, 8], [9, 8, 8, 8]], [[8, 8, 8, 8]], [[8, 8, 7, 6]], [])]
    [True, False, False, None]
    """
    met = [len(sets) >= line.sets and min(sets) >= line.number for sets in sessions if sets]
    if not met:
        return _as(book, "ready-unknown", None, sessions=line.sessions)
    if not met[-1]:
        return _as(book, "ready-not-yet", False, best=sessions[-1][-1], number=line.number)
    running = next((n for n, ok in enumerate(reversed(met)) if not ok), len(met))
    if running < line.sessions:
        return _as(book, "ready-once", False)
    waits = book.doserules["ready-quiet-weeks"].numbers
    if next_straight_arm >= waits["from_straight_arm_load"] and (quiet_weeks or 0) < waits["weeks"]:
        return _as(book, "ready-quiet-weeks", False, weeks=f"{waits['weeks']:g}")
    return _as(book, "ready-yes", True, sessions=line.sessions)


def not_yet(dose: Dose, case: Case) -> Dose:
    """`dose` of a step up cut to one set where the best of the asked exercise is below its ready line."""
    try:
        line = read_ready(case.asked.ready)
    except BadInput:  # a card without a next step has no line to miss
        return dose
    if case.best is None or case.best >= line.number or line.unit == "m":
        return dose
    sets = int(case.book.doserules["half-step"].numbers["new_sets"])
    words = {"best": case.best, "number": line.number}
    return used(replace(dose, how=""), case.book, "ready-short", words, sets=sets)


def quiet_weeks(dose: Dose, case: Case) -> Dose:
    """`dose` of a step up with the wait that straight arms need, where the step loads them more than before."""
    numbers = case.book.doserules["ready-quiet-weeks"].numbers
    before = case.asked.asks.get(STRAIGHT, 0)
    if case.rated(STRAIGHT) < max(numbers["from_straight_arm_load"], before):
        return dose
    return used(dose, case.book, "ready-quiet-weeks", {"weeks": f"{numbers['weeks']:g}"})


def raise_load(goal: int, last_sets: Sequence[int], numbers: Numbers) -> bool:
    """Whether the load goes up: the last sets of the last sessions are all two or more over the goal.

    >>> two = {"over": 2, "sessions": 2}
    >>> raise_load(8, (10, 10), two), raise_load(8, (10, 9), two), raise_load(8, (10,), two)
    (True, False, False)
    """
    running = int(numbers["sessions"])
    return len(last_sets) >= running and all(reps >= goal + numbers["over"] for reps in last_sets[-running:])


def load_steps(load_kg: float, steps_kg: Sequence[float], numbers: Numbers) -> tuple[float, ...]:
    """Those of `steps_kg` that add 2 to 10 % to `load_kg`; empty where every step is too big or too small.

    >>> load_steps(12, (0.5, 1, 1.5), {"least_share": 0.02, "most_share": 0.1})
    (0.5, 1)
    """
    low, high = load_kg * numbers["least_share"], load_kg * numbers["most_share"]
    return tuple(step for step in steps_kg if low <= step <= high)


def next_session(span: tuple[int, int], left: int, numbers: Numbers) -> tuple[int, int] | None:
    """Reps of the session after a start at the low end of `span`, by the clean reps left; None = one step easier.

    >>> rule = {"middle_from_left": 4, "easier_to_left": 1}
    >>> next_session((6, 12), 4, rule), next_session((6, 12), 3, rule), next_session((6, 12), 1, rule)
    ((9, 9), (6, 6), None)
    """
    if left <= numbers["easier_to_left"]:
        return None
    middle = math.ceil(sum(span) / 2)
    return (middle, middle) if left >= numbers["middle_from_left"] else (span[0], span[0])


def deload_due(weeks: float, signs: int, numbers: Numbers, beginner: bool = False) -> bool:
    """Whether an easy week is due: after six to eight weeks (not for beginners), or on two of its signs at any time.

    >>> rule = {"weeks_low": 6, "weeks_high": 8, "signs": 2}
    >>> deload_due(8, 0, rule), deload_due(8, 0, rule, beginner=True), deload_due(3, 2, rule), deload_due(6, 1, rule)
    (True, False, True, True)
    """
    if signs >= numbers["signs"] or (weeks >= numbers["weeks_high"] and not beginner):
        return True
    return not beginner and signs > 0 and weeks >= numbers["weeks_low"]


def harder_by_one(dose: Dose, own: Dose, numbers: Numbers) -> Dose | None:
    """`dose` made harder by one change: reps to the card's ceiling, then a second more down, then a pause; None = next step.

    >>> rule = {"lowering_s": 1, "pause_low_s": 1, "most_rep_s": 8}
    >>> harder_by_one(Dose(3, reps=(8, 8), tempo="2-0-1-0"), Dose(3, reps=(6, 12), tempo="2-0-1-0"), rule).reps
    (12, 12)
    """
    if not dose.reps or not own.reps:
        return None
    if dose.reps[1] < own.reps[1]:
        return replace(dose, reps=(own.reps[1], own.reps[1]))
    down, pause, lift, top = (dose.tempo or own.tempo or "2-0-1-0").split("-")
    was = (own.tempo or "2-0-1-0").split("-")
    slower = [str(int(down) + int(numbers["lowering_s"])) if down != "X" else down, pause, lift, top]
    paused = [down, str(int(pause) + int(numbers["pause_low_s"])) if pause != "X" else pause, lift, top]
    for tempo, done in ((slower, down != was[0]), (paused, pause != was[1])):
        if not done and rep_s("-".join(tempo)) <= numbers["most_rep_s"]:
            return replace(dose, tempo="-".join(tempo))
    return None


def next_week_hold(seconds: int, sets: int, numbers: Numbers, sore: bool = False) -> int:
    """Seconds a hold on straight arms in the next week: a tenth more at most, all sets below the session's end.

    >>> rule = {"week_share": 0.1, "most_total_s": 80, "sore_total_s": 40}
    >>> next_week_hold(10, 4, rule), next_week_hold(20, 4, rule), next_week_hold(10, 4, rule, sore=True)
    (11, 20, 9)
    """
    most = numbers["most_total_s"] if not sore else numbers["sore_total_s"] - 1
    return min(math.floor(seconds * (1 + numbers["week_share"]) + 1e-9), int(most) // sets)


def _as(book: Rulebook, rule: str, due: bool | None, **words: object) -> Ready:
    card = book.doserules[rule]
    says = card.how.format(**{**card.numbers_in_words, **words})
    return Ready(due, says, card.reason(says=says))

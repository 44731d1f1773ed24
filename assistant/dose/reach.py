"""What somebody is known to reach, made into a dose: his best of the option itself, or reckoned from the asked exercise."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.dose.case import GRIP, HAND, HEAD_DOWN, STRAIGHT, Case, used
from assistant.dose.loads import shares
from assistant.dose.pair import reps_between, spread
from assistant.dose.split import cluster
from assistant.dose.zero import out_of_reach
from assistant.plan import rep_s
from assistant.values import Dose


def own_best(case: Case) -> Dose | None:
    """What he can do of the option itself, less what stays in the tank; None where that is not known."""
    best, left = case.can.get(case.option.id), kept_back(case)
    if best is None or not (case.own.reps or case.own.seconds):
        return None
    fitted = fit(case, (best - left, best - left))
    if not fitted:
        return _below_floor(case, (best, best), (best - left, best - left))
    return used(fitted, case.book, "own-best", {"best": best, "left": left}, sets=sets_of(case))


def reckoned(case: Case) -> Dose | None:
    """From the pair of equations; None where the loads cannot be compared or the best is unknown or too large."""
    both = expected(case)
    if both is None:
        return None
    left = max(int(case.book.doserules["rep-max-pair"].numbers["left"]), kept_back(case))
    wanted = (both[0] - left, both[1] - left)
    fitted = fit(case, wanted)
    if not fitted:
        return _below_floor(case, both, wanted)
    return _said(replace(fitted, sets=sets_of(case)), case, wanted, left)


def expected(case: Case) -> tuple[int, int] | None:
    """The reps of the option (smaller and larger answer) before any are kept back, or None where none can be computed."""
    numbers = case.book.doserules["rep-max-pair"].numbers
    best, both = case.reach, shares(case)
    if not best or best > numbers["most_input"] or not both or not case.asked_own.reps or not case.own.reps:
        return None
    return reps_between(best, *both, numbers)


def fit(case: Case, wanted: tuple[int, int]) -> Dose | None:
    """`wanted` fitted to the card: inside it stands, above it the ceiling slower, below it None (smaller sets)."""
    name = "reps" if case.own.reps else "seconds"
    low, high = getattr(case.own, name)
    if wanted[1] < low:
        return None
    if wanted[0] <= high:
        return replace(case.own, **{name: (max(low, wanted[0]), max(low, min(high, wanted[1])))})
    ceiling = replace(case.own, **{name: (high, high)})
    if name == "seconds" or not case.own.tempo:
        return ceiling
    return used(ceiling, case.book, "fit-to-card", tempo=_slower(case.own.tempo, case))


def kept_back(case: Case) -> int:
    """Reps that stay in the tank: two; three upside down, on straight arms and on one supporting arm."""
    numbers = case.book.doserules["left-in-tank"].numbers
    careful = (
        case.rated(STRAIGHT) >= numbers["careful_straight_arm_load"]
        or case.rated(HEAD_DOWN) >= numbers["careful_inversion"]
        or max(case.rated(HAND), case.rated(GRIP)) > numbers["careful_hand_share"]
    )
    return int(numbers["careful" if careful else "normal"])


def sets_of(case: Case) -> int:
    """One set fewer than written and at most the card's; a plan of up to three keeps its sets."""
    if not case.written:
        return case.own.sets
    numbers = case.book.doserules["start-rule"].numbers
    kept = min(case.written.sets, int(numbers["keeps_sets"]))
    return max(min(case.own.sets, case.written.sets - int(numbers["sets_fewer"])), kept)


def _below_floor(case: Case, both: tuple[int, int], wanted: tuple[int, int]) -> Dose:
    """Less than the card's floor: none at all is out of reach, a step up starts with one set, the rest in small sets.

    Who gets one or two, none of them to spare, is not told that they are out of reach: those are sets of one."""
    if both[0] < 1:
        return out_of_reach(case)
    if case.swap.kind == "harder":
        span = (max(1, wanted[0]), max(1, wanted[1]))
        sets = int(case.book.doserules["half-step"].numbers["new_sets"])
        return used(case.own, case.book, "half-step", sets=sets, **{_amount(case): span})
    rule = "split-reps" if case.own.reps else "split-holds"
    numbers, floor = case.book.doserules[rule].numbers, getattr(case.own, _amount(case))[0]
    sets, part = cluster(sets_of(case) * floor, both[0], numbers)
    return used(case.own, case.book, rule, sets=sets, **{_amount(case): (part, part)}, rest_s=int(numbers["rest_s"]))


def _said(dose: Dose, case: Case, wanted: tuple[int, int], left: int) -> Dose:
    """`dose` with the reckoned number: "about" the range, "at least" the smaller where the larger is beyond the equations."""
    numbers = case.book.doserules["rep-max-pair"].numbers
    low, high = wanted
    span = f"{low}–{high}" if low < high else str(low)
    words = {"best": case.reach, "asked": case.asked.name.split(" (")[0].lower(), "left": left, "low": low,
             "span": span, "spread": spread(high, numbers)}  # fmt: skip
    if high + left <= numbers["most_input"]:
        return used(dose, case.book, "rep-max-pair", words)
    pair = case.book.reason("doserule", "rep-max-pair")
    return used(replace(dose, because=(*dose.because, pair)), case.book, "rep-max-at-least", words)


def _slower(tempo: str, case: Case) -> str:
    """Half as slow again on the way down, as far as a rep stays short enough."""
    down, *rest = tempo.split("-")
    if down == "X":
        return tempo
    most = int(case.book.doserules["same-time"].numbers["most_rep_s"]) - rep_s(tempo) + int(down)
    return "-".join([str(max(int(down), min(int(down) + math.ceil(int(down) / 2), most))), *rest])


def _amount(case: Case) -> str:
    return "reps" if case.own.reps else "seconds"

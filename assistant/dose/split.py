"""A best below what is written: the same total in more and smaller sets, or in shorter pieces."""

from __future__ import annotations

import math
from collections.abc import Mapping

from assistant.dose.case import Case, used
from assistant.dose.zero import out_of_reach
from assistant.values import Dose


def cluster(total: int, best: int, numbers: Mapping[str, float]) -> tuple[int, int]:
    """Sets and reps (or seconds) that make up `total` in parts of 0.7 of `best`, within the most sets allowed.

    >>> cluster(12, 3, {"part": 0.7, "most_sets": 10}), cluster(80, 12, {"part": 0.7, "most_sets": 10, "least_s": 3})
    ((6, 2), (10, 8))
    """
    part = max(int(numbers.get("least_s", 1)), math.floor(numbers["part"] * best + 1e-9))
    return min(math.ceil(total / part), int(numbers["most_sets"])), part


def enough(best: int, wanted: int, numbers: Mapping[str, float]) -> bool:
    """Whether `best` is at least a third of what is `wanted`: below that an easier step is the better way."""
    return best >= wanted * numbers["least_share"] - 1e-3


def split_reps(dose: Dose, case: Case) -> Dose:
    """Small sets with one left; where the best is not known, half the reps and more sets. A hold goes to pieces."""
    if dose.seconds and not dose.moving:
        return split_holds(dose, case)
    return _split(dose, case, "reps", "split-reps") if dose.reps and case.same else dose


def split_holds(dose: Dose, case: Case) -> Dose:
    """Short pieces of 0.7 of the best hold; where the best is not known, half the time and more sets."""
    return _split(dose, case, "seconds", "split-holds") if dose.seconds and not dose.moving and case.same else dose


def _split(dose: Dose, case: Case, what: str, rule: str) -> Dose:
    low, high = getattr(dose, what)
    wanted = low if case.written else (low + high) // 2  # without a plan, the middle of the card's range
    best, numbers = case.best, case.book.doserules[rule].numbers
    if best is None:
        return _halved(dose, case, f"{rule}-unknown", what)
    if best == 0:
        return out_of_reach(case)
    if best >= wanted:
        return _below_best(dose, case, what, best - int(numbers["kept_back"]))
    if not enough(best, wanted, numbers):
        return _below_a_third(dose, case, what)
    sets, part = cluster(dose.sets * wanted, best, numbers)
    return used(dose, case.book, rule, sets=sets, **{what: (part, part)}, rest_s=int(numbers["rest_s"]))


def short_sets(dose: Dose, case: Case) -> Dose:
    """Half the reps or half the time and up to twice the sets, because the form goes first."""
    if not case.same:
        return dose
    return _halved(dose, case, "short-sets", "seconds" if dose.seconds else "reps")


def _below_best(dose: Dose, case: Case, what: str, most: int) -> Dose:
    low, high = getattr(dose, what)
    span = (min(low, max(1, most)), max(1, min(high, most)))
    return used(dose, case.book, "own-best", {"best": case.best, "left": case.best - span[1]}, **{what: span})


def _below_a_third(dose: Dose, case: Case, what: str) -> Dose:
    """So far below what is written that only an easier step brings full sets: the sets stay, each within the best."""
    numbers, best = case.book.doserules["below-a-third"].numbers, case.best or 0
    least = min(best, int(numbers["least_s"])) if what == "seconds" else 1
    part = max(least, math.floor(numbers["part"] * best + 1e-9))
    rest_s = max(int(numbers["rest_s"]), dose.rest_s or 0)
    return used(dose, case.book, "below-a-third", {"best": best}, **{what: (part, part)}, rest_s=rest_s)


def _halved(dose: Dose, case: Case, rule: str, what: str) -> Dose:
    span = getattr(dose, what)
    if not span:
        return dose
    numbers = case.book.doserules[rule].numbers
    least = int(numbers.get("least_s", 1)) if what == "seconds" else 1
    half = tuple(max(least, math.ceil(n * numbers["part"])) for n in span)
    sets = max(dose.sets, min(int(dose.sets * numbers["times_sets"]), int(numbers["most_sets"])))
    rest_s = max(int(numbers["rest_s"]), (dose.rest_s or 0) // 2)
    return used(dose, case.book, rule, sets=sets, **{what: half}, rest_s=rest_s)

"""Upper ends that no dose passes: straight-arm holds, sore joints under straight arms, holds under strain."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.dose.case import STRAIGHT, STRAIN, Case, used
from assistant.values import Dose


def capped(dose: Dose, case: Case) -> Dose:
    """`dose` with its holds cut to what straight arms, sore joints and strain allow."""
    if not dose.seconds or dose.moving:
        return dose
    if _sore(case, STRAIGHT):
        dose = _under(dose, case, "straight-arm-sore", strictly=True)
    dose = _under(dose, case, "straight-arm")
    return _short_breath(dose, case) if _sore(case, STRAIN) else dose


def _under(dose: Dose, case: Case, rule: str, strictly: bool = False) -> Dose:
    """Each hold and all holds together below the rule's ends; the sets stay."""
    numbers = case.book.doserules[rule].numbers
    if case.rated(STRAIGHT) < numbers["from_load"]:
        return dose
    total = int(numbers["most_total_s"]) - (1 if strictly else 0)
    sides = 2 if dose.side else 1
    most = min(int(numbers.get("most_s", total)), total // (dose.sets * sides))
    low, high = dose.seconds
    if high <= most:
        return dose
    least = int(numbers.get("least_s", 1))
    high = max(least, most)
    low = min(low, max(least, math.floor(high * numbers["part"]))) if "part" in numbers else min(low, high)
    return used(dose, case.book, rule, {"most_total_s": int(numbers["most_total_s"])}, seconds=(low, high))


def _short_breath(dose: Dose, case: Case) -> Dose:
    numbers = case.book.doserules["count-aloud"].numbers
    most, least = int(numbers["most_s"]), int(numbers["least_s"])
    if not case.rated(STRAIN) or dose.seconds[1] <= most:
        return dose
    sets = min(int(numbers["most_sets"]), max(dose.sets, math.ceil(dose.sets * dose.seconds[0] / most)))
    return used(replace(dose, how=""), case.book, "count-aloud", sets=sets, seconds=(min(least, dose.seconds[0]), most))


def _sore(case: Case, quantity: str) -> bool:
    """Whether a limit of this follower restricts `quantity`: the joint complains, or straining is out."""
    cards = (case.book.limits[name] for name in case.limits if name in case.book.limits)
    return any(quantity in row for card in cards for row in card.restricts)

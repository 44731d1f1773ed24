"""What limits do to a dose: rule id -> the function that carries it out. A limit card names it as `changes_dose`."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace

from assistant.dose.case import Case, number, used
from assistant.dose.easing import eased
from assistant.dose.loads import near
from assistant.dose.split import short_sets, split_holds, split_reps
from assistant.plan import rep_s
from assistant.rulebook.cards import Bound
from assistant.values import Dose


def fewer_sets(dose: Dose, case: Case) -> Dose:
    """Half the sets at the same effort."""
    return _share(dose, case, "fewer-sets")


def two_thirds_sets(dose: Dose, case: Case) -> Dose:
    """Two thirds of the sets, two left."""
    return _share(dose, case, "two-thirds-sets")


def sore_muscles(dose: Dose, case: Case) -> Dose:
    """Half the sets, easy, only if it fades."""
    return _share(dose, case, "sore-muscles")


def deload(dose: Dose, case: Case) -> Dose:
    """An easy week: half the sets of the same step, four left."""
    return _share(dose, case, "deload")


def sore_joint(dose: Dose, case: Case) -> Dose:
    """Half the hard sets where the exercise stays, or one of the same load that does not spare the joint."""
    return _share(dose, case, "sore-joint") if (case.same or near(case)) and _still_loads(case) else dose


def _still_loads(case: Case) -> bool:
    """Whether the option asks a good part of what the sore joint's limit allows."""
    share = number(case.book, "sore-joint", "keeps_load")
    cards = (case.book.limits[name] for name in case.limits if name in case.book.limits)
    rows = (row for card in cards if card.changes_dose == "sore-joint" for row in card.restricts)
    return any(all(_part(bound, share).holds(case.rated(name)) for name, bound in row.items()) for row in rows)


def _part(bound: Bound, share: float) -> Bound:
    return Bound(how=bound.how, value=bound.value * share)


def weaker_side(dose: Dose, case: Case) -> Dose:
    """The weaker side starts; numbers stay."""
    return used(dose, case.book, "weaker-side")


def slower_first(dose: Dose, case: Case) -> Dose:
    """The asked exercise made harder: slower lowering and a pause in the same time; a hold to the top of its range."""
    if not case.same:
        return dose
    if dose.seconds:
        low, high = case.own.seconds or dose.seconds
        low, high = max(dose.seconds[0], (low + high + 1) // 2), max(dose.seconds[1], high)
        return used(dose, case.book, "longer-hold", {"high": high}, seconds=(low, high))
    if not dose.reps:
        return dose
    numbers = case.book.doserules["slower-first"].numbers
    down, pause, lift, top = (dose.tempo or case.own.tempo or "2-0-1-0").split("-")
    down = max(int(numbers["lowering_s"]), int(down) if down != "X" else 0)
    pause = min(
        int(pause) + int(numbers["pause_s"]), max(0, int(numbers["most_rep_s"]) - rep_s(f"{down}-0-{lift}-{top}"))
    )
    tempo = f"{down}-{pause}-{lift}-{top}"
    floor = min(dose.reps[0], (case.own.reps or dose.reps)[0])
    reps = tuple(max(floor, round(n * rep_s(dose.tempo) / rep_s(tempo))) for n in dose.reps)
    return used(dose, case.book, "slower-first", {"down": down, "pause": f"{pause} s"}, reps=reps, tempo=tempo)


def back_after_break(dose: Dose, case: Case) -> Dose:
    """Week one after a break, by the weeks off; four weeks where they are not said."""
    weeks = weeks_off(case)
    row = break_row(case, number(case.book, "back-after-break", "unsaid_weeks") if weeks is None else weeks)
    numbers = case.book.doserules[row].numbers
    given = replace(dose, because=(*dose.because, case.book.reason("doserule", "back-after-break")))
    if given.reps and numbers["week1"] < 1:  # the lower half of the range for a first week
        given = replace(given, reps=(given.reps[0], sum(given.reps) // 2))
    return used(given, case.book, row, {"left": int(numbers["left"])}, sets=sets_in_week(dose.sets, 1, numbers))


def plain_tempo(dose: Dose, case: Case) -> Dose:
    """Easing, step 0: a written tempo that is slower than the card's own goes first."""
    plain = eased(dose, case.own, 0, case.book)
    return dose if plain is dose else used(dose, case.book, "plain-tempo", tempo=plain.tempo)


def sets_in_week(sets: int, week: int, numbers: dict[str, float]) -> int:
    """Sets in `week` 1 to 3 after a break: half rounds up, two thirds to the nearest, at least one.

    >>> [sets_in_week(4, w, {"week1": 0.5, "week2": 0.6667, "week3": 1}) for w in (1, 2, 3)]
    [2, 3, 4]
    """
    fewer = int(numbers.get("sets_fewer", 0)) if week == 1 else 0
    kept = max(1, math.floor((sets - fewer) * numbers[f"week{week}"] + 0.5))
    return min(kept, int(numbers.get("most_sets", kept)))


def break_row(case: Case, weeks: float) -> str:
    """The id of the row for `weeks` off: the first whose `up_to_weeks` is not below."""
    rows = [card for card in case.book.doserules.values() if "up_to_weeks" in card.numbers]
    fits = [card for card in rows if weeks <= card.numbers["up_to_weeks"]]
    return min(fits, key=lambda card: card.numbers["up_to_weeks"]).id


def weeks_off(case: Case) -> float | None:
    """The weeks named in the message ("off five weeks"), the longest of them, or None."""
    words, units = case.book.doserules["number-words"].numbers, case.book.doserules["weeks-in"].numbers
    ones, named = "|".join(words), "|".join(units)
    found = re.findall(rf"\b(\d+(?:\.\d+)?|{ones})(?: of)?[\s-]+({named})s?\b", case.text.lower())
    return max(((words.get(n) or float(n)) * units[unit] for n, unit in found), default=None)


def _share(dose: Dose, case: Case, rule: str) -> Dose:
    numbers = case.book.doserules[rule].numbers
    sets = max(1, math.floor(dose.sets * numbers["share"] + 0.5))
    left = {"left": int(numbers["left"])} if "left" in numbers else {}
    return used(dose, case.book, rule, left, sets=sets)


def fewest(dose: Dose, case: Case) -> Dose:
    """Where several limits take sets away, the one that leaves the fewest counts, and only that one."""
    cuts = [FEWER[rule](dose, case) for rule in case.changes if rule in FEWER]
    return min((cut for cut in cuts if cut is not dose), key=lambda cut: cut.sets, default=dose)


Change = Callable[[Dose, Case], Dose]
CHANGES: dict[str, Change] = {
    "split-reps": split_reps,
    "split-holds": split_holds,
    "short-sets": short_sets,
    "weaker-side": weaker_side,
    "slower-first": slower_first,
    "plain-tempo": plain_tempo,
}
FEWER: dict[str, Change] = {
    "fewer-sets": fewer_sets,
    "two-thirds-sets": two_thirds_sets,
    "deload": deload,
    "sore-muscles": sore_muscles,
    "sore-joint": sore_joint,
    "back-after-break": back_after_break,
}

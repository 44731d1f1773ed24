"""Where a dose starts: the written one where the exercise stays, else from ability, load or the new card's low end."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.dose.case import HAND, HEAD_DOWN, STRAIGHT, Case, used
from assistant.dose.loads import near, shares
from assistant.dose.pair import reps_between
from assistant.dose.split import cluster
from assistant.plan import rep_s
from assistant.values import Dose

_EASY = {"back-after-break", "sore-muscles", "sore-joint"}  # after these, nothing is reckoned up to the best


def same(case: Case) -> Dose:
    """The written dose with tempo and rest from the card where the plan leaves them out; else the card's own dose."""
    written = case.written
    if not written:
        return _usual(case, case.own.sets)
    own = case.own
    if not (written.reps or written.seconds or written.metres):
        written = replace(own, sets=written.sets, tempo=written.tempo or own.tempo, rest_s=written.rest_s)
    tempo = written.tempo or (own.tempo if written.reps else None)
    rest_s = own.rest_s if written.rest_s is None else written.rest_s
    side = written.side or own.side
    moving = written.moving or (own.moving and bool(written.seconds))
    filled = replace(written, tempo=tempo, rest_s=rest_s, side=side, moving=moving, how="", because=())
    return used(filled, case.book, "as-written")


def start(case: Case) -> Dose:
    """The dose of another exercise: the first of these that knows enough."""
    near_best = () if _EASY & set(case.changes) else (_own_best, _reckoned)
    for way in (_harder, _from_nothing, *near_best, _same_time, _hold_and_reps):
        found = way(case)
        if found:
            return found
    return _low_end(case)


def _harder(case: Case) -> Dose | None:
    if case.swap.kind != "harder":
        return None
    low = {name: (span[0], span[0]) for name in ("reps", "seconds", "metres") if (span := getattr(case.own, name))}
    return used(case.own, case.book, "harder-step", {"left": _left(case)}, **low)


def _from_nothing(case: Case) -> Dose | None:
    """From none at all: five to eight clean ones of the easier step."""
    zero = any(case.book.limits[name].changes_dose == "zero-reps" for name in case.limits if name in case.book.limits)
    if case.swap.kind != "easier" or not (zero or case.best == 0):
        return None
    numbers = case.book.doserules["zero-reps"].numbers
    if not case.own.reps:
        return _usual(case, case.own.sets)
    low, high = max(numbers["low"], case.own.reps[0]), min(numbers["high"], case.own.reps[1])
    low, high = (low, high) if low <= high else case.own.reps
    return used(case.own, case.book, "zero-reps", {"low": int(low), "high": int(high)}, sets=int(numbers["sets"]),
                reps=(int(low), int(high)))  # fmt: skip


def _own_best(case: Case) -> Dose | None:
    """What he can do of the new exercise itself, less what stays in the tank."""
    best, span = case.can.get(case.option.id), case.own.reps or case.own.seconds
    if not best or not span:
        return None
    left = _left(case)
    fitted = _fit(case, (best - left, best - left))
    if not fitted:
        return None
    return used(fitted, case.book, "own-best", {"best": best, "left": left}, sets=_sets(case))


def _reckoned(case: Case) -> Dose | None:
    """The pair of equations, only where both loads can be compared and the best is known and small enough."""
    numbers = case.book.doserules["rep-max-pair"].numbers
    best, both = case.best, shares(case)
    if not best or best > numbers["most_input"] or not both or not case.asked_own.reps or not case.own.reps:
        return None
    left = max(int(numbers["left"]), _left(case))
    low, high = reps_between(best, *both, numbers)
    fitted = _fit(case, (low - left, high - left))
    if not fitted:
        return _small_sets(case, low)
    words = {"best": best, "asked": case.asked.name.split(" (")[0].lower(), "left": left}
    return used(fitted, case.book, "rep-max-pair", words, sets=_sets(case))


def _small_sets(case: Case, best: int) -> Dose | None:
    """Less than the card's floor, but not nothing: the card's floor total in small sets."""
    if best < 1:
        return None
    numbers = case.book.doserules["split-reps"].numbers
    sets, reps = cluster(_sets(case) * case.own.reps[0], best, numbers)
    return used(case.own, case.book, "split-reps", sets=sets, reps=(reps, reps), rest_s=int(numbers["rest_s"]))


def _same_time(case: Case) -> Dose | None:
    """Near the same load: the written time under tension, inside the card's range."""
    written = case.written
    if not written or not near(case) or not written.reps or not case.own.reps:
        return None
    ratio = rep_s(written.tempo or case.asked_own.tempo) / rep_s(case.own.tempo)
    reps = tuple(_clamp(round(n * ratio), case.own.reps) for n in written.reps)
    given = used(case.own, case.book, "same-time", sets=written.sets, reps=reps)
    return used(given, case.book, "one-side") if case.own.side and not written.side else given


def _hold_and_reps(case: Case) -> Dose | None:
    """Near the same load, one held and one moved: reps become seconds and back."""
    written, numbers = case.written, case.book.doserules["hold-and-reps"].numbers
    if not written or not near(case) or case.own.moving or written.moving:
        return None
    if written.reps and case.own.seconds:
        most = numbers["most_straight_s" if case.rated(STRAIGHT) >= 2 else "most_s"]
        one = rep_s(written.tempo or case.asked_own.tempo)
        held = tuple(min(most, n * one * numbers["reps_to_hold"]) for n in written.reps)
        span = tuple(_clamp(round(s), case.own.seconds) for s in held)
        return used(case.own, case.book, "hold-and-reps", sets=written.sets, seconds=span)
    if written.seconds and case.own.reps:
        one = rep_s(case.own.tempo) * numbers["hold_to_reps"]
        span = tuple(_clamp(round(s / one), case.own.reps) for s in written.seconds)
        return used(case.own, case.book, "hold-and-reps", sets=written.sets, reps=span)
    return None


def _low_end(case: Case) -> Dose:
    if not case.written:
        return _usual(case, case.own.sets)
    span = case.own.reps or case.own.seconds or case.own.metres
    if not case.own.reps:  # seconds and metres leave no reps in the tank: the range itself says where to start
        return _usual(case, _sets(case))
    left = max(_left(case), int(case.book.doserules["start-rule"].numbers["left"]))
    return used(case.own, case.book, "start-rule", {"low": span[0], "left": left}, sets=_sets(case))


def _usual(case: Case, sets: int) -> Dose:
    """The card's own range, with what is said about it: reps kept back, a hold left in good form, no force."""
    light = case.book.families[case.option.family].weight == "light"
    rule = "card-dose-light" if light else "card-dose" if case.own.reps else "card-dose-hold"
    return used(case.own, case.book, rule, {"left": _left(case)}, sets=sets)


def _sets(case: Case) -> int:
    """One set fewer than written and at most the card's; a plan of up to three keeps its sets."""
    if not case.written:
        return case.own.sets
    numbers = case.book.doserules["start-rule"].numbers
    kept = min(case.written.sets, int(numbers["keeps_sets"]))
    return max(min(case.own.sets, case.written.sets - int(numbers["sets_fewer"])), kept)


def _left(case: Case) -> int:
    """Reps that stay in the tank: two; three upside down, on straight arms and on one supporting arm."""
    numbers = case.book.doserules["left-in-tank"].numbers
    careful = (
        case.rated(STRAIGHT) >= numbers["careful_straight_arm_load"]
        or case.rated(HEAD_DOWN) >= numbers["careful_inversion"]
        or case.rated(HAND) > numbers["careful_hand_share"]
    )
    return int(numbers["careful" if careful else "normal"])


def _fit(case: Case, wanted: tuple[int, int]) -> Dose | None:
    """`wanted` fitted to the card: inside it stands, above it the ceiling slower, below it None (an easier step)."""
    name = "reps" if case.own.reps else "seconds"
    low, high = getattr(case.own, name)
    if wanted[1] < low:
        return None
    if wanted[0] <= high:
        return replace(case.own, **{name: (max(low, wanted[0]), max(low, min(high, wanted[1])))})
    if name == "seconds" or not case.own.tempo:
        return replace(case.own, **{name: (high, high)})
    down, *rest = case.own.tempo.split("-")
    most = int(case.book.doserules["same-time"].numbers["most_rep_s"])
    slower = (
        min(int(down) + math.ceil(int(down) / 2), most - rep_s(case.own.tempo) + int(down)) if down != "X" else down
    )
    return used(
        replace(case.own, **{name: (high, high)}), case.book, "fit-to-card", tempo="-".join([str(slower), *rest])
    )


def _clamp(n: int, span: tuple[int, int]) -> int:
    return max(span[0], min(span[1], n))

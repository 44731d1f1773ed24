"""Where a dose starts: the written one where the exercise stays, else from ability, load or the new card's low end."""

from __future__ import annotations

from dataclasses import replace

from assistant.dose.case import STRAIGHT, Case, used
from assistant.dose.loads import near
from assistant.dose.progress import not_yet, quiet_weeks
from assistant.dose.reach import expected, kept_back, own_best, reckoned, sets_of
from assistant.dose.rest import rest_for
from assistant.dose.zero import out_of_reach
from assistant.plan import rep_s
from assistant.values import Dose

_EASY = {"back-after-break", "sore-muscles", "sore-joint"}  # after these, nothing is reckoned up to the best


def same(case: Case) -> Dose:
    """The written dose with tempo and rest from the card where the plan leaves them out; else the card's own dose."""
    written = case.written
    if not written:
        return own_best(case) or _usual(case, case.own.sets)
    own = case.own
    if not (written.reps or written.seconds or written.metres):
        written = replace(own, sets=written.sets, tempo=written.tempo or own.tempo, rest_s=written.rest_s)
    tempo = written.tempo or (own.tempo if written.reps else None)
    rest_s = own.rest_s if written.rest_s is None else written.rest_s
    rest_s = rest_for(written.reps[1], case.book) if rest_s is None and written.reps else rest_s
    side = written.side or own.side
    moving = written.moving or (own.moving and bool(written.seconds))
    filled = replace(written, tempo=tempo, rest_s=rest_s, side=side, moving=moving, how="", because=())
    return used(filled, case.book, "as-written")


def start(case: Case) -> Dose:
    """The dose of another exercise: the first of these that knows enough."""
    near_best = () if _EASY & set(case.changes) else (own_best, reckoned)
    for way in (_harder, _from_nothing, *near_best, _same_time, _hold_and_reps):
        found = way(case)
        if found:
            return found
    return _low_end(case)


def _harder(case: Case) -> Dose | None:
    """A step up starts at its floor, at less where his numbers say less; with what the ready line still asks for."""
    if case.swap.kind != "harder":
        return None
    floor = getattr(case.own, "reps" if case.own.reps else "seconds" if case.own.seconds else "metres")[0]
    known = case.can.get(case.option.id)
    both = (known, known) if known is not None else expected(case)
    low = {name: (span[0], span[0]) for name in ("reps", "seconds", "metres") if (span := getattr(case.own, name))}
    given = used(case.own, case.book, "harder-step", {"left": kept_back(case)}, **low)
    if both and both[1] - kept_back(case) < floor:
        given = (own_best(case) if known is not None else reckoned(case)) or given
    return quiet_weeks(not_yet(given, case), case)


def _from_nothing(case: Case) -> Dose | None:
    """From none at all: five to eight clean ones of the easier step; of one with nearly the same load none either."""
    zero = any(case.book.limits[name].changes_dose == "zero-reps" for name in case.limits if name in case.book.limits)
    if case.swap.kind != "easier" or not (zero or case.best == 0):
        return None
    if near(case):
        return out_of_reach(case)
    numbers = case.book.doserules["zero-reps"].numbers
    if not case.own.reps:
        return own_best(case) or _usual(case, case.own.sets)
    low, high = max(numbers["low"], case.own.reps[0]), min(numbers["high"], case.own.reps[1])
    low, high = (low, high) if low <= high else case.own.reps
    return used(case.own, case.book, "zero-reps", {"low": int(low), "high": int(high)}, sets=int(numbers["sets"]),
                reps=(int(low), int(high)))  # fmt: skip


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
        return own_best(case) or _usual(case, case.own.sets)
    span = case.own.reps or case.own.seconds or case.own.metres
    if not case.own.reps:  # seconds and metres leave no reps in the tank: the range itself says where to start
        return _usual(case, sets_of(case))
    left = max(kept_back(case), int(case.book.doserules["start-rule"].numbers["left"]))
    return used(case.own, case.book, "start-rule", {"low": span[0], "left": left}, sets=sets_of(case))


def _usual(case: Case, sets: int) -> Dose:
    """The card's own range, with what is said about it: reps kept back, a hold left in good form, no force."""
    light = case.book.families[case.option.family].weight == "light"
    rule = "card-dose-light" if light else "card-dose" if case.own.reps else "card-dose-hold"
    return used(case.own, case.book, rule, {"left": kept_back(case)}, sets=sets)


def _clamp(n: int, span: tuple[int, int]) -> int:
    return max(span[0], min(span[1], n))

"""Out of reach: none of the option to be expected, so only the way down, or a hold where a joint or muscle complains."""

from __future__ import annotations

from dataclasses import replace

from assistant.dose.case import Case, used
from assistant.plan import lowering_only
from assistant.values import Dose

_FIRST_WEEK, _SORE = "back-after-break", "sore-muscles"


def out_of_reach(case: Case) -> Dose:
    """Lowering-only where everything is quiet, else holds at the hardest quiet angle; in seconds a short hold either way."""
    if lowering_allowed(case) and case.own.reps:
        numbers = case.book.doserules["lowering-only"].numbers
        down, low, high = (int(numbers[name]) for name in ("lowering_s", "low", "high"))
        return used(case.own, case.book, "lowering-only", {"lowering_s": down}, sets=int(numbers["sets"]),
                    reps=(low, high), tempo=f"{down}-0-X-0", rest_s=int(numbers["rest_s"]))  # fmt: skip
    return _held(case, "hold-instead")


def no_lowering(case: Case) -> Dose | None:
    """A hold in the place of lowering-only work while that is not allowed; None where the option is something else."""
    tempo = case.written.tempo if case.same and case.written and case.written.tempo else case.own.tempo
    if not lowering_only(tempo) or lowering_allowed(case):
        return None
    return _held(case, "no-lowering")


def _held(case: Case, rule: str) -> Dose:
    numbers = case.book.doserules["hold-instead"].numbers
    held = replace(case.own, reps=None, metres=None, tempo=None, moving=False)
    return used(held, case.book, rule, sets=int(numbers["sets"]),
                seconds=(int(numbers["low_s"]), int(numbers["high_s"])), rest_s=int(numbers["rest_s"]))  # fmt: skip


def lowering_allowed(case: Case) -> bool:
    """Whether lowering-only work may be given: not in the first week back, not sore, no joint that complains under it."""
    if {_FIRST_WEEK, _SORE} & set(case.changes):
        return False
    cards = (case.book.limits[name] for name in case.limits if name in case.book.limits)
    return not any(card.kind == "pain" and _asks(case, card.restricts) for card in cards)


def _asks(case: Case, restricts: list[dict]) -> bool:
    """Whether the option asks for anything that the limit restricts, though within its bounds."""
    return any(case.rated(quantity) > 0 for row in restricts for quantity in row)

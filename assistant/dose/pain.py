"""Pain in a joint or tendon and soreness of muscles by numbers from 0 to 10: what to do in the set and next morning.

The morning within 24 hours decides. Sharp pain, locking, giving way, numbness, night pain and falls are not on this
scale: they belong to the safety screen.
"""

from __future__ import annotations

from assistant.rulebook import Rulebook
from assistant.values import BadInput, Reason

_MOST = 10


def pain_rule(
    book: Rulebook, in_set: int, morning: int | None = None, usual: int = 0, mornings_over: int = 0, same_weeks: float = 0
) -> tuple[Reason, ...]:  # fmt: skip
    """What to do, the strictest first: by pain `in_set`, pain next `morning` against the `usual` one, how often that was over.

    `mornings_over` counts earlier mornings above the usual, `same_weeks` weeks without a change. Raises BadInput outside 0 to 10.

    >>> from assistant.rulebook import load
    >>> [reason.rule for reason in pain_rule(load(), in_set=3, morning=3, usual=1)]
    ['pain-step-down', 'pain-ease']
    """
    for value in (in_set, usual, morning or 0):
        _within(value)
    scale, found = book.doserules["pain-scale"].numbers, []
    over = morning is not None and morning > usual
    if same_weeks >= scale["weeks_to_clinician"]:
        found.append("pain-clinician")
    if over and mornings_over + 1 >= scale["mornings_out"]:
        found.append("pain-leave-out")
    elif over:
        found.append("pain-step-down")
    if in_set >= scale["stop_from"]:
        found.append("pain-stop")
    elif in_set >= scale["ease_at"]:
        found.append("pain-ease")
    return tuple(_reason(book, rule) for rule in found or ["pain-go-on"])


def soreness_rule(book: Rulebook, soreness: int, fades: bool | None = None) -> Reason:
    """What to do with muscles sore at `soreness` of 10; `fades` = it fell to 3 in the warm-up. Raises BadInput outside 0 to 10.

    >>> from assistant.rulebook import load
    >>> [soreness_rule(load(), n, fades).rule for n, fades in ((3, None), (5, True), (5, False), (7, True))]
    ['soreness-train', 'soreness-less', 'soreness-other', 'soreness-walk']
    """
    _within(soreness)
    scale = book.doserules["soreness-scale"].numbers
    if soreness <= scale["train_to"]:
        return _reason(book, "soreness-train")
    if soreness > scale["less_to"]:
        return _reason(book, "soreness-walk")
    return _reason(book, "soreness-less" if fades else "soreness-other")


def _reason(book: Rulebook, rule: str) -> Reason:
    card = book.doserules[rule]
    return card.reason(says=card.how.format(**card.numbers_in_words))


def _within(value: int) -> None:
    if not 0 <= value <= _MOST:
        raise BadInput(f"A pain of {value} cannot be used: give a number from 0 to {_MOST}.")

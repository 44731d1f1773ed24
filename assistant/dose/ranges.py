"""The range of doses by what an exercise trains: sets, reps or seconds, reps left, rest, sessions a week."""

from __future__ import annotations

from assistant.dose.case import IMPACT, STRAIGHT
from assistant.plan import read_dose
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Doserule, Exercise

_BY_QUALITY = {"skill": "range-skill", "balance": "range-skill", "mobility": "range-mobility"}
_CONDITIONING, _STRAIGHT_FROM, _HARD_HOLD_S = "conditioning", 2, 10


def range_for(card: Exercise, book: Rulebook) -> Doserule:
    """The `range` card that fits an exercise: by its quality, whether it is held, jumped or moved for time, and its reps.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> [range_for(book.exercises[name], book).id for name in ("pull-up", "lean-hold", "child-pose", "push-up")]
    ['range-strength', 'range-straight-arm', 'range-mobility', 'range-muscle']
    """
    dose, quality = read_dose(card.dose, order="lowering"), card.trains[-1]
    if book.families[card.family].weight == "light" or quality in _BY_QUALITY:
        return book.doserules[_BY_QUALITY.get(quality, "range-mobility")]
    if card.trains[0] == _CONDITIONING or dose.moving or dose.metres:
        return book.doserules["range-conditioning"]
    if card.asks.get(IMPACT, 0) > 1:
        return book.doserules["range-power"]
    if dose.seconds:
        straight = card.asks.get(STRAIGHT, 0) >= _STRAIGHT_FROM
        held = "range-hold-strength" if dose.seconds[1] <= _HARD_HOLD_S else "range-hold-muscle"
        return book.doserules["range-straight-arm" if straight else held]
    if dose.reps[0] >= book.doserules["range-endurance"].numbers["low"]:
        return book.doserules["range-endurance"]
    strength = book.doserules["range-strength"]
    return strength if dose.reps[1] <= strength.numbers["most"] else book.doserules["range-muscle"]

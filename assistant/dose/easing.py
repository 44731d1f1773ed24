"""Too hard: one change at a time in the order of the `easing` cards, each tried before the next."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.plan import rep_s
from assistant.rulebook import Rulebook
from assistant.values import Dose, Reason


def easing_order(book: Rulebook) -> tuple[Reason, ...]:
    """The steps in their order, the first to be tried first; `says` is the sentence for the follower where there is one.

    >>> from assistant.rulebook import load
    >>> [reason.rule for reason in easing_order(load())][:2]
    ['easing-0', 'easing-1']
    """
    cards = sorted((c for c in book.doserules.values() if "step" in c.numbers), key=lambda card: card.numbers["step"])
    return tuple(card.reason(says=card.how or card.says) for card in cards)


def eased(dose: Dose, own: Dose, step: int, book: Rulebook) -> Dose:
    """`dose` after `step` 0, 4 or 5, the ones that change numbers; the others change the exercise and leave it as it is.

    >>> from assistant.rulebook import load
    >>> own = Dose(3, reps=(6, 12), tempo="2-0-1-0")
    >>> eased(Dose(3, reps=(10, 10), tempo="4-2-1-0"), own, 0, load()).tempo
    '2-0-1-0'
    """
    if step == 0:
        slower = dose.tempo and own.tempo and rep_s(dose.tempo) > rep_s(own.tempo)
        return replace(dose, tempo=own.tempo) if slower else dose
    numbers = book.doserules[f"easing-{step}"].numbers
    if step == 4 and dose.tempo:
        plain = f"{numbers['lowering_s']:g}-0-{numbers['lifting_s']:g}-0"
        return replace(dose, tempo=plain) if rep_s(dose.tempo) > rep_s(plain) else dose
    if step == 5 and dose.reps:
        return replace(dose, reps=tuple(max(1, math.ceil(n * numbers["part"] - 1e-9)) for n in dose.reps))
    return dose

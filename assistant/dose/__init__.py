"""The dose of an option: from what is written in the plan and the option's own range to sets, reps or seconds, rest.

Pure; the numbers and the sentences are the `doserule` cards of the book, the arithmetic is here.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.dose.caps import capped
from assistant.dose.case import case_of
from assistant.dose.change import CHANGES, fewest
from assistant.dose.start import same, start
from assistant.rulebook import Rulebook
from assistant.values import Dose, Message, Question, Swap

__all__ = ["dose"]


def dose(swap: Swap, question: Question, message: Message, book: Rulebook) -> Dose:
    """The dose of `swap.exercise` for this follower, with how it was chosen and the rules it rests on.

    The written slot comes first, then what the follower is known to do, then the exercise's own range; limits that
    change a dose (a best below what is written, little time, a break ...) act on that; caps for straight arms are last.
    """
    case = case_of(swap, question, message, book)
    given = same(case) if case.same else start(case)
    changed = replace(given, how="")  # the sentence of a change stands instead of "as written", not beside it
    for rule in case.changes:
        if rule in CHANGES:
            changed = CHANGES[rule](changed, case)
    changed = fewest(changed, case)
    return capped(changed if changed.how else given, case)

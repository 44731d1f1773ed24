"""The dose of an option: from what is written in the plan and the option's own range to sets, reps or seconds, rest.

Pure; the numbers and the sentences are the `doserule` cards of the book, the arithmetic is here.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.dose.caps import capped
from assistant.dose.case import Case, case_of, left_in_mark, used
from assistant.dose.change import CHANGES, fewest, plain_tempo
from assistant.dose.easing import eased, easing_order
from assistant.dose.household import band_kg, filled_kg, first_bag_kg, height_of, span_cm, with_bag
from assistant.dose.pain import pain_rule, soreness_rule
from assistant.dose.pairing import kept_apart, not_in_turn
from assistant.dose.progress import Ready, deload_due, harder_by_one, load_steps, next_session, raise_load, ready
from assistant.dose.ranges import range_for
from assistant.dose.rest import rest_span
from assistant.dose.start import same, start
from assistant.dose.zero import no_lowering
from assistant.rulebook import Rulebook
from assistant.values import Dose, Message, Question, Swap

__all__ = [
    "Ready", "band_kg", "deload_due", "dose", "eased", "easing_order", "filled_kg", "first_bag_kg", "harder_by_one",
    "height_of", "kept_apart", "load_steps", "next_session", "pain_rule", "raise_load", "range_for", "ready",
    "rest_span", "soreness_rule", "span_cm",
]  # fmt: skip


def dose(swap: Swap, question: Question, message: Message, book: Rulebook) -> Dose:
    """The dose of `swap.exercise` for this follower, with how it was chosen and the rules it rests on.

    The written slot comes first, then what the follower is known to do, then the exercise's own range; limits that
    change a dose (a best below what is written, little time, a break ...) act on that; caps for straight arms are last.
    """
    case = case_of(swap, question, message, book)
    given = no_lowering(case) or (same(case) if case.same else start(case))
    changed = replace(given, how="")  # the sentence of a change stands instead of "as written", not beside it
    if case.same and case.too_hard:
        changed = plain_tempo(changed, case)
    for rule in case.changes:
        if rule in CHANGES:
            changed = CHANGES[rule](changed, case)
    changed = fewest(changed, case)
    found = capped(changed if changed.how else given, case)
    return _noted(with_bag(not_in_turn(found, case, message), case, asked="dose" in question.wants), case)


def _noted(dose: Dose, case: Case) -> Dose:
    """`dose` with what stands beside the numbers in the plan: reps left, a tempo that can be read two ways."""
    if not case.same or not case.written:
        return dose
    if case.written_left is not None and dose.how == case.book.doserules["as-written"].how:
        dose = used(dose, case.book, "left-in-tank", {"left": case.written_left})
    notes = (note for note in case.written.how.split("; ") if left_in_mark(note) is None)
    said = "; ".join(filter(None, notes))
    return used(dose, case.book, "as-noted", {"said": said}) if said else dose

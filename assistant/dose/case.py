"""Everything the rules of dosing look at, gathered once: the option, the asked exercise, the written dose, ability."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.dose.effort import left_said
from assistant.plan import find_effort, read_dose
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.values import BadInput, Dose, Message, PlanItem, Question, Reason, Swap

HAND, GRIP, STRAIGHT, STRAIN = "hand_share", "grip_share", "straight_arm_load", "strain"
_STRENGTH = ("strength", "hold")
HEAD_DOWN, IMPACT, LEGS = "inversion", "impact", "legs_used"


@dataclass(frozen=True)
class Case:
    """One dose to find. `written` is None where the plan says nothing; `own` is the range of the option's card."""

    swap: Swap
    book: Rulebook
    option: Exercise
    asked: Exercise
    own: Dose
    asked_own: Dose
    written: Dose | None
    limits: tuple[str, ...]
    can: dict[str, int]
    text: str
    too_hard: bool = False  # something easier is asked for, or strength is in the way
    written_left: int | None = None  # clean reps left that the plan asks for, where it marks the effort

    @property
    def best(self) -> int | None:
        """Best reps or seconds of the asked exercise, where known."""
        return self.can.get(self.asked.id)

    @property
    def reach(self) -> int | None:
        """Best reps to reckon from: what is known, else the written reps and those left by the plan's effort mark."""
        if self.best is not None or self.written_left is None or not self.written or not self.written.reps:
            return self.best
        most = self.book.doserules["effort-guess"].numbers["most_left"]
        return self.written.reps[0] + self.written_left if self.written_left <= most else None

    @property
    def changes(self) -> list[str]:
        """The dose rules that the follower's limits name, in their order, each once."""
        cards = (self.book.limits[limit] for limit in self.limits if limit in self.book.limits)
        return list(dict.fromkeys(card.changes_dose for card in cards if card.changes_dose))

    @property
    def same(self) -> bool:
        """Whether the asked exercise stays."""
        return self.option.id == self.asked.id

    def rated(self, quantity: str) -> float:
        """The option's demand of `quantity`, computed or rated, 0 where its card says nothing."""
        return self.option.asks.get(quantity, 0.0)


def case_of(swap: Swap, question: Question, message: Message, book: Rulebook) -> Case:
    """The case of `swap`; limits about another exercise are left out, what was just said beats what is remembered."""
    option, asked = book.exercises[swap.exercise], book.exercises[swap.asked]
    said = tuple(limit.id for limit in question.limits if limit.about in (None, swap.asked))
    limits = tuple(dict.fromkeys((*said, *message.profile.limits)))
    own, asked_own = read_dose(option.dose, order="lowering"), read_dose(asked.dose, order="lowering")
    said_can = dict(question.can)
    if asked.id in said_can and asked_own.reps:  # "8, could do a few more" is a best of 11
        said_can[asked.id] += left_said(message.text, book)
    can = {**dict(message.profile.can), **said_can}
    slot = slot_of(swap, message)
    cards = [book.limits[name] for name in limits if name in book.limits]
    strength = any(card.kind in _STRENGTH and card.wants != "harder" for card in cards)
    return Case(swap, book, option, asked, own, asked_own, slot.dose if slot else None, limits, can, message.text,
                "easier" in question.wants or strength, _left_in(slot))  # fmt: skip


def used(dose: Dose, book: Rulebook, rule: str, says: dict[str, object] | None = None, **changed: object) -> Dose:
    """`dose` with the fields `changed`, with the sentence and the reason of `rule` added."""
    card = book.doserules[rule]
    sentence = card.how.format(**{**card.numbers_in_words, **(says or {})}) if card.how else ""
    how = "; ".join(part for part in (dose.how, sentence) if part)
    reason: Reason = card.reason(says=sentence or card.says)
    return replace(dose, **changed, how=how, because=(*dose.because, reason))


def number(book: Rulebook, rule: str, name: str) -> float:
    """The number `name` of the dose rule `rule`."""
    return book.doserules[rule].numbers[name]


def slot_of(swap: Swap, message: Message) -> PlanItem | None:
    """The slot of the plan that `swap` is for: by its letters, else the one with the asked exercise."""
    if not message.plan:
        return None
    slot = message.plan.slot(swap.item) if swap.item else None
    if slot is None or slot.exercise != swap.asked:
        slot = next((it for it in message.plan.items if it.exercise == swap.asked), slot)
    return slot


def left_in_mark(text: str) -> int | None:
    """The smaller number of reps left in the effort mark of a note, None where there is no mark or it is none of ours."""
    try:
        effort = find_effort(text)
    except BadInput:  # a note in the coach's own words need not be a mark
        return None
    return effort.left[0] if effort and effort.left else None


def _left_in(slot: PlanItem | None) -> int | None:
    """The reps left that a slot asks for, in its note or beside its dose."""
    return left_in_mark(f"{slot.text}; {slot.dose.how if slot.dose else ''}") if slot else None

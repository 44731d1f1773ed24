"""Everything the rules of dosing look at, gathered once: the option, the asked exercise, the written dose, ability."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.plan import read_dose
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.values import Dose, Message, Question, Reason, Swap

HAND, GRIP, STRAIGHT, STRAIN = "hand_share", "grip_share", "straight_arm_load", "strain"
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

    @property
    def best(self) -> int | None:
        """Best reps or seconds of the asked exercise, where known."""
        return self.can.get(self.asked.id)

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
        """The option's demand of `quantity`, 0 where its card says nothing."""
        return self.option.rated.get(quantity, 0.0)


def case_of(swap: Swap, question: Question, message: Message, book: Rulebook) -> Case:
    """The case of `swap`; limits about another exercise are left out, what was just said beats what is remembered."""
    option, asked = book.exercises[swap.exercise], book.exercises[swap.asked]
    said = tuple(limit.id for limit in question.limits if limit.about in (None, swap.asked))
    limits = tuple(dict.fromkeys((*said, *message.profile.limits)))
    can = {**dict(message.profile.can), **dict(question.can)}
    own, asked_own = read_dose(option.dose, order="lowering"), read_dose(asked.dose, order="lowering")
    written = _written(swap, message)
    return Case(swap, book, option, asked, own, asked_own, written, limits, can, message.text)


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


def _written(swap: Swap, message: Message) -> Dose | None:
    if not message.plan:
        return None
    slot = message.plan.slot(swap.item) if swap.item else None
    if slot is None or slot.exercise != swap.asked:
        slot = next((it for it in message.plan.items if it.exercise == swap.asked), slot)
    return slot.dose if slot else None

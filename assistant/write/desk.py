"""What the writer has in front of him: the values of one message, the cards, and what was said so far."""

from __future__ import annotations

from dataclasses import dataclass, field

from assistant.plan import dose_words
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Limit as LimitCard
from assistant.values import Dose, Message, Question, Reason, Refused, Swap, Verdict
from assistant.write.names import capital, exercise_names
from assistant.write.templates import template


@dataclass
class Desk:
    """One reply being written. `said` collects the reply cards used: they are the reasons of the draft."""

    book: Rulebook
    message: Message
    question: Question
    swaps: tuple[Swap, ...]
    refused: tuple[Refused, ...]
    sorry: dict[str, Reason]
    said: list[str] = field(default_factory=list)
    other_reasons: list[Reason] = field(default_factory=list)
    checked: set[str] = field(default_factory=set)  # safety conditions said already: once a reply is enough

    def say(self, reply: str, **fields: object) -> str:
        """The sentence of the card `reply`, filled with those of `fields` that it lists."""
        self.said.append(reply)
        wanted = self.book.replies[reply].fields
        return template(reply, self.book).render({name: fields[name] for name in wanted if name in fields}).strip()

    def letter(self, paragraphs: list[str]) -> str:
        """Greeting and paragraphs, with an empty line between them."""
        greeting = self.say("greeting", name=first_name(self.message))
        return "\n\n".join([greeting, *(p for p in paragraphs if p)])

    def exercise(self, id_: str) -> str:
        """The exercise's name inside a sentence."""
        return exercise_names(self.book)[id_]

    def thing(self, id_: str) -> str:
        """The everyday word for a thing; several joined by ` + ` are all needed, by ` or ` one of them."""
        for sign, card in ((" + ", "list-and"), (" or ", "list-or")):
            if sign in id_:
                return self.say(card, things=[self.thing(part) for part in id_.split(sign)])
        card = self.book.equipment.get(id_)
        return card.called[0] if card and card.called else id_

    def a_thing(self, id_: str) -> str:
        """The everyday word with its article."""
        return self.say("a-thing", thing=self.thing(id_))

    def all_of(self, things: list[str]) -> str:
        """`a, b and c`."""
        return self.say("list-and", things=things) if things else ""

    def dose(self, dose: Dose | None, how: bool = True) -> str:
        """The dose as a full sentence, the tempo in words, and how it was chosen."""
        if dose is None:
            return ""
        sentence = capital(dose.how) if how else ""
        return self.say("dose-line", dose=dose_words(dose), tempo=self.tempo(dose), how=sentence)

    def dose_short(self, dose: Dose | None) -> str:
        """Only the numbers."""
        return dose_words(dose) if dose else ""

    def tempo(self, dose: Dose) -> str:
        """The tempo in words, or nothing."""
        if not dose.tempo or not dose.reps:
            return ""
        down, stretched, up, top = dose.tempo.split("-")
        return self.say("tempo-words", down=down, stretched=stretched, up=up, top=top)

    def limits(self) -> list[LimitCard]:
        """The cards of the limits said now, each once, in the order of the message."""
        ids = dict.fromkeys(limit.id for limit in self.question.limits)
        return [self.book.limits[id_] for id_ in ids if id_ in self.book.limits]

    def asked(self) -> list[str]:
        """The exercises asked about, and any other for which there is an option, in order, each once."""
        named = [asked.id for asked in self.question.exercises if asked.id in self.book.exercises]
        return list(dict.fromkeys([*named, *(swap.asked for swap in self.swaps)]))

    def asked_names(self) -> list[str]:
        """Their names inside a sentence."""
        return [self.exercise(id_) for id_ in self.asked()]

    def item(self, asked: str) -> str | None:
        """The slot letters of an asked exercise, where known."""
        given = [a.item for a in self.question.exercises if a.id == asked] + [
            s.item for s in self.swaps if s.asked == asked
        ]
        named = next((item for item in given if item), None)
        if named or not self.message.plan:
            return named
        return next((slot.item for slot in self.message.plan.items if slot.exercise == asked), None)

    def options_for(self, asked: str) -> list[Swap]:
        """The options for one asked exercise, the recommended one first."""
        return sorted((swap for swap in self.swaps if swap.asked == asked), key=lambda swap: not swap.recommended)

    def because(self, verdict: Verdict) -> tuple[Reason, ...]:
        """The findings, then other reasons gathered, then the reply cards, each once."""
        cards = [self.book.reason("reply", id_) for id_ in dict.fromkeys(self.said)]
        return tuple(dict.fromkeys([*(f.rule for f in verdict.findings), *self.other_reasons, *cards]))


def first_name(message: Message) -> str:
    """The follower's first name, or nothing."""
    return (message.profile.name.split() or [""])[0]

"""How an answer is chosen, dosed and said."""

from __future__ import annotations

from assistant.rulebook.cards.shape import Card, Texts


class Doserule(Card):
    """A numbered rule of dosing with its numbers; the formulas are in dose/. `how` is said to the follower when the
    rule was used: a sentence in which `{left}`, `{sets}` ... stand for numbers."""

    doserule: str
    says: str
    how: str = ""
    numbers: dict[str, float] = {}

    @property
    def numbers_in_words(self) -> dict[str, str]:
        """The numbers as they are said: 2, not 2.0."""
        return {name: f"{value:g}" for name, value in self.numbers.items()}


class Order(Card):
    """What counts as the best answer, as numbers: lower cost wins."""

    order: str
    says: str
    costs: dict[str, float] = {}
    texts: dict[str, str] = {}


class Reply(Card):
    """A sentence or a whole reply as a Jinja2 template; `fields` lists what it may use."""

    reply: str
    says: str = ""
    fields: Texts = []
    text: str


class Noanswer(Card):
    """What is said when no honest exercise trains this under that limit."""

    noanswer: str
    exercises: Texts
    limits: Texts  # each entry one limit, or "a + b" for both together
    says: str

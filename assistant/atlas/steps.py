"""The steps from an exercise through the graph, each with why: in the coach's words, and by the demands of both ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.costs import changed, costs_in_words

Kind = Literal["harder", "easier", "swap"]


@dataclass(frozen=True)
class Step:
    """A step to `to`: the card's own `why` (may be empty), how the two differ by their demands, the card that names it."""

    to: Exercise
    kind: Kind
    why: str
    differs: tuple[str, ...]
    at: str

    @property
    def says(self) -> str:
        """Why in one line: the card's own words, else what the demands say."""
        return self.why or ", ".join(self.differs)


def step(first: str, second: str, book: Rulebook) -> Step:
    """The step between two neighbours of the graph.

    >>> from assistant.rulebook import load
    >>> one = step("push-up", "knee-push-up", load())
    >>> one.kind, one.at.split(":")[0]
    ('easier', 'exercises/horizontal-push.yaml')
    """
    edge, here, to = book.graph.edges[first, second], book.exercises[first], book.exercises[second]
    differs = costs_in_words(here, to, *changed(here, to), frozenset(), book)
    return Step(to, edge["kind"], edge["why"], differs, edge["at"])


def steps(exercise: str, book: Rulebook) -> dict[Kind, tuple[Step, ...]]:
    """Every step from `exercise`, by kind: the card's own in its order, then those that other cards name."""
    card, found = book.exercises[exercise], {"harder": [], "easier": [], "swap": []}
    for other in sorted(book.graph.adj[exercise], key=_order(card, book)):
        one = step(exercise, other, book)
        found[one.kind].append(one)
    return {kind: tuple(some) for kind, some in found.items()}


def _order(card: Exercise, book: Rulebook):
    own = [*card.easier, *card.swap]
    places = {other: place for place, other in enumerate(own)}
    places |= {other: len(own) + place for place, other in enumerate(book.exercises) if other not in places}
    return places.__getitem__

"""The ladder of a family: its exercises in layers by steps from the easiest, every step with its why, and the drawing.

An exercise stands one layer above the hardest of its own easier steps. Drawn are the steps that no chain of smaller
steps replaces, so that the drawing stays a ladder; the list beside it has all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assistant.atlas.drawn import drawing
from assistant.atlas.steps import Step, step
from assistant.atlas.svg import Svg
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Family
from assistant.values import NotFound


@dataclass(frozen=True)
class Rung:
    """One exercise on the ladder: its layer (0 = easiest), its steps down, those of them that are drawn, and the steps
    down to other families."""

    card: Exercise
    layer: int
    down: tuple[Step, ...]
    drawn: frozenset[str]
    outside: tuple[Step, ...]


@dataclass(frozen=True)
class Ladder:
    """A family's layers, hardest first, the exercises without a step inside the family, and the drawing (None = no step)."""

    family: Family
    layers: tuple[tuple[Rung, ...], ...]
    apart: tuple[Rung, ...]
    picture: Svg | None
    here: str = ""

    @property
    def steps(self) -> tuple[int, int]:
        """How many steps there are, and how many of them are drawn."""
        rungs = [rung for layer in self.layers for rung in layer]
        return sum(len(rung.down) for rung in rungs), sum(len(rung.drawn) for rung in rungs)


def ladder(family: str, book: Rulebook, here: str = "") -> Ladder:
    """The ladder of `family` with the exercise `here` marked; raises NotFound where there is no such family.

    >>> from assistant.rulebook import load
    >>> found = ladder("jumps", load())
    >>> [len(layer) for layer in found.layers], len(found.apart)
    ([1, 2, 3], 0)
    """
    if family not in book.families:
        raise NotFound("The book has no family of that id. Choose one from the book.")
    cards = {card.id: card for card in book.exercises.values() if card.family == family}
    down = {id_: [other for other in card.easier if other in cards] for id_, card in cards.items()}
    layer, drawn = layers_of(down), not_replaced(down)
    rungs = {id_: _rung(card, layer[id_], drawn[id_], cards, book) for id_, card in cards.items()}
    joined = set(down) - {id_ for id_, some in down.items() if not some} | {o for some in down.values() for o in some}
    by_layer: dict[int, list[Rung]] = {}
    for id_ in (one for one in cards if one in joined):
        by_layer.setdefault(layer[id_], []).append(rungs[id_])
    found = tuple(tuple(by_layer[n]) for n in sorted(by_layer, reverse=True))
    picture = drawing(found, here) if found else None
    return Ladder(book.families[family], found, tuple(rungs[one] for one in cards if one not in joined), picture, here)


def layers_of(down: Mapping[str, Iterable[str]]) -> dict[str, int]:
    """The layer of each exercise: one above the highest of its easier steps, 0 without one.

    >>> layers_of({"full": ["half", "wall"], "half": ["wall"], "wall": []})
    {'wall': 0, 'half': 1, 'full': 2}
    """
    found: dict[str, int] = {}

    def layer(one: str) -> int:
        if one not in found:
            found[one] = 1 + max((layer(other) for other in down[one]), default=-1)
        return found[one]

    for one in down:
        layer(one)
    return found


def not_replaced(down: Mapping[str, Iterable[str]]) -> dict[str, frozenset[str]]:
    """Of each exercise the easier steps that no chain of smaller steps leads to.

    >>> sorted(not_replaced({"full": ["half", "wall"], "half": ["wall"], "wall": []})["full"])
    ['half']
    """
    below: dict[str, frozenset[str]] = {}

    def reached(one: str) -> frozenset[str]:
        if one not in below:
            below[one] = frozenset(down[one]).union(*(reached(other) for other in down[one]))
        return below[one]

    return {
        one: frozenset(o for o in some if not any(o in reached(other) for other in some)) for one, some in down.items()
    }


def _rung(card: Exercise, layer: int, drawn: frozenset[str], cards: Mapping[str, Exercise], book: Rulebook) -> Rung:
    found = [step(card.id, other, book) for other in card.easier]
    inside = tuple(one for one in found if one.to.id in cards)
    return Rung(card, layer, inside, drawn, tuple(one for one in found if one.to.id not in cards))

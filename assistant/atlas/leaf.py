"""One exercise as a leaf of the book: its card, with everything the card points at."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.atlas.steps import Step, steps
from assistant.body import Demand
from assistant.figure import Picture, figure
from assistant.plan import read_dose
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Equipment, Exercise, Family, Purpose, Quantity, Source, Standin
from assistant.values import Dose, NotFound


@dataclass(frozen=True)
class Need:
    """One need: any of `things` will do, or what serves as one of them, or a stand-in under its condition."""

    things: tuple[Equipment, ...]
    serving: tuple[Equipment, ...]
    standins: tuple[tuple[Standin, tuple[Equipment, ...]], ...]


@dataclass(frozen=True)
class Asked:
    """One demand with its quantity and the most any exercise of the book asks of it."""

    quantity: Quantity
    demand: Demand
    most: float


@dataclass(frozen=True)
class Leaf:
    """One exercise with all that is known about it; `demands` by where they come from: computed, rated, published."""

    card: Exercise
    family: Family
    trains: tuple[Purpose, ...]
    needs: tuple[Need, ...]
    dose: Dose
    tempo: tuple[str, ...]  # lowering, pause at the bottom, lifting, pause at the top; empty without a tempo
    demands: dict[str, tuple[Asked, ...]]
    demand_sources: dict[str, tuple[Source, ...]]
    harder: tuple[Step, ...]
    easier: tuple[Step, ...]
    swaps: tuple[Step, ...]
    picture: Picture | None
    sources: tuple[Source, ...]


def leaf(exercise: str, book: Rulebook) -> Leaf:
    """The leaf of `exercise`; raises NotFound where the book has no such exercise.

    >>> from assistant.rulebook import load
    >>> one = leaf("chin-up", load())
    >>> one.family.name, one.dose.sets, one.tempo
    ('Vertical pull', 4, ('2', '0', '1', '1'))
    """
    if exercise not in book.exercises:
        raise NotFound("The book has no exercise of that id. Look it up by its name.")
    card = book.exercises[exercise]
    around, dose, demands = steps(exercise, book), read_dose(card.dose, order="lowering"), _demands(card, book)
    named = {how: [name for one in some for name in one.demand.source] for how, some in demands.items()}
    return Leaf(
        card=card,
        family=book.families[card.family],
        trains=tuple(book.purposes[one] for one in card.trains),
        needs=tuple(_need(line, card, book) for line in card.needs),
        dose=dose,
        tempo=tuple(dose.tempo.split("-")) if dose.tempo else (),
        demands=demands,
        demand_sources={how: _sources(names, book) for how, names in named.items()},
        harder=around["harder"],
        easier=around["easier"],
        swaps=around["swap"],
        picture=figure(exercise, book),
        sources=_sources(card.source, book),
    )


def _need(line: str, card: Exercise, book: Rulebook) -> Need:
    ids = line.split(" or ")
    things = tuple(book.equipment[one] for one in ids)
    serving = tuple(t for t in book.equipment.values() if t.id not in ids and set(t.serves_as) & set(ids))
    standins = tuple(
        (one, tuple(book.equipment[thing] for thing in one.things))
        for one in book.standins.values()
        if card.id in one.only_for and set(one.for_kit) & set(ids)
    )
    return Need(things, serving, standins)


def _demands(card: Exercise, book: Rulebook) -> dict[str, tuple[Asked, ...]]:
    """What it asks, by where it comes from; a quantity of which nothing is asked is left out."""
    found: dict[str, list[Asked]] = {"computed": [], "rated": [], "published": []}
    for name, quantity in book.quantities.items():
        if name in card.demand and card.demand[name].high:
            most = max(other.demand[name].high for other in book.exercises.values() if name in other.demand)
            found[card.demand[name].how].append(Asked(quantity, card.demand[name], most))
    return {how: tuple(some) for how, some in found.items() if some}


def _sources(names, book: Rulebook) -> tuple[Source, ...]:
    return tuple(book.sources[name] for name in dict.fromkeys(names) if name in book.sources)

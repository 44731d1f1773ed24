"""The progression graph: no circle of easier steps, no step down that loads more without saying why."""

from __future__ import annotations

import networkx as nx

from assistant.body import Demand
from assistant.rulebook.cards import Exercise
from assistant.rulebook.validate.pencil import Pencil

_TOLD_APART = 0.05  # of body weight: studies of one and the same pose differ by that much, and so does the model


def check_steps(pencil: Pencil) -> None:
    """Notes edges to themselves, edges of two kinds, circles, and easier steps with more load and no reason."""
    for card in pencil.book.exercises.values():
        for field in ("easier", "swap"):
            if card.id in getattr(card, field):
                pencil.note(card, (field, card.id), f"'{card.id}' is its own {field} step", "", "delete this line")
        for other in sorted(set(card.easier) & set(card.swap)):
            pencil.note(
                card,
                ("swap", other),
                f"'{other}' is both an easier step and a swap of '{card.id}'",
                "",
                "keep the one that is true",
            )
    _circles(pencil)
    _loads(pencil)


def _circles(pencil: Pencil) -> None:
    exercises = pencil.book.exercises
    down = nx.DiGraph((card.id, other) for card in exercises.values() for other in card.easier if other != card.id)
    for group in sorted(map(sorted, nx.strongly_connected_components(down))):
        if len(group) < 2:
            continue
        circle = [edge[0] for edge in nx.find_cycle(down.subgraph(group), group[0])]
        start = circle.index(min(circle))
        circle = [*circle[start:], *circle[:start]]
        pencil.note(
            exercises[circle[0]],
            ("easier", circle[1]),
            "these easier steps go round in a circle",
            " -> ".join([*circle, circle[0]]),
            "delete the step that is not easier",
        )


def _loads(pencil: Pencil) -> None:
    book = pencil.book
    untold = {card.id for card in book.exercises.values() if card.pose and not _computed(card)}
    loads = [quantity for quantity, card in book.quantities.items() if card.load]
    for card in book.exercises.values():
        for other, why in card.easier.items():
            if why or other not in book.exercises or untold & {card.id, other}:
                continue
            before, after = card.demand, book.exercises[other].demand
            more = [
                f"{quantity} {after[quantity].value:g} instead of {_value(before, quantity):g}"
                for quantity in loads
                if _loads_more(before, after, quantity)
            ]
            if more:
                pencil.note(
                    card,
                    ("easier", other),
                    f"the easier step '{other}' of '{card.id}' loads more",
                    ", ".join(more),
                    "say why it is easier all the same, or delete the step",
                )


def _value(demand: dict[str, Demand], quantity: str) -> float:
    return demand[quantity].value if quantity in demand else 0.0


def _loads_more(before: dict[str, Demand], after: dict[str, Demand], quantity: str) -> bool:
    """Whether the step asks for more; where a figure is computed, by more than a computed figure can tell apart."""
    computed = any(quantity in demand and demand[quantity].how == "computed" for demand in (before, after))
    return _value(after, quantity) - _value(before, quantity) > (_TOLD_APART if computed else 0.0)


def _computed(card: Exercise) -> bool:
    """Whether its pose could be computed; where not, that is told once, and its figures say nothing."""
    return any(one.how == "computed" for one in card.demand.values())

"""Poses on cards → demands on cards, with the body that stands on the cards `segment` and `assumption`.

Computed when a book is loaded, so that choosing an answer only looks figures up. A pose several exercises share is
solved once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from assistant.body import Body, CannotStand, Demand, Pose, demands, stance_of
from assistant.body.build import PARTS, TRUNK_PARTS
from assistant.rulebook.cards import Exercise
from assistant.rulebook.cards.pose import STANCE_FIELDS
from assistant.rulebook.cards.training import rated_demand

if TYPE_CHECKING:
    from assistant.rulebook import Rulebook

_REFERENCE = "reference"
_NEEDED = (_REFERENCE, *PARTS, "trunk_with_neck", *TRUNK_PARTS)


def missing_of_body(book: Rulebook) -> list[str]:
    """The cards without which no pose can be computed: kind and id of each that is not there."""
    found = [f"segment '{name}'" for name in _NEEDED if name not in book.segments]
    known = {card.field for card in book.assumptions.values()}
    return found + [f"assumption '{name.replace('_', '-')}'" for name in STANCE_FIELDS if name not in known]


def body_of(book: Rulebook) -> Body | None:
    """The measured body of the book; None when its cards are not all there."""
    if missing_of_body(book):
        return None
    reference = book.segments[_REFERENCE]
    references = {build: (reference.stature_m[build], reference.mass_kg[build]) for build in reference.stature_m}
    rows = {build: {} for build in references}
    for name in _NEEDED[1:]:
        for build, row in book.segments[name].rows().items():
            rows[build][name] = row
    stance = stance_of({card.field: card.value for card in book.assumptions.values() if card.field in STANCE_FIELDS})
    source = tuple(dict.fromkeys(name for card in book.segments.values() for name in card.source))
    return Body((), stance, rows, references, source).of()


def demand_of(card: Exercise, body: Body) -> dict[str, Demand]:
    """All demands of an exercise: computed from its poses, over what is rated. Raises CannotStand.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> demand_of(book.exercises["dead-hang"], book.body)["grip_share"].value
    1.0
    """
    return _together(card, demands(_keys(card), body.builds, body.stance, source=body.source))


def _keys(card: Exercise) -> list[tuple[Pose, tuple[Pose, ...]]]:
    return [key for posed in card.pose for key in posed.key_poses()]


def _together(card: Exercise, computed: dict[str, Demand]) -> dict[str, Demand]:
    for posed in card.pose:
        for name in posed.not_told:
            computed.pop(name, None)
    return rated_demand(card) | computed


def compute(book: Rulebook) -> Iterator[tuple[Exercise, CannotStand]]:
    """Fills in `demand` on every exercise with a pose; yields those whose pose cannot stand."""
    body = book.body
    if body is None:
        return
    known: dict = {}
    for card in book.exercises.values():
        if card.pose:
            try:
                card.__dict__["demand"] = _together(
                    card, demands(_keys(card), body.builds, body.stance, known, body.source)
                )
            except CannotStand as error:
                yield card, error

"""The demands of one exercise, as cards give them or for another height or build: what `assistant load` prints."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from assistant.body import CannotStand, Demand
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Posed
from assistant.rulebook.demands import demand_of
from assistant.rulebook.validate.pencil import meant
from assistant.values import BadInput, NotFound

_HEIGHTS = ("hands_height_cm", "feet_height_cm")  # the first that the card gives is the one `height_cm` sets
_ON_SOMETHING = ("plank", "pike")  # hands on the floor may be put on something high
_STATURE_M, _MASS_KG = (1.2, 2.3), (25.0, 300.0)  # beyond these a figure is a slip of the pen, not a person


def demand_for(
    book: Rulebook, exercise: str, height_cm: float | None = None, mass_kg: float | None = None,
    stature_cm: float | None = None,
) -> dict[str, Demand]:  # fmt: skip
    """The demands of `exercise`; raises NotFound for an unknown name, BadInput for figures that fit no pose or person.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> usual, higher = (demand_for(book, "mid-incline-push-up", cm)["hand_share"].value for cm in (None, 70))
    >>> usual > higher
    True
    """
    card = book.exercises.get(exercise)
    if card is None:
        raise NotFound(f"There is no exercise '{exercise}': {meant(exercise, book.exercises, 'exercise')}")
    if height_cm is None and mass_kg is None and stature_cm is None:
        return card.demand
    _plausible("stature in cm", stature_cm, tuple(100 * end for end in _STATURE_M))
    _plausible("mass in kg", mass_kg, _MASS_KG)
    if not card.pose or book.body is None:
        raise BadInput(f"'{exercise}' is rated by hand ({card.rated_because}), so height and build change nothing.")
    if height_cm is not None:
        card = _at_height(card, height_cm)
    body = book.body.of(None if stature_cm is None else stature_cm / 100, mass_kg)
    try:
        return demand_of(card, body)
    except CannotStand as error:
        raise BadInput(f"'{exercise}' cannot be done so: {error}.") from None


def _plausible(what: str, value: float | None, ends: tuple[float, ...]) -> None:
    if value is not None and not ends[0] <= value <= ends[1]:
        raise BadInput(f"A {what} of {value:g} is not believed: give {ends[0]:g} to {ends[1]:g}.")


def _at_height(card: Exercise, height_cm: float) -> Exercise:
    poses = [_posed_at(posed, height_cm) for posed in card.pose]
    if poses == card.pose and all(getattr(posed, name) is None for posed in card.pose for name in _HEIGHTS):
        raise BadInput(f"The pose of '{card.id}' has no height to set.")
    return type(card).model_validate({**card.model_dump(exclude={"pose"}), "pose": poses})


def _posed_at(posed: Posed, height_cm: float) -> Posed:
    for name in _HEIGHTS:
        if getattr(posed, name) is not None or (
            name == _HEIGHTS[0] and posed.shape in _ON_SOMETHING and not posed.wall
        ):
            return posed.model_copy(update={name: (height_cm, height_cm)})
    return posed


def as_json(exercise: str, demand: dict[str, Demand]) -> dict[str, Any]:
    """The demands as the contract gives them."""
    told = {name: one._asdict() | {"source": ", ".join(one.source)} for name, one in demand.items()}
    return {"exercise": exercise, "demand": told}


def lines(book: Rulebook, demand: dict[str, Demand]) -> Iterator[str]:
    """The demands as printed: quantity, value, band, unit, how it is known, from where."""
    width = max((len(name) for name in demand), default=0)
    for name, one in sorted(demand.items(), key=lambda pair: (pair[1].how != "computed", pair[0])):
        band = "" if one.low == one.high else f"({one.low:.3g} to {one.high:.3g})"
        unit = book.quantities[name].unit if name in book.quantities else ""
        yield f"{name:<{width}}  {one.value:<6.3g} {band:<18} {unit}; {one.how}, {', '.join(one.source)}"

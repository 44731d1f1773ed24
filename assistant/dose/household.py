"""What household loads weigh, in kg as a range, and how high things at home are, in cm as a range."""

from __future__ import annotations

from assistant.dose.case import Case, used
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Height
from assistant.values import BadInput, Dose

_BAG, _OVERHEAD = "backpack", "shoulder_flexion_deg"


def filled_kg(litres: float, book: Rulebook, filling: str = "water", share: float = 1.0) -> tuple[float, float]:
    """The weight (low, high) of `litres` filled to `share` with water, milk, sand or rice, without the bottle. Raises BadInput.

    >>> from assistant.rulebook import load
    >>> filled_kg(8 * 1.5, load()), filled_kg(2, load(), "sand", share=0.5)
    ((12.0, 12.0), (1.5, 1.7))
    """
    card = book.doserules.get(f"{filling}-load")
    if card is None or "low_kg_per_l" not in card.numbers:
        raise BadInput(
            f"The weight of '{filling}' is not known: weigh it, or use water, one litre of which is one kilo."
        )
    if litres < 0 or not 0 <= share <= 1:
        raise BadInput(f"{litres:g} litres filled to {share:g} cannot be used: litres from 0, filled to 0 to 1.")
    low, high = (card.numbers[name] * litres * share for name in ("low_kg_per_l", "high_kg_per_l"))
    return round(low, 6), round(high, 6)


def first_bag_kg(body_kg: float, book: Rulebook, overhead: bool = False) -> tuple[float, float, float]:
    """The first load in kg (low, high) and the top one, all in; half of that overhead or above the chest.

    >>> from assistant.rulebook import load
    >>> first_bag_kg(80, load()), first_bag_kg(80, load(), overhead=True)
    ((4.0, 8.0, 20.0), (2.0, 4.0, 10.0))
    """
    numbers = book.doserules["bag-load"].numbers
    part = numbers["overhead_share"] if overhead else 1.0
    low, high, top = (numbers[name] for name in ("first_low_share", "first_high_share", "top_share"))
    return body_kg * low * part, body_kg * high * part, body_kg * top * part


def band_kg(band: str, book: Rulebook) -> tuple[float, float]:
    """Help in kg (low, high) of a "thin", "middle" or "thick" band at full stretch: a guess, to be said as one. Raises BadInput.

    >>> from assistant.rulebook import load
    >>> band_kg("thin", load())
    (5.0, 15.0)
    """
    card = book.doserules["band-help"]
    if f"{band}_low_kg" not in card.numbers:
        raise BadInput(f"The help of a '{band}' band is not known: {card.how}.")
    return card.numbers[f"{band}_low_kg"], card.numbers[f"{band}_high_kg"]


def with_bag(dose: Dose, case: Case, asked: bool = False) -> Dose:
    """`dose` with how heavy a first bag is, where a new exercise is done with one, or where it is `asked`."""
    asks = frozenset({_BAG}) in case.option.need_sets or _BAG in (case.swap.aid or "").split(" + ")
    if not asks or (case.same and not asked):
        return dose
    numbers = case.book.doserules["bag-load"].numbers
    overhead = case.rated(_OVERHEAD) >= numbers["overhead_from_deg"]
    part = 100 * (numbers["overhead_share"] if overhead else 1.0)
    words = {"low": f"{numbers['first_low_share'] * part:g}", "high": f"{numbers['first_high_share'] * part:g}"}
    return used(dose, case.book, "bag-load", words)


def height_of(thing: str, book: Rulebook) -> Height | None:
    """The height card of a thing by its own id or by the id of the equipment; None where none is known.

    >>> from assistant.rulebook import load
    >>> card = height_of("chair", load())
    >>> card.low_cm, card.usual_cm, card.high_cm
    (43.0, 45.0, 48.0)
    """
    cards: dict[str, Height] = book.cards["height"]
    return cards.get(thing) or next((card for card in cards.values() if thing in card.things), None)


def span_cm(thing: str, book: Rulebook, said_cm: float | None = None) -> tuple[float, float]:
    """Both ends in cm to compute with: the card's, or the number said; a soft edge may sink. Raises BadInput with a question.

    >>> from assistant.rulebook import load
    >>> span_cm("chair", load()), span_cm("sofa", load()), span_cm("table", load(), said_cm=72)
    ((43.0, 48.0), (26.0, 45.0), (72, 72))
    """
    card = height_of(thing, book)
    if card is None:
        raise BadInput(f"How high '{thing}' is, is not known: measure from the floor to its top edge.")
    if said_cm is None:
        return card.ends_cm
    rule = book.doserules["height-said"]
    if not card.fits(said_cm, rule.numbers["outside_share"]):
        raise BadInput(f"{said_cm:g} cm is unusual for {card.says}: {rule.how}")
    return said_cm - card.sinks_cm, said_cm

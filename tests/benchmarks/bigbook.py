"""A made-up book ten times as large: every exercise, limit, thing and stand-in nine times more, a little different each time.

Each copy has its own ladder of copies, hung beside the one before by a swap; its loads and bounds are shifted by a few
percent, so that nothing is tied. No trade stands behind it: it is there for its size.
"""

from __future__ import annotations

from typing import Any

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Bound, Card

COPIED = ("exercise", "limit", "equipment", "standin")
_STEP = 0.013  # how much more each copy asks for, as a share


def times(book: Rulebook, many: int) -> Rulebook:
    """`book` with `many` of each exercise, limit, thing and stand-in; copy 0 is the book itself."""
    cards: dict[str, dict[str, Card]] = {kind: dict(shelf) for kind, shelf in book.cards.items()}
    for number in range(1, many):
        for kind in COPIED:
            for card in book.cards[kind].values():
                copy = _copied(card, kind, number, book)
                cards[kind][copy.id] = copy
    return Rulebook(cards, f"{book.fingerprint}x{many}", book.root)


def _copied(card: Card, kind: str, number: int, book: Rulebook) -> Card:
    def named(id_: str) -> str:
        known = any(id_ in book.cards[one] for one in COPIED)
        return f"{id_}~{number}" if known else id_

    changed: dict[str, Any] = {kind: named(card.id)}
    if kind == "exercise":
        beside = card.id if number == 1 else f"{card.id}~{number - 1}"
        changed |= {
            "needs": [" or ".join(named(thing) for thing in line.split(" or ")) for line in card.needs],
            "easier": {named(other): why for other, why in card.easier.items()},
            "swap": {named(other): why for other, why in card.swap.items()} | {beside: ""},
            "rated": {name: value * (1 + _STEP * number) for name, value in card.asks.items()},
            "pose": [],
        }
    elif kind == "limit":
        changed["without"] = [named(thing) for thing in card.without]
        changed["restricts"] = [{q: _shifted(b, number) for q, b in one.items()} for one in card.restricts]
    elif kind == "equipment":
        changed["serves_as"] = [named(thing) for thing in card.serves_as]
    else:
        changed |= {field: [named(one) for one in getattr(card, field)] for field in ("things", "for_kit", "only_for")}
    fields = {name: getattr(card, name) for name in type(card).model_fields}
    return type(card).model_construct(**(fields | changed))


def _shifted(bound: Bound, number: int) -> Bound:
    return Bound(how=bound.how, value=bound.value * (1 + _STEP * number))

"""What an option keeps and costs, in plain words with rounded figures from the demands before and after."""

from __future__ import annotations

from collections.abc import Set

from assistant.body import Demand
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Quantity
from assistant.search.rank import muscles, patterns

_ROUND = 5  # shown figures are rounded to 5 % and 5 degrees, always with a range: they are no measurements
_MOST = 3  # costs worth reading
Pairs = tuple[tuple[str, float], ...]  # quantity and value


def changed(asked: Exercise, card: Exercise) -> tuple[Pairs, Pairs]:
    """The demands of both exercises in which they differ, as (before, after)."""
    ours, theirs = asked.asks, card.asks
    names = sorted(name for name in ours.keys() | theirs.keys() if ours.get(name, 0) != theirs.get(name, 0))
    return tuple((name, ours.get(name, 0.0)) for name in names), tuple((name, theirs.get(name, 0.0)) for name in names)


def costs_in_words(
    asked: Exercise, card: Exercise, before: Pairs, after: Pairs, first: Set[str], book: Rulebook
) -> tuple[str, ...]:
    """At most three short phrases on what `changed`; quantities in `first` (those of the limits) are named first."""
    words, weights = book.orders["words"].texts, book.orders["load"].costs
    if asked is card:
        return (words["same_move"],)
    said = [_muscle_words(asked, card, book)]
    rows = []
    for (name, was), (_, now) in zip(before, after, strict=True):
        weight = abs(now - was) * weights.get(name, 0.0)
        if name in book.quantities and (weight or name in first):
            size = abs(now - was) / max(now, was) if name in first else weight
            rows.append((name not in first, -size, name))
    for _, _, name in sorted(rows)[: _MOST - 1]:
        said.append(_quantity_words(book.quantities[name], asked.demand.get(name), card.demand.get(name), words))
    return tuple(said)


def _muscle_words(asked: Exercise, card: Exercise, book: Rulebook) -> str:
    words = book.orders["words"].texts
    wanted, given = muscles(asked, book), muscles(card, book)
    if not wanted or wanted <= given:
        return words["same_muscles"] if wanted else words["same_move"]
    if len(wanted & given) * 2 >= len(wanted):
        return words["most_muscles"]
    shared = [p for p in patterns(asked, book) if p in patterns(card, book)]
    return book.purposes[shared[0]].says if shared else words["other_muscles"]


def _quantity_words(quantity: Quantity, before: Demand | None, after: Demand | None, words: dict[str, str]) -> str:
    """More or less of a quantity; where both ask for some, with both bands in figures rounded to 5."""
    now, was = after.value if after else 0.0, before.value if before else 0.0
    phrase = quantity.more if now > was else quantity.less
    factor = {"percent": 100, "degrees": 1}.get(quantity.shown_as)
    if not factor or not now or not was:
        return phrase
    spans = {"before": _span(before, factor), "after": _span(after, factor)}
    return words[quantity.shown_as].format(quantity=phrase, **spans) if spans["before"] != spans["after"] else phrase


def _span(one: Demand, factor: int) -> str:
    """The band of a demand rounded to 5; a figure without a band is good for 5 either way."""
    low, high = (int(round(value * factor / _ROUND) * _ROUND) for value in (one.low, one.high))
    if low == high:
        low, high = max(low - _ROUND, 0), high + _ROUND
    return f"{low}–{high}"

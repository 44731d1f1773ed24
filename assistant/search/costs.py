"""What an option keeps and costs, in plain words with rounded figures from the demands before and after."""

from __future__ import annotations

from collections.abc import Set

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.rank import muscles, patterns

_ROUND_PERCENT = 5  # shown figures are rounded to 5 %: ratings are no measurements
_ROUND_DEG = 5
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
            rows.append((name not in first, -weight, name, was, now))
    for _, _, name, was, now in sorted(rows)[: _MOST - 1]:
        said.append(_quantity_words(book.quantities[name], was, now, words))
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


def _quantity_words(quantity, before: float, after: float, words: dict[str, str]) -> str:
    phrase = quantity.more if after > before else quantity.less
    if quantity.shown_as == "percent" and before and after:
        a, b = (_rounded(value * 100, _ROUND_PERCENT) for value in (before, after))
        return words["percent"].format(quantity=phrase, before=a, after=b) if a != b else phrase
    if quantity.shown_as == "degrees" and before and after:
        a, b = (_rounded(value, _ROUND_DEG) for value in (before, after))
        return words["degrees"].format(quantity=phrase, before=a, after=b) if a != b else phrase
    return phrase


def _rounded(value: float, step: int) -> int:
    return int(round(value / step) * step)

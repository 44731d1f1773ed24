"""What an option keeps and costs, in plain words with rounded figures from the demands before and after."""

from __future__ import annotations

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.rank import muscles, patterns

_ROUND_PERCENT = 5  # shown figures are rounded to 5 %: ratings are no measurements
_ROUND_DEG = 5
_MOST = 3  # costs worth reading


def changed(asked: Exercise, card: Exercise) -> tuple[tuple[tuple[str, float], ...], tuple[tuple[str, float], ...]]:
    """The demands of both exercises in which they differ, as (before, after)."""
    names = sorted({n for n in (*asked.asks, *card.asks) if asked.asks.get(n, 0) != card.asks.get(n, 0)})
    return (
        tuple((name, asked.asks.get(name, 0.0)) for name in names),
        tuple((name, card.asks.get(name, 0.0)) for name in names),
    )


def costs_in_words(asked: Exercise, card: Exercise, first: set[str], book: Rulebook) -> tuple[str, ...]:
    """At most three short phrases; quantities in `first` (those of the stated limits) are named first."""
    words = book.orders["words"].texts
    if asked.id == card.id:
        return (words["same_move"],)
    said = [_muscle_words(asked, card, book)]
    before, after = (dict(pairs) for pairs in changed(asked, card))
    names = sorted(before, key=lambda n: (n not in first, -_weight(n, before[n], after[n], book), n))
    for name in names:
        quantity = book.quantities.get(name)
        if quantity is None or len(said) >= _MOST:
            continue
        if name not in first and not _weight(name, before[name], after[name], book):
            continue
        said.append(_quantity_words(quantity, before[name], after[name], words))
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


def _weight(name: str, before: float, after: float, book: Rulebook) -> float:
    return abs(after - before) * book.orders["load"].costs.get(name, 0.0)

"""How good an allowed exercise is as an answer: one number, from the costs on the card `order: best`."""

from __future__ import annotations

from bisect import insort
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from weakref import WeakKeyDictionary

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise

_PLACES = 6  # costs alike to so many places are tied: figures added up in another order never decide
_NOT_NAMED = 3  # the place of a step that only the other card names


@dataclass(frozen=True)
class Wish:
    """What the answer should be: its side of the ladder, and the load that fits (0 = no load known)."""

    kind: str  # swap, easier, harder
    load: float


_LOADS: WeakKeyDictionary[Rulebook, dict[str, float]] = WeakKeyDictionary()


def load_of(card: Exercise, book: Rulebook) -> float:
    """The load of an exercise as one number, from the weights on `order: load`; for comparing, not for telling.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> load_of(book.exercises["wall-push-up"], book) < load_of(book.exercises["push-up"], book)
    True
    """
    known = _LOADS.setdefault(book, {})
    if card.id not in known:
        weights = book.orders["load"].costs
        known[card.id] = sum(weights.get(name, 0.0) * value for name, value in card.asks.items())
    return known[card.id]


Steps = dict[str, list[tuple[str, float]]]  # from each exercise: the next one, and what the step costs
Ways = dict[str, tuple[float, tuple[str, ...]]]
_STEPS: WeakKeyDictionary[Rulebook, Steps] = WeakKeyDictionary()


def ways_from(asked: str, book: Rulebook) -> Ways:
    """Every exercise that can be reached from `asked`: the cost of the cheapest way, of ties the shorter, and the way."""
    if book not in _STEPS:
        _STEPS[book] = _steps(book)
    steps, found, queue = _STEPS[book], {}, [(0.0, 1, (asked,))]
    while queue:
        cost, length, way = heappop(queue)
        if way[-1] in found:
            continue
        found[way[-1]] = (cost, way)
        for other, more in steps[way[-1]]:
            if other not in found:
                heappush(queue, (round(cost + more, _PLACES), length + 1, (*way, other)))
    return found


def _steps(book: Rulebook) -> Steps:
    costs = book.orders["best"].costs
    places = {
        (card.id, other): place
        for card in book.exercises.values()
        for edges in (card.easier, card.swap)
        for place, other in enumerate(edges)
    }
    steps: Steps = {id_: [] for id_ in book.exercises}
    for here, there, kind in book.graph.edges(data="kind"):
        up = costs["step_up"] if kind == "harder" else 0.0
        place = places.get((here, there), _NOT_NAMED)
        steps[here].append((there, costs["step"] + up + costs["edge_order"] * place))
    return steps


def patterns(card: Exercise, book: Rulebook) -> list[str]:
    """The movement patterns of an exercise, main one first."""
    return [name for name in card.trains if name in book.purposes and book.purposes[name].role == "pattern"]


def muscles(card: Exercise, book: Rulebook) -> set[str]:
    """The muscles an exercise trains."""
    return {name for name in card.trains if name in book.purposes and book.purposes[name].role == "muscle"}


def quality(card: Exercise, book: Rulebook) -> str | None:
    """The quality an exercise trains, the last on its card; None where it names none."""
    named = [name for name in card.trains if name in book.purposes and book.purposes[name].role == "quality"]
    return named[-1] if named else None


def purpose_cost(asked: Exercise, card: Exercise, book: Rulebook) -> float:
    """What is lost of the asked purpose: pattern, then muscles, then quality."""
    costs = book.orders["best"].costs
    theirs, ours = patterns(card, book), patterns(asked, book)
    neighbour = book.graph.has_edge(asked.id, card.id)
    if theirs[:1] == ours[:1]:
        total = 0.0
    elif neighbour:
        total = costs["neighbour_pattern"]
    elif ours and ours[0] in theirs:
        total = costs["other_main_pattern"]
    else:
        total = costs["shared_pattern"] if set(ours) & set(theirs) else costs["no_pattern"]
    wanted = muscles(asked, book)
    if wanted:
        total += costs["muscles_lost"] * len(wanted - muscles(card, book)) / len(wanted)
    if quality(asked, book) not in (None, quality(card, book)):
        total += costs["other_quality"]
    if book.families[card.family].weight == "light" and book.families[asked.family].weight == "loaded":
        total += costs["light_for_loaded"]
    return total


@dataclass(frozen=True, slots=True)
class Near:
    """An exercise that may answer for another: its side of the ladder, its load, and what it costs whoever asks."""

    id: str
    card: Exercise
    side: str
    load: float
    way: tuple[str, ...]
    way_cost: float
    cost: float


@dataclass(frozen=True, slots=True)
class Around:
    """What may answer for one exercise, twice: cheapest first, and in the order a coach would think of them."""

    by_cost: tuple[Near, ...]
    by_way: tuple[Near, ...]


_AROUND: WeakKeyDictionary[Rulebook, dict[str, Around]] = WeakKeyDictionary()


def around(card: Exercise, book: Rulebook) -> Around:
    """Exercises that may answer for `card`, with the cost of the way, of the purpose lost, and of the coach's liking."""
    known = _AROUND.setdefault(book, {})
    if card.id not in known:
        found = list(_around(card, book))
        known[card.id] = Around(
            tuple(sorted(found, key=lambda near: (near.cost, near.id))),
            tuple(sorted(found, key=lambda near: (near.way_cost, near.id))),
        )
    return known[card.id]


def _around(card: Exercise, book: Rulebook) -> Iterator[Near]:
    costs, reach = book.orders["best"].costs, book.orders["targets"].costs["reach"]
    ways, ours, regions = ways_from(card.id, book), set(patterns(card, book)), _regions(card, book)
    likings: Counter[str] = Counter()
    for preference in book.preferences.values():
        likings.update(preference.exercises)
    for other, theirs in book.exercises.items():
        if other == card.id or other not in ways:
            continue
        way_cost, way = ways[other]
        if "stretch" in ours and not regions & _regions(theirs, book):
            continue  # two stretches stand in for each other only for the same region
        if len(way) - 1 > reach and ours.isdisjoint(patterns(theirs, book)):
            continue
        cost = way_cost + purpose_cost(card, theirs, book) + likings[other]
        cost += costs["seated_version"] * (theirs.position == "seated" and card.position != "seated")
        cost += costs["one_handed"] * (0 < theirs.asks.get("hands_used", 0) < card.asks.get("hands_used", 0))
        yield Near(other, theirs, side_of(card.id, other, book), load_of(theirs, book), way, way_cost, cost)


def _regions(card: Exercise, book: Rulebook) -> set[str]:
    """The parts of the body a stretch is for: all it trains but stretching itself and the quality."""
    return muscles(card, book) | set(patterns(card, book)) - {"stretch"}


def cheapest(nears: Iterable[Near], price: Callable[[Near], float | None], many: int, least: float) -> list[Near]:
    """The `many` best, ties by id; `nears` come cheapest first, so that what cannot win is never looked at.

    `price` = what one costs this follower (None = not for him): its own cost and at least `least` more."""
    kept: list[tuple[float, str, Near]] = []
    for near in nears:
        if len(kept) == many and round(near.cost + least, _PLACES) > kept[-1][0]:
            break
        cost = price(near)
        if cost is not None:
            insort(kept, (round(cost, _PLACES), near.id, near))
            del kept[many:]
    return [near for _, _, near in kept]


def load_cost(target: float, load: float, book: Rulebook) -> float:
    """What the distance of `load` from the fitting load costs; too much costs more than too little."""
    if target <= 0:
        return 0.0
    costs = book.orders["best"].costs
    share = load / target - 1
    return costs["load_over"] * share if share > 0 else costs["load_under"] * -share


def side_of(asked: str, card: str, book: Rulebook) -> str:
    """Where `card` stands to `asked` in the ladder: same, easier, harder or swap."""
    if asked == card:
        return "same"
    if card in _below(asked, book):
        return "easier"
    return "harder" if asked in _below(card, book) else "swap"


_BELOW: WeakKeyDictionary[Rulebook, dict[str, frozenset[str]]] = WeakKeyDictionary()


def _below(exercise: str, book: Rulebook) -> frozenset[str]:
    known = _BELOW.setdefault(book, {})
    if exercise not in known:
        found: set[str] = set()
        todo = [exercise]
        while todo:
            for other in book.exercises[todo.pop()].easier:
                if other not in found:
                    found.add(other)
                    todo.append(other)
        known[exercise] = frozenset(found)
    return known[exercise]

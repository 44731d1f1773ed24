"""The cards of a book, and a question, as facts for rules.lp. Nothing here decides; figures are made whole numbers.

Millionths: 0.55 is 550000, so that every sum stays within 32 bits; a quantity reckoned from a pose as 0.5999999 is 0.6.
Each part of a cost is right to half a millionth and a cost has at most 15 parts: two exercises whose costs differ by
`TIE` or less are tied within rounding, and only then may the program and the search choose differently.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from heapq import heappop, heappush
from itertools import chain, count
from math import fsum

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Restriction
from assistant.values import Message, Question

MILLION = 10**6
TIE = 8  # millionths
FITS = ("zero_reps", "restart", "easier", "harder", "sore")
WORDS_ONLY = ("form", "why", "dose", "kit", "ready", "feedback", "other")
NOT_NAMED = 3  # place of a step that only the other card names
Fact = tuple[
    str | int, ...
]  # the name (and after a blank what it is about, where one wants only those), then its terms


def whole(value: float) -> int:
    """`value` in millionths, as a number clingo can hold."""
    number = round(value * MILLION)
    if abs(number) >= 2**31:
        raise OverflowError(f"{value} is too large for millionths in 32 bits")
    return number


def book_facts(book: Rulebook) -> Iterator[Fact]:
    """Everything the cards say that has to do with choosing."""
    return chain(_exercises(book), _limits(book), _kit(book), _costs(book))


def _exercises(book: Rulebook) -> Iterator[Fact]:
    for rank, card in enumerate(sorted(book.exercises.values(), key=lambda card: card.id)):
        yield "exercise", card.id
        yield "rank", card.id, rank
        yield from ((f"demand {name}", card.id, whole(value)) for name, value in card.asks.items())
        yield from (("trains", card.id, n, name) for n, name in enumerate(card.trains))
        for number, line in enumerate(card.needs):
            yield from (("need", card.id, number, n, thing) for n, thing in enumerate(line.split(" or ")))
        yield from (("easier", card.id, other) for other in card.easier)
        yield from (("edge", *pair) for o in (*card.easier, *card.swap) for pair in ((card.id, o), (o, card.id)))
        if book.families[card.family].weight == "loaded":
            yield "loaded", card.id
        if card.position == "seated":
            yield "seated", card.id
    yield from (("role", purpose.id, purpose.role) for purpose in book.purposes.values())
    for liking in book.preferences.values():
        yield from (("likes", liking.id, other, whole(cost)) for other, cost in liking.exercises.items())


def _limits(book: Rulebook) -> Iterator[Fact]:
    for card in book.limits.values():
        yield "limit", card.id
        yield "kind", card.id, card.kind
        yield from _bounds("bound", card.id, card.restricts)
        yield from (("takes", card.id, thing) for thing in card.without)
        if card.restricts_all:
            yield "forbids_all", card.id
        if card.stays_with:
            yield "stays_with", card.id
        if card.wants:
            yield "limit_wants", card.id, card.wants
    for region in book.regions.values():
        yield from (("in_region", part, region.id) for part in region.parts)
        yield from _bounds("region_bound", region.id, region.restricts)
        if region.restricts_all:
            yield "region_forbids_all", region.id
    yield from (("counted", quantity.id) for quantity in book.quantities.values() if quantity.counted)


def _bounds(name: str, of: str, restrictions: list[Restriction]) -> Iterator[Fact]:
    for number, restriction in enumerate(restrictions):
        yield from ((name, of, number, q, bound.how, whole(bound.value)) for q, bound in restriction.items())


def _kit(book: Rulebook) -> Iterator[Fact]:
    for card in book.equipment.values():
        yield from (("serves", card.id, kind) for kind in card.serves_as)
        if card.household:
            yield "household", card.id
    for standin in book.standins.values():
        yield from (("standin_thing", standin.id, thing) for thing in standin.things)
        yield from (("standin_for", standin.id, kind) for kind in standin.for_kit)
        yield from (("standin_only", standin.id, exercise) for exercise in standin.only_for)


def _costs(book: Rulebook) -> Iterator[Fact]:
    yield from (("cost", name, whole(value)) for name, value in book.orders["best"].costs.items())
    targets = book.orders["targets"].costs
    yield "target", "reach", int(targets["reach"])
    yield "target", "straight_arm_wait", whole(targets["straight_arm_wait"])
    yield from (("in_words", want) for want in WORDS_ONLY)


def asked_facts(asked: str, book: Rulebook) -> Iterator[Fact]:
    """What depends on the asked exercise alone: the ways from it, and how far each load lies from the one that fits."""
    loads = {card.id: _load(card, book) for card in book.exercises.values()}
    mine, targets = loads[asked], book.orders["targets"].costs
    yield "asked", asked
    yield from (("way", other, steps, cost) for other, (cost, steps) in _ways(asked, book).items() if other != asked)
    yield from (("lighter", other) for other, load in loads.items() if load < mine)
    for name in (*FITS, "same") if mine > 0 else ():
        target = mine * targets.get(name, 1)
        for other, load in loads.items():
            share = load / target - 1
            yield f"{'over' if share > 0 else 'lacking'} {name}", other, whole(abs(share))


def _load(card: Exercise, book: Rulebook) -> float:
    weights = book.orders["load"].costs
    return fsum(weights[name] * value for name, value in card.asks.items() if name in weights)


def _ways(asked: str, book: Rulebook) -> dict[str, tuple[int, int]]:
    """Cost and steps of the cheapest way to every exercise; of two as cheap the one with fewer steps."""
    edges, found, ticket = _edges(book), {}, count()
    queue = [(0, 0, next(ticket), asked)]
    while queue:
        cost, steps, _, here = heappop(queue)
        if here not in found:
            found[here] = (cost, steps)
            for there, more in edges[here].items():
                heappush(queue, (cost + more, steps + 1, next(ticket), there))
    return found


@cache
def _edges(book: Rulebook) -> dict[str, dict[str, int]]:
    """What each step costs: more upwards, and more the later the card names it."""
    costs = {name: whole(value) for name, value in book.orders["best"].costs.items()}
    edges: dict[str, dict[str, int]] = {card: {} for card in book.exercises}
    named = {}
    for card in book.exercises.values():
        for steps in (card.easier, card.swap):
            named |= {(card.id, other): place for place, other in enumerate(steps)}
    for card in book.exercises.values():
        for other in (*card.easier, *card.swap):
            for here, there in ((card.id, other), (other, card.id)):
                up = costs["step_up"] if here in book.exercises[there].easier else 0
                place = named.get((here, there), NOT_NAMED)
                edges[here][there] = costs["step"] + up + place * costs["edge_order"]
    return edges


def question_facts(question: Question, message: Message, asked: str) -> Iterator[Fact]:
    """What was said and what is remembered."""
    profile, planned = message.profile, message.plan.items if message.plan else ()
    others = [one.id for one in question.exercises if one.id != asked]
    yield from (("said", limit.id, n, limit.about or "all") for n, limit in enumerate(question.limits))
    yield from (("wants", want, n) for n, want in enumerate(question.wants))
    for name, things in (
        ("also", others),
        ("has", [kit.id for kit in question.has]),
        ("lacks", [kit.id for kit in question.lacks]),
        ("denied", [denied.id for denied in question.denied]),
        ("owns", profile.has),
        ("remembered", profile.limits),
        ("held", profile.held),
        ("plan", [item.exercise for item in planned]),
    ):
        yield from ((name, thing) for thing in things)

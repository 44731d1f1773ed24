"""Question → options: the graph search. Allowed is never traded against anything; among the allowed the best is chosen.

`search` looks at every exercise that shares a purpose with the asked one, refuses what breaks a limit or lacks its kit,
orders the rest by the costs on `order: best`, and says for each what it keeps, costs and leans on. It will not invent an
exercise, nor offer one that was only assumed to be possible: kit nobody spoke of comes second, as "if you have".
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.allowed import Standing, breaks, broken_by, left_of_limit, reason_of, standing_limits
from assistant.search.costs import changed, costs_in_words
from assistant.search.kit import Kit, Met, kit_of, meets, missing_line
from assistant.search.rank import Near, Wish, around, load_cost, load_of, side_of, ways_from
from assistant.search.wish import Course, course_of
from assistant.values import Asked, Message, Question, Reason, Refused, Swap

__all__ = ["search"]


def search(
    question: Question, message: Message, book: Rulebook, prefer: dict[str, str] | None = None
) -> tuple[tuple[Swap, ...], tuple[Refused, ...]]:
    """Options for every asked exercise, the recommended one first, and what was refused with its reason.

    `prefer` = {asked id: exercise id} puts an allowed option of the coach's choice first."""
    swaps: list[Swap] = []
    refused: list[Refused] = []
    for asked in question.exercises:
        if asked.id in book.exercises and not _is_goal(asked, question, message, book):
            found, out = _options(asked, question, message, book, (prefer or {}).get(asked.id))
            swaps += found
            refused += out
    return tuple(swaps), tuple(refused)


def _is_goal(asked: Asked, question: Question, message: Message, book: Rulebook) -> bool:
    """Whether `asked` is what someone wants to reach: above another asked exercise, and not in today's plan."""
    planned = {item.exercise for item in message.plan.items} if message.plan else set()
    if asked.id in planned or not {"harder", "why", "ready"} & set(question.wants):
        return False
    return any(side_of(asked.id, other.id, book) == "easier" for other in question.exercises)


def _options(asked: Asked, question: Question, message: Message, book: Rulebook, choice: str | None):
    card = book.exercises[asked.id]
    standings = standing_limits(question, message, book)
    kit = kit_of(question, message, asked.id, book)
    course = course_of(asked, card, question, standings, meets(card, kit, book), message, book)
    ranked: list[tuple[float, str, Met]] = []
    wanting: list[tuple[float, str, list[str]]] = []
    out: list[tuple[float, str, Callable[[], Reason]]] = []
    for near in around(card, book):
        theirs, cost = near.card, near.cost + _fit_cost(card, near, course.wish, book)
        refusal = _refusal(near, standings, course, book)
        met = None if refusal else meets(theirs, kit, book)
        if refusal is None and met is None:
            missing = missing_line(theirs, kit, book)
            refusal = partial(_missing_reason, theirs, missing, book)
            if not set(missing) & kit.missing:
                wanting.append((cost, theirs.id, missing))
        if refusal:
            out.append((near.way_cost, theirs.id, refusal))
        else:
            ranked.append((cost + _kit_cost(met, book) + _relief_cost(theirs, standings, book), theirs.id, met))
    ranked.sort(key=lambda entry: (entry[0], entry[1]))
    out.sort(key=lambda entry: (entry[0], entry[1]))
    most = int(book.orders["targets"].costs["most_refused"])  # those a coach would have thought of first
    refused = [Refused(other, asked.id, (reason(),)) for _, other, reason in out[:most]]
    return _as_swaps(asked, card, course, standings, kit, ranked, wanting, choice, book), refused


def _refusal(near: Near, standings: list[Standing], course: Course, book: Rulebook) -> Callable[[], Reason] | None:
    """What gives the reason why `near` is refused whatever kit is there, or None; few are ever asked for it."""
    broken = broken_by(near.card, standings)
    if broken:
        return partial(reason_of, near.card, *broken, book)
    against = course.refuses(near.card, near.side, book)
    return (lambda: against) if against else None


def _fit_cost(card: Exercise, near: Near, wish: Wish, book: Rulebook) -> float:
    """What it costs that the option lies off the load that fits, or on another side of the ladder than wished."""
    cost, missed = load_cost(wish.load, near.load, book), book.orders["best"].costs["wish_missed"]
    if wish.kind == "harder":
        return cost if near.side == "harder" else cost + missed
    if wish.kind == "easier":
        lighter = near.load < load_of(card, book) and near.side != "harder"
        return cost if near.side == "easier" else cost + (missed / 4 if lighter else missed)
    return cost + missed / 2 if near.side == "harder" else cost


def _kit_cost(met: Met, book: Rulebook) -> float:
    costs = book.orders["best"].costs
    total = costs["said_kit"] if met.said else 0.0
    if met.standin:
        return total + costs["standin"]
    return total + costs["household"] * met.household


def _relief_cost(card: Exercise, standings: list[Standing], book: Rulebook) -> float:
    return book.orders["best"].costs["relief"] * left_of_limit(card, standings)


def _missing_reason(card: Exercise, missing: list[str], book: Rulebook) -> Reason:
    names = " or ".join(book.equipment[m].name.lower() if m in book.equipment else m for m in missing)
    return card.reason("", book.orders["words"].texts["missing"].format(kit=names))


def _as_swaps(asked, card, course: Course, standings, kit: Kit, ranked, wanting, choice, book: Rulebook) -> list[Swap]:
    first = {name for s in standings for restriction in s.restricts for name in restriction if breaks(card, s)}
    swaps: list[Swap] = []
    if course.stays is not None:
        swaps.append(_same(asked, card, course, book))
    most = int(book.orders["targets"].costs["most_options"]) + 1
    for _, other, met in ranked:
        if len(swaps) >= most and other != choice:
            continue
        if course.wish.kind == "harder" and course.stays is not None and side_of(card.id, other, book) != "harder":
            continue
        swaps.append(_swap(asked, card, other, met, standings, first, book))
    swaps = swaps[:most] + [s for s in swaps[most:] if s.exercise == choice]
    if course.stays_second and len(swaps) > 1 and swaps[0].kind == "same":
        swaps[0], swaps[1] = swaps[1], swaps[0]
    if choice:
        swaps.sort(key=lambda swap: swap.exercise != choice)
    for _, other, missing in sorted(wanting)[: 1 if swaps else 0]:
        extra = _swap(asked, card, other, Met(), standings, first, book)
        swaps.append(replace(extra, if_you_have=missing[0]))
    return [replace(swap, recommended=n == 0) for n, swap in enumerate(swaps)]


def _same(asked: Asked, card: Exercise, course: Course, book: Rulebook) -> Swap:
    met = course.met or Met()
    words = book.orders["words"].texts
    aid = course.stays or (" + ".join(met.things) if met.condition else None)
    because = (*course.because, *met.because, card.reason("", words["as_asked"]))
    return Swap(card.id, "same", asked.id, asked.item, way=(card.id,), aid=aid, condition=met.condition,
                costs=(words["same_move"],), because=because)  # fmt: skip


def _swap(asked: Asked, card: Exercise, other: str, met: Met, standings, first: set[str], book: Rulebook) -> Swap:
    theirs = book.exercises[other]
    way = ways_from(card.id, book)[other][1]
    before, after = changed(card, theirs)
    limits = tuple(book.limits[s.id].reason(s.words) for s in standings if s.id in book.limits)
    steps = tuple(
        Reason(f"{a} → {b}", data["at"], "", "coach", data["why"] or data["kind"])
        for a, b in zip(way, way[1:], strict=False)
        for data in (book.graph.edges[a, b],)
    )
    aid = " + ".join(met.things) if met.condition else None
    return Swap(other, side_of(card.id, other, book), asked.id, asked.item, way=way, before=before, after=after,
                costs=costs_in_words(card, theirs, first, book), aid=aid, condition=met.condition,
                because=(*limits, *steps, *met.because, theirs.reason("", theirs.name)))  # fmt: skip

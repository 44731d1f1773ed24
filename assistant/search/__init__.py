"""Question → options: the graph search. Allowed is never traded against anything; among the allowed the best is chosen.

`search` looks at every exercise that shares a purpose with the asked one, refuses what breaks a limit or lacks its kit,
orders the rest by the costs on `order: best`, and says for each what it keeps, costs and leans on. It will not invent an
exercise, nor offer one that was only assumed to be possible: kit nobody spoke of comes second, as "if you have".
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.allowed import (
    Standing,
    breaking,
    broken_by,
    left_of_limits,
    reason_of,
    standing_limits,
)
from assistant.search.costs import changed, costs_in_words
from assistant.search.kit import Kit, Met, kit_of, meets, unmet
from assistant.search.rank import Near, around, cheapest, load_cost, load_of, side_of
from assistant.search.wish import Course, course_of
from assistant.values import Asked, Message, Question, Reason, Refused, Swap

__all__ = ["possible", "search"]


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
    return _kept(swaps, question, book), tuple(refused)


def _kept(swaps: list[Swap], question: Question, book: Rulebook) -> tuple[Swap, ...]:
    """Of a whole session only the slots that a limit lets keep: first those that stay as they are, in their order."""
    cards = [book.limits[limit.id] for limit in question.limits if limit.id in book.limits]
    most = min((card.keeps_slots for card in cards if card.keeps_slots), default=0)
    if not most or "whole-session" not in question.wants:
        return tuple(swaps)
    best = [swap for swap in swaps if swap.recommended]
    best.sort(key=lambda swap: swap.kind != "same")
    slots = {(swap.asked, swap.item) for swap in best[:most]}
    return tuple(swap for swap in swaps if (swap.asked, swap.item) in slots)


def _is_goal(asked: Asked, question: Question, message: Message, book: Rulebook) -> bool:
    """Whether `asked` is what someone wants to reach: above another asked exercise, and not in today's plan."""
    planned = {item.exercise for item in message.plan.items} if message.plan else set()
    if asked.id in planned or not {"harder", "why", "ready"} & set(question.wants):
        return False
    return any(side_of(asked.id, other.id, book) == "easier" for other in question.exercises)


def possible(asked: str, question: Question, message: Message, book: Rulebook) -> frozenset[str]:
    """Every exercise that may be offered for `asked`, in no order; `asked` itself where it may stay.

    >>> from assistant.rulebook import load
    >>> bare = Question(("swap",), (Asked("pull-up", "", 0, 0, "name"),))
    >>> {"chin-up", "table-row"} <= possible("pull-up", bare, Message("what instead?"), load())
    True
    """
    view = _view(Asked(asked, "", 0, 0, "name"), question, message, book)
    found = frozenset(near.id for near in view.around.by_cost if view.price(near) is not None)
    return found | ({asked} if view.course.stays is not None else set())


@dataclass
class _View:
    """One asked exercise under all that stands in the way: what around it may be offered, and what it costs."""

    card: Exercise
    standings: list[Standing]
    kit: Kit
    course: Course
    book: Rulebook

    def __post_init__(self) -> None:
        self.around = around(self.card, self.book)
        self.broken = breaking(self.standings, self.book)
        self.costs = costs = self.book.orders["best"].costs
        # the least that kit and relief can add: what a coach likes costs less than nothing
        self.least = sum(min(costs[name], 0.0) for name in ("said_kit", "standin", "household", "relief"))
        self._lacking: dict[str, list[tuple[str, ...]]] = {}

    @cached_property
    def in_the_way(self) -> frozenset[str]:
        """The quantities of the limits that the asked exercise breaks."""
        broken = (s for s in self.standings if self.card.id in breaking([s], self.book))
        return frozenset(name for standing in broken for limit in standing.restricts for name in limit)

    @cached_property
    def limits(self) -> tuple[Reason, ...]:
        """The limits in force as reasons."""
        limits = self.book.limits
        return tuple(limits[s.id].reason(s.words) for s in self.standings if s.id in limits)

    def price(self, near: Near) -> float | None:
        """What `near` costs this follower; None where it may not be offered."""
        if not self._fits(near) or self.lacking(near):
            return None
        cost = self._wish_price(near) + self.costs["relief"] * left_of_limits(near.card, self.standings, self.book)
        return cost + self._kit_price(near) if near.card.needs else cost

    def price_if_had(self, near: Near) -> float | None:
        """What `near` costs where one thing that nobody spoke of is all it lacks; None where it is not so."""
        lacking = self.lacking(near) if near.card.needs and self._fits(near) else ()
        return self._wish_price(near) if len(lacking) == 1 and self.kit.missing.isdisjoint(lacking[0]) else None

    def lacking(self, near: Near) -> list[tuple[str, ...]]:
        """The needs of `near` that are not met."""
        if near.id not in self._lacking:
            self._lacking[near.id] = unmet(near.card, self.kit, self.book) if near.card.needs else []
        return self._lacking[near.id]

    def _fits(self, near: Near) -> bool:
        """Whether `near` is allowed and an answer to the wish, whatever kit is there."""
        if near.id in self.broken or self.course.refuses(near.card, near.side, self.book):
            return False
        return near.side == "harder" or not self.course.only_harder

    def _wish_price(self, near: Near) -> float:
        """Its own cost, and what it costs that it lies off the load that fits, or on another side than wished."""
        wish, missed = self.course.wish, self.costs["wish_missed"]
        cost = near.cost + load_cost(wish.load, near.load, self.book)
        if wish.kind == "harder":
            return cost if near.side == "harder" else cost + missed
        if wish.kind == "easier":
            lighter = near.load < load_of(self.card, self.book) and near.side != "harder"
            return cost if near.side == "easier" else cost + (missed / 4 if lighter else missed)
        return cost + missed / 2 if near.side == "harder" else cost

    def _kit_price(self, near: Near) -> float:
        met = meets(near.card, self.kit, self.book) or Met()
        total = self.costs["said_kit"] if met.said else 0.0
        return total + (self.costs["standin"] if met.standin else self.costs["household"] * met.household)

    def why_not(self, near: Near) -> Reason | None:
        """Why `near` may not be offered; None where it may."""
        if near.id in self.broken:
            return reason_of(near.card, *broken_by(near.card, self.standings), self.book)
        against = self.course.refuses(near.card, near.side, self.book)
        if against:
            return against
        lacking = self.lacking(near)
        return _missing_reason(near.card, lacking[0], self.book) if lacking else None


def _view(asked: Asked, question: Question, message: Message, book: Rulebook) -> _View:
    card, standings = book.exercises[asked.id], standing_limits(question, message, book)
    kit = kit_of(question, message, asked.id, book)
    course = course_of(asked, card, question, standings, meets(card, kit, book), message, book)
    return _View(card, standings, kit, course, book)


def _options(asked: Asked, question: Question, message: Message, book: Rulebook, choice: str | None):
    view = _view(asked, question, message, book)
    most = int(book.orders["targets"].costs["most_refused"])  # those a coach would have thought of first
    refused: list[Refused] = []
    for near in view.around.by_way:
        if len(refused) == most:
            break
        reason = view.why_not(near)
        if reason:
            refused.append(Refused(near.id, asked.id, (reason,)))
    return _as_swaps(asked, view, choice), refused


def _missing_reason(card: Exercise, missing: tuple[str, ...], book: Rulebook) -> Reason:
    names = " or ".join(book.equipment[m].name.lower() if m in book.equipment else m for m in missing)
    return card.reason("", book.orders["words"].texts["missing"].format(kit=names))


def _as_swaps(asked: Asked, view: _View, choice: str | None) -> list[Swap]:
    course, nears = view.course, view.around.by_cost
    swaps = [_same(asked, view.card, course, view.book)] if course.stays is not None else []
    most = int(view.book.orders["targets"].costs["most_options"]) + 1
    best = cheapest(nears, view.price, most - len(swaps), view.least)
    if choice and choice not in (view.card.id, *(near.id for near in best)):
        best += [near for near in nears if near.id == choice and view.price(near) is not None]
    swaps += [_swap(asked, view, near) for near in best]
    if course.stays_second and len(swaps) > 1:
        swaps[0], swaps[1] = swaps[1], swaps[0]
    if choice:
        swaps.sort(key=lambda swap: swap.exercise != choice)
    if swaps and not view.kit.bare:
        best = cheapest(nears, view.price_if_had, 1, 0.0)
        swaps += [_swap(asked, view, near, if_you_have=view.lacking(near)[0][0]) for near in best]
    return [replace(swap, recommended=True) for swap in swaps[:1]] + swaps[1:]


def _same(asked: Asked, card: Exercise, course: Course, book: Rulebook) -> Swap:
    met = course.met or Met()
    words = book.orders["words"].texts
    aid = course.stays or (" + ".join(met.things) if met.condition else None)
    because = (*course.because, *met.because, card.reason("", words["as_asked"]))
    return Swap(card.id, "same", asked.id, asked.item, way=(card.id,), aid=aid, condition=met.condition,
                costs=(words["same_move"],), because=because)  # fmt: skip


def _swap(asked: Asked, view: _View, near: Near, if_you_have: str | None = None) -> Swap:
    card, book, theirs = view.card, view.book, near.card
    met = meets(theirs, view.kit, book) or Met()
    before, after = changed(card, theirs)
    steps = tuple(
        Reason(f"{a} → {b}", data["at"], "", "coach", data["why"] or data["kind"])
        for a, b in zip(near.way, near.way[1:], strict=False)
        for data in (book.graph.edges[a, b],)
    )
    aid = " + ".join(met.things) if met.condition else None
    return Swap(near.id, near.side, asked.id, asked.item, way=near.way, before=before, after=after,
                costs=costs_in_words(card, theirs, before, after, view.in_the_way, book), aid=aid,
                condition=met.condition, if_you_have=if_you_have,
                because=(*view.limits, *steps, *met.because, theirs.reason("", theirs.name)))  # fmt: skip

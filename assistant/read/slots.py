"""Which slots of a plan the pieces of a place mean: the nth of a group, the next one, the other one of a pair."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from assistant.rulebook.cards import Place
from assistant.values import Plan, PlanItem


@dataclass(frozen=True)
class Piece:
    letter: str
    value: object
    first: int
    last: int
    card: Place | None = None
    named: int | None = None  # where the exercise is named that an "it" stands for

    @property
    def name_at(self) -> int:
        """The first word of the exercise's name."""
        return self.first if self.named is None else self.named


def slots_of(kind: str, found: re.Match, chain: list[Piece], plan: Plan) -> Sequence[PlanItem]:
    part = {name: chain[found.start(name)] for name in found.groupdict() if found[name] is not None}
    group = part.get("group") and chain[found.start("group") : found.end("group")]
    if kind == "slot":
        return [plan.slot(part["slot"].value)] if plan.slot(part["slot"].value) else []
    if kind == "part":
        return lettered(plan, "W" if part["part"].letter == "w" else "Z")
    if kind == "whole":
        return []
    if kind == "group":
        return _group(plan, group)
    if kind in ("next", "after it"):
        return _next(plan, part)
    if kind == "partner":
        return others_of(plan, part["of"]) if "of" in part else []
    if found.groupdict().get("very"):
        return list(plan.items[:1])  # "the very first thing on the sheet" is of the warm-up
    if found.groupdict().get("end"):
        return list(plan.items[-1:])
    pool = _group(plan, group) if group else _main(plan)
    if found.groupdict().get("all") and part.get("nth") and part["nth"].letter == "l":
        pool = list(plan.items)  # "the last thing on the sheet" may be a stretch
    which = part.get("nth") or part.get("last") or part.get("number") or part["number2"]
    return pick(pool, which)


def _main(plan: Plan) -> list[PlanItem]:
    return [it for it in plan.items if it.item[:1] not in "WZ"] or list(plan.items)


def lettered(plan: Plan, letter: str) -> list[PlanItem]:
    return [it for it in plan.items if it.item.startswith(letter)]


def _group(plan: Plan, pieces: list[Piece]) -> list[PlanItem]:
    """The slots of "the first pair", "pair B", "the A exercises", "the warm-up"."""
    for piece in pieces:
        if piece.letter in "wcv":
            return lettered(plan, "W" if piece.letter == "w" else "Z")
        if piece.letter in "tg":
            return lettered(plan, piece.value)
    letters = list(dict.fromkeys(it.item[:1] for it in _main(plan)))
    picked = pick(letters, pieces[0])
    return lettered(plan, picked[0]) if picked else []


def pick(pool: Sequence, which: Piece) -> list:
    """The one of `pool` that an ordinal, a number or "last" means; none when there are not so many."""
    at = {"l": len(pool) - 1, "b": len(pool) - 2}.get(which.letter)
    at = which.value - 1 if at is None else at
    return [pool[at]] if 0 <= at < len(pool) else []


def others_of(plan: Plan, of: Piece) -> list[PlanItem]:
    """The other slots of the pair that an exercise or a slot is in."""
    own = [it for it in plan.items if (it.item == of.value if of.letter == "s" else it.exercise in of.value)]
    return partners(plan, *own)


def partners(plan: Plan, *slots: PlanItem) -> list[PlanItem]:
    """The other slots of the pairs that `slots` are in."""
    letters = {it.item[:1] for it in slots}
    return [it for it in plan.items if it.item[:1] in letters and it not in slots]


def _next(plan: Plan, part: dict[str, Piece]) -> list[PlanItem]:
    """The slot after or before an exercise, a slot, the warm-up or the cool-down."""
    of, items = part["of"], list(plan.items)
    if of.letter == "e":
        at = [n for n, it in enumerate(items) if it.exercise in of.value]
    elif of.letter == "s":
        at = [n for n, it in enumerate(items) if it.item == of.value]
    else:
        at = [n for n, it in enumerate(items) if it.item.startswith("W" if of.letter == "w" else "Z")]
    if not at and of.letter != "w":
        return []
    nth = part.get("nth") or part.get("nth2") or part.get("nth3")  # "the one two after the push-ups"
    if part["side"].letter == "a":
        after = items[at[-1] + 1 :] if at else items
        return pick(after, nth) if nth else after[:1]
    before = items[: at[0]][::-1]
    if nth and nth.letter == "b":
        return before[1:2]
    return pick(before, nth) if nth and nth.letter in "od" else before[:1]

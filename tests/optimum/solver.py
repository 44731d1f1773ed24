"""The independent solver: cards and question as facts, the rules of rules.lp, clingo, and what it found."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path

import clingo

from assistant.rulebook import Rulebook
from assistant.values import Message, Question
from tests.optimum.facts import MILLION, Fact, asked_facts, book_facts, question_facts

RULES = "".join(Path(__file__).with_name(name).read_text(encoding="utf-8") for name in ("facts.lp", "rules.lp"))
Table = dict[str, list[clingo.Symbol]]


@dataclass(frozen=True)
class Optimum:
    """What may be offered (the asked exercise too, where it may stay), the best of it, and every cost in millionths."""

    possible: frozenset[str]
    answer: str | None
    costs: dict[str, int]
    parts: dict[str, dict[str, int]]


class Given:
    """What rules.lp calls: the rows of a fact by its name, and what 32 bits cannot hold between two steps."""

    def __init__(self, *tables: Table):
        self._tables = tables

    def rows(self, name):
        """Every fact of this name as a tuple."""
        return [row for table in self._tables for row in table.get(name.name, ())]

    def rows_of(self, name, about):
        """Every fact of this name about one quantity, or one fitting load."""
        return [row for table in self._tables for row in table.get(f"{name.name} {about.string}", ())]

    def part(self, cost, share, of):
        """`cost` times `share` / `of`, to the nearest."""
        return _number(Fraction(cost.number * share.number, of.number))

    def most_one(self, value, bound):
        """The share of `bound` that `value` uses, at most 1, in millionths; of a bound of 0 any use is all of it."""
        if bound.number <= 0:
            return _number(Fraction(MILLION if value.number > 0 else 0))
        return _number(min(Fraction(value.number * MILLION, bound.number), Fraction(MILLION)))


def _number(value: Fraction) -> clingo.Symbol:
    if abs(value) >= 2**31:
        raise OverflowError(f"{value} does not fit into 32 bits")
    return clingo.Number(round(value))


def _table(facts: Iterable[Fact]) -> Table:
    table: Table = {}
    for name, *terms in facts:
        symbols = [clingo.Number(t) if isinstance(t, int) else clingo.String(t) for t in terms]
        table.setdefault(name, []).append(clingo.Function("", symbols))
    return table


@cache
def _of_book(book: Rulebook) -> Table:
    return _table(book_facts(book))


@lru_cache(maxsize=4)
def _of_asked(asked: str, book: Rulebook) -> Table:
    return _table(asked_facts(asked, book))


def solve(asked: str, question: Question, message: Message, book: Rulebook) -> Optimum:
    """The optimum for one asked exercise; there is always exactly one."""
    control = clingo.Control(["--warn=no-atom-undefined"])
    control.add(RULES)
    control.ground(
        context=Given(_of_book(book), _of_asked(asked, book), _table(question_facts(question, message, asked)))
    )
    found: list[clingo.Symbol] = []
    control.solve(on_model=lambda model: found.__setitem__(slice(None), model.symbols(shown=True)))
    return _read(asked, found)


def _read(asked: str, found: list[clingo.Symbol]) -> Optimum:
    offered = {atom.arguments[0].string for atom in found if atom.name == "offer"}
    parts: dict[str, dict[str, int]] = {one: {} for one in offered}
    for atom in found:
        if atom.name == "part" and atom.arguments[0].string in offered:
            exercise, name, cost = atom.arguments
            parts[exercise.string][str(name)] = cost.number
    stays = any(atom.name == "stays" for atom in found)
    answers = [atom.arguments[0].string for atom in found if atom.name == "answer"]
    if len(answers) > 1:
        raise AssertionError(f"two answers to one question: {answers}")
    costs = {one: sum(named.values()) for one, named in parts.items()}
    possible = frozenset(offered | ({asked} if stays else set()))
    return Optimum(possible, answers[0] if answers else None, costs, parts)

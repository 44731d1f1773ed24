"""The map of families × limits: which exercise has no answer under which limit, looked at family by family and kept.

A family takes about a second or two, so it is looked at once for each rulebook (told by its fingerprint), behind the
page that asks for it. A square counts its exercises: answered, answered in words only, or not at all.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from assistant.check.gaps import Cell, Row
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Family, Limit
from assistant.values import NotFound, Swap

log = logging.getLogger("assistant.check")
Kind = Literal["answered", "thin", "in words", "gap"]


@dataclass(frozen=True)
class Square:
    """A family under a limit: how many exercises there are, how many are answered in words only, how many not at all,
    the fewest options one of the others has, and how many an answer has room for."""

    of: int
    in_words: int
    gaps: int
    fewest: int
    room: int

    @property
    def kind(self) -> Kind:
        """The worst that is in it."""
        if self.gaps:
            return "gap"
        if self.in_words:
            return "in words"
        return "thin" if self.fewest < self.room else "answered"


@dataclass(frozen=True)
class Line:
    """One exercise of a square: how it is answered, and the options search gives, the best first."""

    card: Exercise
    cell: Cell
    options: tuple[Swap, ...]


Column = dict[str, Square]  # by limit


def column(family: str, book: Rulebook) -> Column:
    """A family under every limit."""
    rows = [Row(card, book) for card in book.exercises.values() if card.family == family]
    cells = {limit: [] for limit in book.limits}
    for row in rows:
        for cell in row.singles():
            cells[cell.limits[0]].append((cell.kind, len(row.offered[cell.limits[0]])))
    room = 1 + int(book.orders["targets"].costs["most_options"])  # the recommended one and those offered beside it
    return {limit: _square(found, room) for limit, found in cells.items()}


def _square(found: list[tuple[str, int]], room: int) -> Square:
    kinds = [kind for kind, _ in found]
    fewest = min((options for kind, options in found if kind == "answered"), default=0)
    return Square(len(found), kinds.count("in words"), kinds.count("gap"), fewest, room)


def square(family: str, limit: str, book: Rulebook) -> tuple[Family, Limit, tuple[Line, ...]]:
    """Every exercise of a family under one limit, those without an answer first; raises NotFound."""
    if family not in book.families or limit not in book.limits:
        raise NotFound("The book has no such family or no such limit. Choose a square of the map.")
    lines = [Line(card, *Row(card, book).first(limit)) for card in book.exercises.values() if card.family == family]
    worst_first = ("gap", "in words", "answered")
    lines.sort(key=lambda line: worst_first.index(line.cell.kind))
    return book.families[family], book.limits[limit], tuple(lines)


class GapMap:
    """The columns of one rulebook as far as they are known; asking for them begins the looking (`look` at one family)."""

    def __init__(self, look: Callable[[str, Rulebook], Column] = column) -> None:
        self._look_at = look
        self._changed = threading.Condition()
        self._fingerprint = ""
        self._known: dict[str, Column] = {}

    def columns(self, book: Rulebook, wait_s: float = 0.0) -> Mapping[str, Column]:
        """What is known, family by family; waits up to `wait_s` seconds for the rest, which is looked at meanwhile."""
        with self._changed:
            if self._fingerprint != book.fingerprint:
                self._fingerprint, self._known = book.fingerprint, {}
                threading.Thread(target=self._look, args=(book,), name="gap map", daemon=True).start()
            self._changed.wait_for(lambda: len(self._known) == len(book.families), wait_s)
            return dict(self._known)

    def _look(self, book: Rulebook) -> None:
        """Every family in turn, until the rulebook is another."""
        try:
            for family in book.families:
                found = self._look_at(family, book)
                with self._changed:
                    if self._fingerprint != book.fingerprint:
                        return
                    self._known[family] = found
                    self._changed.notify_all()
        except (
            Exception
        ) as error:  # a book that search falls over: what is known stays shown, the next look tries again
            log.error("looking for gaps failed: %s", type(error).__name__)
            with self._changed:
                self._fingerprint = "" if self._fingerprint == book.fingerprint else self._fingerprint
                self._changed.notify_all()

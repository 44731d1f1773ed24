"""Which exercise × limit (and pair of limits) has no answer: the map a coach fills.

A question is `answered` where search may offer something, `in words` where only a noanswer card speaks (nothing honest
trains this here, or a professional comes first), else it is a `gap`, listed with what came nearest and why it is out.
A pair is looked at through its two single limits: what may be offered under both is what may be offered under each. Only
kit can make that wrong (two things may be missing that stand in for each other), so such pairs are searched themselves,
and so is every pair for which nothing is left.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Literal

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search import possible, search
from assistant.values import Asked, Limit, Message, Profile, Question, Reason, Swap

Kind = Literal["answered", "in words", "gap"]
PROFILES = {  # who trains under one limit for good: it is remembered, not said
    "seated": "seated-only",
    "one arm": "one-usable-arm",
    "no floor work": "cannot-get-to-floor",
    "no equipment": "no-equipment-at-all",
}


@dataclass(frozen=True)
class Cell:
    """One exercise under one or two limits (or a profile): how it is answered, and unless by an exercise, why: for an
    answer in words the cards that speak, for a gap what came nearest and why it is out."""

    exercise: str
    limits: tuple[str, ...]
    kind: Kind
    because: tuple[Reason, ...] = ()
    profile: str = ""

    def __str__(self) -> str:
        why = "; ".join(f"{reason.rule}: {reason.says}" for reason in self.because) or "nothing near shares its purpose"
        return f"{self.exercise} with {self.profile or ' + '.join(self.limits)}: {why}"


@dataclass(frozen=True)
class Gaps:
    """The counts of single limits, profiles and pairs, and every gap."""

    singles: Counter[Kind]
    profiles: Counter[Kind]
    pairs: Counter[Kind]
    gaps: tuple[Cell, ...]

    def share(self, counts: Counter[Kind]) -> float:
        """Share of gaps among the questions counted, 0 to 1."""
        return counts["gap"] / max(counts.total(), 1)


def gaps(book: Rulebook, pairs: bool = True, tell: Callable[[int, int], None] = lambda done, of: None) -> Gaps:
    """Every exercise under every limit, every profile and, with `pairs`, every pair; `tell(done, of)` after each exercise."""
    counts: dict[str, Counter[Kind]] = {"single": Counter(), "profile": Counter(), "pair": Counter()}
    found: list[Cell] = []
    for done, card in enumerate(book.exercises.values(), 1):
        row = Row(card, book)
        for name, cells in (
            ("single", row.singles()),
            ("profile", row.profiles()),
            ("pair", row.pairs() if pairs else ()),
        ):
            for cell in cells:
                counts[name][cell.kind] += 1
                if cell.kind == "gap":
                    found.append(cell)
        tell(done, len(book.exercises))
    return Gaps(counts["single"], counts["profile"], counts["pair"], tuple(found))


class Row:
    """One exercise under everything that may stand in the way."""

    def __init__(self, card: Exercise, book: Rulebook):
        self.card, self.book = card, book

    @cached_property
    def offered(self) -> dict[str, frozenset[str]]:
        """What may be offered under each limit."""
        return {limit: possible(self.card.id, *self._asked((limit,)), self.book) for limit in self.book.limits}

    def singles(self) -> Iterator[Cell]:
        """The exercise under each limit."""
        for limit, options in self.offered.items():
            yield self._cell((limit,), bool(options))

    def first(self, limit: str) -> tuple[Cell, tuple[Swap, ...]]:
        """The exercise under one limit alone, with what search offers, the best first."""
        swaps, _ = search(*self._asked((limit,)), self.book)
        sure = tuple(swap for swap in swaps if not swap.if_you_have)
        return self._cell((limit,), bool(sure)), sure

    def profiles(self) -> Iterator[Cell]:
        """The exercise for each profile: the limit is remembered, not said."""
        for name, limit in PROFILES.items():
            if limit in self.book.limits:
                question, message = self._asked((), (limit,))
                options = possible(self.card.id, question, message, self.book)
                yield self._cell((limit,), bool(options), name)

    def pairs(self) -> Iterator[Cell]:
        """The exercise under each pair of limits that are both answered alone."""
        alone = [limit for limit, options in self.offered.items() if options]
        for one, other in combinations(alone, 2):
            options = self.offered[one] & self.offered[other]
            if not options or (self._takes_kit(one) and self._takes_kit(other)):
                options = possible(self.card.id, *self._asked((one, other)), self.book)
            yield self._cell((one, other), bool(options))

    def _takes_kit(self, limit: str) -> bool:
        return bool(self.book.limits[limit].without)

    def _cell(self, limits: tuple[str, ...], answered: bool, profile: str = "") -> Cell:
        if answered:
            return Cell(self.card.id, limits, "answered", profile=profile)
        if words := self._words(limits):
            return Cell(self.card.id, limits, "in words", words, profile)
        _, refused = search(*self._asked(limits), self.book)
        return Cell(self.card.id, limits, "gap", tuple(r for one in refused[:3] for r in one.because), profile)

    def _words(self, limits: Iterable[str]) -> tuple[Reason, ...]:
        """The cards that answer in words: a professional comes first (its notice is the answer), or nothing honest is left."""
        now, mine = set(limits), {self.card.id, self.card.family}
        first = [self.book.limits[limit].reason() for limit in now if self.book.limits[limit].restricts_all]
        return tuple(first) or tuple(
            card.reason()
            for card in self.book.noanswers.values()
            if mine & set(card.exercises) and any(set(entry.split(" + ")) <= now for entry in card.limits)
        )

    def _asked(self, limits: Iterable[str], remembered: tuple[str, ...] = ()) -> tuple[Question, Message]:
        cards = [self.book.limits[limit] for limit in limits]
        said = tuple(Limit(c.id, c.kind, c.without[0] if c.without else None, "", 0, 0) for c in cards)
        wants = () if remembered else ("swap",)  # for good means: what the profile allows is done as it stands
        question = Question(wants, (Asked(self.card.id, "", 0, 0, "name"),), said)
        return question, Message("", profile=Profile(limits=remembered))

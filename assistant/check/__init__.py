"""Everything wrong with rules/: mistakes in cards, examples that do not hold, messages the five verbs fall over.

Comes in: a folder of cards. Goes out: a `Report`; it also lists the examples kept as known wrong and counts the cards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from assistant.check.answers import unanswered
from assistant.check.examples import Failing, examples, failing
from assistant.rulebook import Rulebook, default_rules, read_book
from assistant.rulebook.cards import KINDS, Exercise
from assistant.rulebook.validate import cross_check
from assistant.values import Mistake, RulebookError

__all__ = ["Failing", "Report", "check", "examples", "failing", "unanswered"]


@dataclass(frozen=True)
class Report:
    """What `check` found; with mistakes in the cards no example is run. `rated` says what no pose computes, and why."""

    mistakes: tuple[Mistake, ...] = ()
    failing: tuple[Failing, ...] = ()
    known_wrong: tuple[str, ...] = ()
    rated: tuple[str, ...] = ()
    cards: tuple[tuple[str, int], ...] = ()
    ran: int = 0

    @property
    def ok(self) -> bool:
        """Whether nothing needs to be mended."""
        return not self.mistakes and not self.failing

    def lines(self) -> Iterator[str]:
        """The report as printed: what to mend, what is known to be wrong, and one line of counts."""
        yield from map(str, self.mistakes)
        yield from map(str, self.failing)
        yield from (f"known wrong: {line}" for line in self.known_wrong)
        yield from self.rated
        counts = ", ".join(f"{kind} {number}" for kind, number in self.cards if number)
        yield f"{sum(number for _, number in self.cards)} cards ({counts})"
        yield (
            f"{len(self.mistakes)} mistakes; {self.ran} examples run, {len(self.failing)} failing, "
            f"{len(self.known_wrong)} known wrong"
        )


def check(root: Path | str | None = None, answers: bool = True) -> Report:
    """The report on the cards in `root` (default: the installed rulebook); never raises on what a coach may write.

    With `answers` a sample of the examples goes through all five verbs, for which the book must be a whole one."""
    try:
        book, raw, mistakes = read_book(Path(root) if root else default_rules())
    except RulebookError as error:
        return Report(mistakes=tuple(error.mistakes))
    mistakes = sorted(mistakes + cross_check(book, raw), key=lambda m: (m.file, m.line, m.wrong))
    counts = tuple((kind, len(book.cards.get(kind, {}))) for kind in KINDS)
    known, rated = tuple(_known_wrong(book)), tuple(_rated(book))
    if mistakes:
        return Report(tuple(mistakes), known_wrong=known, rated=rated, cards=counts)
    mistakes = unanswered(book) if answers else []
    every = examples(book)
    found = (failing(example, book) for example in every)
    return Report(tuple(mistakes), tuple(one for one in found if one), known, rated, counts, len(every))


def _known_wrong(book: Rulebook) -> Iterator[str]:
    for shelf in book.cards.values():
        for card in shelf.values():
            yield from (f"{card.at}: '{text}'" for text in card.examples.known_wrong)


def _rated(book: Rulebook) -> Iterator[str]:
    """How many loaded exercises a pose computes, then the others by the reason on their cards."""
    loaded = [card for card in book.exercises.values() if _loaded(card, book)]
    others = [card for card in loaded if all(one.how != "computed" for one in card.demand.values())]
    if loaded:
        yield f"computed from a pose: {len(loaded) - len(others)} of {len(loaded)} loaded exercises"
    reasons = dict.fromkeys(card.rated_because for card in others)
    for reason in reasons:
        names = ", ".join(card.id for card in others if card.rated_because == reason)
        yield f"rated by hand, {reason or 'nothing is rated'}: {names}"


def _loaded(card: Exercise, book: Rulebook) -> bool:
    return card.family in book.families and book.families[card.family].weight == "loaded"

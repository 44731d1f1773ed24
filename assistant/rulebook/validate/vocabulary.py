"""Words that only exercises use (`position`): one that stands alone and looks like another is a slip."""

from __future__ import annotations

from collections import Counter

from rapidfuzz import fuzz, process

from assistant.rulebook.validate.pencil import Pencil

_SLIP = 85  # of 100: a word used once and this near to a word used by others; tried by hand on the whole book


def check_vocabulary(pencil: Pencil) -> None:
    """Notes a position spelled like the one other exercises use, and an exercise that opens with no pattern."""
    book = pencil.book
    used = Counter(card.position for card in book.exercises.values())
    shared = [position for position, times in used.items() if times > 1]
    for card in book.exercises.values():
        best = process.extractOne(card.position, shared, scorer=fuzz.ratio, score_cutoff=_SLIP)
        if used[card.position] == 1 and best:
            found = f"others have '{best[0]}'"
            wrong = f"only '{card.id}' has the position '{card.position}'"
            pencil.note(card, ("position",), wrong, found, f"did you mean '{best[0]}'?")
        first = book.purposes.get(card.trains[0]) if card.trains else None
        if first and first.role != "pattern":
            wrong = f"the first thing '{card.id}' trains is no pattern"
            found = f"'{first.id}' is a {first.role}"
            pencil.note(card, ("trains",), wrong, found, "put its main movement pattern first")

"""Words that only exercises use (`trains`, `position`): one that stands alone and looks like another is a slip."""

from __future__ import annotations

from collections import Counter

from rapidfuzz import fuzz, process

from assistant.rulebook.validate.pencil import Pencil

_SLIP = 85  # of 100: a word used once and this near to a word used by others; tried by hand on the whole book


def check_vocabulary(pencil: Pencil) -> None:
    """Notes a pattern, muscle, quality or position that is spelled like the one the other exercises use."""
    exercises = pencil.book.exercises.values()
    trains = Counter(word for card in exercises for word in set(card.trains))
    positions = Counter(card.position for card in exercises)
    for card in exercises:
        for n, word in enumerate(card.trains):
            _slip(pencil, card, ("trains", n), word, trains)
        _slip(pencil, card, ("position",), card.position, positions)


def _slip(pencil, card, path, word: str, used: Counter[str]) -> None:
    if used[word] > 1:
        return
    shared = [other for other, times in used.items() if times > 1]
    best = process.extractOne(word, shared, scorer=fuzz.ratio, score_cutoff=_SLIP)
    if best:
        pencil.note(
            card,
            path,
            f"only '{card.id}' has '{word}' in its {path[0]}",
            f"others have '{best[0]}'",
            f"did you mean '{best[0]}'?",
        )

"""Rest between sets, where neither the plan nor the card says it."""

from __future__ import annotations

from assistant.rulebook import Rulebook


def rest_span(best: int, book: Rulebook) -> tuple[int, int]:
    """Rest in seconds (low, high) for sets near a best of `best` reps: the fewer reps, the longer.

    >>> from assistant.rulebook import load
    >>> [rest_span(best, load()) for best in (5, 8, 12, 20)]
    [(150, 180), (120, 120), (90, 90), (45, 60)]
    """
    rows = [card.numbers for card in book.doserules.values() if "up_to_best" in card.numbers]
    row = min((row for row in rows if best <= row["up_to_best"]), key=lambda row: row["up_to_best"])
    return int(row["low_s"]), int(row["high_s"])


def rest_for(reps: int, book: Rulebook) -> int:
    """Rest in seconds for sets of `reps` with the usual number left in the tank."""
    return rest_span(reps + int(book.doserules["left-in-tank"].numbers["normal"]), book)[0]

"""Ids, times, doses and demands as the words a page shows; nothing is decided here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assistant.figure import Picture, figure
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Quantity

STEP = {"percent": 5, "degrees": 5}  # figures are rounded to what the model can be trusted with (5 %, 5 degrees)


def span_of_time(seconds: int) -> str:
    """Seconds as a coach says them.

    >>> span_of_time(7800), span_of_time(20), span_of_time(180000)
    ('2 h 10 min', 'under a minute', '2 days 2 h')
    """
    minutes, hours, days = seconds // 60 % 60, seconds // 3600 % 24, seconds // 86400
    if days:
        return f"{days} day{'s' if days > 1 else ''}" + (f" {hours} h" if hours else "")
    if hours:
        return f"{hours} h" + (f" {minutes} min" if minutes else "")
    return f"{minutes} min" if minutes else "under a minute"


def day(iso: str) -> str:
    """An ISO date, or the date of an ISO time, for the eye.

    >>> day("2026-03-02"), day("2026-03-02T07:12:40Z"), day("")
    ('2 Mar 2026', '2 Mar 2026', '')
    """
    try:
        at = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{at.day} {at:%b %Y}"


def clock(iso: str) -> str:
    """An ISO time for the eye, always saying that it is UTC; the page's script shows it in local time.

    >>> clock("2026-03-02T07:12:40+00:00")
    '2 Mar, 07:12 UTC'
    """
    try:
        at = datetime.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{at.day} {at:%b, %H:%M} UTC"


def dose(dose: Mapping[str, Any] | None) -> str:
    """A dose of the contract in one line.

    >>> dose({"sets": 3, "reps": [5, 8], "tempo": "3-1-1-0", "rest_s": 90})
    '3 × 5 to 8, tempo 3-1-1-0, rest 90 s'
    """
    if not dose:
        return ""
    units = (("reps", ""), ("seconds", " s"), ("metres", " m"))
    amount = next((_range(dose[key]) + unit for key, unit in units if dose.get(key)), "")
    parts = [f"{dose.get('sets', '')} × {amount}" if amount else f"{dose.get('sets', '')} sets"]
    parts[0] += " each side" if dose.get("side") else ""
    parts += [f"tempo {dose['tempo']}"] if dose.get("tempo") else []
    parts += [f"rest {dose['rest_s']} s"] if dose.get("rest_s") else []
    return ", ".join(parts)


def _range(ends: Iterable[int]) -> str:
    low, high = ends
    return str(low) if low == high else f"{low} to {high}"


@dataclass(frozen=True)
class Names:
    """What the book calls things; an id the book no longer knows is shown as its own words."""

    book: Rulebook

    def exercise(self, exercise: str) -> str:
        """The exercise's name."""
        return _called(self.book.exercises, exercise, "name")

    def picture(self, exercise: str) -> Picture | None:
        """The exercise as a stick figure; None where its card has no pose."""
        return figure(exercise, self.book)

    def kit(self, equipment: str) -> str:
        """The thing's name."""
        return _called(self.book.equipment, equipment, "name")

    def limit(self, limit: str) -> str:
        """What the limit says."""
        return _called(self.book.limits, limit, "says")

    def category(self, category: str) -> str:
        """The safety category's name."""
        return _called(self.book.categories, category, "name")

    def source(self, source: str) -> str:
        """The citation behind a source's id."""
        return _called(self.book.sources, source, "citation")

    def demands(self, demand: Mapping[str, Any] | None) -> list[tuple[str, str, str]]:
        """Each demand that differs: what it is, before, after."""
        before, after = (demand or {}).get("before") or {}, (demand or {}).get("after") or {}
        both = [name for name in {**before, **after} if before.get(name, 0) != after.get(name, 0)]
        return [(self._quantity(n), self._figure(n, before.get(n, 0)), self._figure(n, after.get(n, 0))) for n in both]

    def way(self, steps: list[str]) -> list[tuple[str, str, str]]:
        """The way through the graph: each exercise's name, with the kind and the reason of the step to it."""
        told = [(self.exercise(steps[0]), "", "")] if steps else []
        for first, second in zip(steps, steps[1:], strict=False):
            edge = self.book.graph.get_edge_data(first, second) or {}
            told.append((self.exercise(second), edge.get("kind", ""), edge.get("why", "")))
        return told

    def _quantity(self, name: str) -> str:
        card = self.book.quantities.get(name)
        scale = f" ({card.unit})" if card and card.shown_as == "words" else ""
        return _called(self.book.quantities, name, "says") + scale

    def _figure(self, name: str, value: float) -> str:
        card = self.book.quantities.get(name)
        if card is None or card.shown_as == "words":
            return f"{value:g}"
        return f"about {amount(card, value)}"


def amount(quantity: Quantity, value: float) -> str:
    """A demand as a figure for the eye, rounded to what it can be trusted with.

    >>> amount(Quantity(quantity="q", says="s", unit="share", more="m", less="l", shown_as="percent"), 0.7312)
    '75 %'
    >>> amount(Quantity(quantity="q", says="s", unit="0 to 3", more="m", less="l"), 2)
    '2'
    """
    if quantity.shown_as == "words":
        return f"{value:.2g}"
    step = STEP[quantity.shown_as]
    scaled = value * 100 if quantity.shown_as == "percent" else value
    return f"{round(scaled / step) * step}" + (" %" if quantity.shown_as == "percent" else "°")


def _called(shelf: Mapping[str, Any], card: str, field: str) -> str:
    found = getattr(shelf[card], field) if card in shelf else ""
    return found or (card if " " in card else card.replace("-", " ").replace("_", " "))

"""Poses must stand, and a demand stands in one place only: in the pose that computes it, or in `rated`."""

from __future__ import annotations

from assistant.rulebook.demands import missing_of_body
from assistant.rulebook.validate.pencil import Pencil


def check_poses(pencil: Pencil) -> None:
    """Notes poses in which no body can stay, demands told twice, and a body whose cards are not all there."""
    book = pencil.book
    posed = [card for card in book.exercises.values() if card.pose]
    missing = missing_of_body(book)
    if posed and missing:
        found = ", ".join(missing[:3]) + (f" and {len(missing) - 3} more" if len(missing) > 3 else "")
        pencil.note(
            posed[0], ("pose",), "there is no body to compute a pose with", f"{found} missing", "put the cards back"
        )
    _body(pencil)
    for card, error in book.cannot_stand:
        pencil.note(
            card, ("pose",), f"no body can stay in the pose of '{card.id}': {error.wrong}", error.found, error.do
        )
    known = pencil.ids("quantity")
    for card in posed:
        for posed_ in card.pose:
            for name in posed_.not_told:
                pencil.known(card, ("pose",), name, known, "quantity")
        for name in card.rated:
            if card.demand[name].how == "computed":
                found = f"rated {card.rated[name]:g}, computed {card.demand[name].value:g}"
                advice = "delete it from 'rated', or write it under 'not_told' of the pose"
                pencil.note(card, ("rated", name), f"'{name}' of '{card.id}' is told twice", found, advice)


def _body(pencil: Pencil) -> None:
    """Every row of the segment table has its three figures for the same builds."""
    for card in pencil.book.segments.values():
        builds = {frozenset(part) for part in (card.mass_percent, card.centre_percent, card.length_mm) if part}
        if len(builds) > 1:
            found = ", ".join(sorted(" and ".join(sorted(one)) for one in builds))
            pencil.note(
                card, (), f"the figures of segment '{card.id}' are of different builds", found, "give all three"
            )

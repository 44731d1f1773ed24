"""A pose as a stick figure in SVG, drawn from the numbers it was computed with, and told in words beside it.

Comes in: an exercise of the book. Goes out: a `Picture`, or None where the card has no pose, because nothing is drawn
that was not computed. Colours are classes of the project's stylesheet; there is no script, no style and no font in it.
"""

from __future__ import annotations

from assistant.body import Body, Held
from assistant.figure.forces import Share, arrows, shares
from assistant.figure.limbs import body as limbs
from assistant.figure.marks import Mark
from assistant.figure.sheet import Picture, picture
from assistant.figure.things import floor_of, helped, things
from assistant.figure.told import WORDS, told
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise

__all__ = ["WORDS", "Picture", "Share", "figure", "shares_of"]
SCALE = 56.0  # units for a stature, the same in nearly every picture, so that before and after can be compared
WIDEST = 180.0  # units; a picture that would be wider is drawn smaller
_SCALES = (SCALE, 53.0, 50.0, 47.0, 44.0)


def figure(exercise: str, book: Rulebook) -> Picture | None:
    """The picture of an exercise with all its key poses side by side; None where there is no pose to draw.

    >>> from assistant.rulebook import load
    >>> drawn = figure("push-up", load())
    >>> drawn.title, str(drawn)[:4]
    ('Push-up', '<svg')
    """
    card = book.exercises.get(exercise)
    if card is None or not card.poses or book.body is None:
        return None
    held = [_held(book.body, pose) for pose in card.poses]
    found = [shares(builds) for builds in held]
    text = told(card, card.poses, found, book)
    figures = [builds[0] for builds in held]
    for scale in _SCALES:  # strokes and labels do not shrink with it, so the last one may still be a little wider
        drawn = picture(_panels(card, book.body, figures, found, scale), card.name, text)
        if drawn.width <= WIDEST:
            break
    return drawn


def shares_of(exercise: str, book: Rulebook) -> list[list[Share]]:
    """The contacts shown with an arrow, key pose by key pose."""
    return [shares(_held(book.body, pose)) for pose in book.exercises[exercise].poses]


def _held(body: Body, pose) -> list[Held]:
    return [body.held(pose, build.name) for build in body.builds]


def _panels(
    card: Exercise, body: Body, figures: list[Held], found: list[list[Share]], scale: float
) -> list[tuple[list[Mark], float]]:
    """Each key pose as marks with the height of its floor; what hangs at one height hangs over one floor."""
    drawn = [limbs(one, body.stance, scale) for one in figures]
    floors = [floor_of(one, marks, scale) for one, marks in zip(figures, drawn, strict=True)]
    if len({one.pose.shape for one in figures}) == 1 and not helped(figures[0]):
        floors = [min(floors)] * len(floors)
    against_wall = any("wall" in needed for needed in card.need_sets)
    panels = []
    for one, marks, weights, floor in zip(figures, drawn, found, floors, strict=True):
        behind, front = things(one, marks, floor, scale, against_wall)
        panels.append(([*behind, *marks, *front, *arrows(one, weights, scale)], floor))
    return panels

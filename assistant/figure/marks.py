"""What a picture is made of, in picture units: strokes, discs and labels, with y upwards like the body's own points."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

LABEL_SIZE = 10.0  # units; a picture shown at its own size has one unit a pixel
_WIDE = {"%": 0.95, "\u202f": 0.25}  # widths against the height in a wide typeface; a figure is the rest
_FIGURE = 0.66


class Box(NamedTuple):
    """What a mark takes up: left, bottom, right, top."""

    left: float
    bottom: float
    right: float
    top: float


@dataclass(frozen=True)
class Stroke:
    """A line through points with round ends and joints; `kind` is its class in the stylesheet."""

    kind: str
    points: tuple[complex, ...]
    width: float = 1.4
    closed: bool = False

    def box(self) -> Box:
        """The box around the line, half its width included."""
        half = self.width / 2
        across, up = [p.real for p in self.points], [p.imag for p in self.points]
        return Box(min(across) - half, min(up) - half, max(across) + half, max(up) + half)

    def moved(self, by: complex) -> Stroke:
        """The same line elsewhere."""
        return Stroke(self.kind, tuple(point + by for point in self.points), self.width, self.closed)


@dataclass(frozen=True)
class Disc:
    """A filled circle (a ring where `kind` says so in the stylesheet)."""

    kind: str
    at: complex
    radius: float

    def box(self) -> Box:
        """The box around the circle and its rim."""
        far = self.radius + 0.7
        return Box(self.at.real - far, self.at.imag - far, self.at.real + far, self.at.imag + far)

    def moved(self, by: complex) -> Disc:
        """The same circle elsewhere."""
        return Disc(self.kind, self.at + by, self.radius)


@dataclass(frozen=True)
class Label:
    """A few characters; `anchor` start, middle or end says which part of them is at the point."""

    at: complex
    text: str
    anchor: str = "middle"

    def box(self) -> Box:
        """The box around the characters, as wide as they can be."""
        wide = sum(_WIDE.get(character, _FIGURE) for character in self.text) * LABEL_SIZE
        left = self.at.real - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        return Box(left, self.at.imag - 0.25 * LABEL_SIZE, left + wide, self.at.imag + 0.8 * LABEL_SIZE)

    def moved(self, by: complex) -> Label:
        """The same characters elsewhere."""
        return Label(self.at + by, self.text, self.anchor)


Mark = Stroke | Disc | Label


def box_around(marks: Iterable[Mark]) -> Box:
    """The box around all of them.

    >>> box_around([Disc("", 0j, 4.3), Stroke("", (0j, 10 + 0j), 2.0)])
    Box(left=-5.0, bottom=-5.0, right=11.0, top=5.0)
    """
    boxes = [mark.box() for mark in marks]
    return Box(min(b.left for b in boxes), min(b.bottom for b in boxes),
               max(b.right for b in boxes), max(b.top for b in boxes))  # fmt: skip

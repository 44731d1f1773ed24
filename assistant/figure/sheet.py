"""Marks onto a sheet: key poses beside each other on one floor, in a view box that holds all of them, as SVG."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from assistant.figure.marks import LABEL_SIZE, Disc, Label, Mark, Stroke, box_around

_BETWEEN = 12.0  # units between two key poses, with a small arrowhead in it
_RIM = 1.5
_TURN = (-2.0 + 3.4j, 1.4 + 0j, -2.0 - 3.4j)
_EM = 16.0  # units to an em, so that a stylesheet sizes pictures by the size of their type


@dataclass(frozen=True)
class Picture:
    """A drawing with its name and its text alternative; in a template it is the SVG itself."""

    title: str
    text: str
    width: float
    height: float
    marks: tuple[Mark, ...]

    def __str__(self) -> str:
        size = f'viewBox="0 0 {self.width:g} {self.height:g}" width="{self.width / _EM:g}em"'
        drawn = "".join(_drawn(mark, self.height) for mark in self.marks)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="figure" role="img" {size} fill="none" '
            f'stroke="currentColor" stroke-linecap="round" stroke-linejoin="round">'
            f"<title>{escape(self.title)}</title><desc>{escape(self.text)}</desc>{drawn}</svg>"
        )

    def __html__(self) -> str:
        return str(self)


def picture(panels: Sequence[tuple[list[Mark], float]], title: str, text: str) -> Picture:
    """Key poses, each with the height of its floor, side by side."""
    right, placed = 0.0, []
    for marks, floor in panels:
        box = box_around(marks)
        if placed:
            placed += [Stroke("turn", tuple(right + _BETWEEN / 2 + 16j + point for point in _TURN), 1.4)]
            right += _BETWEEN
        placed += [mark.moved(complex(right - box.left, -floor)) for mark in marks]
        right += box.right - box.left
    whole = box_around(placed)
    by = complex(_RIM - whole.left, _RIM - whole.bottom)
    width, height = whole.right - whole.left + 2 * _RIM, whole.top - whole.bottom + 2 * _RIM
    return Picture(title, text, round(width, 1), round(height, 1), tuple(mark.moved(by) for mark in placed))


def _drawn(mark: Mark, height: float) -> str:
    """A mark as an element; the sheet counts downwards."""
    if isinstance(mark, Disc):
        return f'<circle class="{mark.kind}" {_at(mark.at, height, "cx", "cy")} r="{mark.radius:g}"/>'
    if isinstance(mark, Label):
        at = _at(mark.at, height, "x", "y")
        return (
            f'<text class="share" {at} text-anchor="{mark.anchor}" font-size="{LABEL_SIZE:g}" '
            f'fill="currentColor" stroke="none">{escape(mark.text)}</text>'
        )
    path = "L".join(f"{point.real:.1f} {height - point.imag:.1f}" for point in mark.points)
    return f'<path class="{mark.kind}" d="M{path}{"Z" if mark.closed else ""}" stroke-width="{mark.width:g}"/>'


def _at(point: complex, height: float, across: str, down: str) -> str:
    return f'{across}="{point.real:.1f}" {down}="{height - point.imag:.1f}"'

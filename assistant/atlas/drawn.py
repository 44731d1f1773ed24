"""The drawing of a ladder: a box for each exercise that leads to its leaf, a line for each step with its why as title.

Colours and type are classes of the stylesheet; there is no script and no style in it. The lines are hidden from screen
readers, which have the list of steps beside the drawing.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING

from assistant.atlas.arranged import Arranged, arranged
from assistant.atlas.svg import Svg

if TYPE_CHECKING:
    from assistant.atlas.ladder import Rung

_WIDE, _HIGH, _BETWEEN = 146.0, 58.0, 44.0  # units: a box, and the way from one layer to the next
_PASSING = 10.0  # room for a line that passes a layer
_LINE, _LETTERS = 15.5, 17  # height of a line of type, and how many letters fit on it
_EDGE, _SCALE = 6.0, 52.0  # the rim, and the column that counts the layers
_EM = 16.0  # units to an em: sized by its type, like the figures


def drawing(layers: Sequence[Sequence[Rung]], here: str) -> Svg:
    """The layers, hardest first, as they come from the ladder; `here` is marked with the steps next to it."""
    rungs = {rung.card.id: rung for layer in layers for rung in layer}
    steps = [(one, other) for one, rung in rungs.items() for other in sorted(rung.drawn)]
    most = max(rung.layer for rung in rungs.values())
    placed = arranged({one: rung.layer for one, rung in rungs.items()}, steps, lambda one: _WIDE if one else _PASSING)
    sheet = _Sheet(rungs, placed, most, here)
    wide = _EDGE + _SCALE + max(placed.across[one] for one in rungs) + _WIDE / 2 + _EDGE
    wide = max(wide, *(_EDGE + _SCALE + across + _EDGE for across in placed.across.values()))
    high = 2 * _EDGE + (most + 1) * _HIGH + most * _BETWEEN
    lines = "".join(sheet.line(*ends) for ends in sorted(steps, key=lambda ends: here in ends))
    return Svg(
        f'<svg class="ladder" role="group" aria-labelledby="ladder-name" viewBox="0 0 {wide:.0f} {high:.0f}" '
        f'width="{wide / _EM:g}em" fill="none"><g aria-hidden="true">{sheet.scale(wide)}{lines}</g>'
        f"{''.join(map(sheet.box, rungs))}</svg>"
    )


class _Sheet:
    """The places of one drawing, from the top down."""

    def __init__(self, rungs: dict[str, Rung], placed: Arranged, most: int, here: str):
        self._rungs, self._placed, self._most, self._here = rungs, placed, most, here
        self._layer = {one: n for n, row in enumerate(placed.order) for one in row}

    def _at(self, place: str) -> tuple[float, float]:
        """The middle of a place, across and down."""
        down = _EDGE + (self._most - self._layer[place]) * (_HIGH + _BETWEEN) + _HIGH / 2
        return _EDGE + _SCALE + self._placed.across[place], down

    def scale(self, wide: float) -> str:
        """The layers counted on the left, each on a thin line across."""
        drawn = []
        for n in range(self._most + 1):
            down = _EDGE + (self._most - n) * (_HIGH + _BETWEEN) + _HIGH / 2
            drawn.append(f'<path class="rule" d="M{_EDGE + 28:.0f} {down:.1f}H{wide - _EDGE:.1f}"/>')
            drawn.append(f'<circle class="bead" cx="{_EDGE + 14:g}" cy="{down:.1f}" r="14"/>')
            drawn.append(f'<text class="count" x="{_EDGE + 14:g}" y="{down + 4.5:.1f}" text-anchor="middle">{n}</text>')
        return "".join(drawn)

    def line(self, first: str, second: str) -> str:
        """A step as a curve from the harder box down to the easier one, past the layers between."""
        places = [self._at(place) for place in self._placed.ways[first, second]]
        (x, y), path = places[0], []
        path.append(f"M{x:.1f} {y + _HIGH / 2:.1f}")
        last = len(places) - 1
        for n, (to_x, to_y) in enumerate(places[1:], 1):
            start, end = y + _HIGH / 2, to_y - _HIGH / 2
            middle = (start + end) / 2
            path.append(f"C{x:.1f} {middle:.1f} {to_x:.1f} {middle:.1f} {to_x:.1f} {end:.1f}")
            path.append(f"V{to_y + _HIGH / 2:.1f}" if n < last else "")
            x, y = to_x, to_y
        near = " near" if self._here in (first, second) else ""
        why = next((one.says for one in self._rungs[first].down if one.to.id == second), "")
        names = f"{self._rungs[first].card.name} → {self._rungs[second].card.name}"
        return (
            f'<g class="step{near}"><title>{escape(names)}: {escape(why or "easier")}</title>'
            f'<path class="reach" d="{"".join(path)}"/><path class="line" d="{"".join(path)}"/>'
            f'<circle cx="{places[-1][0]:.1f}" cy="{places[-1][1] - _HIGH / 2:.1f}" r="3.5"/></g>'
        )

    def box(self, one: str) -> str:
        """An exercise as a box with its name, leading to its leaf."""
        (x, y), card = self._at(one), self._rungs[one].card
        lines = textwrap.wrap(card.name, _LETTERS, break_long_words=False, break_on_hyphens=False)[:3]
        top = y - (len(lines) - 1) * _LINE / 2 + 4.6
        text = "".join(
            f'<tspan x="{x:.1f}" y="{top + n * _LINE:.1f}">{escape(words)} </tspan>' for n, words in enumerate(lines)
        )
        mark = ' class="here" aria-current="true"' if one == self._here else ""
        return (
            f'<a href="/book/exercise/{escape(one)}"{mark}><rect x="{x - _WIDE / 2:.1f}" y="{y - _HIGH / 2:.1f}" '
            f'width="{_WIDE:g}" height="{_HIGH:g}" rx="9"/><text text-anchor="middle">{text}</text></a>'
        )

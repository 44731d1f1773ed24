"""A finished drawing: in a template it is the SVG itself, because everything in it was escaped when it was made."""

from __future__ import annotations


class Svg(str):
    """SVG as text that a template shows as it is."""

    def __html__(self) -> str:
        return str(self)

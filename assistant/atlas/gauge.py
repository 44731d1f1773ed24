"""A demand as a small bar: how much is asked, with its band, against the most any exercise of the book asks."""

from __future__ import annotations

from assistant.atlas.svg import Svg

_LONG, _HIGH = 100.0, 10.0  # units


def gauge(value: float, low: float, high: float, most: float) -> Svg:
    """The bar for `value`, its band from `low` to `high`, on a scale that ends at `most`; seen, not read.

    >>> str(gauge(1, 1, 1, 2)).count("<rect")
    2
    """
    of = _LONG / most if most > 0 else 0.0
    bar = _rect("told", 0, value * of)
    band = _rect("band", low * of, (high - low) * of) if high > low else ""
    rail = _rect("rail", 0, _LONG)
    return Svg(
        f'<svg class="gauge" viewBox="0 0 {_LONG:g} {_HIGH:g}" preserveAspectRatio="none" aria-hidden="true" '
        f'focusable="false">{rail}{bar}{band}</svg>'
    )


def _rect(kind: str, start: float, long: float) -> str:
    return f'<rect class="{kind}" x="{start:.1f}" y="0" width="{max(0.0, min(long, _LONG - start)):.1f}" height="{_HIGH:g}"/>'

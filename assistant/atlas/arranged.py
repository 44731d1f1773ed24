"""Where everything on a ladder stands: layers one above the other, few crossings, steps as straight as they can be.

The usual way for layered graphs: a step over several layers gets a passing point on each, each layer is sorted by the
mean place of its neighbours a few times up and down, then everything moves towards its neighbours as far as there is room.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

_SWEEPS = 12
_GAP = 14.0  # units between two neighbours of a layer


@dataclass(frozen=True)
class Arranged:
    """The middle of every place across, and of every step the places it passes, from the harder end to the easier."""

    across: dict[str, float]
    ways: dict[tuple[str, str], tuple[str, ...]]
    order: tuple[tuple[str, ...], ...]  # layer by layer, easiest first


def arranged(layer: Mapping[str, int], steps: Sequence[tuple[str, str]], wide: Callable[[str], float]) -> Arranged:
    """Places for all exercises in `layer`; `steps` lead down; `wide` is how much room one takes (a passing point: "").

    >>> found = arranged({"full": 2, "half": 1, "wall": 0}, [("full", "half"), ("half", "wall"), ("full", "wall")], len)
    >>> found.ways["full", "wall"]
    ('full', '1 full wall', 'wall')
    """
    ways = {(a, b): (a, *(f"{n} {a} {b}" for n in range(layer[a] - 1, layer[b], -1)), b) for a, b in steps}
    across: dict[str, float] = {}
    order: list[list[str]] = [[] for _ in range(max(layer.values()) + 1)]
    for part in _parts(layer, ways):  # side by side: what is not joined has nothing to pull it together
        rows, near = _rows(part, layer, ways)
        half = {one: wide(one if one in layer else "") / 2 for row in rows for one in row}
        start = max((across[one] + wide(one if one in layer else "") / 2 + _GAP for one in across), default=0.0)
        across |= {one: place + start for one, place in _placed(rows, near, half).items()}
        for n, row in enumerate(rows):
            order[n] += row
    return Arranged(across, ways, tuple(map(tuple, order)))


def _parts(layer: Mapping[str, int], ways: Mapping[tuple[str, str], Sequence[str]]) -> list[list[str]]:
    """The exercises in groups that are joined by steps, the largest group first."""
    group = {one: {one} for one in layer}
    for a, b in ways:
        if group[a] is not group[b]:
            group[a] |= group[b]
            for one in group[b]:
                group[one] = group[a]
    found = {id(some): [one for one in layer if one in some] for some in group.values()}
    return sorted(found.values(), key=len, reverse=True)


def _rows(part: Sequence[str], layer: Mapping[str, int], ways: Mapping[tuple[str, str], Sequence[str]]):
    """The layers of one group in their best order, easiest first, with the neighbours of every place."""
    own = {ends: way for ends, way in ways.items() if ends[0] in part}
    rows: list[list[str]] = [[] for _ in range(max(layer[one] for one in part) + 1)]
    for one in part:
        rows[layer[one]].append(one)
    for (a, _), way in own.items():
        for n, passing in enumerate(way[1:-1], 1):
            rows[layer[a] - n].append(passing)
    near = _neighbours(own)
    return _sorted(rows, near), near


def _neighbours(ways: Mapping[tuple[str, str], Sequence[str]]) -> dict[str, tuple[list[str], list[str]]]:
    """Of every place its neighbours below and above."""
    near: dict[str, tuple[list[str], list[str]]] = {}
    for way in ways.values():
        for high, low in zip(way, way[1:], strict=False):
            near.setdefault(high, ([], []))[0].append(low)
            near.setdefault(low, ([], []))[1].append(high)
    return near


def _sorted(rows: list[list[str]], near: Mapping[str, tuple[list[str], list[str]]]) -> list[list[str]]:
    """The rows in the order with the fewest crossings found."""
    best, fewest = [list(row) for row in rows], _crossings(rows, near)
    rows = [list(row) for row in rows]
    for sweep in range(_SWEEPS):
        upwards = sweep % 2 == 0
        for n in range(1, len(rows)) if upwards else range(len(rows) - 2, -1, -1):
            beside = {one: place for place, one in enumerate(rows[n - 1 if upwards else n + 1])}
            own = {one: place for place, one in enumerate(rows[n])}
            side = 0 if upwards else 1
            mean = {one: _mean([beside[o] for o in near.get(one, ((), ()))[side]], own[one]) for one in rows[n]}
            rows[n].sort(key=lambda one, mean=mean, own=own: (mean[one], own[one]))
        found = _crossings(rows, near)
        if found < fewest:
            best, fewest = [list(row) for row in rows], found
    return best


def _crossings(rows: Sequence[Sequence[str]], near: Mapping[str, tuple[list[str], list[str]]]) -> int:
    count = 0
    for low, high in zip(rows, rows[1:], strict=False):
        at = {one: place for place, one in enumerate(low)}
        ends = [(n, at[o]) for n, one in enumerate(high) for o in near.get(one, ((), ()))[0]]
        count += sum((a < c) != (b < d) for i, (a, b) in enumerate(ends) for c, d in ends[i + 1 :] if a != c and b != d)
    return count


def _placed(rows: Sequence[Sequence[str]], near, half: Mapping[str, float]) -> dict[str, float]:
    """Every place as near to the mean of its neighbours as its row has room for; the leftmost edge is at 0."""
    across: dict[str, float] = {}
    for row in rows:
        right = -sum(2 * half[one] + _GAP for one in row) / 2
        for one in row:
            across[one] = right + half[one]
            right += 2 * half[one] + _GAP
    for sweep in range(4 * _SWEEPS):
        for row in rows if sweep % 2 else reversed(rows):
            wished = [_mean([across[o] for side in near.get(one, ((), ())) for o in side], across[one]) for one in row]
            across.update(zip(row, _apart(wished, [half[one] for one in row]), strict=True))
    left = min(across[one] - half[one] for one in across)
    return {one: place - left for one, place in across.items()}


def _apart(wished: Sequence[float], half: Sequence[float]) -> list[float]:
    """The wished places pushed apart as little as is needed: the mean of pushing to the right and to the left."""
    right, left = list(wished), list(wished)
    for n in range(1, len(wished)):
        right[n] = max(right[n], right[n - 1] + half[n - 1] + half[n] + _GAP)
    for n in range(len(wished) - 2, -1, -1):
        left[n] = min(left[n], left[n + 1] - half[n] - half[n + 1] - _GAP)
    return [(a + b) / 2 for a, b in zip(right, left, strict=True)]


def _mean(places: Sequence[float], otherwise: float) -> float:
    return sum(places) / len(places) if places else float(otherwise)

"""A body as lengths and masses: segment rows of the literature → a build of a given stature and mass.

Lengths are told as shares of the stature, masses as shares of body mass, so that nothing below needs kilograms; only
heights in centimetres and loads in kilograms on a card do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

SIDES = ("upper_arm", "forearm", "hand", "thigh", "shank", "foot")  # segments a body has twice
PARTS = ("head", "trunk", *SIDES)  # together the whole body
TRUNK_PARTS = ("upper_trunk", "middle_trunk", "lower_trunk")


class Row(NamedTuple):
    """One row of a segment table: `mass_percent` of one limb, `centre_percent` from the near end, `length_mm`."""

    mass_percent: float
    centre_percent: float
    length_mm: float


class Segment(NamedTuple):
    """A segment of a build: length as a share of stature, mass of one limb as a share of body mass, centre 0 to 1."""

    length: float
    mass: float
    centre: float


@dataclass(frozen=True)
class Build:
    """A body of `stature_m` and `mass_kg`; `head_out` is how far the head's centre lies beyond the shoulder."""

    name: str
    stature_m: float
    mass_kg: float
    upper_arm: Segment
    forearm: Segment
    hand: Segment
    thigh: Segment
    shank: Segment
    foot: Segment
    trunk: Segment
    head_mass: float
    head_out: float
    waist_up: float  # how far the navel lies above the hip
    above_waist: tuple[tuple[float, float], ...]  # trunk above the navel: (mass, height of its centre above the hip)

    def cm(self, height_cm: float) -> float:
        """A height in centimetres as a share of this build's stature."""
        return height_cm / (100 * self.stature_m)

    def kg(self, load_kg: float) -> float:
        """A load in kilograms as a share of this build's mass."""
        return load_kg / self.mass_kg


def build_of(
    name: str, rows: Mapping[str, Row], stature_m: float, mass_kg: float, reference_m: float | None = None
) -> Build:
    """The build from the rows of a segment table measured on people of `reference_m` (default: the same stature).

    Masses are divided by their sum, because published rows add up to 100 % only nearly.

    >>> from assistant.rulebook import load
    >>> man = load().body.build("man", stature_m=1.80, mass_kg=80)
    >>> round(man.thigh.length, 3), round(man.cm(45), 2)
    (0.243, 0.25)
    """
    reference_mm = 1000 * (reference_m or stature_m)
    whole = sum(rows[part].mass_percent * (2 if part in SIDES else 1) for part in PARTS)
    made = {
        part: Segment(
            rows[part].length_mm / reference_mm, rows[part].mass_percent / whole, rows[part].centre_percent / 100
        )
        for part in (*SIDES, "trunk")
    }
    neck = rows["trunk_with_neck"].length_mm - rows["trunk"].length_mm
    head = neck + (1 - rows["head"].centre_percent / 100) * rows["head"].length_mm
    upper, middle, lower = (rows[part] for part in TRUNK_PARTS)
    above = (
        (middle.mass_percent / whole, lower.length_mm + (1 - middle.centre_percent / 100) * middle.length_mm),
        (
            upper.mass_percent / whole,
            lower.length_mm + middle.length_mm + (1 - upper.centre_percent / 100) * upper.length_mm,
        ),
    )
    return Build(
        name,
        stature_m,
        mass_kg,
        **made,
        head_mass=rows["head"].mass_percent / whole,
        head_out=head / reference_mm,
        waist_up=lower.length_mm / reference_mm,
        above_waist=tuple((mass, height / reference_mm) for mass, height in above),
    )

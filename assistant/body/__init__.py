"""Poses → demands: how much weight is on the hands, how far joints bend, what moments muscles must hold.

A planar figure of average build, standing still. It compares poses; it says nothing about one person's joints.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.body.build import Build, Row, build_of
from assistant.body.demand import Demand, asked, demands
from assistant.body.pose import CannotStand, Choice, Pose, Stance, stance_of
from assistant.body.shapes import held
from assistant.body.statics import Contact, Held, Moments, moments

__all__ = [
    "Body", "Build", "CannotStand", "Choice", "Contact", "Demand", "Held", "Moments", "Pose", "Row", "Stance", "asked",
    "build_of", "demands", "held", "moments", "stance_of",
]  # fmt: skip


@dataclass(frozen=True)
class Body:
    """The builds demands are computed for, a man's first, and the assumptions about hands and feet."""

    builds: tuple[Build, ...]
    stance: Stance
    rows: dict[str, dict[str, Row]]
    references: dict[str, tuple[float, float]]  # by build: stature in m and mass in kg of the people measured
    source: tuple[str, ...] = ()

    def build(self, name: str, stature_m: float | None = None, mass_kg: float | None = None) -> Build:
        """The build `name` (man, woman) of another stature or mass."""
        reference_m, reference_kg = self.references[name]
        return build_of(name, self.rows[name], stature_m or reference_m, mass_kg or reference_kg, reference_m)

    def of(self, stature_m: float | None = None, mass_kg: float | None = None) -> Body:
        """The same body model for people of another stature or mass."""
        return replace(self, builds=tuple(self.build(name, stature_m, mass_kg) for name in self.references))

    def held(self, pose: Pose, build: str = "man", choice: Choice | None = None) -> Held:
        """The figure of a pose with its forces."""
        return held(pose, self.build(build), self.stance, choice or Choice())

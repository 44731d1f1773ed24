"""Joints and segment centres of a body in one plane.

Points and directions are complex numbers: the real part runs along the floor, the imaginary part upwards, in shares
of the stature; to turn is to multiply. Seen so that whoever stands looks towards +x. A figure on its front has its
head at +x, a figure on its back at -x, so one set of signs holds for every pose:

    thigh = -trunk turned by the hip bend;  shank = thigh turned back by the knee bend
    upper arm = -trunk turned by the arm raise;  forearm = upper arm turned by the elbow bend
"""

from __future__ import annotations

from cmath import phase, rect
from math import degrees, radians
from typing import NamedTuple

from assistant.body.build import Build

DOWN = -1j
_FARTHEST_BEHIND = 120.0  # degrees; no arm goes further back, so beyond it the angle is one overhead
Lump = tuple[float, complex]  # mass as a share of the body, centre


def turn(deg: float) -> complex:
    """A turn to the left by `deg` as a number to multiply by.

    >>> turn(90) * 1
    (6.123233995736766e-17+1j)
    """
    return rect(1, radians(deg))


def bend(of: complex, against: complex) -> float:
    """By how many degrees `of` is turned to the left of `against`, from -120 (behind) over 180 (overhead) to 240.

    >>> round(bend(1, DOWN)), round(bend(1j, DOWN)), round(bend(turn(-135), DOWN))
    (90, 180, -45)
    """
    angle = degrees(phase(of / against))
    return angle if angle > -_FARTHEST_BEHIND else angle + 360


class Leg(NamedTuple):
    """A leg, or `limbs` = 2 legs that do the same; `lumps` are thigh, shank and foot, without what lies on the floor."""

    limbs: int
    thigh: complex
    shank: complex
    foot: complex
    knee: complex
    ankle: complex
    lumps: tuple[Lump, ...]


class Arm(NamedTuple):
    """An arm, or `limbs` = 2 arms that do the same; `lumps` are upper arm, forearm and hand."""

    limbs: int
    upper: complex
    fore: complex
    hand: complex
    elbow: complex
    wrist: complex
    lumps: tuple[Lump, ...]


class Figure(NamedTuple):
    """A placed body: hip and shoulder, direction of the trunk, legs and arms."""

    build: Build
    hip: complex
    trunk: complex
    shoulder: complex
    legs: tuple[Leg, ...]
    arms: tuple[Arm, ...]

    @property
    def head(self) -> complex:
        """The centre of the head, in line with the trunk."""
        return self.shoulder + self.build.head_out * self.trunk

    def lumps(self) -> list[Lump]:
        """Every segment as mass and centre; lower legs that lie on the floor are carried by it and left out."""
        build = self.build
        result = [
            (build.trunk.mass, self.shoulder + build.trunk.centre * (self.hip - self.shoulder)),
            (build.head_mass, self.head),
        ]
        for limb in (*self.legs, *self.arms):
            result += limb.lumps
        return result

    def centre(self) -> tuple[float, complex]:
        """The mass that has to be held up, as a share of the body, and its centre."""
        mass, moment = 0.0, 0j
        for share, point in self.lumps():
            mass += share
            moment += share * point
        return mass, moment / mass

    def turned(self, by: complex, about: complex) -> Figure:
        """The figure turned as one piece about a point."""

        def lumps(limb: Leg | Arm) -> tuple[Lump, ...]:
            return tuple((mass, about + (point - about) * by) for mass, point in limb.lumps)

        legs = tuple(
            Leg(leg.limbs, leg.thigh * by, leg.shank * by, leg.foot * by, about + (leg.knee - about) * by,
                about + (leg.ankle - about) * by, lumps(leg)) for leg in self.legs)  # fmt: skip
        arms = tuple(
            Arm(arm.limbs, arm.upper * by, arm.fore * by, arm.hand * by, about + (arm.elbow - about) * by,
                about + (arm.wrist - about) * by, lumps(arm)) for arm in self.arms)  # fmt: skip
        hip, shoulder = about + (self.hip - about) * by, about + (self.shoulder - about) * by
        return Figure(self.build, hip, self.trunk * by, shoulder, legs, arms)

    def moved(self, by: complex) -> Figure:
        """The figure shifted by `by`."""

        def lumps(limb: Leg | Arm) -> tuple[Lump, ...]:
            return tuple((mass, point + by) for mass, point in limb.lumps)

        legs = tuple(
            Leg(leg.limbs, leg.thigh, leg.shank, leg.foot, leg.knee + by, leg.ankle + by, lumps(leg))
            for leg in self.legs
        )
        arms = tuple(
            Arm(arm.limbs, arm.upper, arm.fore, arm.hand, arm.elbow + by, arm.wrist + by, lumps(arm))
            for arm in self.arms
        )
        return Figure(self.build, self.hip + by, self.trunk, self.shoulder + by, legs, arms)


def leg(build: Build, hip: complex, thigh: complex, shank: complex, foot: complex, ankle_foot: complex,
        limbs: int = 2, lying: bool = False) -> Leg:  # fmt: skip
    """A leg from the directions of its segments; `ankle_foot` leads from the ankle to the foot's centre.

    With `lying` shank and foot lie on the floor and weigh nothing on the body."""
    knee = hip + build.thigh.length * thigh
    ankle = knee + build.shank.length * shank
    lumps: tuple[Lump, ...] = ((limbs * build.thigh.mass, hip + build.thigh.centre * (knee - hip)),)
    if not lying:
        lumps += (
            (limbs * build.shank.mass, knee + build.shank.centre * (ankle - knee)),
            (limbs * build.foot.mass, ankle + ankle_foot),
        )
    return Leg(limbs, thigh, shank, foot, knee, ankle, lumps)


def arm(build: Build, shoulder: complex, upper: complex, fore: complex, hand: complex, limbs: int = 2) -> Arm:
    """An arm from the directions of its segments."""
    elbow = shoulder + build.upper_arm.length * upper
    wrist = elbow + build.forearm.length * fore
    lumps = (
        (limbs * build.upper_arm.mass, shoulder + build.upper_arm.centre * (elbow - shoulder)),
        (limbs * build.forearm.mass, elbow + build.forearm.centre * (wrist - elbow)),
        (limbs * build.hand.mass, wrist + build.hand.centre * build.hand.length * hand),
    )
    return Arm(limbs, upper, fore, hand, elbow, wrist, lumps)

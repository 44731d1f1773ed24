"""Limbs as the shapes need them: feet on the ground, hands under or over the shoulder."""

from __future__ import annotations

from math import asin, cos, sin

from assistant.body.build import Build
from assistant.body.figure import Arm, Leg, arm, leg, turn
from assistant.body.pose import STATURE_OF_CM, CannotStand, Pose, Stance


def of_stature(cm: float) -> float:
    """A length of a body part given for the stature of `Stance`, as a share of any stature."""
    return cm / STATURE_OF_CM


def foot_point(build: Build, stance: Stance, foot: complex, share: float) -> complex:
    """A point of the sole, `share` of the foot's length from the heel, seen from the ankle."""
    return (share - stance.ankle_from_heel_share) * build.foot.length * foot - stance.ankle_above_share * foot * 1j


def foot_centre(build: Build, stance: Stance, foot: complex) -> complex:
    """The centre of mass of a foot, seen from the ankle; half way between the sole and the ankle."""
    along = (build.foot.centre - stance.ankle_from_heel_share) * build.foot.length * foot
    return along - 0.5 * stance.ankle_above_share * foot * 1j


def make_leg(build: Build, stance: Stance, hip: complex, trunk: complex, hip_deg: float, knee_deg: float,
             foot: complex | None = None, limbs: int = 2, lying: bool = False) -> Leg:  # fmt: skip
    """A leg bent by `hip_deg` and `knee_deg`; the foot at a right angle to the shank where no direction is given."""
    thigh = -trunk * turn(hip_deg)
    shank = thigh * turn(-knee_deg)
    foot = shank * 1j if foot is None else foot
    return leg(build, hip, thigh, shank, foot, foot_centre(build, stance, foot), limbs, lying)


def make_arm(build: Build, shoulder: complex, trunk: complex, arm_deg: float, elbow_deg: float = 0.0,
             limbs: int = 2) -> Arm:  # fmt: skip
    """An arm raised by `arm_deg` from the side and bent by `elbow_deg`, the hand in line with the forearm."""
    upper = -trunk * turn(arm_deg)
    fore = upper * turn(elbow_deg)
    return arm(build, shoulder, upper, fore, fore, limbs)


def arm_to(build: Build, shoulder: complex, wrist: complex, hand: complex, limbs: int = 2, inside: float = 1.0) -> Arm:
    """An arm whose wrist is at `wrist`; of the elbow's way off the line only the share `inside` lies in the plane,
    the rest points out to the side and is not seen from there."""
    a, b = build.upper_arm.length, build.forearm.length
    way = wrist - shoulder
    far = min(abs(way), a + b)
    along = (a * a - b * b + far * far) / (2 * far)
    out = inside * max(a * a - along * along, 0.0) ** 0.5
    unit = way / abs(way)
    elbow = shoulder + unit * (along - 1j * out)
    upper, fore = elbow - shoulder, wrist - elbow
    lumps = (
        (limbs * build.upper_arm.mass, shoulder + build.upper_arm.centre * upper),
        (limbs * build.forearm.mass, elbow + build.forearm.centre * fore),
        (limbs * build.hand.mass, wrist + build.hand.centre * build.hand.length * hand),
    )
    return Arm(limbs, upper / abs(upper), fore / abs(fore), hand, elbow, wrist, lumps)


def palm_height(stance: Stance, pose: Pose) -> float:
    """How far the wrist (the elbow of a forearm support) is above the surface, as a share of stature."""
    heights = {
        "palms": stance.palm_above_cm,
        "fists": stance.fist_above_cm,
        "forearms": stance.elbow_above_cm,
    }
    return of_stature(heights.get(pose.hands, stance.grip_beyond_cm))


def swing(way: complex, rise: float, ahead: bool) -> complex:
    """The turn that brings the point at `way` to the height `rise`, in front (+x) or behind; CannotStand if too far."""
    if abs(rise) > abs(way):
        raise CannotStand("the hands do not reach that height", f"{rise:.2f} of stature asked", "lower them")
    up = asin(rise / abs(way))
    target = complex(cos(up), sin(up)) if ahead else complex(-cos(up), sin(up))
    return target * way.conjugate() / abs(way)

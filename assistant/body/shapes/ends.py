"""The lower end of a pose that is held up at both ends: where the floor pushes, and the legs above it."""

from __future__ import annotations

from typing import NamedTuple

from assistant.body.build import Build
from assistant.body.figure import DOWN, Leg, turn
from assistant.body.pose import Pose, Stance
from assistant.body.shapes.limbs import foot_point, make_leg, of_stature
from assistant.body.statics import UP

_FOOT = {"toes": DOWN, "heels": UP, "flat": 1 + 0j, "ball": 1 + 0j}  # from the heel to the tip of the toes
_USUAL_BENDS = {
    "pike": (90.0, 0.0),
    "all-fours": (77.0, 90.0),
}  # on all fours the thighs are upright, the back slopes up
_CHEST_ON_HAND = (60.0, 120.0)  # an arm lifted to tap the other shoulder: raise and elbow bend


class Lower(NamedTuple):
    """Where the world pushes, the joint above it that stays in place, and the direction of the foot (None: on knees)."""

    point: complex
    joint: complex
    foot: complex | None


def lower_end(pose: Pose, build: Build, stance: Stance, low: bool = False) -> Lower:
    """The lower end; `low`: at the bottom of a push-up, where the feet have rolled forward over the toes."""
    ground = build.cm(pose.feet_height_cm) * UP
    if pose.feet == "knees":
        return Lower(ground, ground + of_stature(stance.knee_above_cm) * UP, None)
    foot = _FOOT[pose.feet]
    if low and pose.feet == "toes":
        foot = DOWN * turn(-stance.low_foot_roll_deg)
    if pose.feet == "heels":  # the back edge of the heel, not the sole
        from_ankle = foot_point(build, stance, foot, 0.0).imag * UP
    else:
        ball = pose.feet in ("toes", "ball")
        at = stance.ball_from_heel_share if ball else stance.middle_from_heel_share
        from_ankle = foot_point(build, stance, foot, at)
    return Lower(ground, ground - from_ankle, foot)


def bends(pose: Pose) -> tuple[float, float]:
    """Bend of hip and knee in degrees, as given or as usual for the shape."""
    hip, knee = _USUAL_BENDS.get(pose.shape, (0.0, 0.0))
    return (hip if pose.hip_deg is None else pose.hip_deg), (knee if pose.knee_deg is None else pose.knee_deg)


def chain(pose: Pose, build: Build) -> tuple[complex, complex]:
    """From the lower joint to the hip and to the shoulder, with the trunk along the real axis."""
    hip_deg, knee_deg = bends(pose)
    thigh = -turn(hip_deg)
    to_hip = -build.thigh.length * thigh
    if pose.feet != "knees":
        to_hip -= build.shank.length * thigh * turn(-knee_deg)
    return to_hip, to_hip + build.trunk.length


def legs_of(pose: Pose, build: Build, stance: Stance, hip: complex, trunk: complex, lower: Lower) -> tuple[Leg, ...]:
    """The legs that carry, or the one that carries and the other as it is lifted."""
    hip_deg, knee_deg = bends(pose)
    on_knees = lower.foot is None
    if not pose.one_foot:
        return (make_leg(build, stance, hip, trunk, hip_deg, knee_deg, lower.foot, 2, on_knees),)
    return (
        make_leg(build, stance, hip, trunk, hip_deg, knee_deg, lower.foot, 1, on_knees),
        make_leg(build, stance, hip, trunk, pose.other_hip_deg or 0.0, pose.other_knee_deg or 0.0, None, 1),
    )


def lifted_arm(pose: Pose) -> tuple[float, float]:
    """Raise and elbow bend of the hand that is off the ground."""
    return _CHEST_ON_HAND if pose.other_arm_deg is None else (pose.other_arm_deg, 0.0)

"""Held up by the hands alone: hangs and levers under a bar, supports, handstands and planches over the floor.

The centre of mass must lie over (or under) the hands. Either the arms are tilted until it does, where the direction of
the trunk is given, or the whole body turns as one piece, where the angle of the arms is given.
"""

from __future__ import annotations

from cmath import phase, rect
from math import acos

from assistant.body.build import Build
from assistant.body.figure import DOWN, Arm, Figure, arm, turn
from assistant.body.pose import CannotStand, Choice, Pose, Stance
from assistant.body.shapes.limbs import make_arm, make_leg, of_stature, palm_height
from assistant.body.statics import UP, Contact, Held

_BENT_HANG = (30.0, 135.0)  # arm raise and elbow bend with the chin over the bar
_BENT_SUPPORT = (-50.0, 95.0)  # and at the bottom of a dip
_TRUNK_OF_DIP_DEG = 70.0


def hang(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """Under a bar or rings. `help_share`, `band_kg` take weight off; the hands carry the rest straight down."""
    return _balanced(pose, build, stance, UP, _BENT_HANG)


def support(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """Over the hands: dips, L-sits, handstands, planches."""
    return _balanced(pose, build, stance, DOWN, _BENT_SUPPORT)


def _balanced(pose: Pose, build: Build, stance: Stance, side: complex, bent: tuple[float, float]) -> Held:
    if pose.arm_deg is None and (pose.trunk_deg is not None or (side == DOWN and pose.arms == "bent")):
        elbow = 0.0 if pose.arms == "straight" else bent[1]
        figure = _arms_tilted(pose, build, stance, side, elbow if pose.elbow_deg is None else pose.elbow_deg)
    else:
        figure = _body_turned(pose, build, stance, side, bent)
    first = figure.arms[0]
    point = first.wrist + _beyond(pose, stance, first, side)
    figure = figure.moved(complex(-point.real, (build.cm(pose.hands_height_cm) if side == DOWN else 0.0) - point.imag))
    point = complex(0.0, build.cm(pose.hands_height_cm) if side == DOWN else 0.0)
    load = build.kg(pose.load_kg)
    carried = 1.0 + load - pose.help_share - build.kg(pose.band_kg)
    if carried < 0:
        raise CannotStand("the help is more than the body weighs", f"{-carried:.0%} too much", "help less")
    contacts = [Contact(point, carried * UP, "arms", 0, pose.hands)]
    rest = 1.0 - carried
    if abs(rest) > 1e-9:
        what = "load" if rest < 0 else "help"
        contacts.append(Contact(complex(0.0, figure.hip.imag), rest * UP, "trunk", 0, what))
    return Held(pose, figure, tuple(contacts))


def _limbs(pose: Pose, build: Build, stance: Stance, hip: complex, trunk: complex):
    hip_deg, knee_deg = pose.hip_deg or 0.0, pose.knee_deg or 0.0
    if pose.other_hip_deg is None:
        return (make_leg(build, stance, hip, trunk, hip_deg, knee_deg),)
    other = make_leg(build, stance, hip, trunk, pose.other_hip_deg, pose.other_knee_deg or 0.0, None, 1)
    return make_leg(build, stance, hip, trunk, hip_deg, knee_deg, None, 1), other


def _beyond(pose: Pose, stance: Stance, one: Arm, side: complex) -> complex:
    """From the wrist to the point that carries; a flat palm carries ahead of the wrist, on the side of the fingers."""
    if side == DOWN and pose.hands == "palms":
        return complex(of_stature(stance.palm_ahead_cm) * one.hand.real, 0) + DOWN * palm_height(stance, pose)
    return _turning(pose, stance, one, side)


def _fingers(pose: Pose, trunk: complex) -> complex:
    """Where flat hands point: to the front of the body when upright, towards the head when level, out upside down."""
    front = -1j * trunk
    return complex(1 if (front + trunk).real >= -1e-9 else -1, 0)


def _body_turned(pose, build, stance, side, bent) -> Figure:
    usual = (180.0 if side == UP else 0.0, 0.0) if pose.arms == "straight" else bent
    arm_deg = usual[0] if pose.arm_deg is None else pose.arm_deg
    elbow_deg = usual[1] if pose.elbow_deg is None else pose.elbow_deg
    trunk = -1j if side == DOWN and arm_deg > 120 else 1j  # arms overhead on the floor: upside down
    figure = _with_arm(pose, build, stance, trunk, arm_deg, elbow_deg)
    one = figure.arms[0]
    if side == DOWN and pose.hands == "palms":
        return _turned_on_palms(build, stance, figure, one, _fingers(pose, trunk))
    point = one.wrist + _turning(pose, stance, one, side)
    to_centre = figure.centre()[1] - point
    return figure.turned(-side * abs(to_centre) / to_centre, point)


def _turned_on_palms(build: Build, stance: Stance, figure: Figure, one: Arm, hand: complex) -> Figure:
    """The hands lie flat and stay, everything above the wrists turns until it is over the pressed point."""
    mass, centre = figure.centre()
    hands, at = one.lumps[2]
    rest = mass * (centre - one.wrist) - hands * (at - one.wrist)
    flat = hands * build.hand.centre * build.hand.length * hand.real
    wanted = mass * of_stature(stance.palm_ahead_cm) * hand.real - flat
    by = rect(1, acos(wanted / abs(rest)) - phase(rest))
    figure = figure.turned(by, one.wrist)
    arms = (arm(build, figure.shoulder, one.upper * by, one.fore * by, hand, one.limbs), *figure.arms[1:])
    return Figure(build, figure.hip, figure.trunk, figure.shoulder, figure.legs, arms)


def _turning(pose: Pose, stance: Stance, one: Arm, side: complex) -> complex:
    beyond = palm_height(stance, pose) if side == DOWN else of_stature(stance.grip_beyond_cm)
    return beyond * one.fore


def _with_arm(pose, build, stance, trunk, arm_deg, elbow_deg) -> Figure:
    shoulder = build.trunk.length * trunk
    arms = [make_arm(build, shoulder, trunk, arm_deg, elbow_deg, 1 if pose.one_hand else 2)]
    if pose.one_hand:
        arms.append(
            make_arm(build, shoulder, trunk, 60.0 if pose.other_arm_deg is None else pose.other_arm_deg, 90.0, 1)
        )
    return Figure(build, 0j, trunk, shoulder, _limbs(pose, build, stance, 0j, trunk), tuple(arms))


def _arms_tilted(pose, build, stance, side, elbow_deg) -> Figure:
    """The arms turn about the shoulder, bent as they are, until the hands are level with the centre of mass."""
    trunk = turn(pose.trunk_deg if pose.trunk_deg is not None else _TRUNK_OF_DIP_DEG)
    shoulder = build.trunk.length * trunk
    legs = _limbs(pose, build, stance, 0j, trunk)
    rest = Figure(build, 0j, trunk, shoulder, legs, ())
    mass, centre = rest.centre()
    fore = DOWN * turn(elbow_deg)
    palm = side == DOWN and pose.hands == "palms"
    one = arm(build, 0j, DOWN, fore, fore)
    in_line = one.lumps if not palm else (*one.lumps[:2], (one.lumps[2][0], one.wrist))  # flat hands do not turn
    own = sum(share * point for share, point in in_line)
    hand = _fingers(pose, trunk)
    grip = one.wrist + (0 if palm else _turning(pose, stance, one, side))
    wanted = mass * (centre.real - shoulder.real)
    if palm:
        flat = 2 * build.hand.mass * build.hand.centre * build.hand.length
        wanted += (flat - of_stature(stance.palm_ahead_cm)) * hand.real
    lever = grip - own
    if abs(wanted) >= abs(lever):
        raise CannotStand("the centre of mass lies outside the hands", f"{abs(wanted) - abs(lever):.2f} of stature too far",
                          "bend hips or knees more, or change the direction of the trunk")  # fmt: skip
    angle = acos(wanted / abs(lever))
    by = rect(1, (angle if side == UP else -angle) - phase(lever))
    upper, fore = DOWN * by, fore * by
    arms = (arm(build, shoulder, upper, fore, hand if palm else fore),)
    return Figure(build, 0j, trunk, shoulder, legs, arms)


__all__ = ["hang", "support"]

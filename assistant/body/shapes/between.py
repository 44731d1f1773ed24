"""Hands at one end, feet or knees at the other: planks, pikes, all fours, reverse planks.

Straight arms tilt from upright towards square to the body, by a share of the slope of the body, because that is how
people set their hands; where the angle of the arms is given, the figure is one piece and is swung to its height.
"""

from __future__ import annotations

from math import asin, cos, degrees, sin
from typing import NamedTuple

from assistant.body.build import Build
from assistant.body.figure import DOWN, Arm, Figure, arm, turn
from assistant.body.pose import CannotStand, Choice, Pose, Stance
from assistant.body.shapes.ends import Lower, chain, legs_of, lifted_arm, lower_end
from assistant.body.shapes.limbs import arm_to, make_arm, of_stature, palm_height, swing
from assistant.body.statics import UP, Contact, Held, two_supports

_STEPS = 20  # of Newton's method; four or five are used


class _Placed(NamedTuple):
    """The lower end, the turn of the trunk's frame, the wrist (elbow in a forearm support), the way the hands push."""

    lower: Lower
    by: complex
    wrist: complex
    push: complex


def between(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """The figure and its forces; raises CannotStand where hands or feet do not reach or would have to pull."""
    to_hip, to_shoulder = chain(pose, build)
    reach = build.upper_arm.length + (0.0 if pose.hands == "forearms" else build.forearm.length)
    rigid = pose.shape == "pike" or pose.arm_deg is not None
    placed = (_one_piece if rigid else _tilted)(pose, build, stance, choice, to_shoulder, reach)
    lower, by, wrist, push = placed
    hip, shoulder = lower.joint + to_hip * by, lower.joint + to_shoulder * by
    surface = build.cm(pose.hands_height_cm)
    point, arms = _hands(pose, build, stance, choice, by, shoulder, wrist, surface)
    figure = Figure(build, hip, by, shoulder, legs_of(pose, build, stance, hip, by, lower), arms)
    level = pose.hands == "forearms" or (abs(surface - lower.point.imag) < 1e-6 and pose.shape != "pike")
    at_hand, at_foot = two_supports(figure, lower.point, point, UP if level or choice.force == "up" else push)
    contacts = (Contact(point, at_hand, "arms", 0, pose.hands), Contact(lower.point, at_foot, "legs", 0, pose.feet))
    return Held(pose, figure, contacts, pose.arms == "straight" or pose.hands == "forearms", level)


def _one_piece(pose: Pose, build: Build, stance: Stance, choice: Choice, to_shoulder: complex, reach: float) -> _Placed:
    """The arms at a given angle to the trunk, in line with it where none is given; bent arms only shorten them."""
    lower = lower_end(pose, build, stance)
    far = reach * stance.low_arm_share if pose.arms == "bent" and pose.hands != "forearms" else reach
    to_wrist = to_shoulder - far * turn(180.0 if pose.arm_deg is None else pose.arm_deg)
    rise = build.cm(pose.hands_height_cm) + palm_height(stance, pose) - lower.joint.imag
    by = swing(to_wrist, rise, pose.shape != "reverse-plank")
    shoulder, wrist = lower.joint + to_shoulder * by, lower.joint + to_wrist * by
    return _Placed(lower, by, wrist, (shoulder - wrist) / abs(shoulder - wrist))


def _tilted(pose: Pose, build: Build, stance: Stance, choice: Choice, to_shoulder: complex, reach: float) -> _Placed:
    """The arms as people set them, or with a lean; bent arms keep hands and feet where they were."""
    lower, length = lower_end(pose, build, stance), abs(to_shoulder)
    side = -1.0 if pose.shape == "reverse-plank" else 1.0
    surface = build.cm(pose.hands_height_cm)
    share = max(_tilt_share(pose, stance) + choice.tilt_share, 0.0)
    rise = surface + palm_height(stance, pose) - lower.joint.imag
    line, tilt = _straight(pose, build, rise, length, reach, share)
    wrist = lower.joint + length * _sloped(line, side) + reach * DOWN * turn(-side * tilt)
    push = UP * turn(side * share * line)  # bent and leaning arms push where straight ones would
    if pose.arms == "bent" and pose.hands != "forearms":
        lower = lower_end(pose, build, stance, low=pose.shape == "plank")
        line = _slope(surface + of_stature(stance.low_shoulder_cm) - lower.joint.imag, length)
        push = UP * turn(side * max(line, 0.0))  # low down people push square to the body, as far as it rises
    return _Placed(lower, _sloped(line, side) * to_shoulder.conjugate() / length, wrist, push)


def _sloped(line: float, side: float) -> complex:
    return turn(line if side > 0 else 180.0 - line)


def _tilt_share(pose: Pose, stance: Stance) -> float:
    if pose.shape != "plank" or pose.hands == "forearms":
        return 0.0
    raised = min(max(pose.hands_height_cm / stance.tilt_raised_cm, 0.0), 1.0)
    return stance.tilt_floor_share + raised * (stance.tilt_raised_share - stance.tilt_floor_share)


def _straight(pose: Pose, build: Build, rise: float, length: float, reach: float, share: float) -> tuple[float, float]:
    """Slope of the body and tilt of the straight arms in degrees; positive tilt: the shoulder ahead of the hand.

    Solves length sin(slope) - reach cos(share x slope) = rise by Newton's method; a lean gives the tilt itself.
    """
    if pose.lean_cm is not None:
        lean = build.cm(pose.lean_cm)
        if abs(lean) >= reach:
            raise CannotStand("the lean is longer than the arm", f"{pose.lean_cm:g} cm", "lean less")
        return _slope(rise + (reach * reach - lean * lean) ** 0.5, length), degrees(asin(lean / reach))
    line = asin(min(max((rise + reach) / length, -0.95), 0.95))
    for _ in range(_STEPS):
        off = length * sin(line) - reach * cos(share * line) - rise
        line -= off / (length * cos(line) + reach * share * sin(share * line))
        if abs(off) < 1e-12:
            break
    if not -1.5 < line < 1.5:
        raise CannotStand("the hands are too high for this stature", f"{pose.hands_height_cm:g} cm", "lower them")
    return degrees(line), -share * degrees(line)


def _slope(height: float, length: float) -> float:
    if abs(height) >= length:
        raise CannotStand("the body is too short for these heights", f"{height:.2f} of stature", "bring them together")
    return degrees(asin(height / length))


def _hands(pose: Pose, build: Build, stance: Stance, choice: Choice, trunk: complex, shoulder: complex,
           wrist: complex, surface: float) -> tuple[complex, tuple[Arm, ...]]:  # fmt: skip
    """The point where the world pushes on hands or forearms, and the arms. Fingers point to +x: headwards in a plank,
    to the feet in a reverse plank."""
    limbs = 1 if pose.one_hand else 2
    if pose.hands == "forearms":
        point = complex(wrist.real + stance.elbow_ahead_share * build.forearm.length, surface)
        carrying = arm(build, shoulder, (wrist - shoulder) / abs(wrist - shoulder), 1 + 0j, 1 + 0j, limbs)
    elif pose.hands == "palms":
        ahead = stance.palm_ahead_cm if choice.palm_ahead_cm is None else choice.palm_ahead_cm
        point = complex(wrist.real + of_stature(ahead), surface)
        inside = 1.0 if pose.arms == "straight" else stance.elbows_in_share
        carrying = arm_to(build, shoulder, wrist, 1 + 0j, limbs, inside)
    else:
        point = complex(wrist.real, surface)
        inside = 1.0 if pose.arms == "straight" else stance.elbows_in_share
        carrying = arm_to(build, shoulder, wrist, DOWN, limbs, inside)
    if not pose.one_hand:
        return point, (carrying,)
    return point, (carrying, make_arm(build, shoulder, trunk, *lifted_arm(pose), 1))

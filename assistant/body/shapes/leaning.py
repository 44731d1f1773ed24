"""Leaning on a wall, hanging back from something, lying between shoulders and feet."""

from __future__ import annotations

from math import acos, cos, degrees, radians, sin

from assistant.body.build import Build
from assistant.body.figure import Figure, turn
from assistant.body.pose import CannotStand, Choice, Pose, Stance
from assistant.body.shapes.ends import chain, legs_of, lifted_arm, lower_end
from assistant.body.shapes.limbs import arm_to, make_arm, of_stature, swing
from assistant.body.statics import UP, Contact, Held, two_supports

_WALL_LEAN_DEG = 77.0


def wall(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """Leaning on a wall: the wall pushes level. `trunk_deg` and `arm_deg` are those with straight arms (level arms
    where none is given); bent arms bring the body nearer, hands and feet stay."""
    lower = lower_end(pose, build, stance)
    to_hip, to_shoulder = chain(pose, build)
    lean = _WALL_LEAN_DEG if pose.trunk_deg is None else pose.trunk_deg
    reach, length = build.upper_arm.length + build.forearm.length, abs(to_shoulder)
    drop = radians(0.0 if pose.arm_deg is None else 180 - lean - pose.arm_deg)
    along = turn(lean)
    wrist = lower.joint + length * along + reach * complex(cos(drop), -sin(drop))
    if pose.arms == "bent":
        share = (wrist.real - reach * stance.low_arm_share - lower.joint.real) / length
        if share >= 1:
            raise CannotStand("the wall is too far to lean on", f"a lean of {lean:g} degrees", "stand nearer")
        along = turn(degrees(acos(share)))
    by = along * to_shoulder.conjugate() / length
    hip, shoulder = lower.joint + to_hip * by, lower.joint + to_shoulder * by
    arms = [arm_to(build, shoulder, wrist, UP if pose.hands == "palms" else 1 + 0j, 1 if pose.one_hand else 2)]
    if pose.one_hand:
        arms.append(make_arm(build, shoulder, by, *lifted_arm(pose), 1))
    figure = Figure(build, hip, by, shoulder, legs_of(pose, build, stance, hip, by, lower), tuple(arms))
    point = wrist
    if pose.hands == "palms":
        point += complex(of_stature(stance.palm_above_cm), of_stature(stance.palm_ahead_cm))
    at_hand, at_foot = two_supports(figure, lower.point, point, -1 + 0j)
    contacts = (Contact(point, at_hand, "arms", 0, pose.hands), Contact(lower.point, at_foot, "legs", 0, pose.feet))
    return Held(pose, figure, contacts, pose.arms == "straight")


def row(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """Hanging back from a bar, straps or a door frame, heels or flat feet in front; the pull is along the arm.

    The arms are square to the body unless `arm_deg` says otherwise. With `trunk_deg` the lean is given instead of the
    height of the hands; with `anchor_cm` the arms point to where the straps hang, above the feet.
    """
    lower = lower_end(pose, build, stance)
    to_hip, to_shoulder = chain(pose, build)
    beyond = of_stature(stance.grip_beyond_cm)
    reach = build.upper_arm.length + build.forearm.length
    far = (reach * stance.low_arm_share if pose.arms == "bent" else reach) + beyond
    arm_deg = (90.0 if pose.arm_deg is None else pose.arm_deg) + choice.arm_off_deg
    to_grip = to_shoulder - far * turn(arm_deg)
    if pose.trunk_deg is None:
        by = swing(to_grip, build.cm(pose.hands_height_cm) - lower.joint.imag, False)
    else:
        by = turn(180 - pose.trunk_deg) * to_shoulder.conjugate() / abs(to_shoulder)
    hip, shoulder, grip = (lower.joint + point * by for point in (to_hip, to_shoulder, to_grip))
    if pose.anchor_cm is not None:
        way = complex(lower.point.real, build.cm(pose.anchor_cm)) - shoulder
        grip = shoulder + far * way / abs(way)
    line = (grip - shoulder) / abs(grip - shoulder)
    arms = [arm_to(build, shoulder, grip - beyond * line, line, 1 if pose.one_hand else 2)]
    if pose.one_hand:
        arms.append(make_arm(build, shoulder, by, 0.0, 0.0, 1))
    figure = Figure(build, hip, by, shoulder, legs_of(pose, build, stance, hip, by, lower), tuple(arms))
    at_hand, at_foot = two_supports(figure, lower.point, grip, line)
    contacts = (Contact(grip, at_hand, "arms", 0, "bar"), Contact(lower.point, at_foot, "legs", 0, pose.feet))
    return Held(pose, figure, contacts, pose.arms == "straight")


def bridge(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """On the back, hips lifted: shoulders and feet carry, the arms lie on the floor."""
    lower = lower_end(pose, build, stance)
    to_hip, to_shoulder = chain(pose, build)
    by = swing(to_shoulder, of_stature(stance.back_above_cm) - lower.joint.imag, False)
    hip, shoulder = lower.joint + to_hip * by, lower.joint + to_shoulder * by
    figure = Figure(build, hip, by, shoulder, legs_of(pose, build, stance, hip, by, lower), ())
    point = complex(shoulder.real, 0)
    at_back, at_foot = two_supports(figure, lower.point, point, UP)
    contacts = (Contact(point, at_back, "trunk", 0, "back"), Contact(lower.point, at_foot, "legs", 0, pose.feet))
    return Held(pose, figure, contacts)

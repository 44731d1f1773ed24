"""On the feet: squats, hinges, calf raises, step-ups, lunges, and the back against a wall."""

from __future__ import annotations

from cmath import phase, rect
from math import acos, asin, cos, sin

from assistant.body.build import Build
from assistant.body.figure import DOWN, Arm, Figure, leg, turn
from assistant.body.pose import CannotStand, Choice, Pose, Stance
from assistant.body.shapes.limbs import foot_centre, foot_point, make_arm, make_leg
from assistant.body.statics import UP, Contact, Held, two_supports

_ON_THE_BALL = 35.0  # degrees the foot rises in a calf raise
_PULLS = {"hands": DOWN, "front": 1 + 0j, "behind": -1 + 0j, "above": UP}  # where the load in the hands draws them


def hands_loaded(pose: Pose, build: Build, arms: tuple[Arm, ...]) -> tuple[Contact, ...]:
    """The weight or band in the hands as contacts; a load on the body gives one at the trunk instead."""
    load = build.kg(pose.load_kg)
    if not load or pose.load_from == "body":
        return ()
    return (Contact(_in_hand(build, arms[0]), load * _PULLS[pose.load_from], "arms", 0, "load"),)


def _in_hand(build: Build, one: Arm) -> complex:
    return one.wrist + build.hand.centre * build.hand.length * one.hand


def arms_of(pose: Pose, build: Build, shoulder: complex, trunk: complex) -> tuple[Arm, ...]:
    """Arms free or holding something: raised by `arm_deg` (0 = at the side), bent by `elbow_deg`."""
    one = 1 if pose.one_hand else 2
    arms = [make_arm(build, shoulder, trunk, pose.arm_deg or 0.0, pose.elbow_deg or 0.0, one)]
    if pose.one_hand or pose.other_arm_deg is not None:
        arms = [make_arm(build, shoulder, trunk, pose.arm_deg or 0.0, pose.elbow_deg or 0.0, 1)]
        arms.append(make_arm(build, shoulder, trunk, pose.other_arm_deg or 0.0, 0.0, 1))
    return tuple(arms)


def stand(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """On both feet or one: hip and knee bent as given, the ankle so that the weight is over the middle of the foot."""
    rise = build.cm(pose.heels_cm)
    foot = rect(1, -asin(min(rise / build.foot.length, 0.9)))
    if pose.feet == "ball":
        foot = turn(-_ON_THE_BALL)
    share = stance.ball_from_heel_share if pose.feet == "ball" else stance.middle_from_heel_share
    sole = foot_point(build, stance, foot, share)
    trunk = turn(90 - (pose.hip_deg or 0.0) + (pose.knee_deg or 0.0))  # of a body whose shank is upright
    free = _body(pose, build, stance, 0j, trunk, foot)
    by = _over(free, sole.real, pose, build)
    figure = _body(pose, build, stance, -(free.legs[0].ankle * by + sole), trunk * by, foot)
    weight = 1.0 + (build.kg(pose.load_kg) if pose.load_from in ("hands", "body") else 0.0) - pose.help_share
    loads = hands_loaded(pose, build, figure.arms)
    contacts = [Contact(0j, weight * UP, "legs", 0, "flat" if pose.feet != "ball" else "ball"), *loads]
    if pose.help_share:
        above = complex(0.0, figure.shoulder.imag)  # over the feet, so that it keeps the balance as it is
        contacts.append(Contact(above, pose.help_share * UP, "trunk", 0, "help"))
    if pose.load_from == "body" and pose.load_kg:
        contacts.append(Contact(figure.shoulder, build.kg(pose.load_kg) * DOWN, "trunk", 0, "load"))
    return Held(pose, figure, tuple(contacts))


def _body(pose: Pose, build: Build, stance: Stance, hip: complex, trunk: complex, foot: complex) -> Figure:
    """The body bent as given; the standing foot keeps its direction, however the rest is turned."""
    legs = [
        make_leg(build, stance, hip, trunk, pose.hip_deg or 0.0, pose.knee_deg or 0.0, foot, 1 if pose.one_foot else 2)
    ]
    if pose.one_foot:
        legs.append(make_leg(build, stance, hip, trunk, pose.other_hip_deg or 0.0, pose.other_knee_deg or 0.0, None, 1))
    shoulder = hip + build.trunk.length * trunk
    return Figure(build, hip, trunk, shoulder, tuple(legs), arms_of(pose, build, shoulder, trunk))


def _over(figure: Figure, ahead: float, pose: Pose, build: Build) -> complex:
    """The turn about the ankle that brings the centre of mass (with its load) `ahead` of the ankle, over the sole."""
    first = figure.legs[0]
    mass, centre = figure.centre()
    foot_mass, foot_at = first.lumps[2]
    weight, moment = mass - foot_mass, mass * (centre - first.ankle) - foot_mass * (foot_at - first.ankle)
    if pose.load_kg and pose.load_from in ("hands", "body"):
        load = build.kg(pose.load_kg)
        at = _in_hand(build, figure.arms[0]) if pose.load_from == "hands" else figure.shoulder
        weight, moment = weight + load, moment + load * (at - first.ankle)
    wanted = (weight + foot_mass) * ahead - foot_mass * (foot_at - first.ankle).real
    if abs(wanted) > abs(moment):
        raise CannotStand("the centre of mass does not come over the foot", "", "bend the hip more, or the knee less")
    return rect(1, acos(wanted / abs(moment)) - phase(moment))


def split(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """One foot in front, flat; the other behind on its ball, `feet_height_cm` high; the trunk at `trunk_deg` (90)."""
    trunk = turn(90.0 if pose.trunk_deg is None else pose.trunk_deg)
    front = make_leg(build, stance, 0j, trunk, pose.hip_deg or 0.0, pose.knee_deg or 0.0, 1 + 0j, 1)
    ground = front.ankle.imag - stance.ankle_above_share
    ball = ground + build.cm(pose.feet_height_cm)
    rear_foot = turn(-60.0)
    point_off = foot_point(build, stance, rear_foot, stance.ball_from_heel_share)
    thigh = -trunk * turn(pose.other_hip_deg if pose.other_hip_deg is not None else -10.0)
    knee = build.thigh.length * thigh
    fall = knee.imag + point_off.imag - ball
    if abs(fall) > build.shank.length:
        raise CannotStand("the rear foot does not reach the floor", "", "bend the front knee more")
    down = asin(fall / build.shank.length)
    shank = complex(-cos(down), -sin(down))
    rear = leg(build, 0j, thigh, shank, rear_foot, foot_centre(build, stance, rear_foot), 1)
    shoulder = build.trunk.length * trunk
    arms = arms_of(pose, build, shoulder, trunk)
    figure = Figure(build, 0j, trunk, shoulder, (front, rear), arms)
    at_front = front.ankle + foot_point(build, stance, 1 + 0j, stance.middle_from_heel_share)
    at_rear = rear.ankle + point_off
    on_front, on_rear = two_supports(figure, at_rear, at_front, UP)
    load = build.kg(pose.load_kg) * DOWN
    front_part = (shoulder.real - at_rear.real) / (at_front.real - at_rear.real)
    less, mass, centre = 1.0 - pose.help_share, *figure.centre()
    contacts = [
        Contact(at_front, on_front * less - front_part * load, "legs", 0, "flat"),
        Contact(at_rear, on_rear * less - (1 - front_part) * load, "legs", 1, "ball"),
    ]
    if pose.help_share:  # over the centre of mass, so that both feet are eased alike
        above = complex(centre.real, shoulder.imag)
        contacts.append(Contact(above, pose.help_share * mass * UP, "trunk", 0, "help"))
    if load:
        contacts.append(Contact(shoulder, load, "trunk", 0, "load"))
    return Held(pose, figure, tuple(contacts))


def wall_sit(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """Back upright against a wall, shanks upright, the knee bent as given."""
    knee_deg = 90.0 if pose.knee_deg is None else pose.knee_deg
    trunk = 1j
    one = make_leg(build, stance, 0j, trunk, knee_deg, knee_deg, 1 + 0j, 1 if pose.one_foot else 2)
    legs = [one]
    if pose.one_foot:
        legs.append(make_leg(build, stance, 0j, trunk, pose.other_hip_deg or 90.0, pose.other_knee_deg or 0.0, None, 1))
    shoulder = build.trunk.length * trunk
    figure = Figure(build, 0j, trunk, shoulder, tuple(legs), arms_of(pose, build, shoulder, trunk))
    back = 0.5 * shoulder
    foot = one.ankle + foot_point(build, stance, 1 + 0j, stance.middle_from_heel_share)
    at_back, at_foot = two_supports(figure, foot, back, 1 + 0j)
    contacts = (Contact(back, at_back, "trunk", 0, "wall"), Contact(foot, at_foot, "legs", 0, "flat"))
    return Held(pose, figure, contacts)

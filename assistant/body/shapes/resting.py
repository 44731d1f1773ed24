"""Weight on the seat, the back or the front: what is lifted asks for muscles, the rest is carried by the floor."""

from __future__ import annotations

from assistant.body.build import Build
from assistant.body.figure import Figure, turn
from assistant.body.pose import Choice, Pose, Stance
from assistant.body.shapes.limbs import make_leg
from assistant.body.shapes.standing import arms_of, hands_loaded
from assistant.body.statics import UP, Contact, Held


def lie(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """On the back; `trunk_deg` is how far the upper body is raised, `hip_deg` the bend between it and the thighs."""
    return _resting(pose, build, stance, turn(180.0 - (pose.trunk_deg or 0.0)), pose.trunk_deg or 0.0)


def sit(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """On a seat or the floor; `trunk_deg` above level (90 = upright), feet free, flat or heels down."""
    raised = 90.0 if pose.trunk_deg is None else pose.trunk_deg
    return _resting(pose, build, stance, turn(180.0 - raised), raised)


def lie_front(pose: Pose, build: Build, stance: Stance, choice: Choice) -> Held:
    """On the front; `trunk_deg` is how far the chest is lifted, a negative `hip_deg` lifts the legs."""
    return _resting(pose, build, stance, turn(pose.trunk_deg or 0.0), pose.trunk_deg or 0.0)


def _resting(pose: Pose, build: Build, stance: Stance, trunk: complex, raised: float) -> Held:
    hip_deg, knee_deg = pose.hip_deg or 0.0, pose.knee_deg or 0.0
    down = pose.feet in ("flat", "heels")  # legs that rest on the floor weigh nothing on the hip
    limbs = 1 if pose.other_hip_deg is not None else 2
    legs = [make_leg(build, stance, 0j, trunk, hip_deg, knee_deg, None, limbs)]
    if pose.other_hip_deg is not None:
        legs.append(make_leg(build, stance, 0j, trunk, pose.other_hip_deg, pose.other_knee_deg or 0.0, None, 1))
    if down:
        legs = [one._replace(lumps=()) for one in legs]
    shoulder = build.trunk.length * trunk
    arms = arms_of(pose, build, shoulder, trunk)
    figure = Figure(build, 0j, trunk, shoulder, tuple(legs), arms)
    loads = hands_loaded(pose, build, arms)
    mass, _ = figure.centre()
    seat = Contact(0j, mass * UP, "legs", -1, "seat")  # straight up where the weight is; no joint lies beyond it
    return Held(pose, figure, (seat, *loads))

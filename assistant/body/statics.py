"""Forces that hold a figure up, and the net moments they ask of its joints.

Forces are in body weights, moments in body weight times stature. Pushing hands press along the line from hand to
shoulder (`along`), or straight up (`up`): with hands and feet at one height both give the same share, at different
heights statics alone cannot say, so both are told as the ends of the band.
"""

from __future__ import annotations

from typing import NamedTuple

from assistant.body.figure import DOWN, Arm, Figure, Leg, Lump
from assistant.body.pose import CannotStand, Pose

UP = 1j
_RESTING = ("lie", "lie-front", "sit")
_LEAST = -1e-9  # a force below nothing by less than rounding is nothing


class Contact(NamedTuple):
    """A force of the world on the figure: where, how strong, on which limb (`arms`, `legs`, `trunk`), which of them."""

    point: complex
    force: complex
    limb: str
    which: int = 0
    what: str = ""  # palms, bar, toes, flat, knees ... as in the pose; "load" for a weight or band in the hands


class Held(NamedTuple):
    """A figure with all forces on it. `arms_told` is false where the elbows leave the plane, so arm angles say nothing."""

    pose: Pose
    figure: Figure
    contacts: tuple[Contact, ...]
    arms_told: bool = True
    level: bool = True  # hands and feet at one height: the direction of the force does not matter


def cross(a: complex, b: complex) -> float:
    """The moment of force `b` at lever `a`, counted to the left.

    >>> cross(2 + 0j, 3j)
    6.0
    """
    return (a.conjugate() * b).imag


def two_supports(figure: Figure, foot: complex, hand: complex, direction: complex) -> tuple[complex, complex]:
    """The forces at `hand`, along `direction` (a unit), and at `foot`; raises CannotStand if one would have to pull.

    From the moments about the foot: force x lever = weight x distance of the centre of mass.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> held = book.body.held(book.exercises["high-plank"].poses[0], "man")
    >>> sum(contact.force for contact in held.contacts).imag > 0.99
    True
    """
    mass, centre = figure.centre()
    lever = cross(hand - foot, direction)
    if abs(lever) < 1e-9:
        raise CannotStand("the hands push straight through the feet", "", "move the hands or change their height")
    size = mass * (centre.real - foot.real) / lever
    at_hand = size * direction
    at_foot = UP * mass - at_hand
    if size < _LEAST:
        raise CannotStand(
            "the hands would have to hold on instead of pressing", f"{size:.0%} of body weight on the hands",
            "move the hands or change the lean",
        )  # fmt: skip
    if at_foot.imag < _LEAST:
        raise CannotStand(
            "the feet would lift", f"{at_foot.imag:.0%} of body weight on the feet", "lean less or move the feet"
        )
    return at_hand, at_foot


class Moments(NamedTuple):
    """Net moments of both sides together, positive where the muscle named must work; the elbow and knee either way."""

    shoulder_flexor: float
    elbow_flexor: float
    hip_flexor: float
    knee_extensor: float
    ankle_extensor: float
    trunk_flexor: float


class _Limb(NamedTuple):
    """The outside moments about the three joints of a limb, from its far end, and its weight: mass, mass x place."""

    first: float
    second: float
    third: float
    mass: float
    pull: float


def _limb(start: complex, middle: complex, end: complex, lumps: tuple[Lump, ...], contacts: list[Contact]) -> _Limb:
    """Weight draws straight down, so only its place along the floor counts; forces of the world come on top."""
    force, torque = 0j, 0.0
    for contact in contacts:
        force += contact.force
        torque += (contact.point.conjugate() * contact.force).imag
    across, up = force.real, force.imag
    mass, pull = 0.0, 0.0
    third = second = 0.0
    if len(lumps) == 3:
        (near, near_at), (half, half_at), (mass, far_at) = lumps
        pull = mass * far_at.real
        third = mass * end.real - pull + torque - end.real * up + end.imag * across
        mass += half
        pull += half * half_at.real
        second = mass * middle.real - pull + torque - middle.real * up + middle.imag * across
        mass += near
        pull += near * near_at.real
    elif lumps:  # what lies on the floor weighs nothing and moves nothing
        mass, pull = lumps[0][0], lumps[0][0] * lumps[0][1].real
    first = mass * start.real - pull + torque - start.real * up + start.imag * across
    return _Limb(first, second, third, mass, pull)


def _arm(held: Held, which: int) -> _Limb:
    arm: Arm = held.figure.arms[which]
    contacts = [c for c in held.contacts if c.limb == "arms" and c.which == which]
    found = _limb(held.figure.shoulder, arm.elbow, arm.wrist, arm.lumps, contacts)
    if contacts and contacts[0].what == "forearms":  # the floor carries the forearm itself
        return found._replace(second=0.0)
    return found


def _leg(held: Held, which: int) -> _Limb:
    leg: Leg = held.figure.legs[which]
    contacts = [c for c in held.contacts if c.limb == "legs" and c.which == which]
    return _limb(held.figure.hip, leg.knee, leg.ankle, leg.lumps, contacts)


def joint_moments(held: Held) -> dict[str, tuple[float, float]]:
    """For shoulder and hip: the outside moment from the far side, and from the rest of the body; they are opposite.

    A check of the arithmetic, and of whether a pose is at rest: what is not balanced shows here.
    """
    figure, contacts = held.figure, held.contacts
    result = {}
    for name, joint, limbs, which in (
        ("shoulder", figure.shoulder, figure.arms, "arms"), ("hip", figure.hip, figure.legs, "legs"),
    ):  # fmt: skip
        far = [lump for limb in limbs for lump in limb.lumps]
        rest = [lump for lump in figure.lumps() if lump not in far]
        result[name] = (
            _about(joint, far, [c for c in contacts if c.limb == which]),
            _about(joint, rest, [c for c in contacts if c.limb != which]),
        )
    return result


def _about(joint: complex, lumps: list[Lump], contacts: list[Contact]) -> float:
    weight = sum(cross(point - joint, DOWN * mass) for mass, point in lumps)
    return weight + sum(cross(c.point - joint, c.force) for c in contacts)


def moments(held: Held) -> Moments:
    """The largest moment at each joint; a limb that works alone counts as if both did the same.

    Where the body lies or sits, the trunk holds whatever is heavier: the legs lifted, or the upper body lifted.
    """
    figure = held.figure
    arms = [_arm(held, n) for n in range(len(figure.arms))]
    legs = [_leg(held, n) for n in range(len(figure.legs))]
    shoulder = elbow = hip = knee = ankle = 0.0
    for limb, found in zip(figure.arms, arms, strict=True):
        both = -2 / limb.limbs
        if abs(both * found.first) > abs(shoulder):
            shoulder = both * found.first
        if abs(both * found.second) > abs(elbow):
            elbow = both * found.second
    for limb, found in zip(figure.legs, legs, strict=True):
        both = -2 / limb.limbs
        if abs(both * found.first) > abs(hip):
            hip = both * found.first
        if abs(both * found.second) > abs(knee):
            knee = both * found.second
        if abs(both * found.third) > abs(ankle):
            ankle = -both * found.third
    trunk = _trunk(held, arms)
    if held.pose.shape in _RESTING:
        lifted = -sum([found.first for found in legs])
        trunk = lifted if not held.pose.trunk_deg or abs(lifted) > abs(trunk) else trunk
    return Moments(shoulder, elbow, hip, knee, ankle, trunk)


def _trunk(held: Held, arms: list[_Limb]) -> float:
    """Flexor moment of the trunk at the navel, from the head side."""
    figure, build = held.figure, held.figure.build
    waist = figure.hip + build.waist_up * figure.trunk
    mass, pull = build.head_mass, build.head_mass * figure.head.real
    for share, height in build.above_waist:
        mass += share
        pull += share * (figure.hip.real + height * figure.trunk.real)
    for found in arms:
        mass += found.mass
        pull += found.pull
    forces = sum([cross(c.point - waist, c.force) for c in held.contacts if c.limb != "legs"])
    return waist.real * mass - pull + forces

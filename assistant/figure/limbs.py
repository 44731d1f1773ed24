"""The body as strokes: what the model placed and nothing else, the far side lighter and behind.

Joints are taken over as they are, only in picture units; widths are those of a pictogram, not of a body.
"""

from __future__ import annotations

from assistant.body import Contact, Held, Stance
from assistant.body.figure import Arm, Leg
from assistant.body.shapes.limbs import arm_to, foot_point
from assistant.figure.marks import Disc, Mark, Stroke

TRUNK, THIGH, SHANK, FOOT = 6.2, 5.2, 4.5, 3.2  # widths in units
UPPER_ARM, FOREARM, HAND = 3.8, 3.4, 3.0
HEAD, NECK = 4.3, 2.8
_RIM = 1.0  # a rim in the colour of the ground sets a limb off from what it crosses
_NOSE = 1.9
_STEEP = 0.7
_ON_TOES = ("toes", "ball")
_LAID = ("lie", "lie-front", "sit")
Part = tuple[complex, complex, float]


def body(held: Held, stance: Stance, scale: float) -> list[Mark]:
    """All strokes of a figure, from the far side to the near one."""
    figure = held.figure
    arms = [_arm(_on_floor(held, one), figure.shoulder) for one in figure.arms] or [_resting_arm(held)]
    legs = [_leg(held, n, stance) for n in range(len(figure.legs))]
    trunk: Part = (figure.hip, figure.shoulder, TRUNK)
    drawn: list[Mark] = []
    for far in (*legs[1:], *arms[1:]):
        drawn += _strokes("far", far, scale)
    drawn += _strokes("near", [*legs[0], trunk], scale)
    drawn += _rim(arms[0], scale)
    drawn += _strokes("near", arms[0], scale)
    return drawn + _head(held, scale)


def _strokes(kind: str, parts: list[Part], scale: float) -> list[Mark]:
    return [Stroke(kind, (start * scale, end * scale), width) for start, end, width in parts]


def _rim(parts: list[Part], scale: float) -> list[Mark]:
    """The rim of an arm, begun beyond the shoulder so that the arm stays on the body."""
    (start, end, width), *rest = ((a * scale, b * scale, wide + 2 * _RIM) for a, b, wide in parts)
    long = abs(end - start)
    if long <= TRUNK:
        return []
    begin = start + (end - start) * TRUNK / long
    return [Stroke("halo", (a, b), wide) for a, b, wide in ((begin, end, width), *rest)]


def _arm(one: Arm, shoulder: complex) -> list[Part]:
    hand = one.wrist + _hand_length(one) * one.hand
    return [(shoulder, one.elbow, UPPER_ARM), (one.elbow, one.wrist, FOREARM), (one.wrist, hand, HAND)]


def _on_floor(held: Held, one: Arm) -> Arm:
    """An idle arm at the side of someone who sits on the floor is longer than the trunk: the hand rests beside him."""
    sits = held.pose.shape == "sit" and not any(c.limb == "arms" for c in held.contacts)
    down = min(leg.ankle.imag for leg in held.figure.legs) < -held.figure.build.shank.length / 2
    if not sits or down or one.wrist.imag > 0:
        return one
    return arm_to(held.figure.build, held.figure.shoulder, complex(one.wrist.real, 0.0), 1 + 0j, one.limbs)


def _hand_length(one: Arm) -> float:
    """Twice the way from the wrist to the hand's centre is the hand, near enough to show where it points."""
    return 2 * abs(one.lumps[2][1] - one.wrist)


def _resting_arm(held: Held) -> list[Part]:
    """Where the model lets the arms lie on the floor it places none: they lie beside the body, towards the feet."""
    figure, build = held.figure, held.figure.build
    reach = build.upper_arm.length + build.forearm.length
    hand = complex(figure.shoulder.real + (reach if figure.hip.real > figure.shoulder.real else -reach), 0.0)
    return [(figure.shoulder, hand, FOREARM)]


def _leg(held: Held, which: int, stance: Stance) -> list[Part]:
    leg = _settled(held, held.figure.legs[which], which, stance)
    return [(held.figure.hip, leg.knee, THIGH), (leg.knee, leg.ankle, SHANK), *_foot(held, leg, which, stance)]


def _settled(held: Held, leg: Leg, which: int, stance: Stance) -> Leg:
    """What lies on the floor weighs nothing in the model, so no angle places it: it is laid on the floor here."""
    standing = _contact(held, which)
    if standing and standing.what == "knees":
        down = leg.knee.imag - standing.point.imag - stance.ankle_above_share / 2
        shank = complex(-((held.figure.build.shank.length**2 - down**2) ** 0.5), -down)
        return leg._replace(ankle=leg.knee + shank, foot=-1 + 0j)
    if kneels(held):
        return leg._replace(foot=leg.shank)
    if held.pose.feet == "flat" and held.pose.shape in _LAID:
        return leg._replace(foot=1 + 0j)
    return leg


def kneels(held: Held) -> bool:
    """Whether someone who sits, for the model, in truth kneels: the thighs point down and the shanks do not."""
    leg = held.figure.legs[0]
    return held.pose.shape == "sit" and leg.thigh.imag < -_STEEP and abs(leg.shank.imag) < _STEEP


def _contact(held: Held, which: int) -> Contact | None:
    return next((c for c in held.contacts if c.limb == "legs" and c.which == which), None)


def _foot(held: Held, leg: Leg, which: int, stance: Stance) -> list[Part]:
    build, standing = held.figure.build, _contact(held, which)
    if standing and standing.what == "knees":  # the back of the foot lies on the floor
        return [(leg.ankle, leg.ankle + leg.foot * build.foot.length * stance.ball_from_heel_share, FOOT)]
    heel, ball, tip = (
        leg.ankle + foot_point(build, stance, leg.foot, share) for share in (0.0, stance.ball_from_heel_share, 1.0)
    )
    if standing is None or standing.what not in _ON_TOES:
        return [(heel, tip, FOOT)]
    return [(heel, ball, FOOT), (ball, ball + abs(tip - ball), FOOT)]  # toes lie flat where the ball presses


def _head(held: Held, scale: float) -> list[Mark]:
    """Head, neck, and a nose, so that front and back can be told apart."""
    figure = held.figure
    at, front = figure.head * scale, -1j * figure.trunk
    if held.pose.shape == "bridge":  # the head lies on the floor, which carries it; the trunk rises from there
        at = complex(figure.shoulder.real * scale - abs(figure.head - figure.shoulder) * scale, HEAD - FOREARM / 2)
        front = 1j
    nose = (at + front * (HEAD - 0.6), at + front * (HEAD + _NOSE / 2))
    return [Stroke("near", (figure.shoulder * scale, at), NECK), Disc("near", at, HEAD), Stroke("near", nose, _NOSE)]

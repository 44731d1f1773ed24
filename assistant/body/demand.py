"""From key poses to demands: each quantity with its value, a low and a high end, and where it comes from.

The value is the mean of the two builds. Low and high are the ends over builds, over what the pose leaves open
(`Choice`) and over the ranges the card gives. Of several key poses the hardest counts, quantity by quantity.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from functools import cache
from typing import Literal, NamedTuple

from assistant.body.build import Build
from assistant.body.figure import bend
from assistant.body.pose import CannotStand, Pose, Stance
from assistant.body.shapes import held, open_choices
from assistant.body.statics import Held, moments

_FINE = 10_000  # figures are kept to four digits
_LEAST_DEG = 10.0  # a joint bent by less is straight
_LEAST_MOMENT = 0.002  # of body weight times stature
_LEAST_SHARE = 0.05  # a foot that carries less does not load its knee


class Demand(NamedTuple):
    """What an exercise asks of one quantity; `how` says where it comes from, `source` names the cards.

    >>> Demand(0.68, 0.63, 0.7).how
    'computed'
    """

    value: float
    low: float
    high: float
    how: Literal["computed", "rated", "published"] = "computed"
    source: tuple[str, ...] = ()


def asked(one: Held) -> dict[str, float]:
    """The demands of one held pose: shares of body weight, degrees, moments in body weight times stature.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> plank = asked(book.body.held(book.exercises["high-plank"].poses[0], "man"))
    >>> round(plank["hand_share"], 2)
    0.68
    """
    result: dict[str, float] = {}
    _hands(one, result)
    _legs(one, result)
    _moments(one, result)
    return result


def _hands(one: Held, result: dict[str, float]) -> None:
    figure = one.figure
    for contact in one.contacts:
        if contact.limb != "arms":
            continue
        arm = figure.arms[contact.which]
        # one hand alone counts double, so that the same figure means the same for each wrist and shoulder
        # a flat surface is pressed as a force plate measures it, straight down; a wall, a bar, a strap as they are pulled
        size = abs(contact.force) if one.pose.wall or contact.what in ("bar", "load") else abs(contact.force.imag)
        size *= 2 / arm.limbs if contact.what != "load" else 1.0
        gripped = contact.what in ("bar", "load") or (contact.what == "rings" and one.pose.shape in ("hang", "row"))
        name = "grip_share" if gripped else "hand_share"
        result[name] = max(result.get(name, 0.0), size)
        if contact.what == "palms" and one.arms_told:
            result["wrist_extension_deg"] = abs(bend(arm.hand, arm.fore))
        if one.arms_told and size > 0:
            raised = bend(arm.upper, -figure.trunk)
            if raised > 0:
                result["shoulder_flexion_deg"] = max(result.get("shoulder_flexion_deg", 0.0), min(raised, 180.0))
            elif raised < 0:
                result["shoulder_extension_deg"] = max(result.get("shoulder_extension_deg", 0.0), -raised)


def _legs(one: Held, result: dict[str, float]) -> None:
    trunk = one.figure.trunk
    for n, leg in enumerate(one.figure.legs):
        contact = next((c for c in one.contacts if c.limb == "legs" and c.which == n), None)
        on_foot = contact is not None and contact.what != "knees" and contact.force.imag > _LEAST_SHARE
        hip = bend(leg.thigh, -trunk)
        if hip > 0 and (leg.lumps or on_foot):
            result["hip_flexion_deg"] = max(result.get("hip_flexion_deg", 0.0), hip)
        if not on_foot:
            continue
        knee = -bend(leg.shank, leg.thigh) % 360
        if 0 < knee <= 180:
            result["knee_flexion_deg"] = max(result.get("knee_flexion_deg", 0.0), knee)
        ankle = bend(leg.foot, leg.shank) - 90
        if contact.what == "flat" and ankle > 0 and one.pose.shape in ("stand", "split", "wall-sit"):
            result["ankle_flexion_deg"] = max(result.get("ankle_flexion_deg", 0.0), ankle)


def _moments(one: Held, result: dict[str, float]) -> None:
    found = moments(one)
    told = one.arms_told
    result |= {
        "shoulder_moment": abs(found.shoulder_flexor) if told else 0.0,
        "elbow_moment": abs(found.elbow_flexor) if told else 0.0,
        "hip_flexor_moment": max(found.hip_flexor, 0.0),
        "hip_extensor_moment": max(-found.hip_flexor, 0.0),
        "knee_moment": abs(found.knee_extensor),
        "trunk_moment": abs(found.trunk_flexor),
    }


def demands(
    poses: Iterable[tuple[Pose, Sequence[Pose]]],
    builds: Sequence[Build],
    stance: Stance,
    known: dict | None = None,
    source: tuple[str, ...] = (),
) -> dict[str, Demand]:
    """The demands of key poses, each with the poses at the ends of its ranges; raises CannotStand.

    Give the same `known` (empty at first) for all exercises of a book, and a pose they share is solved once.

    >>> from assistant.rulebook import load
    >>> body = load().body
    >>> share = demands([(Pose("plank"), ())], body.builds, body.stance)["hand_share"]
    >>> share.low < share.value < share.high
    True
    """
    hardest: dict[str, tuple[float, float, float]] = {}
    known = {} if known is None else known
    for key in poses:
        if key not in known:
            known[key] = _banded(*key, builds, stance)
        for name, (value, low, high) in known[key].items():
            other = hardest.get(name)
            if other:
                value, low, high = max(value, other[0]), max(low, other[1]), max(high, other[2])
            hardest[name] = (value, low, high)
    return {
        name: Demand(_rounded(value), _rounded(low), _rounded(high), "computed", source)
        for name, (value, low, high) in hardest.items()
        if value >= _least(name)
    }


def _rounded(value: float) -> float:
    return int(value * _FINE + 0.5) / _FINE


@cache
def _least(name: str) -> float:
    """Below this a demand is nothing to speak of: a joint as good as straight, a moment as good as none."""
    return _LEAST_DEG if name.endswith("_deg") else _LEAST_MOMENT


def _banded(pose: Pose, ends: Sequence[Pose], builds: Sequence[Build], stance: Stance) -> dict[str, tuple]:
    first = held(pose, builds[0], stance)
    usual = [asked(first), *(asked(held(pose, build, stance)) for build in builds[1:])]
    others = [asked(held(end, builds[0], stance)) for end in ends]
    for choice in open_choices(pose, first, stance):
        with suppress(CannotStand):  # what people may do otherwise ends where it can no longer be done
            others.append(asked(held(pose, builds[0], stance, choice)))
    result = {}
    for name in {name: None for one in usual for name in one}:
        values = [one.get(name, 0.0) for one in usual]
        spread = values + [one.get(name, 0.0) for one in others]
        result[name] = (sum(values) / len(values), min(spread), max(spread))
    return result

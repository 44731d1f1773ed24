"""Poses solved: joint angles and contacts → a placed figure with the forces that hold it, or `CannotStand`."""

from __future__ import annotations

from collections.abc import Callable

from assistant.body.build import Build
from assistant.body.pose import Choice, Pose, Stance
from assistant.body.shapes.alone import hang, support
from assistant.body.shapes.between import between
from assistant.body.shapes.leaning import bridge, row, wall
from assistant.body.shapes.resting import lie, lie_front, sit
from assistant.body.shapes.standing import split, stand, wall_sit
from assistant.body.statics import Held

__all__ = ["held", "open_choices"]

_SOLVERS: dict[str, Callable[[Pose, Build, Stance, Choice], Held]] = {
    "plank": between, "pike": between, "all-fours": between, "reverse-plank": between, "bridge": bridge, "row": row,
    "hang": hang, "support": support, "stand": stand, "split": split, "wall-sit": wall_sit,
    "lie": lie, "lie-front": lie_front, "sit": sit,
}  # fmt: skip
_TILTED = ("plank", "all-fours", "reverse-plank")  # the hands may be set further up or down
_USUAL = Choice()


def held(pose: Pose, build: Build, stance: Stance, choice: Choice = _USUAL) -> Held:
    """The figure of `pose` with its forces; raises CannotStand where no body can stay.

    >>> from assistant.rulebook import load
    >>> body = load().body
    >>> hang = held(Pose("hang", hands="bar"), body.builds[0], body.stance)
    >>> round(hang.contacts[0].force.imag, 3)
    1.0
    """
    return (wall if pose.wall and pose.shape == "plank" else _SOLVERS[pose.shape])(pose, build, stance, choice)


def open_choices(pose: Pose, first: Held, stance: Stance) -> tuple[Choice, ...]:
    """What people may do otherwise in this pose; none where it makes no difference."""
    choices: list[Choice] = []
    if pose.wall and pose.shape == "plank":
        return ()
    tilted = pose.shape in _TILTED and pose.lean_cm is None and pose.arm_deg is None and pose.hands != "forearms"
    on_palms = pose.hands == "palms" and pose.shape in (*_TILTED, "pike")
    if tilted or on_palms:  # upright arms and the heel of the hand both take more weight, so the ends go together
        spread = stance.tilt_spread_share if tilted else 0.0
        low, high = (stance.palm_ahead_low_cm, stance.palm_ahead_high_cm) if on_palms else (None, None)
        choices += [Choice(tilt_share=-spread, palm_ahead_cm=low), Choice(tilt_share=spread, palm_ahead_cm=high)]
    if pose.shape == "row" and pose.anchor_cm is None:
        choices += [Choice(arm_off_deg=-stance.row_spread_deg), Choice(arm_off_deg=stance.row_spread_deg)]
    if not first.level:
        choices.append(Choice(force="up"))
    return tuple(choices)

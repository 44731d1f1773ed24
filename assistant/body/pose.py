"""What a pose is made of: its shape, what holds it up, the angles and heights that are given.

Angles of a body are 0 when standing straight with the arms at the sides. Everything left out follows from the shape.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

Shape = Literal[
    "plank", "pike", "all-fours", "reverse-plank", "bridge", "row", "hang", "support", "stand", "split", "wall-sit",
    "lie", "lie-front", "sit",
]  # fmt: skip
Hands = Literal["palms", "fists", "handles", "rings", "bar", "forearms", "free"]
Feet = Literal["toes", "heels", "flat", "ball", "knees", "free"]
SHAPES: tuple[str, ...] = Shape.__args__


class CannotStand(ValueError):
    """A pose in which no body can stay: `wrong` says why, `found` the figures, `do` what to change."""

    def __init__(self, wrong: str, found: str = "", do: str = ""):
        super().__init__("; ".join(part for part in (wrong, found, do) if part))
        self.wrong, self.found, self.do = wrong, found, do


class Pose(NamedTuple):
    """One key pose with every figure settled. Heights in cm, angles in degrees, help as a share of body weight.
    `wall`: the hands are on a wall instead of on top of something.

    >>> Pose("plank").hands, Pose("plank", feet="knees").feet
    ('palms', 'knees')
    """

    shape: Shape
    hands: Hands = "palms"
    feet: Feet = "toes"
    arms: Literal["straight", "bent"] = "straight"
    hands_height_cm: float = 0.0
    feet_height_cm: float = 0.0
    lean_cm: float | None = None
    trunk_deg: float | None = None
    hip_deg: float | None = None
    knee_deg: float | None = None
    other_hip_deg: float | None = None
    other_knee_deg: float | None = None
    arm_deg: float | None = None
    elbow_deg: float | None = None
    other_arm_deg: float | None = None
    heels_cm: float = 0.0
    anchor_cm: float | None = None
    wall: bool = False
    one_hand: bool = False
    one_foot: bool = False
    help_share: float = 0.0
    band_kg: float = 0.0
    load_kg: float = 0.0
    load_from: Literal["hands", "body", "front", "behind", "above"] = "hands"


@dataclass(frozen=True)
class Stance:
    """The assumptions of the model: where hands and feet press, how low is low; in cm, or as shares where said so.

    Read from the card of the same name, so that each stands beside its source and can be changed there.
    """

    palm_above_cm: float  # wrist centre above the surface under a flat palm
    palm_ahead_cm: float  # pressure point under a flat palm, from the wrist towards the fingers
    palm_ahead_low_cm: float
    palm_ahead_high_cm: float
    fist_above_cm: float
    grip_beyond_cm: float  # grip on a bar or handle, beyond the wrist centre
    elbow_above_cm: float  # elbow centre above the floor in a forearm support
    elbow_ahead_share: float  # pressure point of a forearm support, share of the forearm from the elbow
    knee_above_cm: float
    back_above_cm: float  # shoulder centre above the floor when lying on the back
    ankle_from_heel_share: float  # of the foot's length
    ankle_above_share: float  # of the stature
    ball_from_heel_share: float  # of the foot's length
    middle_from_heel_share: float  # where a flat foot presses, of the foot's length
    tilt_floor_share: float  # arms between upright (0) and square to the body (1), hands on the floor
    tilt_raised_share: float  # the same with the hands on something high
    tilt_raised_cm: float  # from this height on
    tilt_spread_share: float  # how much more or less people tilt them
    row_spread_deg: float  # how far arms in a row are from square to the body, either way
    low_shoulder_cm: float  # shoulder above the hands at the bottom of a push-up, for a stature of 174 cm
    low_foot_roll_deg: float  # how far the feet roll forward over the toes there
    elbows_in_share: float  # of the bend of the elbows, how much lies in the plane when they point out to the side
    low_arm_share: float  # distance from shoulder to hand at the bottom of a pike push-up or row, share of the arm


STATURE_OF_CM = 174.1  # heights of a body part in `Stance` are for this stature and grow with it


class Choice(NamedTuple):
    """What a pose leaves open and people do otherwise: used to tell a result with a low and a high end.

    `tilt_share` more or less tilt of the arms than the stance says, `palm_ahead_cm` instead of the stance's,
    `arm_off_deg` added to the angle of the arms in a row, `force` of the hands along the arms or straight up.
    """

    tilt_share: float = 0.0
    palm_ahead_cm: float | None = None
    arm_off_deg: float = 0.0
    force: Literal["along", "up"] = "along"


def stance_of(numbers: Mapping[str, float]) -> Stance:
    """The assumptions from the numbers of a card; a missing or unknown name is a `TypeError` that names it."""
    return Stance(**numbers)

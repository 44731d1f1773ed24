"""How a coach writes a pose, and the measured body it is computed with.

A pose names a shape and only what differs from its usual form: `pose: {shape: plank, arms: [straight, bent]}` is a
push-up. A list of poses, or `arms: [straight, bent]`, gives up to three key poses; the hardest counts. A figure may be
a range, `hands_height_cm: [45, 60]`: the middle is computed, the ends widen the band.
"""

from __future__ import annotations

from dataclasses import fields
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from assistant.body import Pose, Row, Stance
from assistant.body.pose import Feet, Hands, Shape
from assistant.rulebook.cards.shape import Card, Texts

_MOST_POSES = 3
_USUAL: dict[str, dict[str, str]] = {  # what a shape means when the card does not say
    "reverse-plank": {"feet": "heels"}, "bridge": {"feet": "flat", "hands": "free"},
    "row": {"hands": "bar", "feet": "heels"}, "hang": {"hands": "bar", "feet": "free"},
    "support": {"hands": "handles", "feet": "free"}, "stand": {"hands": "free", "feet": "flat"},
    "split": {"hands": "free", "feet": "flat"}, "wall-sit": {"hands": "free", "feet": "flat"},
    "lie": {"hands": "free", "feet": "free"}, "lie-front": {"hands": "free", "feet": "free"},
    "sit": {"hands": "free", "feet": "flat"}, "all-fours": {"feet": "knees"},
}  # fmt: skip


def _as_span(value):
    pair = value if isinstance(value, list) else [value, value]
    if len(pair) != 2:
        raise ValueError("write one figure, or two in brackets: [45, 60]")
    low, high = (float(one) for one in pair)
    if low > high:
        raise ValueError("the smaller figure comes first")
    return low, high


def _as_words(value):
    return [value] if isinstance(value, str) else value


Span = Annotated[tuple[float, float], BeforeValidator(_as_span)]
ARMS = Literal["straight", "bent"]


class Posed(BaseModel):
    """One line of `pose:`. Angles are 0 in standing with the arms at the sides; one side alone bends by `other_...`."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    shape: Shape
    hands: Hands | None = None  # palms, fists, handles, rings, bar, forearms, or free
    feet: Feet | None = None  # toes, heels, flat, ball, knees, or free
    arms: Annotated[list[ARMS], BeforeValidator(_as_words)] = ["straight"]
    hands_height_cm: Span | None = Field(default=None)  # surface, grip or bar above the floor
    feet_height_cm: Span | None = None
    lean_cm: Span | None = None  # how far the shoulders are ahead of the wrists
    trunk_deg: Span | None = None  # hip to shoulder, above level: 90 upright, negative head down
    hip_deg: Span | None = None
    knee_deg: Span | None = None
    other_hip_deg: Span | None = None  # the other leg, where the two differ
    other_knee_deg: Span | None = None
    arm_deg: Span | None = None  # raised from the side: 90 in front, 180 overhead, negative behind
    elbow_deg: Span | None = None
    other_arm_deg: Span | None = None
    heels_cm: Span | None = None  # heels on a wedge
    anchor_cm: Span | None = None  # height of the straps' anchor, over the feet
    help_share: Span | None = None  # share of body weight taken by feet, another's hands or a support
    band_kg: Span | None = None  # what an assistance band takes off, from its own table
    load_kg: Span | None = None  # weight or band pull in the hands
    load_from: Literal["hands", "body", "front", "behind", "above"] = "hands"  # where it draws
    wall: bool = False  # the hands on a wall; `trunk_deg` is the lean with straight arms
    one_hand: bool = False
    one_foot: bool = False
    not_told: list[str] = []  # quantities this pose says wrongly or not at all; they stay rated

    @model_validator(mode="after")
    def _parameters_fit(self) -> Posed:
        given = [name for name in ("lean_cm", "arm_deg") if getattr(self, name) is not None]
        if self.shape == "plank" and len(given) > 1:
            raise ValueError("a plank has either lean_cm or arm_deg")
        if self.wall and self.shape != "plank":
            raise ValueError("only a plank leans on a wall")
        return self

    def key_poses(self) -> list[tuple[Pose, tuple[Pose, ...]]]:
        """The settled pose for each word of `arms`, each with the poses at the two ends of its ranges."""
        given = {name: value for name, value in self.__dict__.items() if value is not None}
        spans = {name: value for name, value in given.items() if name in _SPANS}
        plain = {**_USUAL.get(self.shape, {}), **{name: value for name, value in given.items() if name in _PLAIN}}
        middle = {name: (low + high) / 2 for name, (low, high) in spans.items()}
        ranged = [(name, end) for name, span in spans.items() if span[0] != span[1] for end in span]
        made = (Pose(**plain, **middle, arms=arms) for arms in self.arms)
        return [(one, tuple(one._replace(**{name: end}) for name, end in ranged)) for one in made]


_SPANS = frozenset(name for name, info in Posed.model_fields.items() if "Span" in str(info.annotation) or
                   info.annotation == (Span | None))  # fmt: skip
_PLAIN = frozenset(("shape", "hands", "feet", "load_from", "wall", "one_hand", "one_foot"))


def _as_poses(value):
    return [value] if isinstance(value, dict) else value


Poses = Annotated[list[Posed], BeforeValidator(_as_poses), Field(max_length=_MOST_POSES)]


class Segment(Card):
    """A row of a segment table, by build: mass of one limb in percent of the body, centre in percent from the near
    end, length in millimetres. `reference` is the one row that says who was measured: stature in m and mass in kg."""

    segment: str
    says: str
    mass_percent: dict[str, float] = {}
    centre_percent: dict[str, float] = {}
    length_mm: dict[str, float] = {}
    stature_m: dict[str, float] = {}
    mass_kg: dict[str, float] = {}

    def rows(self) -> dict[str, Row]:
        """The row of each build."""
        return {
            build: Row(self.mass_percent[build], self.centre_percent[build], self.length_mm[build])
            for build in self.mass_percent
        }


class Assumption(Card):
    """One assumption of the body model as a number with its unit in its id: `palm-ahead-cm`."""

    assumption: str
    says: str
    value: float

    @property
    def field(self) -> str:
        """Its name in `Stance`."""
        return self.assumption.replace("-", "_")


STANCE_FIELDS = tuple(field.name for field in fields(Stance))
__all__ = ["STANCE_FIELDS", "Assumption", "Posed", "Poses", "Segment", "Span", "Texts"]

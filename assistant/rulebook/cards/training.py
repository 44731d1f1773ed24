"""What there is to train with and what stands in the way: sources, exercises, kit, limits."""

from __future__ import annotations

import re
from functools import cached_property
from typing import Literal

from assistant.body import Demand, Pose
from assistant.rulebook.cards.pose import Poses
from assistant.rulebook.cards.shape import Card, Edges, Frames, Restrictions, Texts
from assistant.values import Reason


class Source(Card):
    """Where knowledge comes from: `citation`, and whether it was read, read second-hand, or is from memory."""

    source: str  # type: ignore[assignment]
    citation: str
    read: Literal["read", "second-hand", "memory", "judgement"]

    def reason(self, words: str = "", says: str = "") -> Reason:
        return Reason(self.source, self.at, words, self.source, says or self.citation)


class Family(Card):
    """A family of exercises, in the order of the book."""

    family: str
    name: str
    weight: Literal["loaded", "light"]


class Quantity(Card):
    """A demand quantity with its unit, its scale and the words for more and less of it."""

    quantity: str
    says: str
    unit: str  # share, deg, m, or the scale in words
    more: str
    less: str
    load: bool = False  # counts as load when an easier step is checked
    counted: bool = False  # a number of limbs: within a limit, fewer of them are no relief
    shown_as: Literal["percent", "degrees", "words"] = "words"
    worth: float = 0.0  # a difference smaller than this is not told


class Exercise(Card):
    """One exercise. Every line of `needs` is a need; `a or b` in a line = one of them will do.

    `pose` gives its key poses; what they say is computed when the book is loaded and stands over `rated`. `asks` are the
    plain figures of both, `demand` the same with a band and where each comes from."""

    exercise: str
    name: str
    called: Texts = []
    looks: Texts = []  # what a beginner sees, in plain words: how the body lies or stands, what moves, with what
    family: str
    needs: list[str] = []
    trains: list[str]  # patterns first (main one first), then muscles, then the quality
    position: str
    dose: str
    pose: Poses = []
    rated: dict[str, float] = {}
    rated_because: str = ""
    easier: Edges = {}
    swap: Edges = {}
    feel: str
    cues: Texts
    loads: str
    goes_wrong: str
    ready: str

    @property
    def need_sets(self) -> list[frozenset[str]]:
        """Each need as the set of things of which one will do."""
        return [frozenset(re.split(r" or ", line)) for line in self.needs]

    @cached_property
    def poses(self) -> list[Pose]:
        """The settled key poses, in the order of the card."""
        return [pose for posed in self.pose for pose, _ in posed.key_poses()]

    @cached_property
    def demand(self) -> dict[str, Demand]:
        """Every demand with its band; the loader puts the computed ones in the place of the rated."""
        return rated_demand(self)

    @cached_property
    def asks(self) -> dict[str, float]:
        """The demands as plain figures, computed over rated: what comparing and choosing look at."""
        return {name: one.value for name, one in self.demand.items()}


def rated_demand(card: Exercise) -> dict[str, Demand]:
    """The demands rated by hand, each without a band of its own."""
    source = tuple(card.source)
    return {name: Demand(value, value, value, "rated", source) for name, value in card.rated.items()}


class Equipment(Card):
    """A thing to train with. `household` things are taken to be there unless said otherwise."""

    equipment: str
    name: str
    called: Texts
    serves_as: Texts = []
    condition: str
    household: bool = False
    makes_limit: str = ""  # the limit that follows when it is said to be missing


class Standin(Card):
    """A household thing that stands in for kit, only for the exercises named, only under its condition."""

    standin: str
    things: Texts  # all of them together
    for_kit: Texts
    only_for: Texts
    condition: str
    never: str = ""


class Never(Card):
    """Something never used as kit, with the plain reason."""

    never: str
    says: str
    called: Texts = []
    why: str


class Limit(Card):
    """What stands in a follower's way. It restricts quantities or kit; it never names an exercise."""

    limit: str
    kind: Literal[
        "equipment",
        "pain",
        "strength",
        "hold",
        "mobility",
        "space",
        "noise",
        "time",
        "fear",
        "balance",
        "skin",
        "other",
    ]
    says: str  # said to the follower: "your wrist is sore"
    when: Frames
    restricts: Restrictions = []
    restricts_all: bool = False
    without: Texts = []  # equipment ids that are gone; ["all-equipment"] = everything
    stays_with: str = ""  # an aid or change with which the asked exercise may stay
    changes_dose: str = ""  # id of a dose rule (split-reps, split-holds, fewer-sets ...)
    wants: Literal["", "swap", "easier", "harder", "dose", "form", "whole-session"] = ""
    keeps_slots: int = 0  # of a whole session so many slots are kept, first those that may stay as they are
    first: Texts  # what to offer first, second, third, in the coach's words
    clinician: str = ""  # when it is no longer the coach's matter
    denied_when: Frames = []  # frames that say plainly that this is not in the way: "wrists are fine"
    by_others: bool = False  # other people make it ("my mum says no jumping"): words about them count as his own
    gives_way_to: Texts = []  # limits that take this one's place when more of their words are met at the same spot
    short: str = ""  # two or three words for the coach's page, "wrist sore"; left out: the id read as words
    remembered: Literal["", "yes", "no"] = ""  # on the profile for later messages; left out: by kind


class Purpose(Card):
    """What an exercise may train: a movement pattern, a muscle or a quality, with its name in plain words."""

    purpose: str
    role: Literal["pattern", "muscle", "quality"]
    says: str


class Region(Card):
    """Body parts that are held together: what nobody loads there while a clinician's word is awaited."""

    region: str
    parts: Texts
    restricts: Restrictions = []
    restricts_all: bool = False


class Preference(Card):
    """The coach's liking: a cost added to (or taken off) exercises when they are compared."""

    preference: str
    says: str
    exercises: dict[str, float]

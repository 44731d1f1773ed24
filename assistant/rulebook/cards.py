"""The card language as models: these classes are the documentation of what may stand in `rules/`.

A card is a mapping whose first key names its kind (`exercise:`, `limit:`, `sign:` ...) and gives its id. Every
scalar is read as text and converted by the type of its field here; unknown fields are refused. `at` is filled by the
loader with file and line.
"""

from __future__ import annotations

import re
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from assistant.values import Reason


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, (str, dict)) else value


def _as_edges(value: Any) -> Any:
    return dict.fromkeys(value, "") if isinstance(value, list) else value


def _as_bound(value: Any) -> Any:
    found = re.fullmatch(r"(over|from|under) (-?\d+(?:\.\d+)?)", str(value).strip())
    if not found:
        raise ValueError("a bound reads 'over 30', 'from 2' or 'under 1'")
    return {"how": found[1], "value": float(found[2])}


class Bound(BaseModel):
    """`over 30` (more than), `from 2` (2 or more), `under 1` (less than)."""

    how: Literal["over", "from", "under"]
    value: float

    def holds(self, value: float) -> bool:
        """Whether `value` lies in the bound.

        >>> Bound(how="over", value=30).holds(30), Bound(how="from", value=30).holds(30)
        (False, True)
        """
        if self.how == "over":
            return value > self.value
        return value >= self.value if self.how == "from" else value < self.value


Texts = Annotated[list[str], BeforeValidator(_as_list)]
Edges = Annotated[dict[str, str], BeforeValidator(_as_edges)]
Restriction = dict[str, Annotated[Bound, BeforeValidator(_as_bound)]]
Restrictions = Annotated[list[Restriction], BeforeValidator(_as_list)]
Frame = dict[str, Any]  # slot -> word or list of words; checked against the word classes by the loader
Frames = Annotated[list[Frame], BeforeValidator(_as_list)]


class Examples(BaseModel):
    """Sentences that must fire the card and sentences that must not; `known_wrong` are kept, marked, and reported."""

    model_config = ConfigDict(extra="forbid")
    fires: Texts = []
    quiet: Texts = []
    known_wrong: Texts = []


class Card(BaseModel):
    """What all cards share: where they stand, where they come from, their own proof."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    at: str = ""  # "limits/joints.yaml:12", filled by the loader
    source: Texts = []
    unsure: str = ""
    examples: Examples = Examples()

    @cached_property
    def id(self) -> str:
        """The id: the value of the card's first key."""
        return getattr(self, type(self).__name__.lower())

    def reason(self, words: str = "", says: str = "") -> Reason:
        """This card as a reason for a value."""
        return Reason(self.id, self.at, words, ", ".join(self.source), says or getattr(self, "says", ""))


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
    shown_as: Literal["percent", "degrees", "words"] = "words"


class Exercise(Card):
    """One exercise. Every line of `needs` is a need; `a or b` in a line = one of them will do."""

    exercise: str
    name: str
    called: Texts = []
    family: str
    needs: list[str] = []
    trains: list[str]  # patterns first (main one first), then muscles, then the quality
    position: str
    dose: str
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
    first: Texts  # what to offer first, second, third, in the coach's words
    clinician: str = ""  # when it is no longer the coach's matter
    denied_when: Frames = []  # frames that say plainly that this is not in the way: "wrists are fine"
    by_others: bool = False  # other people make it ("my mum says no jumping"): words about them count as his own
    gives_way_to: Texts = []  # limits that take this one's place when more of their words are met at the same spot
    short: str = ""  # two or three words for the coach's page, "wrist sore"; left out: the id read as words
    remembered: Literal["", "yes", "no"] = ""  # on the profile for later messages; left out: by kind


class Wordclass(Card):
    """A class of words: `part/knee`, `sensation/sore`, `lack`. `not` lists look-alikes in which a word does not count."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)
    wordclass: str = Field(alias="class")
    words: Texts
    not_: Texts = Field(default=[], alias="not")
    shares: Texts = []  # classes of the same family that hold some of these words too, on purpose
    stands_for: Texts = []  # ids a plain word means: "rings" = rings-high, rings-low (families group, group-one, taken-for)


class Cue(Card):
    """A cue of scope: what it does to the words it reaches."""

    cue: str
    words: Texts
    means: Literal["denied", "over", "other-person", "what-if", "doubt", "look-alike", "end"]
    reaches: str = "forward"  # "forward", "forward, 4 words", "backward", "backward, 3 words", "both"
    ends_at: Texts = []
    not_after: Texts = []  # the cue does nothing after one of these in its clause: "can't squat without pain"


class Figure(Card):
    """A figure of speech, taken out of the text before signs are looked for, unless a guard word is near."""

    figure: str
    words: Texts
    guard: Texts = []
    only_with: Texts = []


class Ambiguous(Card):
    """A spelling with several meanings; the plan may settle it, otherwise the question is asked back."""

    ambiguous: str
    called: Texts
    exercises: Texts
    ask: str


class Sign(Card):
    """A sign of the safety screen: frames over word classes, readings, or both; both must hold where both stand."""

    sign: str
    category: str
    says: str
    part: str = "all"  # the part concerned; "said" = the body part in the words that met the frame
    when: Frames = []
    reads: Restrictions = []  # numbers in the text: {pain_of_10: from 6}; a list = any of the mappings
    fresh_days: float = 1  # how long "now" lasts for this sign
    # by time and course: now, recent (to 3 months), year (to 12), old, gone, cleared; `other` = another person has it
    tier: dict[str, Literal["emergency", "clinician", "coach", "clear"]]
    urgency: Literal["now", "today", "before-training", "routine"] = "today"
    together: dict[str, Literal["emergency", "clinician", "coach", "clear"]] = {}  # with another sign or class


class Reading(Card):
    """A kind of number the screen binds to words: its plausible range, the class that must be near, the one that forbids."""

    reading: str
    says: str
    low: float
    high: float
    near: Texts = []  # word classes, one of which must stand near; none = bound by its own shape ("180 over 110")
    never: Texts = []  # word classes that take the number away
    words: int = 4  # how many words off the near word may stand


class Scale(Card):
    """Numbers of the screen by name: days of a unit of time, values of number words, borders that are a choice."""

    scale: str
    says: str
    numbers: dict[str, float]


class Category(Card):
    """A category of the safety screen, with the notice its follower gets at once."""

    category: str
    name: str
    says: str  # for the coach: what it is about, without naming a disease
    notice: dict[str, str] = {}  # tier -> id of a reply card
    worse: Texts = []  # plain signs that would make it an emergency
    see: str = ""  # who to see: "a doctor", "a physiotherapist"


class Place(Card):
    """Words that point at a place in the plan."""

    place: str
    words: Texts
    means: str  # ordinal 1..9, "last", "before-last", "pair A", "warm-up", "cool-down", "after", "before", ...


class Want(Card):
    """What an answer must give, and the frames that say so. Higher `weight` comes first when several fire."""

    want: str
    says: str
    when: Frames
    weight: int = 1


class Doserule(Card):
    """A numbered rule of dosing with its numbers; the formulas are in dose/. `how` is said to the follower when the
    rule was used: a sentence in which `{left}`, `{sets}` ... stand for numbers."""

    doserule: str
    says: str
    how: str = ""
    numbers: dict[str, float] = {}

    @property
    def numbers_in_words(self) -> dict[str, str]:
        """The numbers as they are said: 2, not 2.0."""
        return {name: f"{value:g}" for name, value in self.numbers.items()}


class Order(Card):
    """What counts as the best answer, as numbers: lower cost wins."""

    order: str
    says: str
    costs: dict[str, float] = {}
    texts: dict[str, str] = {}


class Reply(Card):
    """A sentence or a whole reply as a Jinja2 template; `fields` lists what it may use."""

    reply: str
    says: str = ""
    fields: Texts = []
    text: str


class Noanswer(Card):
    """What is said when no honest exercise trains this under that limit."""

    noanswer: str
    exercises: Texts
    limits: Texts  # each entry one limit, or "a + b" for both together
    says: str


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


KINDS: dict[str, type[Card]] = {
    "source": Source, "family": Family, "quantity": Quantity, "exercise": Exercise, "equipment": Equipment,
    "standin": Standin, "never": Never, "limit": Limit, "class": Wordclass, "cue": Cue, "figure": Figure,
    "ambiguous": Ambiguous, "sign": Sign, "category": Category, "reading": Reading, "scale": Scale,
    "place": Place, "want": Want, "doserule": Doserule,
    "order": Order, "reply": Reply, "noanswer": Noanswer, "preference": Preference,
    "purpose": Purpose, "region": Region,
}  # fmt: skip


class Example(BaseModel):
    """One example as the tests see it: which card, fires or quiet, the sentence, file and line."""

    card: str
    kind: str
    fires: bool
    text: str
    at: str

    @model_validator(mode="after")
    def _no_empty(self) -> Example:
        if not self.text.strip():
            raise ValueError("an example has no text")
        return self

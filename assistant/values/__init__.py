"""The plain values that travel between the five verbs, the store and the doors.

All are frozen dataclasses. Character offsets (`start`, `end`) count into the message's `text` like a Python slice. Ids
are the kebab-case ids of the cards in `rules/`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from assistant.values.errors import AssistantError, BadInput, Mistake, NotAllowed, NotFound, RulebookError

__all__ = [  # the errors and what every value is made of; the classes below speak for themselves
    "AssistantError", "BadInput", "Mistake", "NotAllowed", "NotFound", "RulebookError",
]  # fmt: skip
Tier = Literal["emergency", "clinician", "coach", "clear"]
Urgency = Literal["now", "today", "before-training", "routine"]
TIERS: tuple[Tier, ...] = ("clear", "coach", "clinician", "emergency")  # from lowest to highest
WANTS = ("swap", "easier", "harder", "ready", "dose", "form", "why", "kit", "whole-session", "feedback", "other")
DECISIONS = ("approved", "edited", "asked-back", "turned-down")
DECISION_REASONS = ("unsafe", "too-hard", "too-easy", "not-for-this-follower", "wording", "misread", "other")


@dataclass(frozen=True)
class Reason:
    """Why something is as it is: the rule, where it stands, the follower's words, its source."""

    rule: str
    at: str  # "limits/joints.yaml:12"
    words: str = ""
    source: str = ""
    says: str = ""


@dataclass(frozen=True)
class Dose:
    """How much: sets of reps, seconds or metres (each a low and a high end), tempo, rest in seconds."""

    sets: int
    reps: tuple[int, int] | None = None
    seconds: tuple[int, int] | None = None
    metres: tuple[int, int] | None = None
    tempo: str | None = None  # lowering-long pause-lifting-short pause; X = as fast as control allows
    rest_s: int | None = None
    side: bool = False  # the numbers are for each side
    moving: bool = False  # the seconds are work time, not a hold
    how: str = ""  # how it was chosen or converted, in words
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class PlanItem:
    """One slot of a day's session: W1 warm-up, A1/A2 a pair, Z1 cool-down."""

    item: str
    exercise: str
    dose: Dose | None = None
    text: str = ""  # a note of the coach, in his words


@dataclass(frozen=True)
class Plan:
    """A day's session in the coach's order."""

    id: str
    title: str
    items: tuple[PlanItem, ...]
    day: str = ""  # ISO date, where the plan belongs to one

    def slot(self, item: str | None) -> PlanItem | None:
        """The slot called `item`, or None."""
        return next((it for it in self.items if it.item == item), None)


@dataclass(frozen=True)
class Profile:
    """What is remembered about a follower: kit, limits, best reps or seconds an exercise, what is held back."""

    name: str = ""
    has: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    can: tuple[tuple[str, int], ...] = ()
    held: tuple[str, ...] = ()  # parts held by a clinician finding until the coach clears them; "all" = everything


@dataclass(frozen=True)
class Turn:
    """One earlier message of the thread. `exercises` is what it named, where the store knows."""

    by: Literal["follower", "coach"]
    text: str
    item: str | None = None
    exercises: tuple[str, ...] = ()
    asked_back: bool = False


@dataclass(frozen=True)
class Message:
    """What a follower wrote, with all that is needed to understand it."""

    text: str
    plan: Plan | None = None
    item: str | None = None
    profile: Profile = Profile()
    thread: tuple[Turn, ...] = ()
    at: str = ""  # ISO time, as given; no verb reads a clock


@dataclass(frozen=True)
class Asked:
    """An exercise the message is about. `how`: by name, by place in the plan, or by thread."""

    id: str
    words: str
    start: int
    end: int
    how: Literal["name", "place", "thread"]
    item: str | None = None
    doubt: bool = False
    options: tuple[str, ...] = ()  # what an ambiguous spelling may mean
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Limit:
    """What is true of the follower now and restricts the answer."""

    id: str
    kind: str
    what: str | None
    words: str
    start: int
    end: int
    about: str | None = None  # the exercise it is about, where the message joins them
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Denied:
    """A limit the follower says is not there."""

    id: str
    words: str
    start: int
    end: int


@dataclass(frozen=True)
class Kit:
    """A thing said to be there or not there, with its words."""

    id: str
    words: str
    start: int
    end: int


@dataclass(frozen=True)
class Question:
    """What `read` made of a message."""

    wants: tuple[str, ...]
    exercises: tuple[Asked, ...] = ()
    limits: tuple[Limit, ...] = ()
    has: tuple[Kit, ...] = ()
    lacks: tuple[Kit, ...] = ()
    denied: tuple[Denied, ...] = ()
    not_understood: tuple[str, ...] = ()
    can: tuple[tuple[str, int], ...] = ()  # reps or seconds said to be reached, by exercise id
    ask_back: str | None = None  # id of the reply card with the question to ask, where the reading is unsure
    choices: tuple[str, ...] = ()  # at most three exercise ids to choose from in that question
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Finding:
    """One sign found by `screen`, with its six properties and the words that caused it."""

    category: str
    sign: str
    tier: Tier
    urgency: Urgency
    words: str
    start: int
    end: int
    who: str = "follower"  # follower, other
    assertion: str = "present"  # present, denied, doubt, what-if
    time: str = "now"  # now, recent, old
    course: str = ""  # gone, same, worse, cleared
    part: str = "all"  # body part concerned, "all" = the whole body
    rule: Reason = field(default=Reason("", ""))


@dataclass(frozen=True)
class Verdict:
    """What `screen` decided: the highest tier of any finding, and all findings."""

    tier: Tier
    urgency: Urgency
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Swap:
    """One option for one asked exercise. `kind` same = the asked exercise stays, changed."""

    exercise: str
    kind: Literal["swap", "easier", "harder", "same"]
    asked: str
    item: str | None = None
    recommended: bool = False
    way: tuple[str, ...] = ()
    before: tuple[tuple[str, float], ...] = ()  # demands of the asked exercise, only the changed ones
    after: tuple[tuple[str, float], ...] = ()
    costs: tuple[str, ...] = ()  # in plain words what this option keeps, saves and costs
    aid: str | None = None  # a household thing it leans on, or a change with which the asked exercise stays
    condition: str | None = None  # when that thing is safe
    if_you_have: str | None = None  # kit nobody said is there; offered second only
    dose: Dose | None = None
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Refused:
    """A candidate that was looked at and not offered."""

    exercise: str
    asked: str
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Draft:
    """What is put before the coach: never more than a draft."""

    summary: str  # at most 140 characters
    text: str
    urgency: Urgency
    ask_back: str | None = None
    notice: str | None = None  # what the follower is told at once
    because: tuple[Reason, ...] = ()


@dataclass(frozen=True)
class Answer:
    """Everything the five verbs made of one message."""

    message: Message
    question: Question
    verdict: Verdict
    swaps: tuple[Swap, ...]
    refused: tuple[Refused, ...]
    draft: Draft
    rulebook: str


@dataclass(frozen=True)
class Decision:
    """What the coach did with a draft. Still waiting is the absence of a Decision."""

    outcome: Literal["approved", "edited", "asked-back", "turned-down"]
    text: str
    reason: str | None = None
    comment: str = ""
    by: str = ""
    at: str = ""

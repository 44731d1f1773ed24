"""How people write: classes of words, cues of scope, figures of speech, places in the plan, wishes."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from assistant.rulebook.cards.shape import Card, Frames, Texts


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

"""The safety screen: signs, readings with numbers, scales, categories."""

from __future__ import annotations

from typing import Literal

from assistant.rulebook.cards.shape import Card, Frames, Restrictions, Texts


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

"""Screens a message for signs that someone may be in danger, or should be seen before training goes on.

Comes in: the prepared text, what was read of it, the rulebook, the follower's profile. Goes out: a `Verdict` with
every finding and the highest tier. The signs are `sign` cards in rules/signs: frames over word classes, readings, and
tiers by time and course. No card, no finding; the screen reads signs and never says what someone has.
"""

from __future__ import annotations

from assistant.rulebook import Rulebook
from assistant.screen.findings import findings
from assistant.screen.guard import unexplained
from assistant.values import TIERS, Finding, Profile, Question, Verdict
from assistant.words import Text

__all__ = ["screen"]


def screen(text: Text, question: Question | None, book: Rulebook, profile: Profile | None = None) -> Verdict:
    """The verdict on `text`; the same text always gives the same verdict.

    The findings stand in the order of their tier, the first is the one to act on. Signs are found in the words
    alone; `question` and `profile` take no part in it.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> screen(prepare("crushing pressure on my chest", load()), None, load()).tier
    'emergency'
    """
    found = findings(text, book)
    if all(finding.tier == "clear" for finding in found):
        found += unexplained(text, found, book)
    found.sort(key=_rank)
    if not found or found[0].tier == "clear":
        return Verdict("clear", "routine", tuple(found))
    return Verdict(found[0].tier, found[0].urgency, tuple(found))


def _rank(finding: Finding) -> tuple[int, int, int]:
    urgency = ("now", "today", "before-training", "routine").index(finding.urgency)
    return -TIERS.index(finding.tier), urgency, finding.start

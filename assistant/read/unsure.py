"""Where the reading is unsure: which question to ask back, with at most three choices, and the words not understood."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.rulebook import Rulebook
from assistant.values import Asked, Limit, Plan
from assistant.words import Text

_CHOICES = 3
_ANSWERED_FROM_WORDS = {"feedback", "other"}
_NOT_NOW = {"denied", "over", "other-person", "what-if", "figure"}
_SORE = ("sensation/sore", "sensation/pinch", "sensation/pull", "sensation/click")


def question_back(
    text: Text, asked: Sequence[Asked], limits: Sequence[Limit], wants: Sequence[str], plan: Plan | None, book: Rulebook
) -> tuple[str | None, tuple[str, ...]]:
    """The id of the question to ask and the exercises to choose from; None where the reading is good enough."""
    idle = set(wants) <= _ANSWERED_FROM_WORDS
    vague = vague_pain(text) and not limits
    if not asked and not_in_book(text):
        return "ask-unknown-exercise", ()
    if not asked:
        if vague:
            return "ask-where-it-hurts", _from_plan(plan, book)
        if idle and not limits:
            return (None, ()) if text.find("thanks") or text.find("report") else ("ask-what", ())
        return "ask-which-exercise", _from_plan(plan, book)
    if vague:
        return "ask-where-it-hurts", ()
    doubtful = [one for one in asked if one.doubt]
    if doubtful and len(doubtful) == len(asked) and not idle:
        options = tuple(dict.fromkeys(one.id for one in doubtful)) if len(doubtful) > 1 else doubtful[0].options
        rule = doubtful[0].because[0].rule if doubtful[0].because else ""
        several = len({one.id for one in doubtful}) > 1
        return (rule if rule in book.ambiguous and not several else "ask-which-exercise"), options[:_CHOICES]
    if idle and not limits and text.find("report/bad"):
        return "ask-what-about", ()
    if tuple(wants) == ("other",) and not limits and not text.find("thanks"):
        return "ask-what-about", ()
    if "swap" in wants and not limits and _reason_not_understood(text):
        return "ask-what-about", ()
    return None, ()


def _reason_not_understood(text: Text) -> bool:
    """Whether a reason for the swap is given; with no limit read from it, it was not understood."""
    return any(not hit.scopes & _NOT_NOW for hit in text.find("reason"))


def vague_pain(text: Text) -> bool:
    """Whether something hurts and nothing says where: no part of the body, and not "kills my ..."."""
    plain = {n for hit in text.find("hurts") for n in range(hit.first, hit.last + 1)}
    felt = [hit for cls in _SORE for hit in text.find(cls) if not hit.scopes & _NOT_NOW]
    hits = [hit for hit in felt if hit.name != "sore" or hit.first in plain]
    owned = {hit.first for hit in text.find("kit-own")}
    sore = [hit for hit in hits if hit.last + 1 not in owned]
    return bool(sore) and not text.find("part")


def not_in_book(text: Text) -> list[str]:
    """Exercises named that are not in the book, and not part of a name that is."""
    names = [(hit.first, hit.last) for hit in text.names]
    return [
        hit.words
        for hit in text.find("name/not-in-book")
        if not any(first <= hit.first and hit.last <= last for first, last in names)
    ]


def not_understood(text: Text) -> tuple[str, ...]:
    """Exercises that are not in the book, then words nobody knows; names of people are no such words."""
    named = {n for hit in text.names for n in range(hit.first, hit.last + 1)}
    strange = [
        word.raw
        for n, word in enumerate(text.words)
        if not word.known
        and n not in named
        and len(word.norm) > 2
        and word.norm.isalpha()
        and not word.raw[:1].isupper()
    ]
    return tuple(dict.fromkeys((*not_in_book(text), *strange)))


def _from_plan(plan: Plan | None, book: Rulebook) -> tuple[str, ...]:
    """The plan's exercises as choices, where they are few enough to choose from."""
    ids = [it.exercise for it in plan.items if it.item[:1] not in "WZ"] if plan else []
    return tuple(dict.fromkeys(ids)) if 0 < len(set(ids)) <= _CHOICES else ()

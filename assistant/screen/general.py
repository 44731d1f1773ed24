"""Questions about what happens to people in general, which say nothing of the one who asks."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.words import Text

_OWN = ("my", "me", "mine")
_REALLY = ("really", "actually", "ever", "just", "truly")
_ANYONE = ("you", "people", "one", "anyone", "anybody", "someone", "somebody", "kids", "women", "men")


def general_clauses(text: Text) -> set[int]:
    """Clauses that ask what something does in general, not about oneself: "can handstands cause a stroke?"."""
    found: set[int] = set()
    for effect in text.find("asks/effect"):
        clause = effect.clause
        first = min(n for n, word in enumerate(text.words) if word.clause == clause)
        opens = any(hit.first in (first, first + 1) for hit in text.find("asks/general"))
        mine = any(hit.clause == clause for hit in text.find("asks/me"))
        if opens and not mine:
            found.add(clause)
    return found | set(_of_people(text)) | set(_hearsay(text))


def _hearsay(text: Text) -> Iterator[int]:
    """Clauses like "I've read that planks give you hernias": what is said of an exercise, not of the writer."""
    mine = {hit.clause for hit in text.find("asks/me") if hit.words.lower() in _OWN}
    for said in text.find("asks/hearsay"):
        for effect in text.find("asks/effect"):
            near = text.words[effect.first].sentence == text.words[said.first].sentence
            if near and effect.first > said.last and effect.clause not in mine:
                yield effect.clause


def _of_people(text: Text) -> Iterator[int]:
    """Clauses like "can you have a stroke from a plank?", "do people die of this?"."""
    for happens in text.find("asks/happens"):
        n = happens.first
        while n > 1 and text.words[n - 1].norm in _REALLY:
            n -= 1
        asked = any(hit.last == n - 2 for hit in text.find("asks/general"))
        of_people = asked and text.words[n - 1].norm in _ANYONE and text.words[n - 2].clause == happens.clause
        told = [*text.find("asks/me"), *text.find("person3")]
        if of_people and not any(hit.clause == happens.clause and hit.first > n for hit in told):
            yield happens.clause

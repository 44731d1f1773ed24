"""The last guard: an alarm word that no sign explains, or words that were not understood, go to the coach in person."""

from __future__ import annotations

from assistant.rulebook import Rulebook
from assistant.values import Finding
from assistant.words import Text

_QUIET = {"denied", "what-if", "figure", "other-person"}
_ALARM, _UNREAD = "alarm-word-unclear", "words-not-understood"


def unexplained(text: Text, found: list[Finding], book: Rulebook) -> list[Finding]:
    """A finding at tier coach for every alarm word no finding speaks of, or for a text that was not understood."""
    if _not_understood(text, book):
        return [_finding(book, _UNREAD, 0, len(text.raw), text.raw)]
    result = []
    for hit in text.find("guard"):
        spoken_of = any(one.start <= hit.start and hit.end <= one.end for one in found)
        if not spoken_of and not hit.scopes & _QUIET and not _long_ago(text, hit.clause):
            result.append(_finding(book, _ALARM, hit.start, hit.end, hit.words))
    return result[:1]


def _not_understood(text: Text, book: Rulebook) -> bool:
    numbers = book.cards["scale"]["reach"].numbers
    words = [word for word in text.words if word.norm.isalpha()]
    if not text.words:
        return True
    unknown = [word for word in words if not word.known]
    return len(unknown) >= numbers["unknown_words"] and len(unknown) >= numbers["unknown_share"] * len(words)


def _long_ago(text: Text, clause: int) -> bool:
    return any(hit.clause == clause for hit in text.find("when/old"))


def _finding(book: Rulebook, sign: str, start: int, end: int, words: str) -> Finding:
    card = book.signs[sign]
    return Finding(card.category, sign, "coach", "routine", words, start, end, rule=card.reason(words))

"""The last guard: an alarm word that no sign explains, or words that were not understood, go to the coach in person."""

from __future__ import annotations

from assistant.rulebook import Rulebook
from assistant.screen.general import general_clauses
from assistant.screen.numbers import times_in
from assistant.screen.subjects import Subjects
from assistant.values import Finding
from assistant.words import Hit, Text

_QUIET = {"denied", "what-if", "figure", "other-person"}
_NEEDS_ME = "guard/mine"  # "down the hospital stairs" alarms nobody, "I was in hospital" does
_ALARM, _UNREAD = "alarm-word-unclear", "words-not-understood"


def unexplained(text: Text, found: list[Finding], book: Rulebook) -> list[Finding]:
    """A finding at tier coach for every alarm word no finding speaks of, or for a text that was not understood."""
    if _not_understood(text, book):
        return [_finding(book, _UNREAD, 0, len(text.raw), text.raw)]
    settled, subjects = _settled(text, found, book), Subjects(text)
    mine = {hit.clause for hit in text.find("asks/me")}
    result = []
    for hit in text.find("guard"):
        spoken_of = any(one.start <= hit.start and hit.end <= one.end for one in found)
        if (
            not spoken_of
            and (hit.cls != _NEEDS_ME or hit.clause in mine or _opens(hit, text))
            and not subjects.unreal_at(hit.first)
            and not hit.scopes & _QUIET
            and text.words[hit.first].sentence not in settled
            and not _look_alike(hit, text, book)
        ):
            result.append(_finding(book, _ALARM, hit.start, hit.end, hit.words))
    return result[:1]


def _look_alike(hit: Hit, text: Text, book: Rulebook) -> bool:
    """Whether the word is of a sign's class that does not count it here: "stroke" in "the stroke ward"."""
    said = hit.words.lower()
    for name, card in book.cards["class"].items():
        family = name.partition("/")[0]
        if family == "guard" or (said not in card.words and f"={said}" not in card.words):
            continue
        if not any(one.first <= hit.first <= one.last for one in text.find(family)):
            return True
    return False


def _opens(hit: Hit, text: Text) -> bool:
    """Whether a clause starts with the word: "hospital again tomorrow" leaves the "I" out."""
    return hit.first == 0 or text.words[hit.first - 1].clause != hit.clause


def _settled(text: Text, found: list[Finding], book: Rulebook) -> set[int]:
    """Sentences whose words are explained: long ago, seen to, of ordinary effort, or a question in general."""
    recent = book.cards["scale"]["times"].numbers["recent_days"]
    names = ("when/old", "course/cleared", "course/absent", "effort")
    places = [hit.first for name in names for hit in text.find(name)]
    places += [time.first for time in times_in(text, book) if time.kind == "ago" and time.days > recent]
    places += [n for n, word in enumerate(text.words) if word.clause in general_clauses(text)]
    places += [
        n for one in found if one.assertion == "what-if" for n, word in enumerate(text.words) if word.start == one.start
    ]
    return {text.words[n].sentence for n in places}


def _not_understood(text: Text, book: Rulebook) -> bool:
    numbers = book.cards["scale"]["reach"].numbers
    words = [word for word in text.words if word.norm.isalpha()]
    if not text.words:
        return True
    unknown = [word for word in words if not word.known]
    return len(unknown) >= numbers["unknown_words"] and len(unknown) >= numbers["unknown_share"] * len(words)


def _finding(book: Rulebook, sign: str, start: int, end: int, words: str) -> Finding:
    card = book.signs[sign]
    return Finding(card.category, sign, "coach", "routine", words, start, end, rule=card.reason(words))

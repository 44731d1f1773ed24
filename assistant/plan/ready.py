"""The ready line of a card ⇄ plain numbers: `4 sets of 8 from straight arms, no kick, two sessions running.`"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from assistant.values import BadInput

_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4}
_AMOUNT = r"(?P<number>\d+)(?P<unit> s| m| breaths?)?\b(?P<side> (?:each|a|per) side)?"
_LINES = (
    re.compile(rf"(?P<sets>\d+) [a-z]+ of {_AMOUNT}"),  # 3 sets of 12, 4 holds of 20 s, 4 trips of 8 m
    re.compile(rf"(?P<sets>\d+) of \d+ tries reach {_AMOUNT}"),  # 5 of 8 tries reach 15 s
    re.compile(r"(?P<sets>(?=\d))(?P<number>\d+)(?P<unit>)(?P<side>) (?=[a-z])"),  # 6 slow walk-outs: one set
)
_SESSIONS = re.compile(r"(?P<count>\w+) sessions running")


@dataclass(frozen=True)
class ReadyLine:
    """What has to be reached in every set, and in how many sessions running; `quality` is how it has to look."""

    sets: int
    number: int
    unit: Literal["reps", "s", "m"] = "reps"
    side: bool = False
    sessions: int = 2
    quality: str = ""


def read_ready(text: str, breath_s: int = 5) -> ReadyLine:
    """The numbers of a ready line; breaths become seconds. Raises BadInput where there are none ("-").

    >>> read_ready("3 holds of 20 s each side, back flat, two sessions running.")
    ReadyLine(sets=3, number=20, unit='s', side=True, sessions=2, quality='back flat')
    """
    found = next((hit for line in _LINES if (hit := line.match(text.strip()))), None)
    if not found:
        raise BadInput(f"The ready line '{text.strip()}' has no numbers: write it like '3 sets of 12, ribs down'.")
    rest = text.strip()[found.end() :]
    running = _SESSIONS.search(rest)
    sessions = _count(running["count"], text) if running else 2
    quality = _SESSIONS.split(rest)[0].strip(" ,;.") if running else rest.strip(" ,;.")
    unit, number = (found["unit"] or "").strip(), int(found["number"])
    if unit.startswith("breath"):
        unit, number = "s", number * breath_s
    return ReadyLine(int(found["sets"] or 1), number, unit or "reps", bool(found["side"]), sessions, quality)  # type: ignore[arg-type]


def _count(word: str, text: str) -> int:
    if word.isdigit() or word in _WORDS:
        return _WORDS.get(word) or int(word)
    raise BadInput(f"The ready line '{text.strip()}' says '{word} sessions running': write a number.")

"""Messages in many voices that describe exercises, point at places, tell of kit and ask for things in plain words.

They were written by the hand that mended the cards, each set before it was first scored, and then used to mend: the
floors guard against falling back, they foretell nothing of strangers' words (see tests/data/README.md).
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from assistant.answer.line import message_from_line
from assistant.read import read
from assistant.rulebook import load
from assistant.words import prepare

FILE = Path(__file__).parent / "data" / "read_written.jsonl"
BOOK = load()
FLOORS = {"wants": 0.93, "exercises": 0.93, "place": 0.95, "has": 0.75, "lacks": 0.93}  # F1


def right_and_wrong():
    """Per field how many ids are right, too many, and missed; the first want counts, or one as good."""
    counts = {field: Counter() for field in FLOORS}
    idle = Counter()
    for line in FILE.read_text(encoding="utf-8").splitlines():
        label = json.loads(line)
        given = {key: label[key] for key in ("text", "plan", "item", "thread") if key in label}
        question = read(prepare(label["text"], BOOK), message_from_line(given, BOOK), BOOK)
        got = {
            "wants": set(question.wants[:1]),
            "exercises": {one.id for one in question.exercises},
            "has": {kit.id for kit in question.has},
            "lacks": {kit.id for kit in question.lacks},
        }
        free = set(label.get("maybe", ()))
        if got["wants"] & set(label.get("want_ok", ())):
            got["wants"] = set(label["wants"])
        for field in counts:
            if field == "place" and not label.get("place"):
                continue
            said, due = (
                got["exercises" if field == "place" else field],
                set(label["exercises" if field == "place" else field]),
            )
            counts[field].update(right=len(said & due), extra=len(said - due - free), missed=len(due - said - free))
        if label.get("nothing"):
            idle.update(quiet=not (got["exercises"] or got["has"] or got["lacks"]), all=1)
    return counts, idle


@pytest.fixture(scope="module")
def outcome():
    return right_and_wrong()


@pytest.mark.parametrize("field", FLOORS)
def test_plain_words_are_read_at_least_as_well_as_when_they_were_last_mended(outcome, field):
    count = outcome[0][field]
    f1 = 2 * count["right"] / (2 * count["right"] + count["extra"] + count["missed"])
    assert f1 >= FLOORS[field], (field, round(f1, 3), dict(count))


def test_thanks_and_logistics_name_no_exercise_and_no_kit(outcome):
    assert outcome[1]["all"] == 39
    assert outcome[1]["quiet"] == outcome[1]["all"]

"""`assistant measure`: how well labelled messages are read, field by field; what was missed; which took longest.

A label is a line of JSON: `text` (with `plan`, `item`, `profile`, `thread` as in a line in) and what a careful coach
reads in it: `wants` (the first counts; `want_ok` are as good), `exercises`, `limits`, `denied`, `has`, `lacks`, `tier`.
Ids under `maybe` count neither way; a field that is not there is not measured. `place: true` = told by place or by thread;
`nothing: true` = thanks, logistics, jokes, in which nothing may be found.
"""

from __future__ import annotations

import json
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from assistant.answer import message_from_line
from assistant.read import read
from assistant.rulebook import Rulebook
from assistant.screen import screen
from assistant.values import BadInput, Question
from assistant.words import prepare

FIELDS = ("wants", "exercises", "place", "limits", "denied", "has", "lacks", "nothing", "tier")
_IN = ("text", "plan", "item", "profile", "thread")
_NOTHING = ("exercises", "limits", "denied", "has", "lacks")
_SLOWEST, _CONFUSIONS = 5, 20


@dataclass
class Score:
    """Right, extra and missed ids of one field, with precision, recall and their harmonic mean F1."""

    right: int = 0
    extra: int = 0
    missed: int = 0

    @property
    def precision(self) -> float:
        """Share of what was found that is right; 1 where nothing was found."""
        return self.right / max(self.right + self.extra, 1) if self.right + self.extra else 1.0

    @property
    def recall(self) -> float:
        """Share of what is there that was found; 1 where nothing is there."""
        return self.right / max(self.right + self.missed, 1) if self.right + self.missed else 1.0

    @property
    def f1(self) -> float:
        """2 P R / (P + R).

        >>> round(Score(right=8, extra=2, missed=2).f1, 3)
        0.8
        """
        total = self.precision + self.recall
        return 2 * self.precision * self.recall / total if total else 0.0


@dataclass(frozen=True)
class Miss:
    """One message with a field read otherwise than its label says."""

    id: str
    text: str
    field: str
    missing: tuple[str, ...]
    extra: tuple[str, ...]


@dataclass
class Measured:
    """The scores of a corpus by field, every miss, and the time each message took in ms."""

    scores: dict[str, Score] = field(default_factory=lambda: {name: Score() for name in FIELDS})
    misses: list[Miss] = field(default_factory=list)
    taken_ms: list[tuple[float, str]] = field(default_factory=list)

    @property
    def confusions(self) -> list[tuple[str, str, int]]:
        """(field, "label → found", how often), the most frequent first; `-` stands for nothing."""
        pairs: Counter[tuple[str, str]] = Counter()
        for miss in self.misses:
            for label in miss.missing or ("-",):
                for found in miss.extra or ("-",):
                    pairs[miss.field, f"{label} → {found}"] += 1
        return [(name, pair, count) for (name, pair), count in pairs.most_common(_CONFUSIONS)]

    @property
    def slowest(self) -> list[tuple[float, str]]:
        """The messages that took longest, with ms."""
        return sorted(self.taken_ms, reverse=True)[:_SLOWEST]

    def as_json(self) -> dict[str, Any]:
        """Everything as plain data."""
        return {
            "fields": {
                name: {"precision": s.precision, "recall": s.recall, "f1": s.f1, **vars(s)}
                for name, s in self.scores.items()
                if s.right + s.extra + s.missed
            },
            "confusions": [{"field": f, "pair": pair, "count": n} for f, pair, n in self.confusions],
            "slowest": [{"ms": round(ms, 2), "text": text} for ms, text in self.slowest],
            "misses": [{**vars(m), "missing": list(m.missing), "extra": list(m.extra)} for m in self.misses],
        }


def measure(lines: Iterable[str], book: Rulebook) -> Measured:
    """The reading of every labelled line against its label; raises BadInput with the number of a line it cannot use."""
    result = Measured()
    prepare("warm", book)
    for number, raw in enumerate(lines, 1):
        if raw.strip():
            label = _label(raw, number)
            message = message_from_line({k: v for k, v in label.items() if k in _IN}, book)
            started = time.perf_counter()
            text = prepare(message.text, book)
            question = read(text, message, book)
            result.taken_ms.append(((time.perf_counter() - started) * 1000, message.text))
            tier = screen(text, question, book).tier if "tier" in label else None
            _count(result, label, question, tier)
    return result


def show(found: Measured, console: Console) -> None:
    """The scores as a table, then the confusions, then the slowest messages."""
    table = Table("", "precision", "recall", "F1", "right", "extra", "missed", box=None, pad_edge=False)
    for name, score in found.scores.items():
        if score.right + score.extra + score.missed:
            shares = (f"{share:.3f}" for share in (score.precision, score.recall, score.f1))
            table.add_row(name, *shares, *map(str, (score.right, score.extra, score.missed)))
    console.print(table)
    for name, pair, count in found.confusions:
        console.print(f"{count} x {name}: {pair}")
    for ms, text in found.slowest:
        console.print(f"{ms:6.1f} ms  {escape(text[:80])}")


def _label(raw: str, number: int) -> dict[str, Any]:
    try:
        label = json.loads(raw)
    except ValueError as error:
        raise BadInput(f"Line {number} is not JSON: {error}. Write one object a line.") from None
    if not isinstance(label, dict) or "text" not in label:
        raise BadInput(f"Line {number} has no 'text': a label is an object with the message and what is in it.")
    return label


def _count(result: Measured, label: Mapping[str, Any], question: Question, tier: str | None) -> None:
    free = set(label.get("maybe") or ())
    for name, wanted, found in _compared(label, question, tier):
        extra, missing = found - wanted - free, wanted - found - free
        score = result.scores[name]
        score.right += len(found & wanted)
        score.extra += len(extra)
        score.missed += len(missing)
        if extra or missing:
            miss = Miss(str(label.get("id", "")), label["text"], name, tuple(sorted(missing)), tuple(sorted(extra)))
            result.misses.append(miss)


def _compared(label: Mapping[str, Any], question: Question, tier: str | None) -> Iterator[tuple[str, set, set]]:
    """Each field that is labelled, as (name, what is there, what was found)."""
    found: dict[str, set[str]] = {
        "exercises": {one.id for one in question.exercises},
        "limits": {one.id for one in question.limits},
        "denied": {one.id for one in question.denied},
        "has": {one.id for one in question.has},
        "lacks": {one.id for one in question.lacks},
    }
    if label.get("wants"):
        good = {label["wants"][0], *label.get("want_ok", ())}
        first = set(question.wants[:1])
        yield "wants", first if first <= good else {label["wants"][0]}, first
    for name, ids in found.items():
        if label.get(name) is not None:
            yield name, set(label[name]), ids
    if label.get("place"):
        yield "place", set(label["exercises"]), found["exercises"]
    if label.get("nothing"):
        something = {f"{name}: {one}" for name in _NOTHING for one in found[name]}
        yield "nothing", {"nothing"}, something or {"nothing"}
    if tier is not None:
        yield "tier", {label["tier"]}, {tier}

"""Scores `read` on a batch of labelled messages: per field precision, recall, F1, every miss listed.

Run as `python tests/score_read.py tests/data/read_fresh_1.jsonl [-v]`. A label's `maybe` ids count neither way; a message
without a label in a field is left out of that field.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from pathlib import Path

from assistant.answer.line import message_from_line
from assistant.read import read
from assistant.rulebook import default_rules, read_book
from assistant.words import prepare


def score(path: Path, verbose: bool = False) -> dict[str, tuple[int, int, int]]:
    """Hits, extras and misses per field over the batch at `path`."""
    book = read_book(default_rules())[0]
    counts: dict[str, Counter] = {
        f: Counter() for f in ("wants", "exercises", "has", "lacks", "equipment_limits", "ask_back")
    }
    for line in path.read_text(encoding="utf-8").splitlines():
        label = json.loads(line)
        message = message_from_line(
            {k: v for k, v in label.items() if k in ("text", "plan", "item", "profile", "thread")}, book
        )
        question = read(prepare(message.text, book), message, book)
        got = {
            "wants": list(question.wants),
            "exercises": [e.id for e in question.exercises],
            "has": [k.id for k in question.has],
            "lacks": [k.id for k in question.lacks],
            "equipment_limits": [x.id for x in question.limits if x.kind == "equipment"],
            "ask_back": [str(question.ask_back is not None)],
        }
        bad = []
        for name, found in got.items():
            if name not in label or label[name] is None:
                continue
            wanted = [str(label[name])] if name == "ask_back" else label[name]
            free = set(label.get("maybe", ())) | (set(label.get("want_ok", ())) if name == "wants" else set())
            hit = set(found) & set(wanted)
            if name == "wants" and not hit and set(found) & free:
                hit = set(wanted[:1])  # another reading of the want that the writer also holds right
                wanted = wanted[:1]
            extra = set(found) - set(wanted) - free
            miss = set(wanted) - set(found) - free - hit
            counts[name].update(hit=len(hit), extra=len(extra), miss=len(miss))
            if extra or miss:
                bad.append(f"    {name}: missing {sorted(miss)} extra {sorted(extra)}")
        if bad and verbose:
            print(
                f"{label.get('id')} {label['text'][:150]!r} ask={question.ask_back} limits={[x.id for x in question.limits]}"
            )
            print("\n".join(bad))
    return {name: (c["hit"], c["extra"], c["miss"]) for name, c in counts.items()}


def main() -> None:
    """Print the table."""
    for name in [a for a in sys.argv[1:] if not a.startswith("-")]:
        print(name)
        for field, (hit, extra, miss) in score(Path(name), "-v" in sys.argv).items():
            precision, recall = hit / max(hit + extra, 1), hit / max(hit + miss, 1)
            f1 = 2 * precision * recall / max(precision + recall, 1e-9)
            print(
                f"{field:18} P {precision:.3f}  R {recall:.3f}  F1 {f1:.3f}   ({hit} right, {extra} extra, {miss} missed)"
            )


if __name__ == "__main__":
    main()

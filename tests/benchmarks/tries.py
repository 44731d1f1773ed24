"""One message through the five verbs in one process: the median over the demo messages, in milliseconds."""

from __future__ import annotations

import statistics
import sys
import time

from figure import Figure, demo_lines

from assistant.answer import answer, as_json, message_from_line
from assistant.rulebook import load


def measure(quick: bool = False) -> list[Figure]:
    """Median and slowest twentieth, line in to line out, after one warm round; processor time, whoever else is busy."""
    book = load()
    lines = demo_lines()
    taken_ms: list[float] = []
    for turn in range(2 if quick else 6):
        for line in lines:
            started = time.process_time()
            as_json(answer(message_from_line(line, book), book))
            if turn:
                taken_ms.append((time.process_time() - started) * 1000)
    slowest = statistics.quantiles(taken_ms, n=20)[-1]
    return [
        Figure("a message through the five verbs, median", statistics.median(taken_ms), "ms", 5),
        Figure("a message through the five verbs, 95 of 100 under", slowest, "ms", 15),
    ]


if __name__ == "__main__":
    print(*measure("--quick" in sys.argv), sep="\n")

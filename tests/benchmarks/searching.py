"""`search` alone: at this book, at a book ten times as large, and beside an independent solver on the same questions.

The median is that of the book by itself; for the ratio each question is asked in turn of the book and of the large one,
so that whoever else is busy slows both alike. All are warm: what lies around an exercise is worked out with the first
question about it, and that is shown apart.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from bigbook import times
from figure import Figure

from assistant.rulebook import Rulebook, load
from assistant.search import search
from assistant.values import Message, Question

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
from tests.optimum.questions import questions  # noqa: E402
from tests.optimum.solver import solve  # noqa: E402

Case = tuple[str, Question, Message]
_TIMES = 10
_SEED = 11


def measure(quick: bool = False) -> list[Figure]:
    """Medians over random questions, processor time."""
    book = load()
    large = times(book, _TIMES)
    many = 60 if quick else 400
    here, there = list(questions(book, many, _SEED)), list(questions(large, many, _SEED))
    first, small_ms, large_ms = [], [], []
    for case, big in zip(here, there, strict=True):
        first.append(taken_ms(searched, case, book))
        taken_ms(searched, big, large)
    alone_ms = [taken_ms(searched, case, book) for case in here]
    for case, big in zip(here, there, strict=True):
        small_ms.append(taken_ms(searched, case, book))
        large_ms.append(taken_ms(searched, big, large))
    solved_ms = [taken_ms(solved, case, book) for case in here[: 20 if quick else 100]]
    alone, small, big, solver = map(statistics.median, (alone_ms, small_ms, large_ms, solved_ms))
    return [
        Figure("search, median", alone, "ms", 1),
        Figure("search, first question about an exercise", statistics.median(first), "ms"),
        Figure(f"search, book {_TIMES} times as large, beside this one", big / small, "x", 3),
        Figure("independent solver beside search, same questions", solver / alone, "x"),
    ]


def searched(case: Case, book: Rulebook) -> None:
    search(case[1], case[2], book)


def solved(case: Case, book: Rulebook) -> None:
    solve(*case, book)


def taken_ms(what: Callable[[Case, Rulebook], None], case: Case, book: Rulebook) -> float:
    """Processor time of one call, in milliseconds."""
    started = time.process_time()
    what(case, book)
    return (time.process_time() - started) * 1000


if __name__ == "__main__":
    print(*measure("--quick" in sys.argv), sep="\n")

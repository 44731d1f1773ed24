"""`assistant gaps`: what the book cannot answer, as a table for the eye or as JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from rich.console import Console
from rich.progress import Progress
from rich.table import Table

from assistant.check.gaps import Cell, Gaps, gaps
from assistant.rulebook import Rulebook


def looked(book: Rulebook, pairs: bool, console: Console) -> Gaps:
    """The gaps of `book`, with a bar on `console` while it looks: pairs take about a minute."""
    with Progress(console=console, transient=True) as progress:
        bar = progress.add_task("looking", total=None)
        return gaps(book, pairs, lambda done, of: progress.update(bar, completed=done, total=of))


def show(found: Gaps, console: Console) -> None:
    """The counts, then every gap with what came nearest and why it is out."""
    table = Table("", "answered", "in words only", "gaps", "share of gaps", box=None, pad_edge=False)
    for name, counts in _rows(found):
        numbers = (f"{counts[kind]:,}" for kind in ("answered", "in words", "gap"))
        table.add_row(name, *numbers, f"{found.share(counts):.2%}")
    console.print(table)
    for cell in found.gaps:
        console.print(f"- {cell}")


def as_json(found: Gaps) -> dict[str, Any]:
    """The same as plain data."""
    counts = {
        name: {kind.replace(" ", "_"): counts[kind] for kind in ("answered", "in words", "gap")}
        for name, counts in _rows(found)
    }
    return {**counts, "gaps": [_cell(cell) for cell in found.gaps]}


def _rows(found: Gaps) -> Iterator[tuple[str, Counter]]:
    yield "single", found.singles
    yield "profiles", found.profiles
    if found.pairs.total():
        yield "pairs", found.pairs


def _cell(cell: Cell) -> dict[str, Any]:
    because = [dict(vars(reason)) for reason in cell.because]
    return {"exercise": cell.exercise, "limits": list(cell.limits), "profile": cell.profile or None, "because": because}

"""`assistant try`: one line or many through the five verbs, without a store."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any, TextIO

from rich.console import Console
from rich.markup import escape

from assistant.answer import answer, as_json, message_from_line
from assistant.demo_files import demo_plans
from assistant.plan import plan_from_json
from assistant.rulebook import Rulebook, load
from assistant.values import Answer, AssistantError, BadInput, Plan, Reason

__all__ = ["as_json", "plan_in", "plan_of", "profile_of", "show", "try_lines", "try_one"]


def try_one(line: dict[str, Any], rules: Path | None = None) -> Answer:
    """The answer to one line of the contract; raises BadInput."""
    book = load(rules)
    return answer(message_from_line(line, book, demo_plans().get), book)


def try_lines(source: Iterable[str], out: TextIO, rules: Path | None = None) -> int:
    """JSON lines in, JSON lines out, in order; a line that cannot be used gives an error on its place and exit code 1."""
    book, code = load(rules), 0
    for raw in source:
        if not raw.strip():
            continue
        result = _one_line(raw, book)
        code = max(code, int("error" in result))
        out.write(json.dumps(result, ensure_ascii=False) + "\n")
    return code


def _one_line(raw: str, book: Rulebook) -> dict[str, Any]:
    try:
        line = json.loads(raw)
    except (ValueError, RecursionError) as error:
        return {"error": f"This line is not JSON ({error}). Give one object a line."}
    try:
        return as_json(answer(message_from_line(line, book, demo_plans().get), book))
    except AssistantError as error:
        return {"error": str(error)}


def plan_of(name: str | None) -> Any:
    """What stands for a plan on the command line: the id of a demo plan, or a file with one."""
    if name and Path(name).is_file():
        return _json_file(Path(name))
    return name


def plan_in(file: Path) -> Plan:
    """The plan in a JSON file; raises BadInput."""
    return plan_from_json(_json_file(file))


def profile_of(file: Path | None) -> Any:
    """The profile in a JSON file, or None."""
    return _json_file(file) if file else None


def _json_file(file: Path) -> Any:
    try:
        return json.loads(file.read_text(encoding="utf-8"))
    except ValueError as error:
        raise BadInput(f"{file} is not JSON ({error}).") from error


def show(answer: Answer, console: Console) -> None:
    """A block per verb with its reasons."""
    q, v = answer.question, answer.verdict
    _head(console, "read")
    console.print(f"  wants      {', '.join(q.wants)}")
    for e in q.exercises:
        console.print(f"  asked      {e.id} ({e.how}{', ' + e.item if e.item else ''}) [dim]“{escape(e.words)}”[/dim]")
    for limit in q.limits:
        console.print(f"  limit      {limit.id} [dim]“{escape(limit.words)}”[/dim]")
        _because(console, limit.because)
    for label, found in (("has", q.has), ("lacks", q.lacks), ("denied", q.denied)):
        for thing in found:
            console.print(f"  {label:<10} {thing.id} [dim]“{escape(thing.words)}”[/dim]")
    if q.not_understood:
        console.print(f"  unread     {escape('; '.join(q.not_understood))}")
    _head(console, "screen")
    console.print(f"  tier       {v.tier} ({v.urgency})")
    for f in v.findings:
        console.print(f"  finding    {f.sign}: {f.tier}, {f.assertion}, {f.time} [dim]“{escape(f.words)}”[/dim]")
        _because(console, (f.rule,))
    _head(console, "search and dose")
    for s in answer.swaps:
        mark = "→" if s.recommended else " "
        kit = f", if you have {s.if_you_have}" if s.if_you_have else ""
        console.print(f"  {mark} for {s.asked}: [bold]{s.exercise}[/bold] ({s.kind}{kit}) {_dose(s)}")
        console.print(f"    way        {' → '.join(s.way)}")
        console.print(f"    costs      {escape('; '.join(s.costs))}")
        if s.recommended:
            _because(console, s.because)
    for r in answer.refused:
        console.print(f"    refused    {r.exercise}: {escape('; '.join(b.says for b in r.because))}")
    _head(console, "write")
    if answer.draft.notice:
        console.print(f"  [bold]told at once[/bold]\n{escape(answer.draft.notice)}\n")
    console.print(f"  {escape(answer.draft.summary)}\n")
    console.print(escape(answer.draft.text))


def _dose(swap) -> str:
    from assistant.plan import dose_words

    return dose_words(swap.dose) if swap.dose else ""


def _head(console: Console, word: str) -> None:
    console.rule(f"[bold]{word}", align="left", style="dim")


def _because(console: Console, reasons: tuple[Reason, ...]) -> None:
    for reason in reasons:
        says = f": {escape(reason.says)}" if reason.says else ""
        console.print(f"    [dim]because {reason.rule} ({reason.at}){says}[/dim]")

"""One measured figure beside its target, and the demo messages all benchmarks run on."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

DEMO = Path(__file__).resolve().parents[2] / "demo_data"


@dataclass(frozen=True)
class Figure:
    """What was measured, its value and unit, and the target on the good side of which it should lie."""

    name: str
    value: float
    unit: str
    target: float | None = None  # None: shown for comparison only
    most: bool = True  # the target is the most it may be; False: the least

    @property
    def met(self) -> bool:
        """Whether the target is met."""
        if self.target is None:
            return True
        return self.value <= self.target if self.most else self.value >= self.target

    def __str__(self) -> str:
        shown = f"{self.name:<50} {self.value:>9.2f} {self.unit}"
        if self.target is None:
            return shown
        bound = "at most" if self.most else "at least"
        return f"{shown:<65}{bound} {self.target:g} {self.unit}: {'met' if self.met else 'MISSED'}"


def demo_lines() -> list[dict[str, Any]]:
    """The demo messages as lines of the contract, each with the plan it is about in full."""
    plans = {plan["id"]: plan for plan in json.loads((DEMO / "plans.json").read_text(encoding="utf-8"))}
    rows = [json.loads(row) for row in (DEMO / "messages.jsonl").read_text(encoding="utf-8").splitlines() if row]
    kept = ("text", "item", "thread", "at")
    return [{k: row[k] for k in kept if k in row} | {"plan": plans.get(row.get("plan"))} for row in rows]

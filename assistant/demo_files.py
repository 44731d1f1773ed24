"""demo_data/: the invented week of an invented coach, as plain values."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import Any

from assistant.plan import plan_from_json
from assistant.values import Plan


def demo_folder() -> Path:
    """The folder of the demo data that came with the installation: in the wheel, else beside the package."""
    inside = Path(str(resources.files("assistant"))) / "_data" / "demo_data"
    return inside if inside.is_dir() else Path(__file__).resolve().parents[1] / "demo_data"


@lru_cache(maxsize=1)
def demo_plans() -> dict[str, Plan]:
    """The plans of the demo week by id.

    >>> demo_plans()["mon"].slot("A1").exercise
    'pull-up'
    """
    return {row["id"]: plan_from_json(row) for row in json.loads(_read("plans.json"))}


def demo_followers() -> list[dict[str, Any]]:
    """The invented followers with their histories."""
    return json.loads(_read("followers.json"))


def demo_messages() -> list[dict[str, Any]]:
    """The messages of the demo week in the order in which they came in."""
    rows = [json.loads(line) for line in _read("messages.jsonl").splitlines() if line.strip()]
    return sorted(rows, key=lambda row: row["at"])


def _read(name: str) -> str:
    return (demo_folder() / name).read_text(encoding="utf-8")

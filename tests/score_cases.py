"""Score a file of cases against what the five verbs answer: `python tests/score_cases.py FILE [--all] [--json]`.

A case is a line of JSON: `text` and, where it has them, `plan`, `item`, `profile`, `thread`; what was expected stands
beside them (`asked`, `limits`, `best`, `acceptable`, `never`, `tier`, `ask_back` ...) or under `expect`.
Limits are compared on messages the coach may answer (clear, coach): on the others the tier decides, not the limits.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

EXPECTED = ("tier", "asked", "limits", "has", "lacks", "denied", "wants", "best", "acceptable", "never", "ask_back")
STANDS_FOR_TIER = "clinician-first"  # a limit in name only: the tier says it
NOT_FOR_THE_COACH = ("clinician", "emergency")

Line = dict[str, Any]


@dataclass(frozen=True)
class Case:
    """One message with what is expected of the answer."""

    id: str
    line: Line  # the line in of the contract
    expect: Line

    def ids(self, *fields: str) -> frozenset[str]:
        """The ids in these fields of the expectation, together."""
        return frozenset(value for field in fields for value in self.expect.get(field) or ())

    @property
    def named(self) -> frozenset[str]:
        """Every exercise the case names."""
        return self.ids("asked", "best", "acceptable", "never")


@dataclass(frozen=True)
class Outcome:
    """One case beside its answer; each test of it is a property."""

    case: Case
    tier: str
    asked: frozenset[str]
    limits: frozenset[str]
    denied: frozenset[str]
    wants: tuple[str, ...]
    recommended: frozenset[str]
    offered: frozenset[str]  # recommended ones too
    asked_back: bool

    @property
    def wanted(self) -> bool:
        """Whether the case expects an exercise to be recommended."""
        return bool(self.case.ids("best"))

    @property
    def fits(self) -> bool:
        """Whether something is recommended and all of it is best or acceptable."""
        return bool(self.recommended) and self.recommended <= self.case.ids("best", "acceptable")

    @property
    def is_best(self) -> bool:
        return self.fits and self.recommended <= self.case.ids("best")

    @property
    def broke(self) -> frozenset[str]:
        """What was offered although it is never right here."""
        return self.offered & self.case.ids("never")

    @property
    def uncalled(self) -> bool:
        """Whether an exercise is recommended where none should be."""
        return bool(self.recommended) and not self.case.ids("best", "acceptable")

    @property
    def tier_right(self) -> bool:
        return self.tier == self.case.expect.get("tier", self.tier)

    @property
    def asked_right(self) -> bool:
        return self.asked == self.case.ids("asked")

    @property
    def limits_count(self) -> bool:
        """Whether the limits of this case are compared at all."""
        return self.case.expect.get("tier") not in NOT_FOR_THE_COACH

    @property
    def limits_right(self) -> bool:
        return not self.limits_count or self.limits == self.case.ids("limits") - {STANDS_FOR_TIER}

    @property
    def ask_back_right(self) -> bool:
        return self.asked_back == bool(self.case.expect.get("ask_back"))

    @property
    def missed(self) -> list[str]:
        """The names of the tests this case fails."""
        checks = {
            "never": not self.broke,
            "recommended": self.fits or not self.wanted,
            "uncalled": not self.uncalled,
            "tier": self.tier_right,
            "asked": self.asked_right,
            "limits": self.limits_right,
            "ask_back": self.ask_back_right,
        }
        return [name for name, right in checks.items() if not right]


def read_cases(path: Path) -> list[Case]:
    """The cases of a file of JSON lines; a line that cannot be read is named."""
    cases = []
    for number, raw in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        if not raw.strip():
            continue
        try:
            line = json.loads(raw)
            cases.append(case_from_line(line))
        except (ValueError, KeyError, AttributeError) as error:
            raise SystemExit(f"{path}, line {number}: not a case ({error}); write a JSON object with a text") from None
    return cases


def case_from_line(line: Line, plans: Line | None = None, people: Line | None = None) -> Case:
    """A case of one line; `plans` and `people` replace ids of plans and followers by what stands behind them.

    >>> case_from_line({"text": "no bar", "tier": "clear", "asked": ["pull-up"]}).expect
    {'tier': 'clear', 'asked': ['pull-up']}
    """
    expect = line.get("expect") or {key: line[key] for key in EXPECTED if key in line}
    told = {key: line.get(key) for key in ("text", "plan", "item", "profile", "thread", "at")}
    if not isinstance(told["text"], str):
        raise KeyError("text")
    if plans and isinstance(told["plan"], str):
        told["plan"] = plans[told["plan"]]
    if people and line.get("follower"):
        told["profile"] = people[line["follower"]]
    return Case(line.get("id", line["text"][:20]), {key: value for key, value in told.items() if value}, expect)


def outcome(case: Case, out: Line) -> Outcome:
    """The case beside its line out."""
    question, swaps = out["question"], out["swaps"]
    return Outcome(
        case=case,
        tier=out["verdict"]["tier"],
        asked=frozenset(found["id"] for found in question["exercises"]),
        limits=frozenset(found["id"] for found in question["limits"]) - {STANDS_FOR_TIER},
        denied=frozenset(found["id"] for found in question.get("denied", ())),
        wants=tuple(question["wants"]),
        recommended=frozenset(swap["exercise"] for swap in swaps if swap["recommended"]),
        offered=frozenset(swap["exercise"] for swap in swaps),
        asked_back=bool(out["ask_back"]),
    )


def answers(cases: Iterable[Case], book: Any) -> list[Outcome]:
    """Every case through the five verbs, in process."""
    from assistant.answer import answer, as_json, message_from_line

    found = []
    for case in cases:
        try:
            found.append(outcome(case, as_json(answer(message_from_line(case.line, book), book))))
        except Exception as error:
            error.add_note(f"in case {case.id}: {case.line['text']}")
            raise
    return found


def share(found: Iterable[bool]) -> float | None:
    """Part of `found` that is true; None of nothing.

    >>> share([True, False]), share([])
    (0.5, None)
    """
    values = list(found)
    return sum(values) / len(values) if values else None


def overlap(pairs: Iterable[tuple[frozenset[str], frozenset[str]]]) -> dict[str, float | None]:
    """Precision, recall and F1 over all (found, expected) pairs together.

    >>> overlap([(frozenset("ab"), frozenset("bc"))])
    {'precision': 0.5, 'recall': 0.5, 'f1': 0.5}
    """
    right = found = wanted = 0
    for one, other in pairs:
        right, found, wanted = right + len(one & other), found + len(one), wanted + len(other)
    f1 = 2 * right / (found + wanted) if found + wanted else None
    return {"precision": right / found if found else None, "recall": right / wanted if wanted else None, "f1": f1}


def score(outcomes: list[Outcome], skipped: int = 0) -> Line:
    """All figures of a run, and every miss with what was recommended."""
    wanted = [one for one in outcomes if one.wanted]
    read = [one for one in outcomes if one.limits_count]
    return {
        "cases": len(outcomes),
        "skipped": skipped,
        "wanted": len(wanted),
        "fits": share(one.fits for one in wanted),
        "best": share(one.is_best for one in wanted),
        "never": sum(bool(one.broke) for one in outcomes),
        "uncalled": sum(one.uncalled for one in outcomes),
        "tier": share(one.tier_right for one in outcomes),
        "asked": overlap((o.asked, o.case.ids("asked")) for o in outcomes)
        | {"exact": share(o.asked_right for o in outcomes)},
        "limits": overlap((o.limits, o.case.ids("limits") - {STANDS_FOR_TIER}) for o in read)
        | {"exact": share(o.limits_right for o in read)},
        "ask_back": share(one.ask_back_right for one in outcomes),
        "misses": [miss(one) for one in outcomes if one.missed],
    }


def miss(one: Outcome) -> Line:
    """A missed case, ready to be read by a person."""
    found = {key: value for key, value in asdict(one).items() if key != "case"}
    found = {key: sorted(value) if isinstance(value, frozenset) else value for key, value in found.items()}
    named = {"id": one.case.id, "missed": one.missed, "text": one.case.line["text"]}
    return named | {"found": found, "expected": one.case.expect}


def report(result: Line) -> str:
    """The figures as lines for a terminal."""

    def percent(value: float | None) -> str:
        return "   -" if value is None else f"{value:4.0%}"

    lines = [
        f"{result['cases']} cases ({result['skipped']} left out: an exercise is not in the book)",
        f"recommended fits {percent(result['fits'])}, is best {percent(result['best'])} of {result['wanted']}",
        f"never offered    {result['never']} cases; recommended where nothing should be: {result['uncalled']}",
        f"tier exact       {percent(result['tier'])}   question back agrees {percent(result['ask_back'])}",
    ]
    for name in ("asked", "limits"):
        part = result[name]
        lines.append(
            f"{name:<16} {percent(part['exact'])} exact; precision {percent(part['precision'])}, "
            f"recall {percent(part['recall'])}, F1 {percent(part['f1'])}"
        )
    return "\n".join([*lines, *(miss_line(one) for one in result["misses"])])


def miss_line(one: Line) -> str:
    """A miss in a few lines: what was expected, what was found, for the failed tests only.

    >>> found = {"tier": "clear", "asked": ["squat"]}
    >>> print(miss_line({"id": "c1", "missed": ["tier"], "text": "hi", "found": found, "expected": {"tier": "coach"}}))
    <BLANKLINE>
    c1 [tier] hi
       tier: clear, expected coach
    """
    found, expected, lines = one["found"], one["expected"], []
    for name in one["missed"]:
        if name in ("never", "uncalled", "recommended"):
            right = [*(expected.get("best") or []), "|", *(expected.get("acceptable") or [])]
            lines.append(f"   {name}: recommended {found['recommended']}, offered {found['offered']}, expected {right}")
        elif name == "ask_back":
            lines.append(f"   ask_back: {found['asked_back']}, expected {expected.get('ask_back', False)}")
        else:
            lines.append(f"   {name}: {found[name]}, expected {expected.get(name)}")
    return "\n".join([f"\n{one['id']} [{', '.join(one['missed'])}] {one['text']}", *lines])


def run(cases: list[Case], book: Any, every: bool = False, ask: Callable[..., list[Outcome]] = answers) -> Line:
    """Score `cases`; those naming an exercise the book does not have are left out unless `every`."""
    known = [case for case in cases if every or case.named <= set(book.exercises)]
    return score(ask(known, book), skipped=len(cases) - len(known))


def main(arguments: list[str] | None = None) -> int:
    """The command; 0 when every case was answered, whatever the score."""
    parser = argparse.ArgumentParser(description="Score a file of cases.")
    parser.add_argument("file", type=Path)
    parser.add_argument("--all", action="store_true", help="also cases that name an exercise the book does not have")
    parser.add_argument("--json", action="store_true", help="the whole result as JSON")
    parser.add_argument("--rules", type=Path, help="another folder of cards")
    given = parser.parse_args(arguments)
    from assistant.rulebook import default_rules, load

    result = run(read_cases(given.file), load(given.rules or default_rules()), every=given.all)
    print(json.dumps(result, indent=2) if given.json else report(result))
    return 0


if __name__ == "__main__":
    sys.exit(main())

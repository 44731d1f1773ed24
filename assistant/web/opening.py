"""One opened message shaped for the page: what was said and how it was read, the options, why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from assistant.figure import Picture
from assistant.inbox import Opened
from assistant.web.marks import Mark, Piece, marks, pieces
from assistant.web.spoken import Names, day, dose

STOP_TIERS = ("emergency", "clinician")


@dataclass(frozen=True)
class Option:
    """One option for one asked exercise, with what it costs."""

    exercise: str
    name: str
    kind: str
    chosen: bool
    dose: str
    how: str  # how the dose was chosen
    costs: tuple[str, ...]
    condition: str
    way: tuple[tuple[str, str, str], ...]
    demands: tuple[tuple[str, str, str], ...]
    because: tuple[Mapping[str, Any], ...]
    picture: Picture | None


@dataclass(frozen=True)
class Choice:
    """The options for one asked exercise, with its own picture to compare theirs with."""

    asked: str
    name: str
    item: str
    options: tuple[Option, ...]
    picture: Picture | None

    @property
    def drawn(self) -> bool:
        """Whether there is anything to see."""
        return any(one.picture for one in (self, *self.options))


@dataclass(frozen=True)
class Typed:
    """What the coach had typed when a form was refused, so that nothing is lost."""

    do: str = ""
    text: str = ""
    reason: str = ""
    comment: str = ""


@dataclass(frozen=True)
class View:
    """All that the panel of an opened message shows."""

    opened: Opened
    stop: bool  # someone should be seen: no exercise is shown anywhere
    pieces: list[Piece]
    marks: list[Mark]
    not_understood: tuple[str, ...]
    choices: tuple[Choice, ...]
    chosen: dict[str, str]
    draft: str  # the reply as suggested, with the chosen options
    ask_back: str
    asks_first: bool  # the draft itself is a question back
    refused: tuple[tuple[str, str], ...]
    because: tuple[Mapping[str, Any], ...]
    profile: tuple[tuple[str, str], ...]
    older_book: str  # fingerprint the draft was made with, where it is not today's
    typed: Typed = field(default_factory=Typed)
    error: str = ""


def view(opened: Opened, names: Names, redrafted: Mapping[str, Any] | None = None, chosen: dict[str, str] | None = None,
         typed: Typed | None = None, error: str = "") -> View:  # fmt: skip
    """Shape an opened message; `redrafted` is the line out after the coach chose other options."""
    row, result = opened.row, redrafted or opened.row.result
    stop = row.tier in STOP_TIERS
    found = marks(row.result, names, exercises=not stop)
    draft, ask_back = result.get("draft", {}).get("text", ""), result.get("ask_back") or ""
    refused = () if stop else result.get("refused", ())
    fingerprint = row.result.get("rulebook", "")
    return View(
        opened=opened, stop=stop, pieces=pieces(row.text, found), marks=found,
        not_understood=tuple(row.result.get("question", {}).get("not_understood", ())),
        choices=() if stop else _choices(result, names), chosen=chosen or {}, draft=draft, ask_back=ask_back,
        asks_first=bool(ask_back) and not result.get("swaps"), refused=tuple(_refused(one, names) for one in refused),
        because=_because(result),
        profile=_profile(opened, names), older_book="" if fingerprint == names.book.fingerprint else fingerprint,
        typed=typed or Typed(), error=error,
    )  # fmt: skip


def _choices(result: Mapping[str, Any], names: Names) -> tuple[Choice, ...]:
    by_asked: dict[tuple[str, str], list[Option]] = {}
    for swap in result.get("swaps", ()):
        by_asked.setdefault((swap.get("for", ""), swap.get("item") or ""), []).append(_option(swap, names))
    return tuple(
        Choice(asked, names.exercise(asked), item, tuple(options), names.picture(asked))
        for (asked, item), options in by_asked.items()
    )


def _option(swap: Mapping[str, Any], names: Names) -> Option:
    condition = [f"leans on: {names.kit(swap['aid'])}"] if swap.get("aid") else []
    condition += [f"safe if {swap['condition']}"] if swap.get("condition") else []
    condition += [f"only with {names.kit(swap['if_you_have'])}"] if swap.get("if_you_have") else []
    amount = swap.get("dose") or {}
    return Option(
        exercise=swap["exercise"],
        name=names.exercise(swap["exercise"]),
        kind=swap.get("kind", "swap"),
        chosen=bool(swap.get("recommended")),
        dose=dose(amount),
        how=amount.get("how", ""),
        costs=tuple(swap.get("costs", ())),
        condition="; ".join(condition),
        way=tuple(names.way(list(swap.get("way", ())))),
        demands=tuple(names.demands(swap.get("demand"))),
        because=tuple(swap.get("because", ())),
        picture=names.picture(swap["exercise"]),
    )


def _because(result: Mapping[str, Any]) -> tuple[Mapping[str, Any], ...]:
    """Every reason behind the reading and the draft, each rule once."""
    question = result.get("question", {})
    lists = [result.get("draft", {}).get("because", ())]
    lists += [limit.get("because", ()) for limit in question.get("limits", ())]
    lists += [asked.get("because", ()) for asked in question.get("exercises", ())]
    rules = [finding.get("rule") for finding in result.get("verdict", {}).get("findings", ())]
    lists.append([rule for rule in rules if isinstance(rule, Mapping)])
    return tuple({(r.get("rule"), r.get("at")): r for because in lists for r in because}.values())


def _refused(refused: Mapping[str, Any], names: Names) -> tuple[str, str]:
    return names.exercise(refused["exercise"]), _says(refused.get("because", ()))


def _says(because: Any) -> str:
    return "; ".join(dict.fromkeys(filter(None, (reason.get("says", "") for reason in because)))) or "no reason kept"


def _profile(opened: Opened, names: Names) -> tuple[tuple[str, str], ...]:
    profile = opened.profile
    lines = [("with you since", day(opened.since)), ("has", ", ".join(map(names.kit, profile.has))),
             ("remembered", ", ".join(map(names.limit, profile.limits))),
             ("can do", ", ".join(f"{names.exercise(exercise)} {best}" for exercise, best in profile.can)),
             ("new from this", _learned(opened.remembered, names))]  # fmt: skip
    return tuple((what, words) for what, words in lines if words)


def _learned(remembered: Mapping[str, Any], names: Names) -> str:
    """What the message changed in what is remembered, in words."""
    told = []
    for key, called in (("has", names.kit), ("limits", names.limit)):
        change = remembered.get(key, {})
        told += [called(one) for one in change.get("added", ())]
        told += [f"no longer {called(one)}" for one in change.get("removed", ())]
    told += [f"{names.exercise(exercise)} {best['after']}" for exercise, best in remembered.get("can", {}).items()]
    return ", ".join(told)

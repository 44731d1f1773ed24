"""A small invented rulebook and invented verbs: they answer what a test has told them and keep what they were asked."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from assistant.inbox import Inbox
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import KINDS
from assistant.store import Store
from assistant.values import (
    Answer,
    Asked,
    Denied,
    Dose,
    Draft,
    Finding,
    Kit,
    Limit,
    Message,
    Plan,
    PlanItem,
    Profile,
    Question,
    Swap,
    Verdict,
)

COACH, OTHER = "ferry-lane", "mill-street"
PLAN = Plan(
    "thursday",
    "Thursday: pull and hold",
    (
        PlanItem("A1", "chin-up", Dose(4, reps=(4, 4), rest_s=90)),
        PlanItem("A2", "decline-push-up", Dose(3, reps=(6, 8))),
        PlanItem("Z1", "side-plank"),
    ),
    "2026-03-05",
)


def book() -> Rulebook:
    """Four exercises, six limits, two wants."""
    plain = {"family": "f", "trains": ["pull"], "position": "any", "dose": "3x8", "feel": "x", "cues": "x",
             "loads": "x", "goes_wrong": "x", "ready": "x"}  # fmt: skip
    cards: dict[str, dict[str, Any]] = {kind: {} for kind in KINDS}
    for id, name in (("chin-up", "Chin-up"), ("decline-push-up", "Decline push-up"), ("side-plank", "Side plank"),
                     ("inverted-row", "Inverted row")):  # fmt: skip
        cards["exercise"][id] = KINDS["exercise"].model_validate({"exercise": id, "name": name, **plain})
    for id, kind, more in (
        ("wrist-sore", "pain", {"short": "wrist sore"}), ("no-overhead-bar", "equipment", {}),
        ("few-reps", "strength", {}), ("short-time", "time", {}), ("tired-today", "other", {"remembered": "no"}),
        ("heavier-body", "other", {}), ("hotel-room", "space", {"remembered": "yes"}),
    ):  # fmt: skip
        card = {"limit": id, "kind": kind, "says": "it is in the way", "when": [], "first": ["x"], **more}
        cards["limit"][id] = KINDS["limit"].model_validate(card)
    for id in ("overhead-bar", "rings-high", "dumbbell", "chair"):
        thing = {"equipment": id, "name": id, "called": [], "condition": "sound"}
        cards["equipment"][id] = KINDS["equipment"].model_validate(thing)
    cards["want"]["form"] = KINDS["want"].model_validate({"want": "form", "says": "how to do it", "when": []})
    return Rulebook(cards, "b00c", Path("."))


@dataclass
class Clock:
    """A clock that stands still until it is moved."""

    moment: datetime = datetime(2026, 3, 5, 7, 30, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.moment

    def move(self, seconds: float) -> None:
        self.moment += timedelta(seconds=seconds)


@dataclass
class Verbs:
    """Answers by what it was told for a text; with nothing told, one row for the chin-up, and nothing where held."""

    told: dict[str, dict[str, Any]] = field(default_factory=dict)
    asked: list[Message] = field(default_factory=list)
    blind: bool = False  # the screen fails

    def tell(self, text: str, **parts: Any) -> str:
        """Make up the answer to `text`; gives the text back."""
        self.told[text] = parts
        return text

    def __call__(self, message: Message, book: Rulebook, prefer: dict[str, str] | None = None) -> Answer:
        self.asked.append(message)
        parts = self.told.get(message.text, {})
        if parts.get("fails"):
            raise RuntimeError(f"cannot read {message.text}")
        findings = tuple(
            Finding(category, category, tier, "today", "the words", 0, 1, part=part, **more)
            for category, tier, part, more in parts.get("findings", ())
        )
        tier = parts.get("tier") or (findings[0].tier if findings else "clear")
        swaps = self._swaps(message, parts, prefer or {}) if tier in ("clear", "coach") else ()
        best = [swap.exercise for swap in swaps if swap.recommended]
        text = parts.get("draft", f"Hi {message.profile.name}, do {' and '.join(best) or 'nothing'}.")
        draft = Draft("in short", text, "routine", parts.get("ask_back"), parts.get("notice"))
        return Answer(message, _question(parts), Verdict(tier, "today", findings), swaps, (), draft, book.fingerprint)

    def tier(self, text: str, book: Rulebook) -> str:
        """What the screen alone would say of `text`."""
        if self.blind:
            raise RuntimeError(f"cannot screen {text}")
        parts = self.told.get(text, {})
        findings = parts.get("findings", ())
        return parts.get("tier") or (findings[0][1] if findings else "clear")

    def _swaps(self, message: Message, parts: dict[str, Any], prefer: dict[str, str]) -> tuple[Swap, ...]:
        if message.profile.held:
            return ()
        options = parts.get("swaps", ("inverted-row", "side-plank"))
        best = prefer.get("chin-up", options[0] if options else "")
        dose = Dose(3, reps=(5, 8))
        return tuple(Swap(option, "swap", "chin-up", "A1", option == best, dose=dose) for option in options)


def _question(parts: dict[str, Any]) -> Question:
    return Question(
        wants=parts.get("wants", ("swap",)),
        exercises=tuple(
            Asked(id, id, 0, 1, "name", item, parts.get("doubt", False)) for id, item in parts.get("exercises", ())
        ),
        limits=tuple(Limit(id, kind, None, "the words", 0, 1, about) for id, kind, about in parts.get("limits", ())),
        has=tuple(Kit(id, f"have {id}", 0, 1) for id in parts.get("has", ())),
        lacks=tuple(Kit(id, f"no {id}", 0, 1) for id in parts.get("lacks", ())),
        denied=tuple(Denied(id, f"{id} is fine", 0, 1) for id in parts.get("denied", ())),
        can=tuple(parts.get("can", ())),
        ask_back=parts.get("ask_back"),
    )


def as_json(answer: Answer) -> dict[str, Any]:
    """The parts of the line out that the inbox looks at."""
    question = answer.question
    return {
        "text": answer.message.text,
        "question": {
            "wants": question.wants,
            "exercises": [{"id": e.id, "item": e.item, **({"doubt": True} if e.doubt else {})}
                          for e in question.exercises],
            "limits": [{"id": limit.id, "kind": limit.kind} for limit in question.limits],
        },
        "verdict": {"tier": answer.verdict.tier, "urgency": answer.verdict.urgency},
        "swaps": [{"exercise": s.exercise, "for": s.asked, "item": s.item, "recommended": s.recommended}
                  for s in answer.swaps],
        "ask_back": answer.draft.ask_back,
        "draft": {"summary": answer.draft.summary, "text": answer.draft.text, "urgency": answer.draft.urgency},
        "notice": answer.draft.notice,
        "rulebook": answer.rulebook,
    }  # fmt: skip


def inbox_at(file: Path, verbs: Verbs, clock: Clock) -> Inbox:
    """An inbox on a file that has its tables, answered by `verbs`."""
    rules = book()
    return Inbox(Store(f"sqlite:///{file}"), lambda: rules, clock, verbs, as_json, verbs.tier)


def new_archive(file: Path) -> Path:
    """A file with the tables and nothing in them."""
    store = Store(f"sqlite:///{file}")
    store.upgrade()
    store.close()
    return file


def fill(inbox: Inbox) -> dict[str, Any]:
    """One coach with a plan and the invented follower Teuvo."""
    add_coach(inbox, COACH)
    inbox.add_plan(COACH, PLAN)
    return inbox.add_follower(COACH, "Teuvo", Profile(has=("rings-high",), can=(("chin-up", 2),)))


def add_coach(inbox: Inbox, coach: str) -> None:
    """A coach without a password: hashing one takes a tenth of a second and only the sign-in needs it."""
    with inbox._desk.store.writing() as archive:
        archive.people.add_coach(coach, coach.title(), "none", "2026-03-01T00:00:00.000000Z")

"""The lines of the contract: a line in → Message, an Answer → a line out. Plain data on both sides."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any
from unicodedata import category

from assistant.plan import plan_from_json, unknown_exercises
from assistant.rulebook import Rulebook
from assistant.values import Answer, BadInput, Dose, Message, Plan, Profile, Reason, Swap, Turn

MOST_CHARACTERS = 4000
_UNSEEN = ("Cc", "Cs", "Co")  # control characters, surrogates, private use
Plans = Callable[[str], Plan | None]


def message_from_line(line: Any, book: Rulebook, plans: Plans | None = None) -> Message:
    """The Message in a line of the contract; only `text` is needed, fields beyond the contract are ignored.

    `plans` finds a plan by its id. Raises BadInput with what is wrong and what to do.

    >>> from assistant.rulebook import load
    >>> message_from_line({"text": "no bar"}, load()).text
    'no bar'
    """
    if not isinstance(line, Mapping):
        raise BadInput('A line must be an object such as {"text": "no bar, what instead?"}.')
    plan = _plan(line.get("plan"), book, plans)
    item = _text(line.get("item"), "item") or None
    if item and plan and plan.slot(item) is None:
        known = ", ".join(slot.item for slot in plan.items)
        raise BadInput(f"The plan has no slot '{item}'. Its slots are: {known}.")
    turns = tuple(_turn(turn) for turn in _list(line.get("thread"), "thread"))
    text = clean_text(line.get("text"))
    return Message(text, plan, item, _profile(line.get("profile"), book), turns, _text(line.get("at"), "at"))


def clean_text(value: Any) -> str:
    """A message's text made safe to keep: no control characters but line break and tab, no lone surrogates.

    Raises BadInput where there is no text, or more than 4000 characters."""
    if not isinstance(value, str):
        raise BadInput("The message has no 'text': write what is in the way, in words.")
    sound = value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    kept = "".join(c for c in sound.replace("\r\n", "\n") if c in "\n\t" or category(c) not in _UNSEEN)
    if not kept.strip():
        raise BadInput("The message is empty: write what is in the way, in words.")
    if len(kept) > MOST_CHARACTERS:
        raise BadInput(
            f"The message has {len(kept)} characters; at most {MOST_CHARACTERS} can be read. Send it in two parts."
        )
    return kept


def as_json(answer: Answer) -> dict[str, Any]:
    """An answer as the line out of the contract."""
    q, v = answer.question, answer.verdict
    return {
        "text": answer.message.text,
        "question": {
            "wants": list(q.wants),
            "exercises": [
                {"id": e.id, "words": e.words, "start": e.start, "end": e.end, "how": e.how, "item": e.item}
                | ({"doubt": True, "options": list(e.options)} if e.doubt else {})
                for e in q.exercises
            ],
            "limits": [
                {"id": x.id, "kind": x.kind, "what": x.what, "words": x.words, "start": x.start, "end": x.end,
                 "about": x.about, "because": _reasons(x.because)}
                for x in q.limits
            ],
            "has": [k.id for k in q.has],
            "lacks": [k.id for k in q.lacks],
            "kit": [vars(k) | {"there": there} for kits, there in ((q.has, True), (q.lacks, False)) for k in kits],
            "denied": [dict(vars(d)) for d in q.denied],
            "not_understood": list(q.not_understood),
            "can": dict(q.can),
            "choices": list(q.choices),
            "because": _reasons(q.because),
        },
        "verdict": {
            "tier": v.tier,
            "urgency": v.urgency,
            "findings": [vars(f) | {"rule": dict(vars(f.rule))} for f in v.findings],
        },
        "swaps": [_swap(s) for s in answer.swaps],
        "refused": [{"exercise": r.exercise, "for": r.asked, "because": _reasons(r.because)} for r in answer.refused],
        "ask_back": answer.draft.ask_back,
        "draft": {"summary": answer.draft.summary, "text": answer.draft.text, "urgency": answer.draft.urgency},
        "notice": answer.draft.notice,
        "rulebook": answer.rulebook,
    }  # fmt: skip


def _reasons(reasons: tuple[Reason, ...]) -> list[dict[str, str]]:
    return [dict(vars(reason)) for reason in reasons]


def _swap(swap: Swap) -> dict[str, Any]:
    return {
        "exercise": swap.exercise, "kind": swap.kind, "recommended": swap.recommended, "for": swap.asked,
        "item": swap.item, "way": list(swap.way), "dose": dose_json(swap.dose) if swap.dose else None,
        "demand": {"before": dict(swap.before), "after": dict(swap.after)}, "costs": list(swap.costs), "aid": swap.aid,
        "condition": swap.condition, "if_you_have": swap.if_you_have, "because": _reasons(swap.because),
    }  # fmt: skip


def dose_json(dose: Dose) -> dict[str, Any]:
    """A dose as plain data; absent amounts are left out."""
    row = {
        k: list(v) if isinstance(v, tuple) else v
        for k, v in vars(dose).items()
        if k != "because" and v not in (None, False)
    }
    return row | {"because": _reasons(dose.because)}


def _plan(value: Any, book: Rulebook, plans: Plans | None) -> Plan | None:
    if value is None:
        return None
    if isinstance(value, str):
        plan = plans(value) if plans else None
        if plan is None:
            raise BadInput(
                f"There is no plan '{value}'. Give the id of a known plan, or the plan itself with its items."
            )
        return plan
    plan = plan_from_json(value, book.tempos)
    unknown = unknown_exercises(plan, book.exercises)
    if unknown:
        raise BadInput(f"The plan names '{unknown[0]}', which is no exercise of the rulebook. Give the id of a card.")
    return plan


def _profile(value: Any, book: Rulebook) -> Profile:
    if value is None:
        return Profile()
    if not isinstance(value, Mapping):
        raise BadInput("'profile' must be an object with 'has', 'limits', 'can'.")
    can = value.get("can") or {}
    if not isinstance(can, Mapping) or not all(isinstance(n, int) and n >= 0 for n in can.values()):
        raise BadInput("'profile.can' must give a whole number for each exercise, such as {\"push-up\": 12}.")
    has, limits = (tuple(map(str, _list(value.get(k), f"profile.{k}"))) for k in ("has", "limits"))
    for name, known, what in (
        (has, book.equipment, "kit"),
        (limits, book.limits, "limit"),
        (tuple(can), book.exercises, "exercise"),
    ):
        unknown = [x for x in name if x not in known and not (what == "limit" and x.startswith("no-"))]
        if unknown:
            raise BadInput(
                f"The profile names the {what} '{unknown[0]}', which is not in the rulebook. Give the id of a card."
            )
    held = tuple(map(str, _list(value.get("held"), "profile.held")))
    return Profile(
        _text(value.get("name"), "profile.name"), has, limits, tuple((str(k), int(v)) for k, v in can.items()), held
    )


def _turn(value: Any) -> Turn:
    if not isinstance(value, Mapping) or value.get("from") not in ("follower", "coach"):
        raise BadInput("Each turn of 'thread' needs 'from' (follower or coach) and 'text'.")
    asked_back = value["from"] == "coach" and str(value.get("text", "")).rstrip().endswith("?")
    return Turn(
        value["from"], clean_text(value.get("text")), _text(value.get("item"), "item") or None, asked_back=asked_back
    )


def _list(value: Any, name: str) -> list[Any]:
    if value is None:
        return []
    if not isinstance(value, (list, tuple)):
        raise BadInput(f"'{name}' must be a list.")
    return list(value)


def _text(value: Any, name: str) -> str:
    if value is None:
        return ""
    if not isinstance(value, str):
        raise BadInput(f"'{name}' must be text.")
    return value

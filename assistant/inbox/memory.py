"""What a message says about its follower that still holds tomorrow.

Kit said to be there or gone, limits that last, limits denied, and what the follower can do. Limits of the day do not
last: time, place, noise and missing kit. Strength and hold limits said of an exercise do not either: "not one chin-up
yet" is no reason to answer the next question about squats with something easier; the numbers of `can` carry it. A limit
card may settle it with `remembered: yes` or `no`.
"""

from __future__ import annotations

from typing import Any

from assistant.rulebook import Rulebook
from assistant.values import Limit, Profile, Question

OF_THE_DAY = frozenset({"equipment", "space", "noise", "time"})
OF_AN_EXERCISE = frozenset({"strength", "hold"})


def kept(profile: Profile) -> dict[str, Any]:
    """A profile as the archive keeps it; what is held is kept apart."""
    return {"has": list(profile.has), "limits": list(profile.limits), "can": dict(profile.can)}


def learn(before: dict[str, Any], question: Question, book: Rulebook) -> tuple[dict[str, Any], dict[str, Any]]:
    """The profile after `question`, and the change with the follower's words for it; {} where nothing changed."""
    lasting = [limit for limit in question.limits if lasts(limit, question, book)]
    stated, gone = [limit.id for limit in lasting], [denied.id for denied in question.denied]
    lacked = [kit.id for kit in question.lacks]
    after = {
        # what is said both to be there and to be missing is taken to be missing: nothing is then hung on it
        "has": _changed(before.get("has", []), [kit.id for kit in question.has if kit.id not in lacked], lacked),
        "limits": _changed(before.get("limits", []), stated, [id for id in gone if id not in stated]),
        "can": {**before.get("can", {}), **dict(question.can)},
    }
    spans = [*question.has, *question.lacks, *lasting, *question.denied]
    return after, _difference(before, after, {span.id: span.words for span in spans})


def lasts(limit: Limit, question: Question, book: Rulebook) -> bool:
    """Whether `limit` still holds for the messages of tomorrow."""
    card = book.limits.get(limit.id)
    if card is not None and card.remembered:
        return card.remembered == "yes"
    if limit.kind in OF_AN_EXERCISE:
        return limit.about is None and not question.exercises
    return limit.kind not in OF_THE_DAY


def _changed(before: list[str], added: list[str], removed: list[str]) -> list[str]:
    return list(dict.fromkeys(id for id in [*before, *added] if id not in removed))


def _difference(before: dict[str, Any], after: dict[str, Any], said: dict[str, str]) -> dict[str, Any]:
    change: dict[str, Any] = {}
    for name in ("has", "limits"):
        old, new = before.get(name, []), after[name]
        added, removed = [id for id in new if id not in old], [id for id in old if id not in new]
        if added or removed:
            words = {id: said[id] for id in [*added, *removed] if id in said}
            change[name] = {"added": added, "removed": removed, "words": words}
    old_can = before.get("can", {})
    numbers = {id: {"before": old_can.get(id), "after": n} for id, n in after["can"].items() if old_can.get(id) != n}
    return {**change, "can": numbers} if numbers else change

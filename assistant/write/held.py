"""After a safety finding: what the coach may send, which never names an exercise, and what the follower was told."""

from __future__ import annotations

from assistant.values import TIERS, Finding, Verdict
from assistant.write.desk import Desk

_WHOLE = "all"


def held(desk: Desk, verdict: Verdict) -> tuple[str, str]:
    """Summary and text where someone has to be seen first: no exercise and no advice on training in them."""
    names = _names(desk, verdict)
    if verdict.tier == "emergency":
        category = _first(verdict).category if verdict.findings else ""
        named = f"held-{category.replace('_', '-')}"
        card = named if named in desk.book.replies else "held-emergency"
        return desk.say("summary-emergency", names=names), desk.letter([desk.say(card)])
    parked = _parked(desk)
    whole = any(f.part == _WHOLE for f in verdict.findings if f.tier == "clinician")
    line = desk.say("held-clinician-whole" if whole else "held-clinician-part", parked=parked)
    return desk.say("summary-clinician", names=names, parked=parked), desk.letter([line])


def _parked(desk: Desk) -> str:
    """The slots of the parked question, `?` where it has none: the exercise itself is not named beside a finding."""
    slots = [item for item in dict.fromkeys(map(desk.item, desk.asked())) if item]
    return desk.all_of(slots) if slots else "?" if desk.asked() else ""


def notice(desk: Desk, verdict: Verdict) -> str | None:
    """What the follower is told at once: the notice of the category of the highest finding, or None.

    Among findings of one tier the more urgent one counts, then the first."""
    if verdict.tier == "clear" or not verdict.findings:
        return None
    category = desk.book.categories.get(_first(verdict).category)
    reply = category.notice.get(verdict.tier) if category else None
    if reply is None:
        return None
    return desk.say(reply, see=category.see, worse=category.worse, urgency=verdict.urgency)


def coach_tier(desk: Desk, verdict: Verdict, summary: str) -> str:
    """The summary of a gentle draft: what to look at in person, then the draft's own summary."""
    return desk.say("summary-coach", names=_names(desk, verdict), summary=summary)


def _first(verdict: Verdict) -> Finding:
    urgencies = ("now", "today", "before-training", "routine")
    return min(verdict.findings, key=lambda f: (-TIERS.index(f.tier), urgencies.index(f.urgency)))


def _names(desk: Desk, verdict: Verdict) -> str:
    """The categories of the findings of the highest tier, in their plain names."""
    ids = dict.fromkeys(f.category for f in verdict.findings if f.tier == verdict.tier)
    names = [desk.book.categories[id_].name if id_ in desk.book.categories else id_ for id_ in ids]
    return ", ".join(name[:1].lower() + name[1:] for name in names)

"""The coach's word on a draft, and on what is held back."""

from __future__ import annotations

from typing import Any

from assistant.inbox.context import message_of
from assistant.inbox.desk import NAME_MAX, Desk, clean, words
from assistant.inbox.receive import SERIOUS, draft_waiting_anew, keep_draft
from assistant.store import Archive
from assistant.values import DECISION_REASONS, DECISIONS, BadInput, NotAllowed, NotFound

NO_SWAPS = ("asked-back", "turned-down")


def redraft(desk: Desk, coach: str, message: str, choose: dict[str, str]) -> dict[str, Any]:
    """See `Inbox.redraft`."""
    with desk.store.reading() as archive:
        return _chosen(desk, archive, coach, _row(archive, coach, message), choose)


def decide(desk: Desk, coach: str, message: str, outcome: str, text: str, reason: str | None, comment: str, by: str,
           choose: dict[str, str] | None, version: int | None) -> None:  # fmt: skip
    """See `Inbox.decide`."""
    _check(outcome, reason)
    with desk.store.writing() as archive:
        row = _row(archive, coach, message, lock=True)
        if row["status"] != "waiting":
            raise NotAllowed("this message was decided already: open it again to see how")
        if version is not None and version != row["version"]:
            raise NotAllowed("the draft has changed since it was shown: open the message again and look once more")
        line = row["result"]
        if choose:
            line = _chosen(desk, archive, coach, row, choose)
            if line != row["result"]:
                keep_draft(desk, archive, coach, row, line)
        decision = {"outcome": outcome, "text": text, "reason": reason or None, "comment": comment, "by": by}
        _decide(desk, archive, coach, row, line, decision)


def approve_alike(desk: Desk, coach: str, messages: list[str], by: str) -> int:
    """See `Inbox.approve_alike`."""
    with desk.store.writing() as archive:
        rows = [_row(archive, coach, message, lock=True) for message in dict.fromkeys(messages)]
        waiting = [row for row in rows if row["status"] == "waiting"]
        for row in waiting:
            if row["tier"] in SERIOUS or not row["draft"].strip():
                raise BadInput(f"the message of {row['name']} cannot be approved with others: open it by itself")
        for row in waiting:
            decision = {"outcome": "approved", "text": row["draft"], "reason": None, "comment": "", "by": by}
            _decide(desk, archive, coach, row, row["result"], decision)
        return len(waiting)


def clear_hold(desk: Desk, coach: str, hold: str, note: str, by: str) -> None:
    """See `Inbox.clear_hold`."""
    note = words(note, "the note")
    with desk.store.writing() as archive:
        found = archive.holds.one(coach, hold)
        if found is None:
            raise NotFound("no such hold")
        archive.people.follower(coach, found["follower"], lock=True)
        if archive.holds.one(coach, hold)["cleared"]:
            raise NotAllowed("this hold was cleared already")
        archive.holds.clear(coach, hold, note, clean(by), desk.time())
        archive.people.touch(coach, found["follower"])
        draft_waiting_anew(desk, archive, coach, found["follower"])


def _row(archive: Archive, coach: str, message: str, lock: bool = False) -> dict[str, Any]:
    row = archive.messages.one(coach, message, lock)
    if row is None:
        raise NotFound("no such message")
    return row


def _check(outcome: str, reason: str | None) -> None:
    if outcome not in DECISIONS:
        raise BadInput(f"a decision is one of {', '.join(DECISIONS)}")
    if reason and reason not in DECISION_REASONS:
        raise BadInput(f"a reason is one of {', '.join(DECISION_REASONS)}")
    if outcome == "turned-down" and not reason:
        raise BadInput(f"turning down needs a reason, one of {', '.join(DECISION_REASONS)}")


def _chosen(desk: Desk, archive: Archive, coach: str, row: dict[str, Any], choose: dict[str, str]) -> dict[str, Any]:
    """The line out of `row` with those options recommended; only what was offered can be chosen."""
    for asked, exercise in choose.items():
        offered = [swap["exercise"] for swap in row["result"]["swaps"] if swap["for"] == asked]
        if exercise not in offered:
            instead = f"offered are: {', '.join(offered)}" if offered else "nothing is offered for it"
            raise BadInput(f"'{exercise}' is no option for '{asked}'; {instead}")
    plan = archive.plans.one(coach, row["plan"]) if row["plan"] else None
    who = archive.people.follower(coach, row["follower"])
    answer, line = desk.answered(message_of(archive, coach, who, row, plan), prefer=choose)
    if answer is None:
        raise NotAllowed("another option could not be drafted: change the text yourself")
    return line


def _decide(desk: Desk, archive: Archive, coach: str, row: dict[str, Any], line: dict[str, Any],
            decision: dict[str, Any]) -> None:  # fmt: skip
    outcome, text, comment = decision["outcome"], clean(decision["text"]).strip(), clean(decision["comment"]).strip()
    if outcome != "turned-down" or text:
        words(text, "the reply")
    if row["tier"] in SERIOUS:
        words(comment, "the comment (an emergency or what a clinician should see is closed only with one)")
    if outcome == "approved" and text != line["draft"]["text"].strip():
        outcome = "edited"  # the record says what was done, not which button was pressed
    now, by = desk.time(), clean(decision["by"])[:NAME_MAX]
    kept = {"message": row["id"], "outcome": outcome, "text": text, "reason": decision["reason"], "comment": comment}
    reply = None
    if text:
        swaps = [] if outcome in NO_SWAPS else [swap for swap in line["swaps"] if swap.get("recommended")]
        asked_back = outcome == "asked-back" or (outcome == "approved" and bool(line["ask_back"]))
        reply = {"text": text, "swaps": swaps, "outcome": outcome, "asked_back": asked_back, "at": now}
    archive.messages.decide(coach, {**kept, "by": by, "at": now}, "answered" if reply else "closed", reply)
    archive.holds.close_task(coach, row["id"], comment, by, now)

"""The follower's side: what became of a message, and the page behind a link."""

from __future__ import annotations

from typing import Any

from assistant.inbox.context import turns_of
from assistant.inbox.desk import Desk
from assistant.inbox.intake import read_waiting
from assistant.inbox.views import Conversation
from assistant.values import NotFound, Plan


def status(desk: Desk, coach: str, message: str, follower: str | None) -> dict[str, Any]:
    """See `Inbox.status`."""
    with desk.store.reading() as archive:
        row = archive.messages.one(coach, message)
        who = archive.people.follower(coach, follower) if follower is not None else None
    theirs = row is not None and (follower is None or (who is not None and who["id"] == row["follower"]))
    if not theirs:
        raise NotFound("no such message")
    reply = row["reply"]["text"] if row["reply"] else None
    return {"id": row["id"], "status": row["status"], "notice": row["notice"], "reply": reply}


def conversation(desk: Desk, token: str) -> Conversation:
    """See `Inbox.conversation`."""
    with desk.store.reading() as archive:
        who = archive.people.follower_by_token(token)
        thread = None if who else archive.messages.thread_by_token(token)
        if who is None and thread is None:
            raise NotFound("there is no conversation behind this link: ask your coach for a new one")
        coach = who["coach"] if who else thread["coach"]
    read_waiting(desk, coach)
    with desk.store.reading() as archive:
        if thread:
            who = archive.people.follower(coach, thread["follower"])
            rows = archive.messages.of_thread(coach, thread["id"])
        else:
            rows = archive.messages.of_follower(coach, who["id"])
        plan = archive.plans.of_day(coach, desk.time()[:10])
        if thread and rows and rows[-1]["plan"]:
            plan = archive.plans.one(coach, rows[-1]["plan"])
    go_on = thread["id"] if thread else _open_thread(rows, plan)
    return Conversation(who["name"], who["token"], go_on, plan, tuple(turns_of(rows)), coach)


def _open_thread(rows: list[dict[str, Any]], plan: Plan | None) -> str | None:
    """The newest thread, if it is about the day's plan or if either side waits for the other in it."""
    if not rows:
        return None
    last = rows[-1]
    asked_back = last["reply"] is not None and last["reply"]["asked_back"]
    of_today = plan is not None and last["plan"] == plan.id
    return last["thread"] if of_today or asked_back or last["status"] == "waiting" else None

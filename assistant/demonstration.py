"""`assistant demo`: a fresh store filled with the invented week of demo_data/, served on this machine.

The week is moved so that its last message came in a few minutes ago; histories and messages go in through the inbox
like real ones, each at its own time.
"""

from __future__ import annotations

import secrets
import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from assistant.check import unanswered
from assistant.demo_files import demo_followers, demo_messages, demo_plans
from assistant.inbox import Inbox
from assistant.rulebook import load
from assistant.rulebook.watch import LiveBook
from assistant.store import Store
from assistant.values import Profile

COACH, COACH_NAME = "ferry-lane", "Runa"
_SHOWN = "immi"  # the follower whose page is opened: she has a history and messages of every kind
_LAST_CAME_AGO = timedelta(minutes=4)
_ANSWERED_AFTER = timedelta(hours=2)


class Clock:
    """A clock that can be set to a moment of the week, and runs with the machine's afterwards."""

    def __init__(self) -> None:
        self.moment: datetime | None = None

    def __call__(self) -> datetime:
        return self.moment or datetime.now(UTC)


def run(port: int, keep: Path | None, rules: Path | None, say: Callable[[str], None]) -> None:
    """Fill, print the addresses, serve until stopped."""
    import uvicorn

    from assistant.web import create_app
    from assistant.web.settings import Settings

    folder = keep or Path(tempfile.mkdtemp(prefix="assistant-demo-"))
    folder.mkdir(parents=True, exist_ok=True)
    live, clock = LiveBook(rules, proof=unanswered), Clock()
    store = Store(f"sqlite:///{folder / 'demo.db'}")
    store.upgrade()
    inbox = Inbox(store, live, clock)
    port = port or _free_port()
    if not inbox.coaches():
        password = secrets.token_urlsafe(9)
        (folder / "sign-in.txt").write_text(f"{password}\n{fill(inbox, clock, password)[_SHOWN]}\n")
    password, token = (folder / "sign-in.txt").read_text().split()
    app = create_app(Settings(port=port), inbox=inbox, book=live, book_mistakes=live.mistakes)
    say(f"Coach:    http://127.0.0.1:{port}/inbox   (sign in as {COACH}, password {password})")
    say(f"Follower: http://127.0.0.1:{port}/ask/{token}")
    say("Everyone in it is invented. Stop with Ctrl+C.")
    uvicorn.run(app, host="127.0.0.1", port=port, log_level="warning", access_log=False, timeout_graceful_shutdown=2)


def inbox_at(store_url: str, rules: Path | None) -> Inbox:
    """The inbox of a store, its tables brought up to date."""
    store = Store(store_url)
    store.upgrade()
    book = load(rules)
    return Inbox(store, lambda: book)


def fill(inbox: Inbox, clock: Clock, password: str) -> dict[str, str]:
    """Put the invented week into `inbox`; returns each follower's link token by the name in the demo data."""
    messages = demo_messages()
    shift = datetime.now(UTC) - _LAST_CAME_AGO - _time(messages[-1]["at"])
    days = (datetime.now(UTC).date() - _time(messages[-1]["at"]).date()).days
    clock.moment = _time(messages[0]["at"]) + shift
    inbox.add_coach(COACH, COACH_NAME, password)
    for plan in demo_plans().values():
        day = datetime.fromisoformat(plan.day).date() + timedelta(days=days) if plan.day else None
        inbox.add_plan(COACH, replace(plan, day=day.isoformat() if day else ""))
    people = {row["id"]: _follower(inbox, row) for row in demo_followers()}
    for row in demo_followers():
        for thread in row.get("threads", ()):
            _thread(inbox, clock, people[row["id"]], thread, shift)
    for row in messages:
        at = _time(row["at"]) + shift
        thread = _turns(inbox, clock, people[row["follower"]], row, row["thread"], at) if row["thread"] else None
        clock.moment = at
        inbox.receive(COACH, people[row["follower"]], row["text"], row["plan"], row["item"], thread)
    clock.moment = None
    return people


def _follower(inbox: Inbox, row: dict[str, Any]) -> str:
    can = tuple(sorted(row.get("can", {}).items()))
    profile = Profile(row["name"], tuple(row.get("has", ())), tuple(row.get("limits", ())), can)
    return inbox.add_follower(COACH, row["name"], profile, row.get("since", ""))["token"]


def _thread(inbox: Inbox, clock: Clock, token: str, thread: dict[str, Any], shift: timedelta) -> None:
    key, message = None, None
    for turn in thread["turns"]:
        clock.moment = _time(turn["at"]) + shift
        key, message = _turn(inbox, token, turn, thread.get("plan"), thread.get("item"), key, message)
    if message:
        _close(inbox, message)


def _turns(
    inbox: Inbox, clock: Clock, token: str, row: dict[str, Any], turns: list[dict[str, Any]], at: datetime
) -> str:
    """The turns before a message, spread over the hours before it; returns the thread."""
    key, message = None, None
    for n, turn in enumerate(turns):
        clock.moment = at - _ANSWERED_AFTER * (len(turns) - n)
        key, message = _turn(inbox, token, turn, row["plan"], turn.get("item"), key, message)
    if message:
        _close(inbox, message)
    return key


def _turn(inbox: Inbox, token: str, turn: dict[str, Any], plan, item, thread: str | None, waiting: str | None):
    """One turn: a follower's is received, a coach's is the decision on the one before."""
    if turn["from"] == "follower":
        if waiting:
            _close(inbox, waiting)
        receipt = inbox.receive(COACH, token, turn["text"], plan, item, thread)
        return receipt.thread, receipt.id
    if waiting:
        outcome = "asked-back" if turn["text"].rstrip().endswith("?") else "edited"
        inbox.decide(COACH, waiting, outcome, turn["text"], "wording", "from the history", COACH_NAME)
    return thread, None


def _close(inbox: Inbox, message: str) -> None:
    """A turn of the history that needed no answer."""
    inbox.decide(COACH, message, "turned-down", "", "other", "from the history, needed no answer", COACH_NAME)


def _time(text: str) -> datetime:
    return datetime.fromisoformat(text.replace("Z", "+00:00"))


def _free_port() -> int:
    import socket

    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]

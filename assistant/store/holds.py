"""What is held back until the coach clears it, and what the coach has to do in person after an emergency."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from assistant.store.tables import Hold, Task


class Holds:
    """Holds and tasks, within one transaction."""

    def __init__(self, session: Session):
        self._session = session

    def in_force(self, coach: str, follower: str) -> list[dict[str, Any]]:
        """Every hold of the follower that nobody has cleared, oldest first."""
        query = select(Hold).where(Hold.coach == coach, Hold.follower == follower, Hold.cleared.is_(None))
        return [_hold(row) for row in self._session.scalars(query.order_by(Hold.since, Hold.part, Hold.category))]

    def one(self, coach: str, hold: str) -> dict[str, Any] | None:
        """A hold of this coach, in force or cleared."""
        found = self._session.get(Hold, (coach, hold))
        return _hold(found) if found else None

    def add(self, coach: str, hold: dict[str, Any]) -> bool:
        """Hold a part ("id", "follower", "message", "part", "category", "words", "since"); False if it is held already
        for the same category."""
        query = select(Hold.id).where(
            Hold.coach == coach,
            Hold.follower == hold["follower"],
            Hold.part == hold["part"],
            Hold.category == hold["category"],
            Hold.cleared.is_(None),
        )
        if self._session.scalar(query) is not None:
            return False
        self._session.add(Hold(coach=coach, **hold))
        self._session.flush()
        return True

    def clear(self, coach: str, hold: str, note: str, by: str, at: str) -> None:
        """The coach cleared it, with a note."""
        row = self._session.get_one(Hold, (coach, hold))
        row.cleared, row.note, row.by = at, note, by

    def add_task(self, coach: str, message: str, since: str) -> None:
        """Open the task that an emergency brings."""
        self._session.add(Task(coach=coach, message=message, since=since))

    def close_task(self, coach: str, message: str, note: str, by: str, at: str) -> None:
        """Close the task of a message, if it has one; the note says what was done."""
        row = self._session.get(Task, (coach, message))
        if row and row.closed is None:
            if not note.strip():
                raise ValueError("a task is closed with a note")
            row.closed, row.note, row.by = at, note, by

    def task(self, coach: str, message: str) -> dict[str, Any] | None:
        """The task of a message, or None."""
        row = self._session.get(Task, (coach, message))
        return _task(row) if row else None

    def tasks(self, coach: str) -> list[dict[str, Any]]:
        """Every open task of the coach, oldest first."""
        query = select(Task).where(Task.coach == coach, Task.closed.is_(None)).order_by(Task.since, Task.message)
        return [_task(row) for row in self._session.scalars(query)]


def _hold(row: Hold) -> dict[str, Any]:
    names = ("id", "follower", "message", "part", "category", "words", "since", "cleared", "note", "by")
    return {name: getattr(row, name) for name in names}


def _task(row: Task) -> dict[str, Any]:
    return {name: getattr(row, name) for name in ("message", "since", "closed", "note", "by")}

"""The tables of the archive. Every one is keyed by coach first, so that it can be distributed by that key.

Times are ISO 8601 text in UTC with microseconds and a final Z (`2026-03-02T07:30:00.000000Z`): they sort as text, read
the same in both databases and leave the archive as they are. Ids and tokens are random and say nothing.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import (
    JSON,
    Boolean,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    String,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

Json = JSON().with_variant(JSONB(), "postgresql")
Key = String(64)  # ids, tokens, hashes
Time = String(27)


class Table(DeclarativeBase):
    """What all tables share: names for constraints, so that a migration can speak of them."""

    metadata = MetaData(
        naming_convention={
            "pk": "pk_%(table_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(referred_table_name)s",
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        }
    )
    coach: Mapped[str] = mapped_column(Key, primary_key=True, sort_order=-1)  # first in every key


def _belongs_to(table: str, column: str, **more: Any) -> ForeignKeyConstraint:
    """A row of `table` of the same coach, named in `column`."""
    return ForeignKeyConstraint(["coach", column], [f"{table}.coach", f"{table}.id"], **more)


class Coach(Table):
    """A coach and how the sign-in is checked; `password` is an argon2 hash."""

    __tablename__ = "coach"
    name: Mapped[str] = mapped_column(Text)
    password: Mapped[str] = mapped_column(Text)
    since: Mapped[str] = mapped_column(Time)


class SignIn(Table):
    """A signed-in browser of the coach; only the hash of its random id is kept, so the archive opens no door."""

    __tablename__ = "sign_in"
    __table_args__ = (ForeignKeyConstraint(["coach"], ["coach.coach"]), Index(None, "hash"))
    hash: Mapped[str] = mapped_column(Key, primary_key=True)
    since: Mapped[str] = mapped_column(Time)
    until: Mapped[str] = mapped_column(Time)


class ApiKey(Table):
    """A key with which a coach's own site sends messages; only its hash is kept."""

    __tablename__ = "api_key"
    __table_args__ = (ForeignKeyConstraint(["coach"], ["coach.coach"]), Index(None, "hash"))
    id: Mapped[str] = mapped_column(Key, primary_key=True)
    hash: Mapped[str] = mapped_column(Key)
    label: Mapped[str] = mapped_column(Text)
    since: Mapped[str] = mapped_column(Time)


class Follower(Table):
    """A follower and what is remembered; `version` grows with every change of the memory or of the holds."""

    __tablename__ = "follower"
    __table_args__ = (ForeignKeyConstraint(["coach"], ["coach.coach"]), Index(None, "token"))
    id: Mapped[str] = mapped_column(Key, primary_key=True)
    token: Mapped[str] = mapped_column(Key)
    name: Mapped[str] = mapped_column(Text)
    profile: Mapped[dict[str, Any]] = mapped_column(Json)  # {"has": [], "limits": [], "can": {}}
    since: Mapped[str] = mapped_column(Time)
    version: Mapped[int] = mapped_column(Integer)


class DayPlan(Table):
    """A day's session; `day` is an ISO date or empty."""

    __tablename__ = "plan"
    __table_args__ = (ForeignKeyConstraint(["coach"], ["coach.coach"]),)
    id: Mapped[str] = mapped_column(String(200), primary_key=True)
    title: Mapped[str] = mapped_column(Text)
    day: Mapped[str] = mapped_column(String(10))
    items: Mapped[list[dict[str, Any]]] = mapped_column(Json)
    since: Mapped[str] = mapped_column(Time)


class Thread(Table):
    """One conversation with one follower; its id is its link token."""

    __tablename__ = "thread"
    __table_args__ = (_belongs_to("follower", "follower"), Index(None, "id"), Index(None, "coach", "follower"))
    id: Mapped[str] = mapped_column(Key, primary_key=True)
    follower: Mapped[str] = mapped_column(Key)
    since: Mapped[str] = mapped_column(Time)


class Message(Table):
    """What a follower wrote. `place` counts within the thread; `notice` is what was told at once and never changes."""

    __tablename__ = "message"
    __table_args__ = (
        _belongs_to("follower", "follower"),
        _belongs_to("thread", "thread"),
        _belongs_to("plan", "plan"),
        UniqueConstraint("coach", "follower", "key"),
        UniqueConstraint("coach", "thread", "place"),
        Index(
            "ix_message_waiting",
            "coach",
            "plan",
            "received",
            "id",
            sqlite_where=text("status = 'waiting'"),
            postgresql_where=text("status = 'waiting'"),
        ),
        Index(None, "coach", "follower", "received"),
        Index(
            "ix_message_unread",
            "coach",
            "received",
            sqlite_where=text("version = 0"),
            postgresql_where=text("version = 0"),
        ),
    )
    id: Mapped[str] = mapped_column(Key, primary_key=True)
    follower: Mapped[str] = mapped_column(Key)
    thread: Mapped[str] = mapped_column(Key)
    place: Mapped[int] = mapped_column(Integer)
    plan: Mapped[str | None] = mapped_column(String(200))
    item: Mapped[str | None] = mapped_column(String(16))
    text: Mapped[str] = mapped_column(Text)
    received: Mapped[str] = mapped_column(Time)
    key: Mapped[str | None] = mapped_column(String(200))
    status: Mapped[str] = mapped_column(String(16))  # waiting, answered, closed
    tier: Mapped[str] = mapped_column(String(16))  # the highest of all its drafts: never falls by drafting anew
    notice: Mapped[str | None] = mapped_column(Text)
    remembered: Mapped[dict[str, Any]] = mapped_column(Json)  # what it changed in the memory, and the words for it
    version: Mapped[int] = mapped_column(Integer)  # of the draft in force; 0 = taken in, not read yet


class Draft(Table):
    """What was put before the coach; a new version when the memory or a hold changed it, the old ones are kept."""

    __tablename__ = "draft"
    __table_args__ = (_belongs_to("message", "message"),)
    message: Mapped[str] = mapped_column(Key, primary_key=True)
    version: Mapped[int] = mapped_column(Integer, primary_key=True)
    result: Mapped[dict[str, Any]] = mapped_column(Json)  # the line out of the contract
    rulebook: Mapped[str] = mapped_column(String(64))
    summary: Mapped[str] = mapped_column(Text)
    text: Mapped[str] = mapped_column(Text)
    tier: Mapped[str] = mapped_column(String(16))
    urgency: Mapped[str] = mapped_column(String(16))
    notice: Mapped[str | None] = mapped_column(Text)
    made: Mapped[str] = mapped_column(Time)


class Decision(Table):
    """What the coach did with the draft of that version. Waiting is the absence of a decision."""

    __tablename__ = "decision"
    __table_args__ = (_belongs_to("message", "message"),)
    message: Mapped[str] = mapped_column(Key, primary_key=True)
    version: Mapped[int] = mapped_column(Integer)
    outcome: Mapped[str] = mapped_column(String(16))
    text: Mapped[str] = mapped_column(Text)
    reason: Mapped[str | None] = mapped_column(String(32))
    comment: Mapped[str] = mapped_column(Text)
    by: Mapped[str] = mapped_column(Text)
    at: Mapped[str] = mapped_column(Time)


class Reply(Table):
    """What reached the follower's page: the text and the swaps chosen."""

    __tablename__ = "reply"
    __table_args__ = (_belongs_to("message", "message"),)
    message: Mapped[str] = mapped_column(Key, primary_key=True)
    text: Mapped[str] = mapped_column(Text)
    swaps: Mapped[list[dict[str, Any]]] = mapped_column(Json)
    outcome: Mapped[str] = mapped_column(String(16))
    asked_back: Mapped[bool] = mapped_column(Boolean)
    at: Mapped[str] = mapped_column(Time)


class Hold(Table):
    """A body part, or "all", in which nothing is trained until the coach clears it with a note."""

    __tablename__ = "hold"
    __table_args__ = (
        _belongs_to("follower", "follower"),
        _belongs_to("message", "message"),
        Index(
            "ix_hold_in_force",
            "coach",
            "follower",
            "part",
            "category",
            unique=True,
            sqlite_where=text("cleared IS NULL"),
            postgresql_where=text("cleared IS NULL"),
        ),
    )
    id: Mapped[str] = mapped_column(Key, primary_key=True)
    follower: Mapped[str] = mapped_column(Key)
    message: Mapped[str] = mapped_column(Key)
    part: Mapped[str] = mapped_column(String(64))
    category: Mapped[str] = mapped_column(String(64))
    words: Mapped[str] = mapped_column(Text)
    since: Mapped[str] = mapped_column(Time)
    cleared: Mapped[str | None] = mapped_column(Time)
    note: Mapped[str | None] = mapped_column(Text)
    by: Mapped[str | None] = mapped_column(Text)


class Task(Table):
    """Something the coach has to do in person after an emergency; closed only with a note."""

    __tablename__ = "task"
    __table_args__ = (
        _belongs_to("message", "message"),
        Index(None, "coach", sqlite_where=text("closed IS NULL"), postgresql_where=text("closed IS NULL")),
    )
    message: Mapped[str] = mapped_column(Key, primary_key=True)
    since: Mapped[str] = mapped_column(Time)
    closed: Mapped[str | None] = mapped_column(Time)
    note: Mapped[str | None] = mapped_column(Text)
    by: Mapped[str | None] = mapped_column(Text)

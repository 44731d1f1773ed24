"""The archive as it began: coaches, sign-ins, keys, followers, plans, and everything said, drafted and decided."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects.postgresql import JSONB

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

JSON = sa.JSON().with_variant(JSONB(), "postgresql")
TABLES = ("coach", "sign_in", "api_key", "follower", "plan", "thread", "message", "draft", "decision", "reply", "hold",
          "task")  # fmt: skip


def upgrade() -> None:
    _people()
    _said()
    _answered()
    _held()


def downgrade() -> None:
    for table in reversed(TABLES):
        op.drop_table(table)


def _people() -> None:
    op.create_table("coach", _key("coach"), _text("name"), _text("password"), _time("since"), _id("coach"))
    _of_coach("sign_in", _key("hash"), _time("since"), _time("until"), by="hash")
    op.create_index("ix_sign_in_hash", "sign_in", ["hash"])
    _of_coach("api_key", _key("id"), _key("hash"), _text("label"), _time("since"))
    op.create_index("ix_api_key_hash", "api_key", ["hash"])
    _of_coach("follower", _key("id"), _key("token"), _text("name"), _json("profile"), _time("since"), _count("version"))
    op.create_index("ix_follower_token", "follower", ["token"])
    _of_coach("plan", _short("id", 200), _text("title"), _short("day", 10), _json("items"), _time("since"))


def _said() -> None:
    op.create_table(
        "thread", _key("coach"), _key("id"), _key("follower"), _time("since"),
        _id("thread", "coach", "id"), _part_of("thread", "follower"),
    )  # fmt: skip
    op.create_index("ix_thread_id", "thread", ["id"])
    op.create_index("ix_thread_coach_follower", "thread", ["coach", "follower"])
    op.create_table(
        "message", _key("coach"), _key("id"), _key("follower"), _key("thread"), _count("place"),
        _short("plan", 200, null=True), _short("item", 16, null=True), _text("text"), _time("received"),
        _short("key", 200, null=True), _short("status", 16), _short("tier", 16), _text("notice", null=True),
        _json("remembered"), _count("version"), _id("message", "coach", "id"),
        _part_of("message", "follower"), _part_of("message", "thread"), _part_of("message", "plan"),
        sa.UniqueConstraint("coach", "follower", "key", name="uq_message_coach_follower_key"),
        sa.UniqueConstraint("coach", "thread", "place", name="uq_message_coach_thread_place"),
    )  # fmt: skip
    op.create_index("ix_message_coach_follower_received", "message", ["coach", "follower", "received"])
    _index_where("status = 'waiting'", "ix_message_waiting", "message", ["coach", "plan", "received", "id"])


def _answered() -> None:
    op.create_table(
        "draft", _key("coach"), _key("message"), _count("version"), _json("result"), _short("rulebook", 64),
        _text("summary"), _text("text"), _short("tier", 16), _short("urgency", 16), _text("notice", null=True),
        _time("made"), _id("draft", "coach", "message", "version"), _part_of("draft", "message"),
    )  # fmt: skip
    op.create_table(
        "decision", _key("coach"), _key("message"), _count("version"), _short("outcome", 16), _text("text"),
        _short("reason", 32, null=True), _text("comment"), _text("by"), _time("at"),
        _id("decision", "coach", "message"), _part_of("decision", "message"),
    )  # fmt: skip
    op.create_table(
        "reply", _key("coach"), _key("message"), _text("text"), _json("swaps"), _short("outcome", 16),
        sa.Column("asked_back", sa.Boolean(), nullable=False), _time("at"),
        _id("reply", "coach", "message"), _part_of("reply", "message"),
    )  # fmt: skip


def _held() -> None:
    closing = (_text("note", null=True), _text("by", null=True))
    op.create_table(
        "hold", _key("coach"), _key("id"), _key("follower"), _key("message"), _short("part", 64),
        _short("category", 64), _text("words"), _time("since"), _time("cleared", null=True), *closing,
        _id("hold", "coach", "id"), _part_of("hold", "follower"), _part_of("hold", "message"),
    )  # fmt: skip
    columns = ["coach", "follower", "part", "category"]
    _index_where("cleared IS NULL", "ix_hold_in_force", "hold", columns, unique=True)
    closing = (_text("note", null=True), _text("by", null=True))
    op.create_table(
        "task", _key("coach"), _key("message"), _time("since"), _time("closed", null=True), *closing,
        _id("task", "coach", "message"), _part_of("task", "message"),
    )  # fmt: skip
    _index_where("closed IS NULL", "ix_task_coach", "task", ["coach"])


def _of_coach(table: str, *columns: sa.Column, by: str = "id") -> None:
    foreign = sa.ForeignKeyConstraint(["coach"], ["coach.coach"], name=f"fk_{table}_coach")
    op.create_table(table, _key("coach"), *columns, _id(table, "coach", by), foreign)


def _part_of(table: str, other: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["coach", other], [f"{other}.coach", f"{other}.id"], name=f"fk_{table}_{other}")


def _id(table: str, *columns: str) -> sa.PrimaryKeyConstraint:
    return sa.PrimaryKeyConstraint(*(columns or ("coach",)), name=f"pk_{table}")


def _index_where(where: str, name: str, table: str, columns: list[str], unique: bool = False) -> None:
    condition: dict[str, Any] = {"sqlite_where": sa.text(where), "postgresql_where": sa.text(where)}
    op.create_index(name, table, columns, unique=unique, **condition)


def _key(name: str) -> sa.Column:
    return _short(name, 64)


def _time(name: str, null: bool = False) -> sa.Column:
    return _short(name, 27, null)


def _short(name: str, length: int, null: bool = False) -> sa.Column:
    return sa.Column(name, sa.String(length), nullable=null)


def _text(name: str, null: bool = False) -> sa.Column:
    return sa.Column(name, sa.Text(), nullable=null)


def _json(name: str) -> sa.Column:
    return sa.Column(name, JSON, nullable=False)


def _count(name: str) -> sa.Column:
    return sa.Column(name, sa.Integer(), nullable=False)

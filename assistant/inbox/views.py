"""What the doors are given: plain values, ready to be shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from assistant.values import Plan, Profile


@dataclass(frozen=True)
class Receipt:
    """What whoever sent a message is told at once."""

    id: str
    thread: str
    status: str  # waiting, answered, closed
    notice: str | None
    new: bool = True  # False when the same idempotency key came again
    coach: str = ""  # whose follower it is
    read: bool = True  # False while the draft is still to be made


@dataclass(frozen=True)
class Row:
    """One waiting message in the inbox."""

    id: str
    follower: str  # first name
    text: str
    summary: str
    tier: str
    received: str  # ISO time
    waiting_s: int
    doubt: bool
    result: dict[str, Any]  # the line out of the contract, as stored with the draft
    notice: str | None = None
    wrote_back: str | None = None  # what the follower wrote after the notice
    version: int = 1  # of the draft shown; hand it to `decide` so that nothing unseen is approved
    item: str | None = None  # the slot the follower pointed at


@dataclass(frozen=True)
class Knot:
    """Questions of one kind on one slot: alike enough to be looked at together."""

    key: str
    label: str  # "no bar", "wrist sore", "read with doubt"
    doubt: bool
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Slot:
    """One slot of the session with the knots that hang on it; `item` "?" = belongs to no slot."""

    item: str
    exercise: str
    name: str
    dose: str
    knots: tuple[Knot, ...]


@dataclass(frozen=True)
class Session:
    """The inbox of one plan: what must not wait, the spine, what belongs to no slot.

    `stop_first` is of every plan, and `loose` holds what was asked on no plan too, so that neither depends on which
    day the coach is looking at; `waiting` and `oldest_s` count all that is shown.
    """

    plan: Plan | None
    day: str
    plans: tuple[tuple[str, str, int], ...]  # (plan id, title, number waiting) of every plan, for moving between days
    waiting: int
    oldest_s: int
    stop_first: tuple[Row, ...]
    slots: tuple[Slot, ...]
    loose: Slot


@dataclass(frozen=True)
class Opened:
    """One message opened: the row, the thread before it, who wrote, alike ones, the rulebook then and now."""

    row: Row
    profile: Profile
    since: str
    thread: tuple[dict[str, Any], ...]  # {"by", "text", "at", "item"} oldest first
    alike: tuple[Row, ...]
    decision: dict[str, Any] | None  # {"outcome", "text", "reason", "comment", "by", "at", "version"}
    plan: Plan | None
    holds: tuple[dict[str, Any], ...] = ()  # {"id", "part", "category", "since", "words"} still in force
    task: dict[str, Any] | None = None  # {"since", "closed", "note", "by"}: what an emergency left to be done
    remembered: dict[str, Any] = field(default_factory=dict)  # what the message changed in the profile, with its words
    rulebook: str = ""  # fingerprint of the book now; the one then is row.result["rulebook"]


@dataclass(frozen=True)
class Conversation:
    """The follower's page: who, the day's plan, every turn with its receipt, notice and reply.

    `thread` is the one to go on with: None when the newest belongs to another day, so that a new one begins. A turn of
    the coach also has "outcome" (its numbers are the swap's own unless it is "edited") and "asked_back".
    """

    follower: str
    token: str
    thread: str | None
    plan: Plan | None
    turns: tuple[dict[str, Any], ...]  # {"id", "by", "text", "at", "item", "status", "notice", "swaps"} oldest first
    coach: str = ""

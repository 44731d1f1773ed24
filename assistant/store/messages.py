"""Threads, messages, drafts, decisions and replies: what was asked and what was answered."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Select, and_, bindparam, func, insert, select
from sqlalchemy.orm import Session

from assistant.store.tables import Decision, Draft, Follower, Message, Reply, Thread

STOP_FIRST = ("emergency", "clinician")
# built once: every message that comes in passes here
_ADD_THREAD, _ADD_MESSAGE = insert(Thread.__table__), insert(Message.__table__)
_UNREAD = (
    select(Message.id)
    .where(Message.coach == bindparam("coach"), Message.version == 0)
    .order_by(Message.received, Message.place, Message.id)
)


class Messages:
    """Everything said, within one transaction.

    A message leaves here as a dict: id, follower (id), name (of the follower), thread, place, plan, item, text,
    received, status, tier, notice, remembered, version, result, summary, urgency, reply (None or a dict of text, swaps,
    outcome, asked_back, at).
    """

    def __init__(self, session: Session):
        self._session = session

    # -- threads -----------------------------------------------------------------------------------------------
    def add_thread(self, coach: str, id: str, follower: str, since: str) -> None:
        """Open a thread with its unguessable id."""
        self._session.flush()
        self._session.connection().execute(
            _ADD_THREAD, {"coach": coach, "id": id, "follower": follower, "since": since}
        )

    def thread(self, coach: str, thread: str) -> dict[str, str] | None:
        """{"coach", "id", "follower"} of a thread of this coach."""
        return self._one_thread(select(Thread).where(Thread.coach == coach, Thread.id == thread))

    def thread_by_token(self, token: str) -> dict[str, str] | None:
        """The thread behind an unguessable link, whoever the coach."""
        return self._one_thread(select(Thread).where(Thread.id == token))

    def _one_thread(self, query: Any) -> dict[str, str] | None:
        row = self._session.scalar(query)
        return {"coach": row.coach, "id": row.id, "follower": row.follower} if row else None

    def plan_of_thread(self, coach: str, thread: str) -> str | None:
        """The plan that the newest message of a thread with a plan is about."""
        query = select(Message.plan).where(Message.coach == coach, Message.thread == thread, Message.plan.is_not(None))
        return self._session.scalar(query.order_by(Message.place.desc()).limit(1))

    def next_place(self, coach: str, thread: str) -> int:
        """The place in the thread of the message to come, from 1."""
        query = select(func.max(Message.place)).where(Message.coach == coach, Message.thread == thread)
        return (self._session.scalar(query) or 0) + 1

    # -- in ----------------------------------------------------------------------------------------------------
    def add_unread(self, coach: str, message: dict[str, Any]) -> None:
        """A message taken in and not read yet (version 0): id, follower, thread, place, plan, item, text, received, key."""
        unread = {"status": "waiting", "tier": "clear", "notice": None, "remembered": {}, "version": 0}
        self._session.flush()
        self._session.connection().execute(_ADD_MESSAGE, {"coach": coach, **unread, **message})

    def drafted(self, coach: str, message: str, draft: dict[str, Any], remembered: dict[str, Any]) -> None:
        """The first draft of a message that was not read yet, and what the message changed in the memory."""
        row = self._session.get_one(Message, (coach, message))
        row.version, row.tier, row.notice, row.remembered = 1, draft["tier"], draft["notice"], remembered
        self._session.execute(insert(Draft), {"coach": coach, "message": message, "version": 1, **draft})

    def unread(self, coach: str) -> list[str]:
        """The ids of the messages of this coach that nobody has read yet, oldest first."""
        return list(self._session.scalars(_UNREAD, {"coach": coach}))

    def one_unread(self, coach: str, message: str) -> dict[str, Any] | None:
        """A message as it was taken in, None once it is read."""
        query = select(Message).where(Message.coach == coach, Message.id == message, Message.version == 0)
        row = self._session.scalar(query.execution_options(populate_existing=True))
        names = ("id", "follower", "thread", "place", "plan", "item", "text", "received")
        return {name: getattr(row, name) for name in names} if row else None

    def draft_anew(self, coach: str, message: str, draft: dict[str, Any], tier: str) -> int:
        """Another version of the draft comes into force; the old ones stay. Returns the new version."""
        row = self._session.get_one(Message, (coach, message))
        row.version, row.tier = row.version + 1, tier
        self._session.add(Draft(coach=coach, message=message, version=row.version, **draft))
        self._session.flush()
        return row.version

    def decide(self, coach: str, decision: dict[str, Any], status: str, reply: dict[str, Any] | None) -> None:
        """Keep the decision on a message, its new status, and the reply that reaches the follower's page."""
        row = self._session.get_one(Message, (coach, decision["message"]))
        row.status = status
        self._session.add(Decision(coach=coach, version=row.version, **decision))
        if reply is not None:
            self._session.add(Reply(coach=coach, message=row.id, **reply))
        self._session.flush()

    # -- out ---------------------------------------------------------------------------------------------------
    def one(self, coach: str, message: str, lock: bool = False) -> dict[str, Any] | None:
        """A message of this coach; with `lock` nobody else decides it until the transaction ends."""
        query = _whole(coach).where(Message.id == message)
        return next(self._rows(query.with_for_update(of=Message) if lock else query), None)

    def by_key(self, coach: str, follower: str, key: str) -> dict[str, Any] | None:
        """What this follower sent under an idempotency key, read or not: id, thread, text, status, notice."""
        names = ("id", "thread", "text", "status", "notice")
        query = select(*(getattr(Message, name) for name in names))
        row = self._session.execute(
            query.where(Message.coach == coach, Message.follower == follower, Message.key == key)
        ).one_or_none()
        return dict(zip(names, row, strict=True)) if row else None

    def waiting(self, coach: str, plan: str | None) -> list[dict[str, Any]]:
        """What waits on a plan (None: on no plan), oldest first."""
        on_plan = Message.plan.is_(None) if plan is None else Message.plan == plan
        return list(self._rows(_oldest_first(_whole(coach).where(Message.status == "waiting", on_plan))))

    def stop_first(self, coach: str) -> list[dict[str, Any]]:
        """Undecided emergencies, then what a clinician should see, each oldest first, on whatever plan."""
        query = _whole(coach).where(Message.status == "waiting", Message.tier.in_(STOP_FIRST))
        found = list(self._rows(_oldest_first(query)))
        return sorted(found, key=lambda row: STOP_FIRST.index(row["tier"]))

    def waiting_of(self, coach: str, follower: str) -> list[dict[str, Any]]:
        """What a follower wrote that waits, oldest first."""
        return list(
            self._rows(_oldest_first(_whole(coach).where(Message.status == "waiting", Message.follower == follower)))
        )

    def newest_plan(self, coach: str) -> str | None:
        """The plan of the newest message that waits, else of the newest at all; None where no message has a plan."""
        query = select(Message.plan).where(Message.coach == coach, Message.plan.is_not(None))
        newest = query.order_by(Message.received.desc(), Message.id).limit(1)
        return self._session.scalar(newest.where(Message.status == "waiting")) or self._session.scalar(newest)

    def of_thread(self, coach: str, thread: str) -> list[dict[str, Any]]:
        """Everything said in a thread, in order."""
        return list(self._rows(_whole(coach).where(Message.thread == thread).order_by(Message.place)))

    def of_follower(self, coach: str, follower: str) -> list[dict[str, Any]]:
        """Everything said by a follower, in order."""
        query = _whole(coach).where(Message.follower == follower)
        return list(self._rows(query.order_by(Message.received, Message.thread, Message.place)))

    def last_words(self, coach: str, threads: Iterable[str]) -> dict[str, tuple[int, str]]:
        """(place, text) of the last message in each thread."""
        query = select(Message.thread, Message.place, Message.text).where(
            Message.coach == coach, Message.thread.in_(list(threads))
        )
        return {thread: (place, text) for thread, place, text in self._session.execute(query.order_by(Message.place))}

    def decision(self, coach: str, message: str) -> dict[str, Any] | None:
        """{"outcome", "text", "reason", "comment", "by", "at", "version"} of a message, or None while it waits."""
        row = self._session.get(Decision, (coach, message))
        names = ("outcome", "text", "reason", "comment", "by", "at", "version")
        return {name: getattr(row, name) for name in names} if row else None

    def drafts(self, coach: str, message: str) -> list[dict[str, Any]]:
        """Every version of the draft, oldest first: {"version", "rulebook", "result", "made"}."""
        query = select(Draft).where(Draft.coach == coach, Draft.message == message).order_by(Draft.version)
        names = ("version", "rulebook", "result", "made")
        return [{name: getattr(row, name) for name in names} for row in self._session.scalars(query)]

    def _rows(self, query: Select) -> Iterable[dict[str, Any]]:
        return map(_row, self._session.execute(query.execution_options(populate_existing=True)))


def _whole(coach: str) -> Select:
    """Messages of a coach with the follower's name, the draft in force and the reply."""
    return (
        select(Message, Draft, Follower.name, Reply)
        .join(Draft, and_(*_same(Draft), Draft.version == Message.version))
        .join(Follower, and_(Follower.coach == Message.coach, Follower.id == Message.follower))
        .outerjoin(Reply, and_(*_same(Reply)))
        .where(Message.coach == coach)
    )


def _same(table: Any) -> tuple[Any, Any]:
    return table.coach == Message.coach, table.message == Message.id


def _oldest_first(query: Select) -> Select:
    return query.order_by(Message.received, Message.id)


def _row(found: Any) -> dict[str, Any]:
    message, draft, name, reply = found
    own = ("id", "follower", "thread", "place", "plan", "item", "text", "received", "status", "tier", "notice",
           "remembered", "version")  # fmt: skip
    told = ("text", "swaps", "outcome", "asked_back", "at")
    return {
        **{key: getattr(message, key) for key in own},
        "name": name,
        "result": draft.result,
        "summary": draft.summary,
        "draft": draft.text,
        "urgency": draft.urgency,
        "reply": {key: getattr(reply, key) for key in told} if reply else None,
    }

"""The inbox laid out like the day's session, and one message opened."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.inbox.context import profile_of, turns_before
from assistant.inbox.desk import Desk, seconds_between
from assistant.inbox.receive import SERIOUS
from assistant.inbox.views import Knot, Opened, Row, Session, Slot
from assistant.plan import dose_words as plan_words
from assistant.rulebook import Rulebook
from assistant.store import Archive
from assistant.values import Dose, NotFound, Plan, PlanItem

LOOSE = "?"  # the item of what belongs to no slot
DOUBT = "read with doubt"


def session(desk: Desk, coach: str, plan: str | None) -> Session:
    """See `Inbox.session`."""
    now, book = desk.time(), desk.book()
    with desk.store.reading() as archive:
        shown = _plan(archive, coach, plan, now)
        stop_first = _stop_first(archive, coach, now)
        rows = archive.messages.waiting(coach, shown.id) if shown else []
        rows = [row for row in [*rows, *archive.messages.waiting(coach, None)] if row["tier"] not in SERIOUS]
        plans = tuple(archive.plans.waiting(coach))
    found = [(_slot(row, shown), _row(row, now)) for row in rows]
    items = shown.items if shown else ()
    waits = [row.waiting_s for row in [*stop_first, *(row for _, row in found)]]
    return Session(
        plan=shown,
        day=shown.day if shown else "",
        plans=plans,
        waiting=len(waits),
        oldest_s=max(waits, default=0),
        stop_first=tuple(stop_first),
        slots=tuple(_filled(item, [row for slot, row in found if slot == item.item], book) for item in items),
        loose=Slot(LOOSE, "", "", "", _knots(LOOSE, [row for slot, row in found if slot == LOOSE], book)),
    )


def open_message(desk: Desk, coach: str, message: str) -> Opened:
    """See `Inbox.open`."""
    now, book = desk.time(), desk.book()
    with desk.store.reading() as archive:
        row = archive.messages.one(coach, message)
        if row is None:
            raise NotFound("no such message")
        who = archive.people.follower(coach, row["follower"])
        decision, plan = archive.messages.decision(coach, message), None
        if row["plan"]:
            plan = archive.plans.one(coach, row["plan"])
        back = _wrote_back(archive, coach, [row])
        return Opened(
            row=_row(row, decision["at"] if decision else now, back.get(row["id"])),
            profile=profile_of(archive, coach, who),
            since=who["since"],
            thread=tuple(turns_before(archive, coach, row)),
            alike=_alike(archive, coach, row, plan, now, book),
            decision=decision,
            plan=plan,
            holds=tuple(archive.holds.in_force(coach, who["id"])),
            task=archive.holds.task(coach, message),
            remembered=row["remembered"],
            rulebook=book.fingerprint,
        )


def _plan(archive: Archive, coach: str, plan: str | None, now: str) -> Plan | None:
    """The plan named, else the one with the newest messages, else the day's."""
    if plan:
        found = archive.plans.one(coach, plan)
        if found is None:
            raise NotFound("no such plan")
        return found
    newest = archive.messages.newest_plan(coach)
    return archive.plans.one(coach, newest) if newest else archive.plans.of_day(coach, now[:10])


def _stop_first(archive: Archive, coach: str, now: str) -> list[Row]:
    rows = archive.messages.stop_first(coach)
    back = _wrote_back(archive, coach, rows)
    return [_row(row, now, back.get(row["id"])) for row in rows]


def _wrote_back(archive: Archive, coach: str, rows: list[dict[str, Any]]) -> dict[str, str]:
    """By message: what its follower last wrote after it in the same thread."""
    last = archive.messages.last_words(coach, {row["thread"] for row in rows}) if rows else {}
    return {row["id"]: last[row["thread"]][1] for row in rows if last[row["thread"]][0] > row["place"]}


def _alike(archive: Archive, coach: str, row: dict[str, Any], plan: Plan | None, now: str,
           book: Rulebook) -> tuple[Row, ...]:  # fmt: skip
    """The other messages of the same knot; nothing is alike to what is decided, serious, or read with doubt."""
    if row["status"] != "waiting" or row["tier"] in SERIOUS or _doubt(row["result"]):
        return ()
    same = (_slot(row, plan), _kind(row["result"], book))
    others = archive.messages.waiting(coach, row["plan"])
    return tuple(
        _row(other, now)
        for other in others
        if other["id"] != row["id"]
        and other["tier"] not in SERIOUS
        and (_slot(other, plan), _kind(other["result"], book)) == same
    )


def _row(row: dict[str, Any], until: str, wrote_back: str | None = None) -> Row:
    return Row(
        id=row["id"],
        follower=row["name"],
        text=row["text"],
        summary=row["summary"],
        tier=row["tier"],
        received=row["received"],
        waiting_s=seconds_between(row["received"], until),
        doubt=_doubt(row["result"]),
        result=row["result"],
        notice=row["notice"],
        wrote_back=wrote_back,
        version=row["version"],
        item=row["item"],
    )


def _slot(row: dict[str, Any], plan: Plan | None) -> str:
    """The slot a message hangs on: of the first exercise asked about, else the one pointed at."""
    named = [asked.get("item") for asked in row["result"]["question"]["exercises"]]
    return next((item for item in [*named, row["item"]] if item and plan and plan.slot(item)), LOOSE)


def _doubt(line: dict[str, Any]) -> bool:
    return bool(line["ask_back"]) or any(asked.get("doubt") for asked in line["question"]["exercises"])


def _kind(line: dict[str, Any], book: Rulebook) -> tuple[str, str]:
    """What a message is tied by on its slot, as an id and in words: doubt, its first limit, else its want."""
    if _doubt(line):
        return "doubt", DOUBT
    question = line["question"]
    if question["limits"]:
        limit = question["limits"][0]["id"]
        card = book.limits.get(limit)
        return limit, (card.short if card else "") or limit.replace("-", " ")
    want = next(iter(question["wants"]), "other")
    card = book.wants.get(want)
    return want, card.says if card else want.replace("-", " ")


def _filled(item: PlanItem, rows: list[Row], book: Rulebook) -> Slot:
    card = book.exercises.get(item.exercise)
    return Slot(item.item, item.exercise, card.name if card else item.exercise, dose_words(item.dose),
                _knots(item.item, rows, book))  # fmt: skip


def _knots(item: str, rows: list[Row], book: Rulebook) -> tuple[Knot, ...]:
    """The rows of a slot, tied: the biggest knot first, doubt last."""
    tied: dict[tuple[str, str], list[Row]] = {}
    for row in rows:
        tied.setdefault(_kind(row.result, book), []).append(row)
    place = "loose" if item == LOOSE else item
    knots = [Knot(f"{place}-{id}", label, id == "doubt", tuple(some)) for (id, label), some in tied.items()]
    return tuple(sorted(knots, key=lambda knot: (knot.doubt, -len(knot.rows), knot.label)))


def dose_words(dose: Dose | None) -> str:
    """A dose as it stands on a slot: without the rest, and empty where the coach gave none.

    >>> dose_words(Dose(3, reps=(6, 8), rest_s=90)), dose_words(None)
    ('3 × 6–8', '')
    """
    return plan_words(replace(dose, rest_s=None)) if dose else ""

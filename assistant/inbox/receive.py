"""Taking a message in: answered into a draft, remembered, and kept in one transaction."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import Any

from assistant.inbox import memory
from assistant.inbox.context import message_of
from assistant.inbox.desk import NAME_MAX, Desk, known, new_id, words
from assistant.inbox.views import Receipt
from assistant.store import Archive
from assistant.values import TIERS, Answer, BadInput, Finding, Message, NotFound, Plan

SERIOUS = ("clinician", "emergency")
_MOST_ANEW = 12  # waiting messages of one follower that are drafted again inside a request; nobody has more at once


@dataclass(frozen=True)
class Asked:
    """A message on its way in, with what was known when it was read."""

    follower: dict[str, Any]
    said: dict[str, Any]
    plan: Plan | None
    key: str | None
    message: Message


def receive(desk: Desk, coach: str, follower: str, text: str, plan: str | None, item: str | None, thread: str | None,
            key: str | None) -> Receipt:  # fmt: skip
    """See `Inbox.receive`. The verbs run between two short transactions, so that no writer waits for them."""
    text = words(text, "the message")
    key = words(key, "the idempotency key", NAME_MAX) if key else None
    while True:
        with desk.store.reading() as archive:
            who = archive.people.follower(coach, follower)
            if who is None:
                raise NotFound("no such follower of this coach: ask for a new link")
            earlier = archive.messages.by_key(coach, who["id"], key) if key else None
            if earlier:
                return receipt_of(earlier, text)
            asked = _asked(desk, archive, coach, who, text, plan, item, thread, key)
        answer, line = desk.answered(asked.message)
        with desk.store.writing() as archive:
            receipt = _keep(desk, archive, coach, asked, answer, line)
        if receipt:
            return receipt  # otherwise another message of the follower changed what is known: read this one again


def _asked(desk: Desk, archive: Archive, coach: str, who: dict[str, Any], text: str, plan: str | None,
           item: str | None, thread: str | None, key: str | None) -> Asked:  # fmt: skip
    if thread:
        in_thread(archive, coach, who["id"], thread)
    now = desk.time()
    id_ = about_plan(archive, coach, plan, item, thread, now)
    about = archive.plans.one(coach, id_) if id_ else None
    said = {"text": text, "item": item or None, "received": now, "thread": thread or None, "place": None}
    return Asked(who, said, about, key, message_of(archive, coach, who, said, about))


def in_thread(archive: Archive, coach: str, follower: str, thread: str) -> None:
    """Raises NotFound unless the conversation is this follower's."""
    found = archive.messages.thread(coach, thread)
    if found is None or found["follower"] != follower:
        raise NotFound("no such conversation of this follower: begin a new one")


def about_plan(archive: Archive, coach: str, plan: str | None, item: str | None, thread: str | None,
               now: str) -> str | None:  # fmt: skip
    """The id of the plan named, else of the one this thread is about, else of the day's; `item` must stand in it."""
    about = plan or (archive.messages.plan_of_thread(coach, thread) if thread else None)
    about = about or archive.plans.id_of_day(coach, now[:10])
    if not plan and not item:
        return about
    found = archive.plans.one(coach, about) if about else None
    if plan and found is None:
        raise BadInput(f"there is no plan '{plan[:80]}'; {known(archive.plans.ids(coach))}")
    if item and (found is None or found.slot(item) is None):
        items = [slot.item for slot in found.items] if found else []
        where = f"in the plan '{found.id}'" if found else "without a plan"
        raise BadInput(f"there is no item '{item[:16]}' {where}; {known(items)}")
    return about


def _keep(desk: Desk, archive: Archive, coach: str, asked: Asked, answer: Answer | None,
          line: dict[str, Any]) -> Receipt | None:  # fmt: skip
    """Message, draft, memory and holds in one go; None when what was known has changed in the meantime."""
    who = archive.people.follower(coach, asked.follower["id"], lock=True)
    earlier = archive.messages.by_key(coach, who["id"], asked.key) if asked.key else None
    if earlier:
        return receipt_of(earlier, asked.said["text"])
    if who["version"] != asked.follower["version"]:
        return None
    thread = asked.said["thread"]
    if thread is None:
        thread = secrets.token_urlsafe(24)
        archive.messages.add_thread(coach, thread, who["id"], asked.said["received"])
    place = archive.messages.next_place(coach, thread)
    message = {"id": new_id(), "follower": who["id"], "thread": thread, "place": place, "key": asked.key,
               "plan": asked.plan.id if asked.plan else None,
               **{name: asked.said[name] for name in ("text", "item", "received")}}  # fmt: skip
    archive.messages.add_unread(coach, message)
    _read(desk, archive, coach, message, who, answer, line)
    return Receipt(message["id"], thread, "waiting", line["notice"])


def draft_unread(desk: Desk, coach: str, message: str) -> None:
    """Draft a message that was only taken in; nothing where somebody else has done so in the meantime."""
    while True:
        with desk.store.reading() as archive:
            row = archive.messages.one_unread(coach, message)
            if row is None:
                return
            who = archive.people.follower(coach, row["follower"])
            plan = archive.plans.one(coach, row["plan"]) if row["plan"] else None
            asked = message_of(archive, coach, who, row, plan)
        answer, line = desk.answered(asked)
        with desk.store.writing() as archive:
            now = archive.people.follower(coach, row["follower"], lock=True)
            if archive.messages.one_unread(coach, message) is None:
                return
            if now["version"] == who["version"]:
                _read(desk, archive, coach, row, now, answer, line)
                return


def _read(desk: Desk, archive: Archive, coach: str, message: dict[str, Any], who: dict[str, Any],
          answer: Answer | None, line: dict[str, Any]) -> None:  # fmt: skip
    """Keep what the verbs made of a message just taken in: draft, memory and holds."""
    profile, change = who["profile"], {}
    if answer:
        profile, change = memory.learn(profile, answer.question, desk.book())
    archive.messages.drafted(coach, message["id"], draft_of(line, message["received"]), change)
    held = _hold(archive, coach, {**message, "tier": line["verdict"]["tier"]}, answer)
    if change:
        archive.people.remember(coach, who["id"], profile)
    if held:
        archive.people.touch(coach, who["id"])
    if change or held:
        draft_waiting_anew(desk, archive, coach, who["id"], but=message["id"])


def _hold(archive: Archive, coach: str, message: dict[str, Any], answer: Answer | None) -> bool:
    """Open what the findings ask for: holds, and a task after an emergency. True when something is newly held."""
    if message["tier"] == "emergency":
        archive.holds.add_task(coach, message["id"], message["received"])
    new = False
    for finding in answer.verdict.findings if answer else ():
        if _holds_back(finding):
            new |= archive.holds.add(coach, {
                "id": new_id(), "follower": message["follower"], "message": message["id"], "part": finding.part,
                "category": finding.category, "words": finding.words, "since": message["received"],
            })  # fmt: skip
    return new


def _holds_back(finding: Finding) -> bool:
    """A serious sign of the follower; an emergency of somebody else holds back nobody's training."""
    return finding.tier in SERIOUS and finding.who != "other" and finding.assertion not in ("denied", "what-if")


def draft_waiting_anew(desk: Desk, archive: Archive, coach: str, follower: str, but: str | None = None) -> None:
    """Draft what else waits of this follower by what is known now, so that no older draft breaks a newer limit."""
    who = archive.people.follower(coach, follower)
    for row in archive.messages.waiting_of(coach, follower)[-_MOST_ANEW:]:
        if row["id"] == but:
            continue
        plan = archive.plans.one(coach, row["plan"]) if row["plan"] else None
        _, line = desk.answered(message_of(archive, coach, who, row, plan))
        if line != row["result"]:
            keep_draft(desk, archive, coach, row, line)


def keep_draft(desk: Desk, archive: Archive, coach: str, row: dict[str, Any], line: dict[str, Any]) -> int:
    """Another version of the draft of `row`; what was once serious stays so until the coach decides."""
    tier = max(row["tier"], line["verdict"]["tier"], key=TIERS.index)
    return archive.messages.draft_anew(coach, row["id"], draft_of(line, desk.time()), tier)


def draft_of(line: dict[str, Any], made: str) -> dict[str, Any]:
    """The line out as the archive keeps it."""
    draft, verdict = line["draft"], line["verdict"]
    return {
        "result": line, "rulebook": line["rulebook"], "summary": draft["summary"], "text": draft["text"],
        "tier": verdict["tier"], "urgency": draft["urgency"], "notice": line["notice"], "made": made,
    }  # fmt: skip


def receipt_of(row: dict[str, Any], text: str) -> Receipt:
    """The receipt of a message that came before under the same idempotency key; raises BadInput if it said other words."""
    if row["text"] != text:
        raise BadInput("this idempotency key was used for another message: send a new key with every new message")
    return Receipt(row["id"], row["thread"], row["status"], row["notice"], new=False)

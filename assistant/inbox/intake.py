"""A message taken in at once and drafted a moment later, so that nobody waits for the verbs.

Only the screen looks before the receipt is given: where it sees anything at all, the whole answer is made first, because
the notice, the hold and the coach's task must be there with the receipt. Everything else is kept unread (version 0) and
drafted right afterwards; what a killed process left unread is drafted before anybody looks at the archive again.
"""

from __future__ import annotations

import secrets

from assistant.inbox.desk import NAME_MAX, Desk, new_id, words
from assistant.inbox.receive import about_plan, draft_unread, in_thread, receipt_of, receive
from assistant.inbox.views import Receipt
from assistant.store import Archive
from assistant.values import NotFound


def take(desk: Desk, coach: str | None, follower: str, text: str, plan: str | None, item: str | None, thread: str | None,
         key: str | None) -> Receipt:  # fmt: skip
    """See `Inbox.take`."""
    text = words(text, "the message")
    key = words(key, "the idempotency key", NAME_MAX) if key else None
    if not desk.looks_clear(text):
        with desk.store.reading() as archive:
            coach, who = _sender(archive, coach, follower)
        return receive(desk, coach, who, text, plan, item, thread, key)
    now = desk.time()
    with desk.store.writing() as archive:
        coach, who = _sender(archive, coach, follower)
        earlier = archive.messages.by_key(coach, who, key) if key else None
        if earlier:
            return receipt_of(earlier, text)
        if thread:
            in_thread(archive, coach, who, thread)
        about = about_plan(archive, coach, plan, item, thread, now)
        place = archive.messages.next_place(coach, thread) if thread else 1
        if thread is None:
            thread = secrets.token_urlsafe(24)
            archive.messages.add_thread(coach, thread, who, now)
        message = {"id": new_id(), "follower": who, "thread": thread, "place": place, "plan": about,
                   "item": item or None, "text": text, "received": now, "key": key}  # fmt: skip
        archive.messages.add_unread(coach, message)
    return Receipt(message["id"], thread, "waiting", None, coach=coach, read=False)


def _sender(archive: Archive, coach: str | None, follower: str) -> tuple[str, str]:
    """Coach and id of the follower: of this coach by token or id, without a coach by the token alone."""
    found = archive.people.sender(coach, follower)
    if found is None:
        raise NotFound("no such follower of this coach: ask for a new link")
    return found


def read_waiting(desk: Desk, coach: str) -> int:
    """Draft every message of the coach that was only taken in, oldest first; returns how many there were."""
    with desk.store.reading() as archive:
        unread = archive.messages.unread(coach)
    for message in unread:
        draft_unread(desk, coach, message)
    return len(unread)

"""What can be done with messages: receive, list, decide. Opens and closes the database session; knows no page.

Every function takes the coach's id first. Followers are known by an unguessable link token, threads by another. What
each function does stands in the module named after it; this page is the table of contents.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from assistant.inbox import conversation, decide, intake, people, receive, session
from assistant.inbox.desk import Book, Desk
from assistant.inbox.drafter import Drafter
from assistant.inbox.views import Conversation, Knot, Opened, Receipt, Row, Session, Slot
from assistant.store import Store
from assistant.values import Plan, Profile

__all__ = ["Book", "Conversation", "Drafter", "Inbox", "Knot", "Opened", "Receipt", "Row", "Session", "Slot"]


class Inbox:
    """Everything the doors may do, for any coach. `now` is a function that gives the time in UTC."""

    def __init__(
        self,
        store: Store,
        book: Book,
        now: Callable[[], datetime] | None = None,
        answer: Callable[..., Any] | None = None,
        as_json: Callable[[Any], dict[str, Any]] | None = None,
        tier: Callable[[str, Any], str] | None = None,
    ):
        self._desk = Desk.at(store, book, now or (lambda: datetime.now(UTC)), answer, as_json, tier)

    # -- followers ---------------------------------------------------------------------------------------------
    def receive(self, coach: str, follower: str, text: str, plan: str | None = None, item: str | None = None,
                thread: str | None = None, key: str | None = None) -> Receipt:  # fmt: skip
        """Take a message in, answer it into a draft, keep both in one transaction; idempotent by `key`.

        `follower` is the follower's link token or id. Without a plan it is about the thread's, else the day's. Raises
        NotFound, BadInput."""
        self.read_waiting(coach)
        return receive.receive(self._desk, coach, follower, text, plan, item, thread, key)

    def take(self, coach: str | None, follower: str, text: str, plan: str | None = None, item: str | None = None,
             thread: str | None = None, key: str | None = None) -> Receipt:  # fmt: skip
        """Like `receive`, but the draft of a message in which the screen sees nothing is left to `read_waiting`.

        Without a coach, `follower` is the follower's link token, and the coach is the one it belongs to."""
        return intake.take(self._desk, coach, follower, text, plan, item, thread, key)

    def read_waiting(self, coach: str) -> int:
        """Draft what was only taken in; every look at the archive does so first. Returns how many there were."""
        return intake.read_waiting(self._desk, coach)

    def status(self, coach: str, message: str, follower: str | None) -> dict[str, Any]:
        """{id, status, notice, reply}; with `follower` None the caller holds the coach's key."""
        self.read_waiting(coach)
        return conversation.status(self._desk, coach, message, follower)

    def conversation(self, token: str) -> Conversation:
        """The page behind a follower token or a thread token; raises NotFound."""
        return conversation.conversation(self._desk, token)

    # -- the coach ---------------------------------------------------------------------------------------------
    def session(self, coach: str, plan: str | None = None) -> Session:
        """The inbox of `plan`, or of the plan with the newest messages."""
        self.read_waiting(coach)
        return session.session(self._desk, coach, plan)

    def open(self, coach: str, message: str) -> Opened:
        """One message with all that is needed to decide; raises NotFound."""
        self.read_waiting(coach)
        return session.open_message(self._desk, coach, message)

    def redraft(self, coach: str, message: str, choose: dict[str, str]) -> dict[str, Any]:
        """The line out with another option recommended: {asked exercise: chosen exercise}. Keeps nothing."""
        return decide.redraft(self._desk, coach, message, choose)

    def decide(self, coach: str, message: str, outcome: str, text: str = "", reason: str | None = None,
               comment: str = "", by: str = "", choose: dict[str, str] | None = None,
               version: int | None = None) -> None:  # fmt: skip
        """Keep the coach's decision; approved, edited and asked-back replies reach the follower's page.

        `choose` is what was given to `redraft`, so that the swaps kept are those of the text; `version` is that of the
        row shown. Raises NotAllowed when it was decided already or the draft has changed since it was shown, BadInput
        for an unknown outcome or reason, an empty reply, or an emergency closed without a comment."""
        decide.decide(self._desk, coach, message, outcome, text, reason, comment, by, choose, version)

    def approve_alike(self, coach: str, messages: list[str], by: str = "") -> int:
        """Approve several drafts as they stand, each with its own text; returns how many.

        One that was decided in the meantime is passed over; one that needs a comment or has no draft raises BadInput
        and nothing is approved."""
        return decide.approve_alike(self._desk, coach, messages, by)

    def clear_hold(self, coach: str, hold: str, note: str, by: str = "") -> None:
        """Clear a clinician hold, with a note."""
        decide.clear_hold(self._desk, coach, hold, note, by)

    # -- who may come in ---------------------------------------------------------------------------------------
    def add_coach(self, coach: str, name: str, password: str) -> None:
        """A new coach, or a new name and password for a known one; signs every browser of the coach out."""
        people.add_coach(self._desk, coach, name, password)

    def sign_in(self, coach: str, password: str, hours: float = 12) -> str:
        """A random session id for the cookie, good for `hours`; raises NotAllowed."""
        return people.sign_in(self._desk, coach, password, hours)

    def signed_in(self, session: str) -> str | None:
        """The coach of a session id, None when it is unknown, signed out or ran out."""
        return people.signed_in(self._desk, session)

    def sign_out(self, session: str) -> None:
        """End one session."""
        people.sign_out(self._desk, session)

    def sign_out_everywhere(self, coach: str) -> None:
        """End every session of the coach."""
        people.sign_out_everywhere(self._desk, coach)

    def coach_name(self, coach: str) -> str:
        """How the coach is called; raises NotFound."""
        return people.coach_name(self._desk, coach)

    def coaches(self) -> list[str]:
        """The ids of all coaches."""
        return people.coaches(self._desk)

    def add_key(self, coach: str, label: str) -> str:
        """A new key for the coach's own site, shown this once."""
        return people.add_key(self._desk, coach, label)

    def coach_of_key(self, key: str) -> str | None:
        """The coach whose key this is."""
        return people.coach_of_key(self._desk, key)

    def keys(self, coach: str) -> list[dict[str, str]]:
        """{"id", "label", "since"} of the coach's keys."""
        return people.keys(self._desk, coach)

    def drop_key(self, coach: str, key_id: str) -> None:
        """Revoke a key by its id; raises NotFound."""
        people.drop_key(self._desk, coach, key_id)

    # -- followers and plans -----------------------------------------------------------------------------------
    def add_follower(self, coach: str, name: str, profile: Profile | None = None, since: str = "") -> dict[str, Any]:
        """A new follower: {"coach", "id", "token", "name", "since"}; the token is the link to the follower's page."""
        return people.add_follower(self._desk, coach, name, profile or Profile(), since)

    def follower(self, token: str) -> dict[str, Any]:
        """{"coach", "id", "token", "name", "since"} behind a link token; raises NotFound."""
        return people.follower(self._desk, token)

    def followers(self, coach: str) -> list[dict[str, Any]]:
        """{"coach", "id", "token", "name", "since"} of every follower, by name."""
        return people.followers(self._desk, coach)

    def add_plan(self, coach: str, plan: Plan) -> None:
        """A new day's session, or the new form of a known one; raises BadInput when it cannot be used."""
        people.add_plan(self._desk, coach, plan)

    def plan(self, coach: str, plan: str) -> Plan:
        """One plan of the coach; raises NotFound."""
        return people.plan(self._desk, coach, plan)

    def tasks(self, coach: str) -> list[dict[str, Any]]:
        """{"message", "since"} of every emergency that waits to be closed with a comment, oldest first."""
        self.read_waiting(coach)
        return people.tasks(self._desk, coach)

    def healthy(self) -> bool:
        """Whether the archive answers and a rulebook is there."""
        return people.healthy(self._desk)

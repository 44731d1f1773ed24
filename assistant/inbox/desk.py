"""What every function of the inbox works with: the archive, the book, the clock, and the five verbs.

Words are made clean here, once, and a message that the verbs fail on is handed to the coach unread: it is never lost.
"""

from __future__ import annotations

import json
import logging
import re
import secrets
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from assistant.rulebook import Rulebook
from assistant.store import Store
from assistant.values import Answer, BadInput, Message

Book = Callable[[], Rulebook]  # the last good rulebook at the time of the call
log = logging.getLogger("assistant.inbox")
MESSAGE_MAX = 4000  # characters a message or a reply may have
NAME_MAX = 200  # characters a name, a label, a comment's signature or a key may have
_SURROGATE = re.compile("[\ud800-\udfff]")


@dataclass(frozen=True)
class Desk:
    """The tools of the inbox; the only place that reads the clock or calls the verbs."""

    store: Store
    book: Book
    clock: Callable[[], datetime]
    answer: Callable[..., Answer]
    as_json: Callable[[Answer], dict[str, Any]]
    tier: Callable[[str, Rulebook], str]

    @classmethod
    def at(cls, store: Store, book: Book, clock: Callable[[], datetime], answer: Any, as_json: Any, tier: Any) -> Desk:
        """A desk with the project's own verbs where none are handed in."""
        if answer is None or as_json is None or tier is None:
            from assistant import answer as verbs  # only here: whoever brings others need not load these

            answer, as_json, tier = answer or verbs.answer, as_json or verbs.as_json, tier or verbs.tier
        return cls(store, book, clock, answer, as_json, tier)

    def time(self) -> str:
        """The time now as the archive writes it."""
        return iso(self.clock())

    def answered(self, message: Message, prefer: dict[str, str] | None = None) -> tuple[Answer | None, dict[str, Any]]:
        """The answer and its line out; where the verbs fail no answer, and a line that says nobody read it."""
        book = self.book()
        try:
            answer = self.answer(message, book, prefer=prefer) if prefer else self.answer(message, book)
            return answer, json.loads(json.dumps(self.as_json(answer)))
        except Exception as error:  # a mistake in the rules or the code must not cost the follower the message
            place = error.__traceback__
            while place and place.tb_next:
                place = place.tb_next
            where = f"{place.tb_frame.f_code.co_filename}:{place.tb_lineno}" if place else "?"
            log.error("a message could not be answered: %s at %s", type(error).__name__, where)
            return None, _unread(message.text, book.fingerprint)

    def looks_clear(self, text: str) -> bool:
        """Whether the screen sees nothing in the words; False where it fails, so that the whole path is taken."""
        try:
            return self.tier(text, self.book()) == "clear"
        except Exception as error:  # the message must be kept whatever the rules do; `answered` logs the place
            log.error("a message could not be screened: %s", type(error).__name__)
            return False


def iso(moment: datetime) -> str:
    """`moment` in UTC as the archive writes it.

    >>> iso(datetime(2026, 3, 2, 7, 30, tzinfo=UTC))
    '2026-03-02T07:30:00.000000Z'
    """
    return moment.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


def seconds_between(earlier: str, later: str) -> int:
    """Whole seconds from one ISO time to another, never below 0.

    >>> seconds_between("2026-03-02T07:30:00.000000Z", "2026-03-02T07:31:30.000000Z")
    90
    """
    return max(0, int((datetime.fromisoformat(later) - datetime.fromisoformat(earlier)).total_seconds()))


def new_id() -> str:
    """An id nobody can guess: 128 random bits."""
    return secrets.token_urlsafe(16)


def clean(text: str) -> str:
    """`text` without control characters but line ends and tabs, and with a mark where half a character was cut off.

    >>> clean("no bar\\r\\nhere\\x00")
    'no bar\\nhere'
    >>> clean("sore \\ud83d wrist") == "sore \\ufffd wrist"
    True
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    text = _SURROGATE.sub("\ufffd", text)
    return "".join(char for char in text if char in "\n\t" or unicodedata.category(char) != "Cc")


def words(text: str, what: str, longest: int = MESSAGE_MAX) -> str:
    """Clean words that are there and not too long; raises BadInput. `what` names them: "the message"."""
    text = clean(text)
    if not text.strip():
        raise BadInput(f"{what} is empty: write some words")
    if len(text) > longest:
        raise BadInput(f"{what} has {len(text)} characters and {longest} are the most: make it shorter or send two")
    return text


def known(names: list[str], most: int = 12) -> str:
    """The names as a list for a sentence.

    >>> known(["A1", "A2"]), known([])
    ('known are: A1, A2', 'none is known yet')
    """
    if not names:
        return "none is known yet"
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return f"known are: {', '.join(names[-most:])}{more}"


def _unread(text: str, fingerprint: str) -> dict[str, Any]:
    """The line out of a message that nothing could read: a coach has to, today."""
    return {
        "text": text,
        "question": {
            "wants": ["other"], "exercises": [], "limits": [], "has": [], "lacks": [], "denied": [],
            "not_understood": [text],
        },
        "verdict": {"tier": "coach", "urgency": "today", "findings": []},
        "swaps": [],
        "refused": [],
        "ask_back": None,
        "draft": {"summary": "Not read: something failed, please read it yourself.", "text": "", "urgency": "today"},
        "notice": None,
        "rulebook": fingerprint,
    }  # fmt: skip

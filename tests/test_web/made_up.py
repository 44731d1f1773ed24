"""The doors before a made-up inbox: the real inbox and archive, verbs that answer what a test has told them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from fastapi.testclient import TestClient

from assistant.answer import as_json
from assistant.inbox import Inbox
from assistant.store import Store
from assistant.values import Mistake
from assistant.web import Settings, create_app
from tests.test_inbox.made_up import COACH, Clock, Verbs, book, fill

PASSWORD = "a long made-up one"
HELP = "Stop now and call your local emergency number."


@dataclass
class House:
    """Everything behind the doors, and two callers: the coach's browser and the follower's."""

    inbox: Inbox
    verbs: Verbs
    teuvo: dict[str, Any]
    mistakes: list[Mistake]
    clock: Clock
    app: Any

    def browser(self, **headers: str) -> TestClient:
        """A browser of its own: cookies of its own; redirects are looked at, not followed."""
        return TestClient(self.app, headers={"accept": "text/html", **headers}, follow_redirects=False)

    def program(self, **headers: str) -> TestClient:
        """A program that calls the API; what fails inside comes back as an answer, as it would over the wire."""
        return TestClient(self.app, headers=headers, follow_redirects=False, raise_server_exceptions=False)

    def coach(self) -> TestClient:
        """The coach's browser, signed in."""
        browser = self.browser()
        browser.post("/sign-in", data={"name": COACH, "password": PASSWORD})
        return browser

    def says(self, text: str, item: str | None = "A1", **parts: Any) -> str:
        """Teuvo writes `text`, which the verbs read as `parts`; the message's id."""
        self.verbs.tell(text, **parts)
        self.clock.move(60)
        return self.inbox.receive(COACH, self.teuvo["id"], text, "thursday", item).id

    def another(self, name: str, text: str, **parts: Any) -> str:
        """Another follower writes; the message's id."""
        self.verbs.tell(text, **parts)
        self.clock.move(60)
        who = self.inbox.add_follower(COACH, name)
        return self.inbox.receive(COACH, who["id"], text, "thursday", "A1").id


@cache
def _filled() -> tuple[bytes, dict[str, Any]]:
    """An archive with one coach, one plan and the invented follower Teuvo: made once, copied for every test."""
    with TemporaryDirectory() as folder:
        store, rules = Store(f"sqlite:///{folder}/archive.db"), book()
        store.upgrade()
        inbox = Inbox(store, lambda: rules, Clock(), Verbs(), as_json, Verbs().tier)
        teuvo = fill(inbox)
        inbox.add_coach(COACH, "Ferry Lane", PASSWORD)
        store.close()
        return Path(folder, "archive.db").read_bytes(), teuvo


def house(folder: Path, **settings: Any) -> House:
    """A fresh archive in `folder` with one coach, one plan and the invented follower Teuvo, and the doors before it."""
    kept, teuvo = _filled()
    Path(folder, "archive.db").write_bytes(kept)
    rules, verbs, clock, mistakes = book(), Verbs(), Clock(), []
    inbox = Inbox(Store(f"sqlite:///{folder / 'archive.db'}"), lambda: rules, clock, verbs, as_json, verbs.tier)
    app = create_app(Settings(**settings), inbox=inbox, book=lambda: rules, book_mistakes=lambda: mistakes)
    return House(inbox, verbs, teuvo, mistakes, clock, app)


def words(html: str) -> str:
    """What a reader sees of a page: its text without tags, blanks drawn together."""
    without = re.sub(r"<(script|style)\b.*?</\1>|<[^>]+>", " ", html, flags=re.DOTALL)
    return " ".join(without.split())


def panel(html: str) -> str:
    """The opened message alone."""
    return re.search(r'<article class="open.*?</article>', html, re.DOTALL)[0]

"""Drafts what was only taken in, behind the doors: receipts go first, and nobody waits for the five verbs.

One thread a process. It begins when no message has come for a moment, so that a rush at the end of a session is taken
in at full speed; it never waits longer than ten seconds. A look at the inbox does not wait for it (see `intake`).
"""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable

log = logging.getLogger("assistant.inbox")


class Drafter:
    """`read(coach)` drafts what waits of one coach; `quiet_s` without a message let it begin, `latest_s` at the latest."""

    def __init__(self, read: Callable[[str], int], quiet_s: float = 0.05, latest_s: float = 10.0):
        self._read, self._quiet_s, self._latest_s = read, quiet_s, latest_s
        self._coaches: dict[str, None] = {}
        self._since_s = self._last_s = 0.0
        self._changed = threading.Condition()
        self._thread: threading.Thread | None = None

    def taken(self, coach: str) -> None:
        """A message of `coach` was taken in and waits to be drafted."""
        with self._changed:
            self._last_s = time.monotonic()
            self._since_s = self._since_s if self._coaches else self._last_s
            self._coaches[coach] = None
            if self._thread is None:  # a daemon: what a stopped process leaves is drafted at the next look
                self._thread = threading.Thread(target=self._work, name="drafter", daemon=True)
                self._thread.start()
            self._changed.notify()

    def _work(self) -> None:
        while True:
            coach = self._next()
            try:
                self._read(coach)
            except Exception as error:  # the message is kept and drafted at the next look; the thread goes on
                log.error("drafting behind the doors failed: %s", type(error).__name__)

    def _next(self) -> str:
        """The coach to draft for, when it is time."""
        with self._changed:
            while not self._coaches or (wait_s := self._wait_s()) > 0:
                self._changed.wait(wait_s if self._coaches else None)
            coach = next(iter(self._coaches))
            del self._coaches[coach]
            return coach

    def _wait_s(self) -> float:
        now_s = time.monotonic()
        return min(self._last_s + self._quiet_s, self._since_s + self._latest_s) - now_s

"""The rulebook on disk, read again when it changes; a broken one never replaces the last good one."""

from __future__ import annotations

import threading
import time
from pathlib import Path

from assistant.rulebook import Rulebook, default_rules, load
from assistant.values import Mistake, RulebookError

LOOK_EVERY_S = 2.0


class LastGood:
    """`book()` gives the last good rulebook, `mistakes()` what is wrong with the one on disk now.

    Raises RulebookError when not even the first one is whole: there is nothing to fall back to.
    """

    def __init__(self, rules: Path | None = None, look_every_s: float = LOOK_EVERY_S):
        self.root, self.every = rules or default_rules(), look_every_s
        self._seen, self._looked = _stamp(self.root), time.monotonic()
        self._book, self._mistakes = load(self.root), ()
        self._reading = threading.Lock()

    def book(self) -> Rulebook:
        """The last good rulebook."""
        self._look()
        return self._book

    def mistakes(self) -> tuple[Mistake, ...]:
        """Every mistake in the rulebook on disk; empty when it is the one in use."""
        self._look()
        return self._mistakes

    def _look(self) -> None:
        """Read the folder again if a file changed; one caller reads, the others go on with the book they have."""
        if time.monotonic() - self._looked < self.every or not self._reading.acquire(blocking=False):
            return
        try:
            self._looked, stamp = time.monotonic(), _stamp(self.root)
            if stamp != self._seen:
                self._seen = stamp
                self._book, self._mistakes = load(self.root), ()
        except RulebookError as error:
            self._mistakes = tuple(error.mistakes)
        except OSError as error:
            self._mistakes = (Mistake(str(self.root), 1, f"the folder cannot be read: {error.strerror}"),)
        finally:
            self._reading.release()


def _stamp(root: Path) -> tuple[tuple[str, int, int], ...]:
    """Name, time and size of every card file: changes when any of them does."""
    found = ((str(path), path.stat()) for path in sorted(root.rglob("*.yaml")))
    return tuple((name, stat.st_mtime_ns, stat.st_size) for name, stat in found)

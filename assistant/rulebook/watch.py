"""The rulebook on disk, read again when its files change; a broken one never takes the place of the last good one."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from pathlib import Path

from assistant.rulebook import Rulebook, default_rules, load
from assistant.values import Mistake, RulebookError

LOOK_EVERY_S = 1.0


class LiveBook:
    """Call it for the last good rulebook; `mistakes()` says what is wrong with the one on disk now.

    The first book must be whole: `RulebookError` otherwise, because there is nothing to fall back to. `clock_s` gives
    seconds that only rise; the folder is looked at again when `every_s` of them have passed. `proof` may say what else
    is wrong with a book that is to take the place of another, such as messages that cannot be answered with it.
    """

    def __init__(
        self,
        root: Path | None = None,
        clock_s: Callable[[], float] = time.monotonic,
        every_s: float = LOOK_EVERY_S,
        proof: Callable[[Rulebook], list[Mistake]] = lambda _: [],
    ):
        self.root, self._clock_s, self._every_s = Path(root or default_rules()), clock_s, every_s
        self._proof = proof
        self._reading = threading.Lock()
        self._looked_s, self._seen = clock_s(), _stamp(self.root)
        self._book = load(self.root)
        self._mistakes: list[Mistake] = []

    def __call__(self) -> Rulebook:
        """The last good rulebook."""
        self._look()
        return self._book

    def mistakes(self) -> list[Mistake]:
        """Every mistake in the rulebook on disk; empty when it is the one in use."""
        self._look()
        return list(self._mistakes)

    def _look(self) -> None:
        """One caller reads the changed folder; the others go on with the book they have."""
        if self._clock_s() - self._looked_s < self._every_s or not self._reading.acquire(blocking=False):
            return
        try:
            self._looked_s, stamp = self._clock_s(), _stamp(self.root)
            if stamp != self._seen:
                self._seen = stamp
                self._book, self._mistakes = self._proved(), []
        except RulebookError as error:
            self._mistakes = error.mistakes
        except OSError as error:  # a file that went away between the look and the reading: look again next time
            self._seen = ()
            self._mistakes = [Mistake(str(self.root), 1, "the folder cannot be read", str(error.strerror), "try again")]
        finally:
            self._reading.release()

    def _proved(self) -> Rulebook:
        book = load(self.root)
        if mistakes := self._proof(book):
            raise RulebookError(mistakes)
        return book


def _stamp(root: Path) -> tuple[tuple[str, int, int], ...]:
    """Name, time of change and size of every card file."""
    found = ((path.as_posix(), path.stat()) for path in sorted(root.rglob("*.yaml")))
    return tuple((name, stat.st_mtime_ns, stat.st_size) for name, stat in found)

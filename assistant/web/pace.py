"""How fast the doors may be knocked at: messages per follower, tries to sign in."""

from __future__ import annotations

import math
import time

from limits import RateLimitItem, parse
from limits.storage import MemoryStorage
from limits.strategies import MovingWindowRateLimiter

from assistant.web.problems import Problem
from assistant.web.settings import Settings


class Pace:
    """Counts in the memory of this process; raises `Problem("too-many")` with the seconds to wait."""

    def __init__(self, settings: Settings):
        self._limiter = MovingWindowRateLimiter(MemoryStorage())
        self._message = parse(settings.messages_per_follower)
        self._name = parse(settings.tries_per_name)
        self._address = parse(settings.tries_per_address)

    def message(self, follower: str) -> None:
        """Count one message of `follower`."""
        if not self._limiter.hit(self._message, "message", follower):
            wait = self._wait(self._message, "message", follower)
            said = ("If this is urgent, do not wait for this page: call your local emergency number. "
                    f"Otherwise wait {wait} s and send it again.")  # fmt: skip
            raise Problem("too-many", said, {"Retry-After": str(wait)})

    def sign_in(self, name: str, address: str) -> None:
        """Count one try to sign in, for the name and for the address, before the password is looked at."""
        for limit, who in ((self._name, (name.lower(), address)), (self._address, ("*", address))):
            if not self._limiter.hit(limit, "sign-in", *who):
                wait = self._wait(limit, "sign-in", *who)
                said = f"Too many tries. Wait {wait} s, then sign in again."
                raise Problem("too-many", said, {"Retry-After": str(wait)})

    def _wait(self, limit: RateLimitItem, *who: str) -> int:
        return max(1, math.ceil(self._limiter.get_window_stats(limit, *who).reset_time - time.time()))

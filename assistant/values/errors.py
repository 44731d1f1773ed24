"""What can go wrong, for users and for developers. The tree of errors:

AssistantError            anything a user may be told in one sentence
├── RulebookError         the cards in rules/ hold mistakes (all of them, not the first)
├── BadInput              a line, a form or a request that cannot be used: what, where, what to do
├── NotFound              no such message, plan, thread or follower for this coach
└── NotAllowed            signed out, wrong link, or a decision that was already made
"""

from __future__ import annotations

from dataclasses import dataclass


class AssistantError(Exception):
    """Anything a user may be told in one sentence; never shown with a traceback."""


@dataclass(frozen=True)
class Mistake:
    """One mistake in the cards: where, what is wrong, what was found, what to do."""

    file: str
    line: int
    wrong: str
    found: str = ""
    do: str = ""

    def __str__(self) -> str:
        tail = "".join(f"; {part}" for part in (self.found, self.do) if part)
        return f"{self.file}, line {self.line}: {self.wrong}{tail}"


class RulebookError(AssistantError):
    """The cards hold mistakes; `mistakes` lists every one of them."""

    def __init__(self, mistakes: list[Mistake]):
        self.mistakes = mistakes
        super().__init__("\n".join(map(str, mistakes)))


class BadInput(AssistantError):
    """Input that cannot be used: says what, where and what to do."""


class NotFound(AssistantError):
    """There is no such thing for this coach or follower."""


class NotAllowed(AssistantError):
    """The caller may not do this, or it was already done."""

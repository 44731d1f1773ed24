"""Reply cards compiled once per book, in a sandbox: plain text; a missing field is an error, never an empty word."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from jinja2 import StrictUndefined, Template
from jinja2.sandbox import ImmutableSandboxedEnvironment

from assistant.rulebook import Rulebook

_compiled: WeakKeyDictionary[Rulebook, dict[str, Template]] = WeakKeyDictionary()


def templates(book: Rulebook) -> dict[str, Template]:
    """The compiled templates of `book` by reply id."""
    if book not in _compiled:
        plain = ImmutableSandboxedEnvironment(autoescape=False, undefined=StrictUndefined)
        _compiled[book] = {card.id: plain.from_string(card.text.strip()) for card in book.replies.values()}
    return _compiled[book]

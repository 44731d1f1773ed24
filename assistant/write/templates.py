"""Reply cards compiled once per book, in a sandbox: plain text; a missing field is an error, never an empty word."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from jinja2 import StrictUndefined, Template
from jinja2.sandbox import ImmutableSandboxedEnvironment

from assistant.rulebook import Rulebook

_SANDBOX = ImmutableSandboxedEnvironment(autoescape=False, undefined=StrictUndefined)
_compiled: WeakKeyDictionary[Rulebook, dict[str, Template]] = WeakKeyDictionary()


def template(reply: str, book: Rulebook) -> Template:
    """The template of the card `reply`, compiled on first use; `assistant check` has compiled every one before."""
    known = _compiled.setdefault(book, {})
    if reply not in known:
        known[reply] = _SANDBOX.from_string(book.replies[reply].text.strip())
    return known[reply]

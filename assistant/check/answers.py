"""Whether the five verbs can work with a book at all: a card or a number they need may be gone, a template may fail."""

from __future__ import annotations

from assistant.answer import answer
from assistant.check.examples import session
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Example
from assistant.values import Message, Mistake

_KINDS = ("limit", "sign", "want", "place")  # their examples are whole messages
_SAMPLE = 120


def unanswered(book: Rulebook, sample: int = _SAMPLE) -> list[Mistake]:
    """One mistake for every different way in which answering fails; at most `sample` examples are tried.

    The examples are taken evenly from the whole book, so that every kind of message is among them."""
    plan = session(book)
    failed: dict[str, Mistake] = {}
    for example in _spread([one for one in book.examples if one.kind in _KINDS], sample):
        try:
            answer(Message(example.text, plan), book)
        except Exception as error:  # whatever it is: a coach must hear of it before a follower does
            failed.setdefault(f"{type(error).__name__} {error}", _mistake(example, error))
    return list(failed.values())


def _spread(examples: list[Example], most: int) -> list[Example]:
    step = max(1, -(-len(examples) // most))
    return examples[::step]


def _mistake(example: Example, error: Exception) -> Mistake:
    file, _, line = example.at.rpartition(":")
    wrong = f"no answer can be written to the example '{example.text}'"
    if isinstance(error, KeyError):
        found, do = (
            f"{error} is needed and not in the book",
            "put back the card or the number that was deleted or renamed",
        )
    else:
        found, do = (
            f"{type(error).__name__}: {error}",
            "take back the last change, or tell whoever looks after the program",
        )
    return Mistake(file, int(line), wrong, found, do)

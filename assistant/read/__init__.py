"""A message → a Question: which exercises it is about, what stands in the way, what is there, what is wanted.

Comes in: the prepared text, the message with its plan, slot, profile and thread, and the book. Goes out: a `Question`
whose every part points at the follower's words. Where the reading is unsure it says which question to ask back.
"""

from __future__ import annotations

from assistant.read.one import one
from assistant.read.thread import Before, after_coach, after_follower
from assistant.rulebook import Rulebook
from assistant.values import Message, Question
from assistant.words import Text, prepare

__all__ = ["read"]
_TURNS = 12  # of a long thread the newest are read


def read(text: Text, message: Message, book: Rulebook) -> Question:
    """What `message` asks; `text` is its prepared text.

    >>> from assistant.rulebook import load
    >>> book = load()
    >>> message = Message("rings but no bar, what instead of chin ups?")
    >>> question = read(prepare(message.text, book), message, book)
    >>> [asked.id for asked in question.exercises], [kit.id for kit in question.lacks], question.wants
    (['chin-up'], ['overhead-bar'], ('swap',))
    """
    before = Before()
    for turn in message.thread[-_TURNS:]:
        if turn.by == "coach":
            before = after_coach(before, turn, book)
        else:
            earlier = one(prepare(turn.text, book), message.plan, turn.item, message.profile, before, book)
            before = after_follower(before, earlier, turn.item)
    return one(text, message.plan, message.item, message.profile, before, book)

"""The five verbs in order: read → screen → search → dose → write. A pure function of message and rulebook."""

from __future__ import annotations

from dataclasses import replace

from assistant.answer.line import as_json, clean_text, message_from_line
from assistant.dose import dose
from assistant.read import read
from assistant.rulebook import Rulebook
from assistant.screen import screen
from assistant.search import search
from assistant.values import Answer, Message, Question, Tier
from assistant.words import prepare
from assistant.write import write

__all__ = ["answer", "as_json", "clean_text", "message_from_line", "tier"]
_SEEN_FIRST = ("emergency", "clinician")  # nobody is offered an exercise before a person has looked


def answer(message: Message, book: Rulebook, prefer: dict[str, str] | None = None) -> Answer:
    """What the book makes of `message`: question, verdict, options with doses, and a draft for the coach.

    >>> from assistant.rulebook import load
    >>> answer(Message("no bar here, what instead of chin ups?"), load()).question.exercises[0].id
    'chin-up'
    """
    text = prepare(message.text, book)
    try:
        question = read(text, message, book)
    except Exception:  # a mistake in reading must never cost someone the notice
        question = Question(("other",), not_understood=(message.text,))
        if screen(text, question, book, message.profile).tier not in _SEEN_FIRST:
            raise
    verdict = screen(text, question, book, message.profile)
    swaps, refused = (), ()
    if verdict.tier not in _SEEN_FIRST and question.ask_back is None:
        swaps, refused = search(question, message, book, prefer)
        swaps = tuple(replace(swap, dose=dose(swap, question, message, book)) for swap in swaps)
    draft = write(question, verdict, swaps, refused, message, book)
    return Answer(message, question, verdict, swaps, refused, draft, book.fingerprint)


def tier(text: str, book: Rulebook) -> Tier:
    """The tier of the words alone, before anything else is read: what a receipt must not wait without.

    >>> from assistant.rulebook import load
    >>> tier("crushing pressure on my chest", load()), tier("no bar here", load())
    ('emergency', 'clear')
    """
    return screen(prepare(text, book), None, book).tier

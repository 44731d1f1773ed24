"""Effort in plain words: how many clean reps were left, where somebody says so beside his number."""

from __future__ import annotations

import re

from assistant.rulebook import Rulebook


def left_said(text: str, book: Rulebook) -> int:
    """Clean reps left as said in `text` (phrases and numbers: the card `effort-words`), 0 where nothing is said.

    Where several are said the smallest counts.

    >>> from assistant.rulebook import load
    >>> left_said("did 8 and could do a few more", load()), left_said("did 8, nothing left", load())
    (3, 0)
    """
    words = " ".join(re.findall(r"[\w]+", text.lower().replace("’", "'").replace("'", "")))
    phrases = book.doserules["effort-words"].numbers
    return min((int(left) for phrase, left in phrases.items() if re.search(rf"\b{phrase}\b", words)), default=0)

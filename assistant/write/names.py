"""Names in the middle of a sentence."""

from __future__ import annotations

import re
from collections import Counter
from weakref import WeakKeyDictionary

from assistant.rulebook import Rulebook

_names: WeakKeyDictionary[Rulebook, dict[str, str]] = WeakKeyDictionary()


def lower_first(name: str) -> str:
    """`name` as it stands inside a sentence: small, except where the first letter is a shape or an abbreviation.

    >>> lower_first("Forearm plank"), lower_first("L-sit on the floor"), lower_first("V-up"), lower_first("W squeeze")
    ('forearm plank', 'L-sit on the floor', 'V-up', 'W squeeze')
    """
    return name if re.match(r"[A-Z](?:[A-Z]|[-\s]|$)", name) else name[:1].lower() + name[1:]


def capital(text: str) -> str:
    """`text` with a capital first letter, the rest untouched."""
    return text[:1].upper() + text[1:]


def ended(text: str) -> str:
    """`text` with a full stop at its end."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def exercise_names(book: Rulebook) -> dict[str, str]:
    """Exercise id -> name inside a sentence; what stands in brackets is left out where the rest is name enough.

    A comma would break the sentence: `Bench dip, knees bent` becomes `bench dip (knees bent)`."""
    if book not in _names:
        full = {card.id: re.sub(r"^([^,(]+), (.+)$", r"\1 (\2)", card.name) for card in book.exercises.values()}
        short = {id_: re.sub(r"\s*\([^)]*\)$", "", book.exercises[id_].name) for id_ in full}
        times = Counter(short.values())
        names = {id_: name if times[name] == 1 and "," not in name else full[id_] for id_, name in short.items()}
        _names[book] = {id_: lower_first(name) for id_, name in names.items()}
    return _names[book]

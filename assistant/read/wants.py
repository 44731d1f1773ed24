"""What an answer must give: want cards, and what follows where nothing is asked.

A limit without a question wants a swap (or what the limit's card says), a report is feedback, the rest is other.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.rulebook import Rulebook
from assistant.values import Kit, Limit, Reason
from assistant.words import Text, match
from assistant.words.frames import Facts

_QUIET = ("feedback", "other")  # said beside a question they are no want
_STRENGTH = ("strength", "hold")
_ANSWERS = {"swap", "easier", "harder", "whole-session"}


def wants(
    text: Text, book: Rulebook, facts: Facts, limits: Sequence[Limit], lacks: Sequence[Kit], before: Sequence[str] = ()
) -> tuple[tuple[str, ...], tuple[Reason, ...]]:
    """The wants of `text`, the main one first, with the cards that say so; `before` = wants a reply still stands for."""
    met = [(card, found[0]) for card in book.wants.values() if (found := match(card.when, text, facts))]
    asks = sorted((m for m in met if m[0].id not in _QUIET), key=lambda m: (-m[0].weight, m[1].start))
    if asks:
        ids = _by_limits([card.id for card, _ in asks], limits, book)
        return tuple(dict.fromkeys(ids)), tuple(card.reason(found.words) for card, found in asks)
    said = [(card, found) for card, found in met if card.id in _QUIET]
    because = tuple(card.reason(found.words) for card, found in said)
    if limits or lacks:
        return (_of_limits(limits, book),), because
    if before:
        return tuple(before), because
    order = sorted((card.id for card, _ in said), key=_QUIET.index)
    return (order[0] if order else "other",), because


def _of_limits(limits: Sequence[Limit], book: Rulebook) -> str:
    """What a limit wants by itself: as its card says, a swap where one of several says nothing."""
    said = [book.limits[limit.id].wants for limit in limits if limit.id in book.limits]
    if not said or not all(said):
        return "swap"
    return said[0]


def _by_limits(ids: list[str], limits: Sequence[Limit], book: Rulebook) -> list[str]:
    """A swap asked for where only strength is in the way is a step down; a limit that asks for the session comes first."""
    cards = [book.limits[limit.id] for limit in limits if limit.id in book.limits]
    if "whole-session" not in ids and any(card.wants == "whole-session" for card in cards):
        ids = ["whole-session", *ids]
    stated = {limit.kind for limit in limits}
    down = any(card.wants == "easier" for card in cards)
    if "swap" in ids and stated and stated <= set(_STRENGTH) and down:
        ids = ["easier" if want == "swap" else want for want in ids]
    if "easier" in ids and "harder" in ids:
        ids = [want for want in ids if want != ("harder" if down else "easier")]
    return ids

"""A group of slots with a description beside it: "the pulling one of the first pair", "the stretch where I lie".

The group says where to look, the description which of its slots is meant; so does a bare "first" that follows a group.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.read.looks import Described, led_on, spoken_of
from assistant.read.places import Pointed
from assistant.rulebook import Rulebook
from assistant.words import Text

_REACH = 6  # words before a group that may describe one of it: "the pulling exercise of the first pair"
_OF_THEM = 5  # words between a group and "the first of them"


def narrowed(text: Text, pointed: list[Pointed], book: Rulebook) -> tuple[list[Pointed], list[Described]]:
    """The places left, and the slots of groups that are settled by a description beside them."""
    left, settled = [], []
    for n, place in enumerate(pointed):
        if place.kind not in ("group", "part") or len(place.slots) < 2:
            left.append(place)
            continue
        after = pointed[n + 1] if n + 1 < len(pointed) else None
        if after and _of_them(place, after, text):
            nth = after.nth
            pointed[n + 1] = replace(
                after, slots=(place.slots[nth],) if -len(place.slots) <= nth < len(place.slots) else ()
            )
            continue
        if after and after.kind == "partner":
            continue
        found = _beside(text, place, book)
        if found:
            settled.append(found)
        else:
            left.append(place)
    return left, settled


def _of_them(group: Pointed, after: Pointed, text: Text) -> bool:
    """Whether "the first one" counts within the group named just before: "the A's: the first of them"."""
    if after.kind != "nth" or after.nth is None:
        return False
    near = range(group.last + 1, min(after.last + 4, len(text.words)))
    said = any(h.first in near for h in text.find("place-of-them")) or after.nth in (0, 1)
    return said and after.first - group.last <= _OF_THEM + 8


def _to_noun(text: Text, last: int) -> int:
    """On to the noun of "the second pair, the leg one", where one follows soon."""
    words, opens = text.words, {h.first for h in text.find("place-opening")}
    nouns = {h.first for h in text.find("place-noun")}
    for n in range(last + 1, min(last + 1 + _REACH, len(words))):
        if words[n].gap >= 3:
            break
        if n in nouns and opens & set(range(last + 1, n)):
            return n
    return last


def _beside(text: Text, place: Pointed, book: Rulebook) -> Described | None:
    """The one slot of a group that the words just before it or the clause led on from it describe."""
    words = text.words
    first = place.first
    while first > 0 and place.first - first < _REACH and words[first].gap < 2:
        first -= 1
    last = _to_noun(text, led_on(text, place.last))
    if any(h.first in range(first, place.last + 1) for h in text.find("place-both")):
        return None
    spans = (
        ((place.first, last), (first, place.last), (first, last)) if place.kind == "group" else ((place.first, last),)
    )
    for span in spans:
        if span != (place.first, place.last) and (found := spoken_of(text, *span, place.slots, book)):
            return found
    return None

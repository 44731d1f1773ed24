"""From missing things to limits: the limit whose card lists the thing, else `no-<thing>`.

A missing thing is no limit where the follower has another that serves the same limit ("a kettlebell, no dumbbells").
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from assistant.read.kit import Found
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Limit as LimitCard
from assistant.values import Kit, Limit, Profile

_EVERYTHING = "all-equipment"


def with_missing(
    stated: Sequence[Limit], found: Found, asked: Iterable[str], profile: Profile, book: Rulebook
) -> tuple[list[Limit], Found]:
    """The limits with those that follow from missing kit, and the kit with what those limits say is missing."""
    found = _implied(found, asked, book)
    lacked = {k.id for k in found.lacks}
    said = {k.id for k in found.has}
    there = said | (set(profile.has) - lacked)
    limits = [limit for limit in stated if not _served(limit, said, book)]
    for lack in found.lacks:
        card = limit_card(lack.id, book)
        if set(card.without) & there if card else lack.id in found.refused:
            continue
        if card is None and any(_is_aid(lack.id, old, book) for old in limits):
            continue
        limit = _limit(lack, card)
        if not any(
            old.id == limit.id or (card is None or old.kind == "fear") and _overlap(old, lack) for old in limits
        ):
            limits.append(limit)
    return sorted(limits, key=lambda one: (one.start, one.id)), _with_said_gone(limits, found, book)


def limit_card(thing: str, book: Rulebook) -> LimitCard | None:
    """The limit that follows when `thing` is missing, or None where it has none of its own."""
    named = book.equipment[thing].makes_limit if thing in book.equipment else ""
    if named in book.limits:
        return book.limits[named]
    return next((card for card in book.limits.values() if thing in card.without), None)


def _limit(lack: Kit, card: LimitCard | None) -> Limit:
    because = (card.reason(lack.words),) if card else ()
    return Limit(
        card.id if card else f"no-{lack.id}", "equipment", lack.id, lack.words, lack.start, lack.end, None, because
    )


def _is_aid(thing: str, limit: Limit, book: Rulebook) -> bool:
    """Whether a stated limit already counts on the thing being there: no mat is why the floor is too hard."""
    aid = book.limits[limit.id].stays_with if limit.id in book.limits else ""
    return any(name.lower() in aid.lower() for name in (*book.equipment[thing].called, thing))


def _served(limit: Limit, said: set[str], book: Rulebook) -> bool:
    """Whether a stated limit is none after all: another thing of the same kind is said to be there."""
    without = set(book.limits[limit.id].without) if limit.id in book.limits else set()
    return limit.kind == "equipment" and len(without) > 1 and bool(without & said)


def _overlap(limit: Limit, lack: Kit) -> bool:
    return limit.start < lack.end and lack.start < limit.end


def _with_said_gone(limits: Iterable[Limit], found: Found, book: Rulebook) -> Found:
    """ "nothing to hang from" lacks a bar: the one thing a stated limit says is missing."""
    known = {k.id for k in (*found.has, *found.lacks)}
    more = []
    for limit in limits:
        without = book.limits[limit.id].without if limit.id in book.limits and limit.kind == "equipment" else []
        if len(without) == 1 and without[0] != _EVERYTHING and without[0] not in known:
            more.append(Kit(without[0], limit.words, limit.start, limit.end))
    return replace(found, lacks=tuple(sorted((*found.lacks, *more), key=lambda k: k.start)))


def _implied(found: Found, asked: Iterable[str], book: Rulebook) -> Found:
    """ "all i have is a sofa", about dips: what the exercise needs and the list does not hold is missing."""
    if not found.only:
        return found
    there = {k.id for k in found.has} | {e.id for e in book.equipment.values() if e.household}
    there |= {served for thing in list(there) if thing in book.equipment for served in book.equipment[thing].serves_as}
    last = found.has[-1]
    more = {}
    for exercise in asked:
        for line in book.exercises[exercise].needs:
            options = line.split(" or ")
            if not there & set(options):
                more.setdefault(options[0], Kit(options[0], last.words, last.start, last.end))
    return replace(found, lacks=(*found.lacks, *more.values()))

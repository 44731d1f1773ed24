"""The things a message mentions: equipment, plain words for several things, things never used as kit.

A mention gives what it may mean; whether it is there or missing is for `kit` to say. Words inside an exercise name
("ring push-ups") or a look-alike phrase ("ring finger") are no mention.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.words import Hit, Text, fold, split_phrase, stem
from assistant.words.pieces import singular

_RANK = {"never": 0, "group": 1, "group-one": 2, "thing": 3}
_SHORT = 3  # letters; "can" is no "cans", "tin" no "tins": short names count only as they are written


@dataclass(frozen=True)
class Mention:
    """A thing mentioned: the equipment ids it stands for, its words, and the never card it falls under."""

    ids: tuple[str, ...]
    first: int
    last: int
    one_of: bool = False  # one of `ids`, not all of them
    never: str | None = None
    itself: bool = False  # the words name the thing itself as unfit ("glass table"), not something used in its place


def mentions(text: Text, book: Rulebook, covered: Iterable[tuple[int, int]]) -> list[Mention]:
    """The things mentioned outside the word spans `covered`, in order, the longest of overlapping ones."""
    blocked = [*covered, *((h.first, h.last) for h in text.find("other-kit"))]
    hits = [h for family in _RANK for h in text.find(family) if family != "thing" or _as_written(h, book)]
    hits = [h for h in hits if not any(first <= h.last and h.first <= last for first, last in blocked)]
    chosen: list[Hit] = []
    for hit in sorted(hits, key=lambda h: (h.first - h.last, _RANK[h.family], _slip(h, book))):
        if not any(c.first <= hit.last and hit.first <= c.last for c in chosen):
            chosen.append(hit)
    return [_mention(hit, book) for hit in sorted(chosen, key=lambda h: h.first)]


def _mention(hit: Hit, book: Rulebook) -> Mention:
    if hit.family == "thing":
        return Mention((hit.name,), hit.first, hit.last)
    if hit.family == "never":
        card = book.wordclasses.get(f"taken-for/{hit.name}")
        ids = tuple(card.stands_for) if card else ()
        typed = {stem(word) for word in split_phrase(hit.words)}
        itself = any(stem(part) in typed for thing in ids for part in thing.split("-"))
        return Mention(ids, hit.first, hit.last, True, hit.name, itself)
    ids = tuple(book.wordclasses[hit.cls].stands_for)
    return Mention(ids, hit.first, hit.last, one_of=hit.family == "group-one")


def _as_written(hit: Hit, book: Rulebook) -> bool:
    """Whether the words stand on the card but for a plural; other endings ("hooking") are other words."""
    typed = split_phrase(hit.words)
    for spelling in _spellings(hit, book):
        bare = [singular(w) for w in spelling]
        if typed == spelling or (max(map(len, bare)) > _SHORT and [singular(w) for w in typed] == bare):
            return True
    return len(typed) > 1 or len(fold(hit.words)) > _SHORT + 2 and not _plain_form(hit, book)


def _plain_form(hit: Hit, book: Rulebook) -> bool:
    """Whether the word shares only its stem with the card: another form of the same verb or noun."""
    return any(len(s) == 1 and s[0][:_SHORT] == fold(hit.words)[:_SHORT] for s in _spellings(hit, book))


def _slip(hit: Hit, book: Rulebook) -> bool:
    return hit.family == "thing" and split_phrase(hit.words) not in _spellings(hit, book)


def _spellings(hit: Hit, book: Rulebook) -> list[tuple[str, ...]]:
    card = book.equipment[hit.name]
    return [split_phrase(text.split("(")[0]) for text in (card.name, *card.called)]

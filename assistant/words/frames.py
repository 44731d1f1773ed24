"""Frames over word classes: `{part: wrist, sensation: sore}` is met where both classes stand in one thought.

A slot names a family of classes and one name, a list of names, or `any`. Besides: `phrase` (literal words), `not` (a frame
whose slots must be absent), `within` (clause, sentence, message), and the slots of `FACTS`, which the caller answers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Any, Generic, TypeVar

if TYPE_CHECKING:
    from assistant.words import Hit, Text

FACTS = ("asked", "lacks", "has")
CONTROL = ("not", "within", *FACTS)
_GLUE = {"and", "or", "nor", "my", "the", "both", "left", "right", "n", "your", "also"}
_MOST = 60  # combinations looked at per frame and clause; a message is not a riddle
Facts = Callable[[str, Any], bool]
Holder = TypeVar("Holder")


@dataclass(frozen=True)
class Match:
    """A frame met: its hits, the words they span, the scopes over any of them."""

    frame: int
    hits: tuple[Hit, ...]
    start: int
    end: int
    words: str
    scopes: frozenset[str]
    clause: int

    def hit(self, family: str) -> Hit | None:
        """The hit that filled the slot `family`."""
        return next((hit for hit in self.hits if hit.family == family), None)


def match(frames: list[dict[str, Any]], text: Text, facts: Facts | None = None) -> list[Match]:
    """Every place where one of `frames` is met in `text`, in order; `facts(slot, value)` answers the FACTS slots.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> [m.words for m in match([{"part": "wrist", "phrase": "sore"}], prepare("sore wrist", load()))]
    []
    """
    return _in_order(frames, range(len(frames)), text, facts)


class FrameIndex(Generic[Holder]):
    """The frames of many cards by the classes without which they cannot be met, so that a text tries only those.

    `frames_of` gives the frames of a card; the cards keep their order."""

    def __init__(self, cards: Iterable[Holder], frames_of: Callable[[Holder], list[dict[str, Any]]]):
        self._cards = list(cards)
        self._frames = [frames_of(card) for card in self._cards]
        self._always: list[tuple[int, int]] = []
        self._needing: dict[str, list[tuple[int, int]]] = {}
        for place, frames in enumerate(self._frames):
            for number, frame in enumerate(frames):
                slots = [keys_of(family, value) for family, value in frame.items() if family not in CONTROL]
                if not slots:
                    self._always.append((place, number))
                for key in min(slots, key=_commonness, default=()):
                    self._needing.setdefault(key, []).append((place, number))

    def met(self, text: Text, facts: Facts | None = None) -> Iterator[tuple[Holder, list[Match]]]:
        """Every card with a frame met in `text`, in the order of the cards, each with its matches in order."""
        tried: dict[int, set[int]] = {}
        for key in text.by_class.keys() & self._needing.keys():
            for place, number in self._needing[key]:
                tried.setdefault(place, set()).add(number)
        for place, number in self._always:
            tried.setdefault(place, set()).add(number)
        for place in sorted(tried):
            found = _in_order(self._frames[place], sorted(tried[place]), text, facts)
            if found:
                yield self._cards[place], found


def keys_of(family: str, value: Any) -> tuple[str, ...]:
    """The classes that may fill one slot; of `any` the whole family.

    >>> keys_of("part", ["wrist", "hand"]), keys_of("part", "any")
    (('part/wrist', 'part/hand'), ('part',))
    """
    names = [value] if isinstance(value, str) else value
    return (family,) if "any" in names else tuple(f"{family}/{name}" for name in names)


def _commonness(keys: tuple[str, ...]) -> tuple[bool, bool, int]:
    """How often a slot is filled in plain messages, roughly: set phrases seldom, whole families often."""
    return not keys[0].startswith("phrase/"), "/" not in keys[0], len(keys)


def _in_order(frames, numbers: Iterable[int], text: Text, facts: Facts | None) -> list[Match]:
    found: list[Match] = []
    classes = text.by_class
    for number in numbers:
        frame = frames[number]
        if any(family not in classes for family in frame if family not in CONTROL):
            continue
        if not all(facts is not None and facts(key, frame[key]) for key in FACTS if key in frame):
            continue
        slots = {key: value for key, value in frame.items() if key not in CONTROL}
        found += _met(number, frame, slots, text)
    return sorted(found, key=lambda m: (m.start, m.end)) if len(found) > 1 else found


def candidates(family: str, value: Any, text: Text) -> list[Hit]:
    """The hits that may fill one slot."""
    return [hit for key in keys_of(family, value) for hit in text.find(key)]


def _met(number: int, frame: dict[str, Any], slots: dict[str, Any], text: Text) -> list[Match]:
    found = {family: candidates(family, value, text) for family, value in slots.items()}
    if not slots or not all(found.values()):
        return []
    within = frame.get("within", "clause")
    results: list[Match] = []
    for group in _groups(found, slots, text, within):
        for hits in list(product(*group))[:_MOST]:
            if not _together(hits, text, within) or _absent_broken(frame.get("not"), hits, text, within):
                continue
            results.append(_as_match(number, hits, text))
    return _distinct(results)


def _groups(found, slots, text: Text, within: str) -> Iterable[list[list[Hit]]]:
    """Per window the candidates of each slot, borrowed from the neighbouring clause where the family is absent."""
    if within == "message":
        yield list(found.values())
        return
    words = text.words
    if within == "sentence":
        for sentence in sorted({words[h.first].sentence for hits in found.values() for h in hits}):
            yield [[h for h in hits if words[h.first].sentence == sentence] for hits in found.values()]
        return
    for clause in sorted({h.clause for hits in found.values() for h in hits}):
        group = []
        for family, hits in found.items():
            here = [h for h in hits if h.clause == clause]
            if not here and not any(h.clause == clause for h in text.find(family)):
                here = _borrowed(hits, clause, slots, text)
            group.append(here)
        if all(group) and any(h.clause == clause for hits in group for h in hits):
            yield group


def _borrowed(hits: list[Hit], clause: int, slots, text: Text) -> list[Hit]:
    """Hits of the clause before, else after; not where that clause has its own filler of another slot."""
    here = [family for family in slots if any(h.clause == clause for h in text.find(family))]
    for other in (clause - 1, clause + 1):
        lent = [h for h in hits if h.clause == other]
        if lent and not any(h.clause == other for family in here for h in text.find(family)):
            return lent
    return []


def _together(hits: tuple[Hit, ...], text: Text, within: str) -> bool:
    """Of several body parts in a clause a word belongs to the nearest one (or to parts joined with it by `and`)."""
    part = next((h for h in hits if h.family == "part"), None)
    if part is None or within == "message":
        return True
    rivals = [h for h in text.find("part") if h.clause == part.clause and h.first != part.first]
    joined = _joined(part, rivals, text)
    for hit in hits:
        if hit is part or hit.clause != part.clause or hit.first <= part.first <= hit.last:
            continue
        own = min(_distance(hit, mate) for mate in (part, *joined))
        if any(_distance(hit, rival) < own for rival in rivals if rival not in joined):
            return False
    return True


def _joined(part: Hit, rivals: list[Hit], text: Text) -> list[Hit]:
    """Parts of the same list as `part`: nothing but joining words between them."""
    result = []
    for rival in rivals:
        first, last = sorted((part, rival), key=lambda h: h.first)
        between = range(first.last + 1, last.first)
        if all(text.words[n].norm in _GLUE or any(r.first <= n <= r.last for r in rivals) for n in between):
            result.append(rival)
    return result


def _distance(one: Hit, other: Hit) -> int:
    return max(other.first - one.last, one.first - other.last, 0)


def _absent_broken(absent: dict[str, Any] | None, hits: tuple[Hit, ...], text: Text, within: str) -> bool:
    """Whether a class that must be absent stands (undenied) in the same window."""
    if not absent:
        return False
    clauses = {hit.clause for hit in hits}
    sentences = {text.words[hit.first].sentence for hit in hits}
    for family, value in absent.items():
        for hit in candidates(family, value, text):
            if "denied" in hit.scopes:
                continue
            same = hit.clause in clauses if within == "clause" else text.words[hit.first].sentence in sentences
            if same or within == "message":
                return True
    return False


def _as_match(number: int, hits: tuple[Hit, ...], text: Text) -> Match:
    start, end = min(h.start for h in hits), max(h.end for h in hits)
    scopes = frozenset().union(*(h.scopes for h in hits))
    return Match(number, hits, start, end, text.raw[start:end], scopes, hits[0].clause)


def _distinct(results: list[Match]) -> list[Match]:
    """One match per set of places: the shortest span wins where the same first hit is used again."""
    best: dict[tuple, Match] = {}
    for item in results:
        key = (item.hits[0].first, item.scopes)
        if key not in best or item.end - item.start < best[key].end - best[key].start:
            best[key] = item
    return list(best.values())

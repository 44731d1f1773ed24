"""Words → limits: what stands in the follower's way now, and what he says is not there.

A limit card's frames say how it is typed; scope says whether it holds. Denied and "fine" become `Denied`, what is past,
supposed or another person's becomes nothing, and a limit that is stated anywhere is never listed as denied.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.rulebook import cards as c
from assistant.values import Denied, Limit
from assistant.words import Match, Text, match
from assistant.words.frames import Facts

_NOT_HIS_OR_NOT_NOW = frozenset({"over", "other-person", "what-if", "figure"})
_NEGATING = ("denied", "over")
_PLACES = ("part", "position", "exercise", "limb")  # what a cue like "fine" points at; the state is another hit


@dataclass(frozen=True)
class _Reading:
    """One card met at one place. `weight` = how many slots of its frame were filled, facts included."""

    card: c.Limit
    match: Match
    weight: int
    scopes: frozenset[str]

    @property
    def stands(self) -> bool:
        return not self.scopes & (_NOT_HIS_OR_NOT_NOW | {"denied"})

    @property
    def denied(self) -> bool:
        return "denied" in self.scopes and not self.scopes & _NOT_HIS_OR_NOT_NOW


def limits(text: Text, book: Rulebook, facts: Facts | None = None) -> tuple[list[Limit], list[Denied]]:
    """The limits stated in `text` and those denied, both in order of mention; `facts` answers `asked:` slots of frames.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> book = load()
    >>> stated, denied = limits(prepare("wrists are fine but my elbow hurts", book), book)
    >>> [limit.id for limit in stated], [limit.id for limit in denied]
    (['elbow-sore'], ['wrist-sore'])
    """
    readings = [reading for card in book.limits.values() for reading in _readings(card, text, facts)]
    stated = _outweighed([reading for reading in readings if reading.stands])
    denied = _outweighed([reading for reading in readings if reading.denied])
    spoken = {reading.card.id for reading in stated}
    said = [_limit(reading, text) for reading in _best(stated)]
    gone = [_denial(reading.card, reading.match) for reading in _best(denied)]
    gone += [_denial(card, met) for card in book.limits.values() for met in _denials(card, text, facts)]
    gone = {item.id: item for item in reversed(gone) if item.id not in spoken}
    return sorted(said, key=lambda x: (x.start, x.id)), sorted(gone.values(), key=lambda x: (x.start, x.id))


def _readings(card: c.Limit, text: Text, facts: Facts | None) -> list[_Reading]:
    result = []
    for met in match(card.when, text, facts):
        weight = len(card.when[met.frame].keys() - {"not", "within"})
        result.append(_Reading(card, met, weight, _scopes(met, text)))
    return result


def _scopes(met: Match, text: Text) -> frozenset[str]:
    """The scopes over a match, without a negation that is one of its own words ("can't keep my feet up")."""
    own = any(
        cue.card.means in _NEGATING and hit.first <= cue.first and cue.last <= hit.last
        for hit in met.hits
        for cue in text.cues
    )
    return met.scopes - set(_NEGATING) if own else met.scopes


def _denials(card: c.Limit, text: Text, facts: Facts | None) -> list[Match]:
    """Where the card's `denied_when` is met by the follower himself, the state itself not taken back ("not fine")."""
    return [
        met
        for met in match(card.denied_when, text, facts)
        if not met.scopes & {"other-person", "what-if"}
        and not any(hit.scopes & set(_NEGATING) for hit in met.hits if hit.family not in _PLACES)
    ]


def _outweighed(readings: list[_Reading]) -> list[_Reading]:
    """Without the readings that give way to one with more of its words met on the same spot."""
    return [
        reading
        for reading in readings
        if not any(
            other.card.id in reading.card.gives_way_to
            and other.weight > reading.weight
            and {hit.first for hit in other.match.hits} & {hit.first for hit in reading.match.hits}
            for other in readings
        )
    ]


def _best(readings: list[_Reading]) -> list[_Reading]:
    """One reading a card: the one with most of its slots met, then the first."""
    best: dict[str, _Reading] = {}
    for reading in sorted(readings, key=lambda r: (-r.weight, r.match.start, r.match.end)):
        best.setdefault(reading.card.id, reading)
    return list(best.values())


def _limit(reading: _Reading, text: Text) -> Limit:
    card, met = reading.card, reading.match
    what = card.without[0] if card.kind == "equipment" and card.without else None
    reason = card.reason(met.words)
    return Limit(card.id, card.kind, what, met.words, met.start, met.end, _about(met, text), (reason,))


def _denial(card: c.Limit, met: Match) -> Denied:
    return Denied(card.id, met.words, met.start, met.end)


def _about(met: Match, text: Text) -> str | None:
    """The exercise a match is about: one of its own hits, else the nearest in its clause, else the nearest of all."""
    names = text.find("exercise")
    own = [name for name in names if name in met.hits] or [name for name in names if name.clause == met.clause] or names
    if not own:
        return None
    return min(own, key=lambda name: max(name.start - met.end, met.start - name.end, 0)).name

"""Words → limits: what stands in the follower's way now, and what he says is not there.

A limit card's frames say how it is typed; scope says whether it holds. Denied and "fine" become `Denied`, what is past,
supposed or another person's becomes nothing, and a limit that is stated anywhere is never listed as denied.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.read.bounds import belongs_together, scattered
from assistant.read.carried import Settled, carried, carried_denials, later_thought, withdrawn
from assistant.read.counted import counted
from assistant.read.standing import answered_no, called, ended, supposed, unsaid
from assistant.rulebook import Rulebook
from assistant.rulebook import cards as c
from assistant.values import Denied, Limit
from assistant.words import Hit, Match, Text
from assistant.words.frames import Facts
from assistant.words.lexicon import lexicon
from assistant.words.scope import CueHit

# A figure of speech is no sign for the screen, but "my wrist is killing me" stays a sore wrist for the coach.
_NOT_HIS_OR_NOT_NOW = frozenset({"over", "other-person", "what-if"})
_NEGATING = ("denied", "over")
_FELT = ("fear", "balance", "skin", "other")  # what may be gone without a body part in the sentence
_POINTS = 4  # words between "that" and "is gone"
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
        return bool(self.scopes & {"denied", "ended"}) and not self.scopes & (
            _NOT_HIS_OR_NOT_NOW - {"over"} | self._past
        )

    @property
    def _past(self) -> set[str]:
        return set() if "ended" in self.scopes else {"over"}


_OUTSIDE = ("space", "noise", "time", "equipment")
_SUPPOSED = (*_OUTSIDE, "skin")  # of a joint "if my wrists hurt, what would you do" is asked out of need
_DENIABLE = (
    "pain",
    "mobility",
    "skin",
    "fear",
    "balance",
    "strength",
    "hold",
    "other",
)  # a person's own; not a room's or a day's


def limits(text: Text, book: Rulebook, facts: Facts | None = None) -> tuple[list[Limit], list[Denied]]:
    """The limits stated in `text` and those denied, both in order of mention; `facts` answers `asked:` slots of frames.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> book = load()
    >>> stated, denied = limits(prepare("wrists are fine but my elbow hurts", book), book)
    >>> [limit.id for limit in stated], [limit.id for limit in denied]
    (['elbow-sore'], ['wrist-sore'])
    """
    lex = lexicon(book)
    readings = [r for card, found in lex.limits.met(text, facts) for r in _readings(card, found, text)]
    readings += [_Reading(card, met, 2, frozenset()) for card, met in (*carried(text, book), *counted(text, book))]
    readings = [replace(r, scopes=r.scopes | {"ended", "over"}) if _taken_away(r, text) else r for r in readings]
    settled = carried_denials(text, book)
    stated = _outweighed([r for r in readings if r.stands and not _settled_later(r, readings, settled)])
    denied = _outweighed([reading for reading in readings if reading.denied and _deniable(reading.card)])
    spoken = {reading.card.id for reading in stated}
    said = [_limit(reading.card, reading.match, text) for reading in _best(stated)]
    gone: dict[str, Denied] = {}
    fine = [(card, met) for card, found in lex.denials.met(text, facts) for met in _denials(card, found, text)]
    for card, met in [(r.card, r.match) for r in _best(denied)] + fine + [(one.card, one.match) for one in settled]:
        if card.id in spoken or card.id in gone:
            continue
        if card.kind == "pain" and _takes_back(card, met, text):
            said.append(_limit(card, met, text))
            spoken.add(card.id)
        else:
            gone[card.id] = Denied(card.id, met.words, met.start, met.end)
    return sorted(said, key=lambda x: (x.start, x.id)), sorted(gone.values(), key=lambda x: (x.start, x.id))


def _readings(card: c.Limit, found: list[Match], text: Text) -> list[_Reading]:
    result = []
    for met in found:
        frame = card.when[met.frame]
        if not belongs_together(met, frame, _PLACES, text) or withdrawn(met, text):
            continue
        weight = len(frame.keys() - {"not", "within"})
        his_own = card.by_others or text.find("asking-for") or called(met, "my", text)
        scopes = _scopes(met, text) - ({"other-person"} if his_own else set())
        if _deniable(card) and answered_no(met, text):
            scopes |= {"denied"}
        if "over" in scopes and ended(met, text):
            scopes |= {"ended"}
        if card.kind in _SUPPOSED and supposed(met, text) or called(met, "your", text):
            scopes |= {"what-if"}
        if "what-if" in scopes and _deniable(card) and unsaid(met, text, _PLACES):
            scopes = frozenset({"denied"})
        result.append(_Reading(card, met, weight, scopes))
    return result


def _settled_later(reading: _Reading, readings: list[_Reading], settled: list[Settled]) -> bool:
    """Whether a later sentence says that the pain is gone for good, and it is not stated again after that."""
    return any(
        one.for_good
        and one.card.id == reading.card.id
        and reading.match.start < one.state.start
        and not any(r.stands and r.card is one.card and r.match.end > one.state.end for r in readings)
        for one in settled
    )


def _deniable(card: c.Limit) -> bool:
    """Whether a "no" to the limit says something: not a room or a day, and of what he can do only what its card knows."""
    return card.kind in _DENIABLE and (card.kind not in ("strength", "other") or bool(card.denied_when))


def _taken_away(reading: _Reading, text: Text) -> bool:
    """Whether the thought right behind says "that's all gone": of a fear or a dizziness, which name no part of the body."""
    if reading.card.kind not in _FELT or not _deniable(reading.card) or not reading.match.hits:
        return False
    last = max(hit.last for hit in reading.match.hits)
    sentence = text.words[last].sentence
    return any(
        state.first > last
        and 0 <= text.words[state.first].sentence - sentence <= 1
        and any(0 < state.first - hit.last <= _POINTS and hit.first > last for hit in text.find("pronoun"))
        and not any(hit.clause == state.clause for hit in text.find("part"))
        for state in text.find("sensation/gone")
    )


def _scopes(met: Match, text: Text) -> frozenset[str]:
    """The scopes over a match; a negation that is one of its own words ("can't keep my feet up") is none, and a denial
    counts only where it surely reaches, because a pain taken for denied is the costly error."""
    negating = [cue for cue in text.cues if cue.card.means in _NEGATING]
    if any(hit.first <= cue.first and cue.last <= hit.last for hit in met.hits for cue in negating):
        return met.scopes - set(_NEGATING)
    states = [hit for hit in met.hits if hit.family not in _PLACES] or list(met.hits)
    places = [hit for hit in met.hits if hit not in states]
    denying = [cue for cue in negating if cue.card.means == "denied"]
    first, last = min(hit.first for hit in met.hits), max(hit.last for hit in met.hits)
    outside = [cue for cue in denying if cue.last < first or last < cue.first]
    sure = _surely(states, denying, text) or _surely(places, outside, text)
    return met.scopes if sure else met.scopes - {"denied"}


def _surely(hits: list[Hit], cues: list[CueHit], text: Text) -> bool:
    """Whether a cue that denies one of `hits` has nothing between that ends a denial: no other thing or `and my ...`
    after a "no", no comma before a "fine"."""
    return any(
        "denied" in hit.scopes
        and text.words[cue.first].clause == hit.clause
        and (_before(cue, hit, text) if cue.last < hit.first else _behind(cue, hit, text))
        for hit in hits
        for cue in cues
    )


def _before(cue: CueHit, hit: Hit, text: Text) -> bool:
    ends = {thing.first for thing in text.find("thing")}
    ends |= {joint.last + 1 for joint in text.find("joint")} & {
        subject.first for subject in text.find("clause/subject")
    }
    return not any(cue.last < n < hit.first for n in ends)


def _behind(cue: CueHit, hit: Hit, text: Text) -> bool:
    return not any(word.gap for word in text.words[hit.last + 1 : cue.first + 1])


def _denials(card: c.Limit, found: list[Match], text: Text) -> list[Match]:
    """Of the places where a card's `denied_when` is met: by the follower himself, the state not taken back ("not fine")."""
    return [
        met
        for met in found
        if not met.scopes & ({"what-if"} if text.find("asking-for") else {"other-person", "what-if"})
        and not any(_taken_back(hit, text) for hit in met.hits if hit.family not in _PLACES)
        and not _of_another_thought(met, text)
        and not scattered(met, card.denied_when[met.frame], text, apart=1)
    ]


def _of_another_thought(met: Match, text: Text) -> bool:
    """Whether the state stands in a clause before that of the part ("the elbow is all good, its just my hips"), or the
    part only tells since when ("not a word since I switched to my knuckles")."""
    part = met.hit("part")
    states = [hit for hit in met.hits if hit.family not in _PLACES]
    return part is not None and any(hit.clause < part.clause or later_thought(hit, part, text) for hit in states)


def _taken_back(hit: Hit, text: Text) -> bool:
    """Whether a "not" before the state takes it back ("not fine"); a "no trouble" behind it only agrees with it."""
    return "denied" in hit.scopes and any(
        cue.card.means == "denied" and cue.last < hit.first and text.words[cue.first].clause == hit.clause
        for cue in text.cues
    )


def _takes_back(card: c.Limit, met: Match, text: Text) -> bool:
    """Whether, after "it is fine", the same sentence goes on with a pain that names no part of its own ("elbow fine in
    the session but screams next morning"): then the pain is there."""
    hurts = {name for frame in card.when if "part" in frame for name in _names(frame.get("sensation", []))}
    sentence = text.words[met.hits[0].first].sentence
    other_parts = {hit.clause for hit in text.find("part") if hit not in met.hits}
    return any(
        hit.name in hurts
        and hit.start >= met.end
        and text.words[hit.first].sentence == sentence
        and hit.clause not in other_parts
        and not hit.scopes & (_NOT_HIS_OR_NOT_NOW | {"denied"})
        for hit in text.find("sensation")
    )


def _names(value: str | list[str]) -> list[str]:
    return [value] if isinstance(value, str) else value


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


def _limit(card: c.Limit, met: Match, text: Text) -> Limit:
    what = card.without[0] if card.kind == "equipment" and card.without else None
    reason = card.reason(met.words)
    return Limit(card.id, card.kind, what, met.words, met.start, met.end, _about(met, text), (reason,))


def _about(met: Match, text: Text) -> str | None:
    """The exercise a match is about: one of its own hits, else the nearest in its clause, else the nearest of all."""
    names = text.find("exercise")
    own = [name for name in names if name in met.hits] or [name for name in names if name.clause == met.clause] or names
    if not own:
        return None
    return min(own, key=lambda name: max(name.start - met.end, met.start - name.end, 0)).name

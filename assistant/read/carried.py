"""Which body part a pain belongs to that names none: "it hurts" and "it is not painful" speak of the part named before,
"I meant my elbow" puts the elbow where another part stood."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from assistant.rulebook import Rulebook
from assistant.rulebook import cards as c
from assistant.words import Hit, Match, Text
from assistant.words.frames import candidates, keys_of

_NOT_NOW = frozenset({"denied", "over", "other-person", "what-if"})
_DENYING = frozenset({"denied", "over"})
_BACK = 2  # sentences back in which the part may stand
_NEAR = 4  # words between the pronoun and what is said of it


def carried(text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """Pains told of a part named earlier.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> book = load()
    >>> text = prepare("It is my elbow, the right one. I lower slowly and then it hurts.", book)
    >>> [(card.id, met.words) for card, met in carried(text, book)]
    [('elbow-sore', 'elbow, the right one. I lower slowly and then it hurts')]
    """
    found = []
    for state in text.find("sensation"):
        if state.scopes & (_NOT_NOW | {"figure"}) or not _of_something_before(state, text):
            continue
        pains = (_as_pains(part, state, text, book) for part in _named_before(state, text))
        nearest = next(filter(None, pains), [])
        found += [(card, met) for card, met in nearest if not _elsewhere(met.hits[0], state, text)]
    return found + [pain for part, old in _corrections(text) for pain in _moved(part, old, text, book)]


def withdrawn(met: Match, text: Text) -> bool:
    """Whether the part of a match is taken back later in the message ("I wrote shoulder, I meant my elbow")."""
    part = met.hit("part")
    return part is not None and any(part == old for _, old in _corrections(text))


def carried_denials(text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """Pains denied of a part named earlier ("my wrists are stiff. It is not painful")."""
    found = []
    for state in (*text.find("sensation/not-painful"), *text.find("sensation/gone")):
        opens = state.first == 0 or text.words[state.first].gap >= 1
        if not (_of_something_before(state, text) or opens and not _parts_of(state.clause, text)):
            continue
        denials = (_as_denials(part, state, text, book) for part in _named_before(state, text))
        nearest = next(filter(None, denials), [])
        found += [pair for pair in nearest if not _elsewhere(pair[1].hits[0], state, text, _DENYING)]
    return found


def _elsewhere(part: Hit, state: Hit, text: Text, but: frozenset[str] = frozenset()) -> bool:
    """Whether the part named is denied, another's, or over; "my knee, years ago; it aches now" is not over. `but` are
    scopes that do not matter."""
    own = any(hit.last + 1 == part.first for hit in text.find("own-part/my"))
    now = any(hit.clause == state.clause for hit in (*text.find("lately"), *text.find("relapse")))
    allowed = but | ({"other-person"} if own else set()) | ({"over"} if now else set())
    return bool(part.scopes & (_NOT_NOW - allowed))


def _of_something_before(state: Hit, text: Text) -> bool:
    """Whether a pronoun stands before the state, and its clause names no part of its own."""
    near = (hit for hit in text.find("pronoun") if hit.clause == state.clause)
    return not _parts_of(state.clause, text) and any(0 < state.first - hit.last <= _NEAR for hit in near)


def _parts_of(clause: int, text: Text) -> list[Hit]:
    return [hit for hit in text.find("part") if hit.clause == clause]


def _named_before(state: Hit, text: Text) -> list[Hit]:
    """The parts named before `state`, at most some sentences back, the last one first."""
    here = text.words[state.first].sentence
    parts = [h for h in text.find("part") if h.last < state.first and here - text.words[h.first].sentence <= _BACK]
    return sorted(parts, key=lambda hit: -hit.last)


def _corrections(text: Text) -> Iterator[tuple[Hit, Hit]]:
    """The part after an "I meant", and the part before it that it takes the place of."""
    for meant in text.find("correction"):
        new = next((hit for hit in text.find("part") if 0 < hit.first - meant.last <= 3), None)
        old = [hit for hit in text.find("part") if hit.last < meant.first]
        if new is not None and old and old[-1].name != new.name:
            yield new, old[-1]


def _moved(part: Hit, old: Hit, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """The pain said of the old part, now of the new one."""
    states = [h for h in text.find("sensation") if h.clause == old.clause and not h.scopes & _NOT_NOW]
    return [pain for state in states for pain in _as_pains(part, state, text, book)]


def _as_pains(part: Hit, state: Hit, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    return [
        (card, _match((part, state), text))
        for card in book.limits.values()
        if card.kind == "pain" and any(_filled(frame, part, state, text) for frame in card.when)
    ]


def _as_denials(part: Hit, state: Hit, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    return [
        (card, _match((part, state), text))
        for card in book.limits.values()
        if any(_filled(frame, part, state, text) for frame in card.denied_when)
    ]


def _filled(frame: dict[str, Any], part: Hit, state: Hit, text: Text) -> bool:
    """Whether a part and a state are all that the frame asks for, and nothing is there that must be absent."""
    if frame.keys() - {"not"} != {"part", "sensation"}:
        return False
    if part.cls not in keys_of("part", frame["part"]) or state.cls not in keys_of("sensation", frame["sensation"]):
        return False
    clauses = {part.clause, state.clause}
    absent = [hit for family, value in frame.get("not", {}).items() for hit in candidates(family, value, text)]
    return not any(hit.clause in clauses and "denied" not in hit.scopes for hit in absent)


def _match(hits: tuple[Hit, Hit], text: Text) -> Match:
    start, end = min(hit.start for hit in hits), max(hit.end for hit in hits)
    return Match(0, hits, start, end, text.raw[start:end], frozenset(), hits[0].clause)

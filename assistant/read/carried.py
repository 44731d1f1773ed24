"""Which body part a pain belongs to that names none: "it hurts" and "it is not painful" speak of the part named before,
"I meant my elbow" puts the elbow where another part stood."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from assistant.rulebook import Rulebook
from assistant.rulebook import cards as c
from assistant.words import Hit, Match, Text
from assistant.words.frames import candidates, keys_of

_NOT_NOW = frozenset({"denied", "over", "other-person", "what-if"})
_DENYING = frozenset({"denied", "over"})
_NOT_HIS = frozenset({"what-if", "other-person"})
_BACK = 2  # sentences back in which the part may stand
_SETTLING = ("sensation/not-painful", "sensation/gone", "sensation/fine")
_PLAINEST = "sensation/sore"
_PAINS = ("sore", "pinch", "pull", "click", "muscle-sore")
_VERBS = ("sore", "pinch", "pull", "click", "burn")
_SHORT = 7  # words of a question and its answer together
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
    found += [pain for part in _bare(text) for pain in _as_pains(part, None, text, book)]
    return found + [pain for part, old in _corrections(text) for pain in _moved(part, old, text, book)]


def _bare(text: Text) -> list[Hit]:
    """Parts that are a sentence of their own: "Hamstring. Went on Sunday." tells of a pain without a word for it."""
    glue = {n for hit in text.find("beside-part") for n in range(hit.first, hit.last + 1)}
    glue |= {n for hit in text.find("part") for n in range(hit.first, hit.last + 1)}
    named = {n for hit in text.names for n in range(hit.first, hit.last + 1)}
    return [
        part
        for part in text.find("part")
        if all(n in glue - named for n in _sentence(part, text))
        and not part.scopes & _NOT_NOW
        and "?" not in text.raw[part.end : _next_start(part, text)]
        and not text.find("form-question")
    ]


def _sentence(hit: Hit, text: Text) -> list[int]:
    return [n for n, word in enumerate(text.words) if word.sentence == text.words[hit.first].sentence]


def _next_start(hit: Hit, text: Text) -> int:
    after = _sentence(hit, text)[-1] + 1
    return text.words[after].start if after < len(text.words) else len(text.raw)


def withdrawn(met: Match, text: Text) -> bool:
    """Whether the part of a match is taken back later in the message ("I wrote shoulder, I meant my elbow")."""
    part = met.hit("part")
    return part is not None and any(part == old for _, old in _corrections(text))


@dataclass(frozen=True)
class Settled:
    """A pain denied of a part named earlier; `for_good` where it takes back what was said of it before ("that's healed")."""

    card: c.Limit
    match: Match
    state: Hit
    for_good: bool


def carried_denials(text: Text, book: Rulebook) -> list[Settled]:
    """Pains denied of a part named earlier ("my wrists are stiff. It is not painful", "bad elbow in May, all good since")."""
    found = []
    for state in text.find("sensation"):
        kind = _settling(state, text)
        if kind is None or not _speaks_back(state, kind, text):
            continue
        nearest = _nearest_denials(kind, state, text, book)
        about_it = bool(_pronouns_before(state, text))
        found += [
            Settled(card, met, state, _for_good(met.hits[0], kind, about_it, state, text))
            for card, met in nearest
            if _may_be_denied(met.hits[0], kind, about_it, state, text)
        ]
    return found


def _for_good(part: Hit, kind: str, about_it: bool, state: Hit, text: Text) -> bool:
    """Whether the state takes back what was said of the part: it is gone, or it is fine now and was bad back then."""
    if kind == "sensation/gone":
        return about_it or "over" in part.scopes or _then(part, text)
    return kind == "sensation/fine" and _then(part, text) and bool(about_it or _since(state, text))


def _then(part: Hit, text: Text) -> bool:
    return any(hit.clause == part.clause for hit in text.find("back-then"))


def _nearest_denials(kind: str, state: Hit, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """What the state denies of the part named last; a part of which nothing was told may stand between."""
    for named in _named_before(state, text, ("part", "position")):
        denials = _as_denials(named, kind, state, text, book)
        told = any(hit.clause == named.clause for hit in text.find("sensation"))
        if denials or named.family == "part" and told:
            return denials
    return []


def _settling(state: Hit, text: Text) -> str | None:
    """The class as which a state denies a pain: "gone" and "not painful" as they are, "fine", and a pain that is denied."""
    if state.cls in _SETTLING:
        return state.cls
    outward = any(hit.first == state.first for hit in text.find("outward"))  # "it isn't swollen" denies no pain
    denied = state.name in _PAINS and state.scopes & _DENYING and not outward and not state.scopes & _NOT_HIS
    return "sensation/not-painful" if denied else None


def _speaks_back(state: Hit, kind: str, text: Text) -> bool:
    """Whether the state speaks of something named before: by a pronoun, or as a clause of its own without a part."""
    if any(hit.first < state.first or not later_thought(state, hit, text) for hit in _parts_of(state.clause, text)):
        return False
    opens = state.first == 0 or text.words[state.first].gap >= 1
    if kind == "sensation/fine":
        return bool(_pronouns_before(state, text)) or opens or bool(_since(state, text))
    return True


def later_thought(state: Hit, part: Hit, text: Text) -> bool:
    """Whether a "since" or "when" stands between the state and a part after it ("quiet since I rest my head")."""
    return any(state.last < hit.first < part.first for hit in text.find("meanwhile"))


def _may_be_denied(part: Hit, kind: str, about_it: bool, state: Hit, text: Text) -> bool:
    """Whether the part named is one a denial may be of: "fine" only of one that was asked about, or was sore once."""
    mine = any(h.name == "mine" for h in _pronouns_before(state, text))
    but = _DENYING | ({"what-if"} if about_it else set()) | ({"other-person"} if mine else set())
    if _elsewhere(part, state, text, frozenset(but)):
        return False
    near = text.words[state.first].sentence - text.words[part.first].sentence
    if kind != "sensation/fine":
        return near <= 1 or state.cls in _SETTLING
    told = [hit for hit in (*text.find("sensation"), *text.find("spoken-of")) if hit.clause == part.clause]
    return bool(part.scopes & {"over", "what-if"} or told) or (near == 1 and _asked_alone(part, state, text))


def _asked_alone(part: Hit, state: Hit, text: Text) -> bool:
    """Whether the part is a short question and the state its short answer ("Elbow? Fine.")."""
    asked, said = text.words[part.first].sentence, text.words[state.first].sentence
    first = next(n for n, word in enumerate(text.words) if word.sentence == said)
    short = sum(word.sentence in (asked, said) for word in text.words) <= _SHORT
    return short and first > 0 and "?" in text.raw[text.words[first - 1].end : text.words[first].start]


def _since(state: Hit, text: Text) -> list[Hit]:
    """The words by which a good state goes on until now ("spot on ever since"), in its clause."""
    return [hit for hit in text.find("until-now") if hit.clause == state.clause]


def _elsewhere(part: Hit, state: Hit, text: Text, but: frozenset[str] = frozenset()) -> bool:
    """Whether the part named is denied, another's, or over; "my knee, years ago; it aches now" is not over. `but` are
    scopes that do not matter."""
    own = any(hit.last + 1 == part.first for hit in text.find("own-part/my"))
    now = any(hit.clause == state.clause for hit in (*text.find("lately"), *text.find("relapse")))
    allowed = but | ({"other-person"} if own else set()) | ({"over"} if now else set())
    return bool(part.scopes & (_NOT_NOW - allowed))


def _of_something_before(state: Hit, text: Text) -> bool:
    """Whether a pronoun stands before the state and its clause names no part of its own, or the state opens a sentence
    without a subject ("Shoulder? That's the one. Pinches when the arm goes up.")."""
    if _pronouns_before(state, text):
        return all(hit.first > state.last and later_thought(state, hit, text) for hit in _parts_of(state.clause, text))
    opens = state.first > 0 and text.words[state.first].sentence > text.words[state.first - 1].sentence
    before = [hit for hit in _parts_of(state.clause, text) if hit.first < state.first]
    return opens and state.name in _VERBS and not before


def _pronouns_before(state: Hit, text: Text) -> list[Hit]:
    return [h for h in text.find("pronoun") if h.clause == state.clause and 0 < state.first - h.last <= _NEAR]


def _parts_of(clause: int, text: Text) -> list[Hit]:
    return [hit for hit in text.find("part") if hit.clause == clause]


def _named_before(state: Hit, text: Text, families: tuple[str, ...] = ("part",)) -> list[Hit]:
    """The parts (or places) named before `state`, at most some sentences back, the last one first."""
    here, named = text.words[state.first].sentence, [hit for family in families for hit in text.find(family)]
    parts = [h for h in named if h.last < state.first and here - text.words[h.first].sentence <= _BACK]
    return sorted(parts, key=lambda hit: (-hit.last, hit.first))


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


def _as_pains(part: Hit, state: Hit | None, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    """The pains of `part` in the state; without one, in the plainest."""
    kind, felt = (state.cls, state) if state else (_PLAINEST, part)
    return [
        (card, _match((part, felt), text))
        for card in book.limits.values()
        if card.kind == "pain" and any(_filled(frame, part, kind, felt, text) for frame in card.when)
    ]


def _as_denials(part: Hit, kind: str, state: Hit, text: Text, book: Rulebook) -> list[tuple[c.Limit, Match]]:
    return [
        (card, _match((part, state), text))
        for card in book.limits.values()
        if any(_filled(frame, part, kind, state, text) for frame in card.denied_when)
    ]


def _filled(frame: dict[str, Any], part: Hit, kind: str, state: Hit, text: Text) -> bool:
    """Whether a part and a state are all that the frame asks for, and nothing is there that must be absent."""
    if frame.keys() - {"not"} != {part.family, "sensation"}:
        return False
    if part.cls not in keys_of(part.family, frame[part.family]) or kind not in keys_of("sensation", frame["sensation"]):
        return False
    clauses = {part.clause, state.clause}
    absent = [hit for family, value in frame.get("not", {}).items() for hit in candidates(family, value, text)]
    return not any(hit.clause in clauses and "denied" not in hit.scopes for hit in absent)


def _match(hits: tuple[Hit, Hit], text: Text) -> Match:
    start, end = min(hit.start for hit in hits), max(hit.end for hit in hits)
    return Match(0, hits, start, end, text.raw[start:end], frozenset(), hits[0].clause)

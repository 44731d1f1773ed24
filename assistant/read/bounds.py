"""Whether the words of one frame belong together: not on both sides of a comma, not from two long sentences, and a
"not" before what it denies."""

from __future__ import annotations

from typing import Any

from assistant.words import Hit, Match, Text

_FRAGMENT = 5  # words; so short a sentence lives off its neighbour ("Blisters. Both palms.")
_APART = 11  # words from the first to the last of a frame that reaches into the next sentence
_BY = 3  # words between a verb of moving and the part it moves
_GOVERNS = 8  # words over which a "not" still speaks of what follows
_INABILITIES = ("difficulty", "unable")
_STATES = ("way", "act", "act-raise", "act-down", "amount", "limb", "fault", "floor-noise", "position")


def belongs_together(met: Match, frame: dict[str, Any], places: tuple[str, ...], text: Text) -> bool:
    """Whether `met` is one thought; `places` are the families that say where, not what."""
    return not (
        _across_comma(met, places, text) or scattered(met, frame, text) or _bare_not(met, text) or _moved(met, text)
    )


def scattered(met: Match, frame: dict[str, Any], text: Text, apart: int = _APART) -> bool:
    """Whether the frame was filled from two long sentences ("... sore at all. My mother's back, though ...")."""
    if "within" in frame or len(met.hits) < 2:
        return False
    sentences = {text.words[hit.first].sentence for hit in met.hits}
    first, last = min(hit.first for hit in met.hits), max(hit.last for hit in met.hits)
    if len(sentences) == 1:
        return False
    if any(hit.family in _INABILITIES for hit in met.hits):
        apart = min(apart, _GOVERNS // 2)
        if last - first >= _GOVERNS:
            return True
    if last - first < apart:
        return False
    return all(sum(word.sentence == one for word in text.words) > _FRAGMENT for one in sentences)


def _bare_not(met: Match, text: Text) -> bool:
    """Whether the inability cannot be of what the frame holds: a "not" behind all it could deny ("I get 2, not 8"), or a
    number long before it ("two pairs of glasses and I still can't make it out")."""
    bare = {hit.first for hit in text.find("bare-not")}
    for hit in met.hits:
        if hit.family not in _INABILITIES or hit.name != "cannot":
            continue
        if any(other.family == "amount" and hit.first - other.last > _GOVERNS // 2 for other in met.hits):
            return True
        if hit.first not in bare:
            continue
        if hit.last > hit.first:
            continue
        denied = [other for other in met.hits if other is not hit and other.family in _STATES]
        if denied and not any(0 < other.last - hit.last <= _GOVERNS for other in denied):
            return True
    return False


def _moved(met: Match, text: Text) -> bool:
    """Whether the part is only what is moved, and another was named before it ("my hip pinches when I lift the knee")."""
    part = met.hit("part")
    if part is None or not any(0 < part.first - hit.last <= _BY for hit in text.find("moving")):
        return False
    sentence = text.words[part.first].sentence
    others = [hit for hit in text.find("part") if hit.last < part.first and hit.name != part.name]
    return any(text.words[hit.first].sentence == sentence for hit in others)


def _across_comma(met: Match, places: tuple[str, ...], text: Text) -> bool:
    """Whether a state of the match belongs to a body part on its own side of a comma ("wrists sore, heels lift")."""
    part = met.hit("part")
    if part is None:
        return False
    rivals = [hit for hit in text.find("part") if hit.clause == part.clause and hit.first != part.first]
    return any(
        hit.clause == part.clause and parted(part, hit, text) and any(not parted(rival, hit, text) for rival in rivals)
        for hit in met.hits
        if hit.family not in places
    )


def parted(one: Hit, other: Hit, text: Text) -> bool:
    """Whether a comma or more stands between two hits."""
    first, second = sorted((one, other), key=lambda hit: hit.first)
    return any(word.gap for word in text.words[first.last + 1 : second.first + 1])

"""How a frame that is met stands in its message: called his own, only supposed, answered with a no, ended lately."""

from __future__ import annotations

from assistant.words import Match, Text

_PAST = "past"  # the cue of what lies far back; the others of its meaning say that it ended
_REACH = 8  # words between a cue of ending and what ended
_SUPPOSING = ("supposing/opens", "supposing/would")


def called(met: Match, whose: str, text: Text) -> bool:
    """Whether the part is called "my" ("my kid jumped on my knee"), or "your", which is anybody's ("your wrists")."""
    part = met.hit("part")
    return part is not None and any(hit.last + 1 == part.first for hit in text.find(f"own-part/{whose}"))


def answered_no(met: Match, text: Text) -> bool:
    """Whether the match is a question that the next sentence answers with no more than a no ("any wrist pain? nope")."""
    last = max(hit.last for hit in met.hits)
    sentence = text.words[last].sentence
    end = next((n for n in range(last, len(text.words)) if text.words[n].sentence > sentence), None)
    if end is None or "?" not in text.raw[text.words[end - 1].end : text.words[end].start]:
        return False
    no = next((hit for hit in text.find("answered/no") if hit.first == end), None)
    return no is not None and (no.last + 1 == len(text.words) or text.words[no.last + 1].gap > 0)


def ended(met: Match, text: Text) -> bool:
    """Whether what is over ended lately, by a "no longer" or "is gone", and does not only lie in the past."""
    first, last = min(hit.first for hit in met.hits), max(hit.last for hit in met.hits)
    near = [cue for cue in text.cues if cue.card.means == "over" and first - _REACH <= cue.first <= last + _REACH]
    clauses = {hit.clause for hit in met.hits}
    # of "last year, and I don't get dizzy no more" the cue in the clause itself counts
    beside = [cue for cue in near if text.words[cue.first].clause in clauses]
    return bool(near) and all(cue.card.id != _PAST for cue in beside or near)


def unsaid(met: Match, text: Text, places: tuple[str, ...]) -> bool:
    """Whether the state is denied of now, later in the message ("if they got sweaty ...; they're not sweaty now")."""
    last = max(hit.last for hit in met.hits)
    states = {hit.cls for hit in met.hits if hit.family not in places}
    return any(hit.first > last and "denied" in hit.scopes for cls in states for hit in text.find(cls))


def supposed(met: Match, text: Text) -> bool:
    """Whether a room or a day is only supposed: "if the yard is wet one night, what would I do"."""
    sentence = text.words[met.hits[0].first].sentence
    here = {cls: [h for h in text.find(cls) if text.words[h.first].sentence == sentence] for cls in _SUPPOSING}
    opens, would = (here[cls] for cls in _SUPPOSING)
    return bool(would) and any(hit.last < min(h.first for h in met.hits) for hit in opens)

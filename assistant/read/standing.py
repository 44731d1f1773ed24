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
    return bool(near) and all(cue.card.id != _PAST for cue in near)


def supposed(met: Match, text: Text) -> bool:
    """Whether a room or a day is only supposed: "if the yard is wet one night, what would I do"."""
    sentence = text.words[met.hits[0].first].sentence
    here = {cls: [h for h in text.find(cls) if text.words[h.first].sentence == sentence] for cls in _SUPPOSING}
    opens, would = (here[cls] for cls in _SUPPOSING)
    return bool(would) and any(hit.last < min(h.first for h in met.hits) for hit in opens)

"""The words that say that things are there, missing, unsafe or only asked about, by their place in a message."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.words import Text

_AHEAD = ("have/ahead", "have/given", "lack/taken", "lack/ahead", "needless/ahead", "only/only")
_BEHIND = ("have/behind", "lack/behind", "unsafe/behind", "needless/behind", "unsafe/ahead")


@dataclass(frozen=True)
class Marks:
    """`ahead`: first word → family and last word; `behind`: class, first and last word, in order."""

    ahead: dict[int, tuple[str, int]]
    behind: tuple[tuple[str, int, int], ...]


def marks_of(text: Text) -> Marks:
    """The marks of `text`, the longest where several overlap: "dont have" is no "have"."""
    hits = [hit for cls in (*_AHEAD, *_BEHIND) for hit in text.find(cls)]
    taken: list[tuple[int, int]] = []
    ahead, behind = {}, []
    for hit in sorted(hits, key=lambda h: (h.first - h.last, (*_AHEAD, *_BEHIND).index(h.cls))):
        if any(
            first <= hit.first and hit.last <= last and (first, last) != (hit.first, hit.last) for first, last in taken
        ):
            continue
        if hit.cls in _AHEAD:
            ahead.setdefault(hit.first, (hit.family, hit.last))
        else:
            behind.append((hit.cls, hit.first, hit.last))
        taken.append((hit.first, hit.last))
    return Marks(ahead, tuple(sorted(behind, key=lambda mark: mark[1])))

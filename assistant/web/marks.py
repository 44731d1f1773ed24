"""A message with its words marked as they were read, and every mark listed in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from assistant.web.spoken import Names

ORDER = ("sign", "limit", "not", "lacks", "has", "ex")  # classes of marks, the ones that must be seen first


@dataclass(frozen=True)
class Mark:
    """Words `start` to `end` read as `kind`; `label` says it in words; `doubt` = read with doubt."""

    kind: str
    start: int
    end: int
    words: str
    label: str
    doubt: bool = False


@dataclass(frozen=True)
class Piece:
    """A run of the message's characters under the same marks (none = plain text)."""

    text: str
    kinds: tuple[str, ...] = ()


def marks(result: Mapping[str, Any], names: Names, exercises: bool = True) -> list[Mark]:
    """Every mark of a line out, in the order of ORDER; without `exercises` only what is about safety and the body."""
    question = result.get("question", {})
    found = list(_signs(result.get("verdict", {}), names))
    found += [_mark("limit", limit, names.limit(limit["id"])) for limit in question.get("limits", [])]
    found += [_mark("not", denied, names.limit(denied["id"])) for denied in question.get("denied", [])]
    if exercises:
        kit = question.get("kit", [])
        found += [_mark("has" if thing["there"] else "lacks", thing, names.kit(thing["id"])) for thing in kit]
        found += list(_asked(question, names))
    return sorted(found, key=lambda mark: (ORDER.index(mark.kind), mark.start))


def _mark(kind: str, span: Mapping[str, Any], label: str) -> Mark:
    start, end = span.get("start", 0), span.get("end", 0)
    return Mark(kind, start, end, span.get("words", ""), label, bool(span.get("doubt")))


def _asked(question: Mapping[str, Any], names: Names) -> Iterator[Mark]:
    for asked in question.get("exercises", []):
        place = f" ({asked['item']})" if asked.get("item") else ""
        yield _mark("ex", asked, names.exercise(asked["id"]) + place)


def _signs(verdict: Mapping[str, Any], names: Names) -> Iterator[Mark]:
    for finding in verdict.get("findings", []):
        about = [names.category(finding["category"]), finding.get("tier", "")]
        usual = {"who": "follower", "assertion": "present", "time": "now"}
        about += [finding[key] for key, value in usual.items() if finding.get(key, value) != value]
        yield _mark("sign", finding, ", ".join(filter(None, about)))


def pieces(text: str, found: list[Mark]) -> list[Piece]:
    """The text cut where marks begin and end; joined again it is the text.

    >>> pieces("sore wrist", [Mark("limit", 0, 10, "", ""), Mark("sign", 0, 4, "", "")])
    [Piece(text='sore', kinds=('limit', 'sign')), Piece(text=' wrist', kinds=('limit',))]
    """
    spans = [mark for mark in found if 0 <= mark.start < mark.end]
    cuts = sorted({0, len(text), *(min(cut, len(text)) for mark in spans for cut in (mark.start, mark.end))})
    return [Piece(text[a:b], _kinds(spans, a)) for a, b in zip(cuts, cuts[1:], strict=False)]


def _kinds(spans: list[Mark], at: int) -> tuple[str, ...]:
    over = [mark for mark in spans if mark.start <= at < mark.end]
    return tuple(sorted({mark.kind for mark in over} | ({"doubt"} if any(mark.doubt for mark in over) else set())))


def excerpt(text: str, found: list[Mark], around: int = 60) -> list[Piece]:
    """The marked words that raised a sign, with `around` characters on either side; the whole text when it is short."""
    signs = [mark for mark in found if mark.kind == "sign" and mark.end > mark.start]
    if not signs or len(text) <= 3 * around:
        return pieces(text, signs)
    first, last = min(mark.start for mark in signs), max(mark.end for mark in signs)
    start, end = max(0, first - around), min(len(text), last + around)
    moved = [Mark("sign", mark.start - start, mark.end - start, "", "") for mark in signs]
    inside = pieces(text[start:end], moved)
    return [Piece("… ")] * (start > 0) + inside + [Piece(" …")] * (end < len(text))

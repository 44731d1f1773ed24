"""Places in today's session: "A2", "second one of the last pair", "the one after the squats", "warm up no 2".

The words stand on place cards; each word of a place becomes one letter, and a place is a pattern over those letters.
Descriptions ("the thing with the band") are in `looks`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Place
from assistant.values import Plan, PlanItem, Reason
from assistant.words import Text, split_phrase

_LETTERS = {"last": "l", "before-last": "b", "item": "i", "pair": "p", "warm-up": "w", "cool-down": "c", "after": "a",
            "before": "f", "session": "m", "whole": "h", "number": "n", "partner": "q",
            "stretch": "v"}  # fmt: skip
_SPOKEN = "bcdefwz"  # letters of slots as voice typing writes them, "c one"; "a" is nearly always an article
_GROUP = "(?:[olb]p|tp|pt|w|c|v)"  # a group of slots
_PATTERNS = {
    "next": re.compile("(?:(?P<nth>[olb])?i(?P<nth3>d)?|(?P<nth2>[olb]))m?(?P<side>[af])i?(?P<of>[wcse])"),
    "after it": re.compile("(?P<side>[af])(?P<of>[se])i"),
    "partner": re.compile("i?(?P<partner>q)i?p?(?P<of>[se])?"),
    "nth of group": re.compile(f"(?:(?P<nth>[olb])|n?(?P<number>d))i?(?P<group>{_GROUP})i?"),
    "group number": re.compile(f"(?P<group>(?!v){_GROUP})i?n?(?P<nth>[do])i?"),
    "group": re.compile("(?P<group>[olb]p|tp|pt|ti)"),
    "nth": re.compile("(?P<nth>[olb])i(?P<all>m|h)?|(?P<last>b)|in?(?P<number>d)|(?P<word>n)(?P<number2>d)"),
    "slot": re.compile("(?P<slot>s)"),
    "part": re.compile("(?P<part>[wc])"),
    "whole": re.compile("(?P<whole>h)"),
}


@dataclass(frozen=True)
class Pointed:
    """A place in the words: the slots it means, first and last word, which pattern it was, and its cards."""

    slots: tuple[PlanItem, ...]
    first: int
    last: int
    kind: str
    because: tuple[Reason, ...] = ()
    locating: tuple[int, ...] = ()  # positions of exercise names that only say where


@dataclass(frozen=True)
class _Piece:
    letter: str
    value: object
    first: int
    last: int
    card: Place | None = None
    named: int | None = None  # where the exercise is named that an "it" stands for

    @property
    def name_at(self) -> int:
        """The first word of the exercise's name."""
        return self.first if self.named is None else self.named


def places(text: Text, plan: Plan | None, book: Rulebook) -> list[Pointed]:
    """Every place pointed at in `text`; a place that is not in `plan` has no slots.

    >>> from assistant.rulebook import load
    >>> from assistant.words import prepare
    >>> plan = Plan("p", "t", (PlanItem("A1", "chin-up"), PlanItem("A2", "squat")))
    >>> [slot.item for place in places(prepare("the last one hurts", load()), plan, load()) for slot in place.slots]
    ['A2']
    """
    result: list[Pointed] = []
    for chain in _chains(_pieces(text, plan, book), text):
        letters, at = "".join(piece.letter for piece in chain), 0
        while at < len(letters):
            kind, found = next(((k, m) for k, p in _PATTERNS.items() if (m := p.match(letters, at))), (None, None))
            if found is None:
                at += 1
                continue
            result.append(_pointed(kind, found, chain, plan, text))
            at = found.end()
    return [p for p in result if p is not None]


def counted(text: Text, pool: Sequence[PlanItem], book: Rulebook) -> list[PlanItem]:
    """The one of `pool` that a bare "the second" or "the last" picks, as an answer to a question with choices."""
    pieces = [piece for piece in _pieces(text, None, book) if piece.letter in "ol"]
    return _pick(pool, pieces[0]) if len(pieces) == 1 else []


@lru_cache(maxsize=4)
def _phrases(book: Rulebook) -> dict[str, list[tuple[tuple[str, ...], Place]]]:
    """Place phrases by their first word, longest first."""
    table: dict[str, list[tuple[tuple[str, ...], Place]]] = {}
    for card in book.places.values():
        for phrase in map(split_phrase, card.words):
            table.setdefault(phrase[0], []).append((phrase, card))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


def _pieces(text: Text, plan: Plan | None, book: Rulebook) -> list[_Piece]:
    """The words that take part in places, as letters."""
    words, table = text.words, _phrases(book)
    named = {name.first: name for name in text.names if not name.weak}
    result: list[_Piece] = []
    n = 0
    while n < len(words):
        piece = _slot(text, n, plan) or (_Piece("e", named[n].ids, n, named[n].last) if n in named else None)
        piece = piece or _it(text, n, result) or _card_piece(words, n, table) or _letter(text, n, plan)
        if piece and piece.letter == "q":
            piece = replace(
                piece, named=next((m.first for m in reversed(text.names) if m.last < n and not m.weak), None)
            )
        if piece:
            result.append(piece)
        n = piece.last + 1 if piece else n + 1
    return result


def _slot(text: Text, n: int, plan: Plan | None) -> _Piece | None:
    raw = text.words[n].raw
    named = len(raw) == 2 and re.fullmatch(r"[A-Za-z]\d", raw)
    if named and (plan is None or plan.slot(raw.upper())) and raw.upper()[0] in "ABCDEFGWZ":
        return _Piece("s", raw.upper(), n, n)
    if plan and len(raw) == 1 and n + 1 < len(text.words) and (raw.isupper() or raw in _SPOKEN):
        if text.words[n + 1].norm.endswith("s"):
            return None  # "the B ones" are all of them
        item = raw.upper() + str(_number(text, n + 1))
        if plan.slot(item):
            return _Piece("s", item, n, n + 1)
    return None


def _it(text: Text, n: int, before: list[_Piece]) -> _Piece | None:
    """ "The one before it": the exercise named last."""
    if not before or before[-1].letter not in "af" or before[-1].last != n - 1:
        return None
    names = [name for name in text.names if name.last < before[-1].first and not name.weak]
    if not names or not any(h.first == n for h in text.find("pronoun")):
        return None
    return _Piece("e", names[-1].ids, n, n, named=names[-1].first)


def _card_piece(words, n: int, table) -> _Piece | None:
    for phrase, card in table.get(words[n].norm, ()):
        last = n + len(phrase) - 1
        if tuple(w.norm for w in words[n : last + 1]) == phrase and not any(w.gap > 1 for w in words[n + 1 : last + 1]):
            word, _, number = card.means.partition(" ")
            if word == "ordinal":
                return _Piece("o", int(number), n, last, card)
            return _Piece(_LETTERS[word], word, n, last, card)
    return None


def _letter(text: Text, n: int, plan: Plan | None) -> _Piece | None:
    word = text.words[n]
    number = _number(text, n)
    if number is not None:
        return _Piece("d", number, n, n)
    if len(word.raw) == 1 and word.raw in "ABCDEF" and plan and any(it.item.startswith(word.raw) for it in plan.items):
        return _Piece("t", word.raw, n, n)
    return None


def _number(text: Text, n: int) -> int | None:
    """The number that word `n` is, in digits or in letters."""
    raw = text.words[n].raw
    if raw.isdigit():
        return int(raw)
    said = text.find("said-number")
    return next((int(h.name) for h in said if h.first == n), None) if said else None


def _chains(pieces: list[_Piece], text: Text) -> Iterator[list[_Piece]]:
    """Runs of pieces with nothing but small words between them."""
    glue = {hit.first for hit in text.find("place-glue")}
    chain: list[_Piece] = []
    for piece in pieces:
        if chain:
            between = range(chain[-1].last + 1, piece.first)
            broken = any(text.words[n].gap >= 3 for n in range(chain[-1].last + 1, piece.first + 1))
            if broken or not glue.issuperset(between):
                yield chain
                chain = []
        chain.append(piece)
    if chain:
        yield chain


def _pointed(kind: str, found: re.Match, chain: list[_Piece], plan: Plan | None, text: Text) -> Pointed | None:
    used = chain[found.start() : found.end()]
    because = tuple(p.card.reason(text.quote(p.first, p.last), f"{p.card.means}") for p in used if p.card)
    alone = kind == "partner" and not found["of"]  # "not the pull-ups, the other one in that pair"
    locating = tuple(p.name_at for p in used if p.letter == "e" or alone and p.named is not None)
    if kind == "nth" and found["word"] and any(h.first == used[0].first for h in text.find("lack/ahead")):
        return None  # "no 4" may deny; "number 4" does not
    if kind == "part" and _goes_before(text, used[0].first):
        return None  # "after the warm up" says when, not which
    slots = _slots(kind, found, chain, plan) if plan else ()
    if alone and plan:
        named = [name for name in text.names if name.first in locating]
        slots = _partners(plan, _Piece("e", named[0].ids, 0, 0)) if named else ()
    if plan is None and kind in ("part", "whole"):
        return Pointed((), used[0].first, used[-1].last, kind, because)
    return Pointed(tuple(slots), used[0].first, used[-1].last, kind, because, locating)


def _goes_before(text: Text, n: int) -> bool:
    """Whether a word of time or manner stands before the word at `n`: after, during, for the warm-up."""
    return any(n - 2 <= hit.first < n for hit in text.find("place-time"))


def _slots(kind: str, found: re.Match, chain: list[_Piece], plan: Plan) -> Sequence[PlanItem]:
    part = {name: chain[found.start(name)] for name in found.groupdict() if found[name] is not None}
    group = part.get("group") and chain[found.start("group") : found.end("group")]
    if kind == "slot":
        return [plan.slot(part["slot"].value)] if plan.slot(part["slot"].value) else []
    if kind == "part":
        return _lettered(plan, "W" if part["part"].letter == "w" else "Z")
    if kind == "whole":
        return []
    if kind == "group":
        return _group(plan, group)
    if kind in ("next", "after it"):
        return _next(plan, part)
    if kind == "partner":
        return _partners(plan, part["of"]) if "of" in part else []
    pool = _group(plan, group) if group else _main(plan)
    if found.groupdict().get("all") and part.get("nth") and part["nth"].letter == "l":
        pool = list(plan.items)  # "the last thing on the sheet" may be a stretch
    which = part.get("nth") or part.get("last") or part.get("number") or part["number2"]
    return _pick(pool, which)


def _main(plan: Plan) -> list[PlanItem]:
    return [it for it in plan.items if it.item[:1] not in "WZ"] or list(plan.items)


def _lettered(plan: Plan, letter: str) -> list[PlanItem]:
    return [it for it in plan.items if it.item.startswith(letter)]


def _group(plan: Plan, pieces: list[_Piece]) -> list[PlanItem]:
    """The slots of "the first pair", "pair B", "the A exercises", "the warm-up"."""
    for piece in pieces:
        if piece.letter in "wcv":
            return _lettered(plan, "W" if piece.letter == "w" else "Z")
        if piece.letter == "t":
            return _lettered(plan, piece.value)
    letters = list(dict.fromkeys(it.item[:1] for it in _main(plan)))
    picked = _pick(letters, pieces[0])
    return _lettered(plan, picked[0]) if picked else []


def _pick(pool: Sequence, which: _Piece) -> list:
    """The one of `pool` that an ordinal, a number or "last" means; none when there are not so many."""
    at = {"l": len(pool) - 1, "b": len(pool) - 2}.get(which.letter)
    at = which.value - 1 if at is None else at
    return [pool[at]] if 0 <= at < len(pool) else []


def _partners(plan: Plan, of: _Piece) -> list[PlanItem]:
    """The other slots of the pair that an exercise or a slot is in."""
    own = [it for it in plan.items if (it.item == of.value if of.letter == "s" else it.exercise in of.value)]
    letters = {it.item[:1] for it in own}
    return [it for it in plan.items if it.item[:1] in letters and it not in own]


def _next(plan: Plan, part: dict[str, _Piece]) -> list[PlanItem]:
    """The slot after or before an exercise, a slot, the warm-up or the cool-down."""
    of, items = part["of"], list(plan.items)
    if of.letter == "e":
        at = [n for n, it in enumerate(items) if it.exercise in of.value]
    elif of.letter == "s":
        at = [n for n, it in enumerate(items) if it.item == of.value]
    else:
        at = [n for n, it in enumerate(items) if it.item.startswith("W" if of.letter == "w" else "Z")]
    if not at and of.letter != "w":
        return []
    nth = part.get("nth") or part.get("nth2") or part.get("nth3")  # "the one two after the push-ups"
    if part["side"].letter == "a":
        after = items[at[-1] + 1 :] if at else items
        return _pick(after, nth) if nth else after[:1]
    before = items[: at[0]][::-1]
    return _pick(before, nth) if nth and nth.letter in "od" else before[:1]

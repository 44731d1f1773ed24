"""Places in today's session: "A2", "second one of the last pair", "the one after the squats", "warm up no 2".

The words stand on place cards; each word of a place becomes one letter, and a place is a pattern over those letters.
Descriptions ("the thing with the band") are in `looks`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from assistant.read.slots import Piece, lettered, others_of, pick, slots_of
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Place
from assistant.values import Plan, PlanItem, Reason
from assistant.words import Text, split_phrase

_LETTERS = {"last": "l", "before-last": "b", "item": "i", "pair": "p", "warm-up": "w", "cool-down": "c", "after": "a",
            "before": "f", "very-first": "x", "very-last": "k", "session": "m", "whole": "h", "number": "n", "partner": "q",
            "stretch": "v"}  # fmt: skip
_SPOKEN = "bcdefwz"  # letters of slots as voice typing writes them, "c one"; "a" is nearly always an article
_GROUP = "(?:[olb]p|tp|pt|g|w|c|v)"  # a group of slots
_PATTERNS = {
    "next": re.compile("(?:(?P<nth>[olb])?i(?P<nth3>d)?|(?P<nth2>[olb]))m?(?P<side>[af])i?(?P<of>[wcse])"),
    "after it": re.compile("(?P<side>[af])(?P<of>[se])i"),
    "partner": re.compile("i?(?P<partner>q)i?p?(?P<of>[se])?"),
    "nth of group": re.compile(f"(?:(?P<nth>[olb])|n?(?P<number>d))i?(?P<group>{_GROUP})i?"),
    "group number": re.compile(f"(?P<group>(?!v){_GROUP})i?n?(?P<nth>[do])i?"),
    "group": re.compile("(?P<group>[olb]p|tp|pt|ti|g)"),
    "very": re.compile("(?P<very>x)i?|i?(?P<end>k)"),
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
    nth: int | None = None  # which of its group an ordinal means, -1 the last


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
    return pick(pool, pieces[0]) if len(pieces) == 1 else []


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


def _pieces(text: Text, plan: Plan | None, book: Rulebook) -> list[Piece]:
    """The words that take part in places, as letters."""
    words, table = text.words, _phrases(book)
    planned = {it.exercise for it in plan.items} if plan else set()
    named = {name.first: name for name in text.names if not name.weak or set(name.ids) & planned}
    result: list[Piece] = []
    n = 0
    while n < len(words):
        piece = _slot(text, n, plan) or (Piece("e", named[n].ids, n, named[n].last) if n in named else None)
        piece = piece or _it(text, n, result) or _card_piece(words, n, table) or _letter(text, n, plan)
        if piece and piece.letter == "q":
            piece = replace(
                piece, named=next((m.first for m in reversed(text.names) if m.last < n and not m.weak), None)
            )
        if piece:
            result.append(piece)
        n = piece.last + 1 if piece else n + 1
    return result


def _slot(text: Text, n: int, plan: Plan | None) -> Piece | None:
    raw = text.words[n].raw
    named = len(raw) == 2 and re.fullmatch(r"[A-Za-z]\d", raw)
    if named and (plan is None or plan.slot(raw.upper())) and raw.upper()[0] in "ABCDEFGWZ":
        return Piece("s", raw.upper(), n, n)
    if plan and len(raw) == 1 and n + 1 < len(text.words) and (raw.isupper() or raw in _SPOKEN):
        if text.words[n + 1].norm.endswith("s"):
            return None  # "the B ones" are all of them
        item = raw.upper() + str(_number(text, n + 1))
        if plan.slot(item):
            return Piece("s", item, n, n + 1)
    return None


def _it(text: Text, n: int, before: list[Piece]) -> Piece | None:
    """ "The one before it": the exercise named last."""
    if not before or before[-1].letter not in "af" or before[-1].last != n - 1:
        return None
    names = [
        name for name in text.names if name.last < before[-1].first and (not name.weak or name.first == before[0].first)
    ]
    if not names or not any(h.first == n for h in text.find("pronoun")):
        return None
    return Piece("e", names[-1].ids, n, n, named=names[-1].first)


def _card_piece(words, n: int, table) -> Piece | None:
    for phrase, card in table.get(words[n].norm, ()):
        last = n + len(phrase) - 1
        if tuple(w.norm for w in words[n : last + 1]) == phrase and not any(w.gap > 1 for w in words[n + 1 : last + 1]):
            word, _, number = card.means.partition(" ")
            if word == "ordinal":
                return Piece("o", int(number), n, last, card)
            return Piece(_LETTERS[word], word, n, last, card)
    return None


def _letter(text: Text, n: int, plan: Plan | None) -> Piece | None:
    word = text.words[n]
    number = _number(text, n)
    if number is not None:
        return Piece("d", number, n, n)
    if plan and re.fullmatch("[A-F]['’]?s", word.raw) and lettered(plan, word.raw[0]):
        return Piece("g", word.raw[0], n, n)  # "the A's": both of them
    if len(word.raw) == 1 and word.raw in "ABCDEF" and plan and any(it.item.startswith(word.raw) for it in plan.items):
        return Piece("t", word.raw, n, n)
    return None


def _number(text: Text, n: int) -> int | None:
    """The number that word `n` is, in digits or in letters."""
    raw = text.words[n].raw
    if raw.isdigit():
        return int(raw)
    said = text.find("said-number")
    return next((int(h.name) for h in said if h.first == n), None) if said else None


def _chains(pieces: list[Piece], text: Text) -> Iterator[list[Piece]]:
    """Runs of pieces with nothing but small words between them."""
    glue = {hit.first for hit in text.find("place-glue")}
    chain: list[Piece] = []
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


def _pointed(kind: str, found: re.Match, chain: list[Piece], plan: Plan | None, text: Text) -> Pointed | None:
    used = chain[found.start() : found.end()]
    because = tuple(p.card.reason(text.quote(p.first, p.last), f"{p.card.means}") for p in used if p.card)
    alone = kind == "partner" and not found["of"]  # "not the pull-ups, the other one in that pair"
    locating = tuple(p.name_at for p in used if p.letter == "e" or alone and p.named is not None)
    if kind == "nth" and found["word"] and any(h.first == used[0].first for h in text.find("lack/ahead")):
        return None  # "no 4" may deny; "number 4" does not
    if kind == "nth" and (found["number"] or found["number2"]) and used[-1].first - used[-2].last > 1:
        return None  # "do the wrong thing for six weeks"
    if kind == "nth" and any(name.last == used[0].first - 1 and not name.weak for name in text.names):
        return None  # "shoulder circles first thing"
    if kind == "part" and _goes_before(text, used[0].first):
        return None  # "after the warm up" says when, not which
    slots = slots_of(kind, found, chain, plan) if plan else ()
    if alone and plan:
        named = [name for name in text.names if name.first in locating]
        slots = others_of(plan, Piece("e", named[0].ids, 0, 0)) if named else ()
    if plan is None and kind in ("part", "whole"):
        return Pointed((), used[0].first, used[-1].last, kind, because)
    return Pointed(tuple(slots), used[0].first, used[-1].last, kind, because, locating, _counts_to(used[0]))


def _counts_to(piece: Piece) -> int | None:
    """Which of a group an ordinal or "last" means, from 0; -1 the last."""
    return {"l": -1, "b": -2}.get(piece.letter, piece.value - 1 if piece.letter == "o" else None)


def _goes_before(text: Text, n: int) -> bool:
    """Whether a word of time or manner stands before the word at `n`: after, during, for the warm-up."""
    return any(n - 2 <= hit.first < n for hit in text.find("place-time"))

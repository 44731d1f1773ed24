"""Two things set against each other, one or both only described: "the normal split squat and the one with the foot on a chair".

The sentence that compares is cut at "or", "than", "versus"; each arm without a name is read as a description, first
among the kin of what is named, then in the whole book.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from assistant.read.looks import Described, as_pool, spoken_of
from assistant.rulebook import Rulebook
from assistant.values import Plan
from assistant.words import Text
from assistant.words.names import NameHit

_OF_KIN, _OF_BOOK = 1.5, 3.5  # likeness of an arm to an exercise: of the kin of what is named, of the whole book
_SHORTEST = 2  # words of an arm


def compares(text: Text) -> bool:
    """Whether two things are set against each other: why, which is harder, what is the difference."""
    return bool(text.find("ask/why") or text.find("which") and text.find("degree"))


def compared(
    text: Text, hits: Sequence[NameHit], looks: Sequence[Described], plan: Plan | None, book: Rulebook
) -> list[Described]:
    """The arms of a comparison that only describe their exercise."""
    known = [ex for hit in hits for ex in hit.ids[:1]] + [d.slots[0].exercise for d in looks]
    kin = as_pool((ex for ex in _kin(known, book) if ex not in known), plan) if known else []
    found = []
    for first, last in _arms(text):
        if last - first + 1 < _SHORTEST or any(h.first <= last and first <= h.last for h in (*hits, *looks)):
            continue
        arm = spoken_of(text, first, last, kin, book) if kin else None
        enough = _OF_KIN
        if arm is None:
            arm, enough = spoken_of(text, first, last, as_pool(book.exercises, plan), book), _OF_BOOK
        if arm and arm.like >= enough and arm.slots[0].exercise not in known:
            found.append(arm)
    return found


def _kin(known: Sequence[str], book: Rulebook) -> Iterator[str]:
    """What stands one step from the exercises known, and the rest of their families."""
    for ex in known:
        yield from book.graph.successors(ex)
        yield from book.graph.predecessors(ex)
    families = {book.exercises[ex].family for ex in known}
    yield from (card.id for card in book.exercises.values() if card.family in families)


def _arms(text: Text) -> Iterator[tuple[int, int]]:
    """The stretches of words on either side of "or", "than", "versus" in a sentence, from the last comma before on."""
    cuts = {h.first: h.last for h in text.find("arm-cut")}
    opens = {h.last for h in text.find("which")} | {h.last for h in text.find("degree")}
    asked = {text.words[h.first].sentence for family in ("ask/why", "degree") for h in text.find(family)}
    for sentence in sorted(asked):
        places = [n for n, w in enumerate(text.words) if w.sentence == sentence]
        cut = next((n for n in places if n in cuts), None)
        if cut is None:
            continue
        start = max((n for n in places if n < cut and (text.words[n].gap >= 1 or n - 1 in opens)), default=places[0])
        yield start, cut - 1
        yield cuts[cut] + 1, places[-1]

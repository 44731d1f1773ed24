"""Exercises by description: "the thing with the band", "the hanging one", "the hold", over the exercises in question.

A description is compared with what is on each exercise's card: words of its names and kit, its position, what it trains
(word classes looks/*), and whether it is a hold. The best fit is meant; several equally good ones are all named.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from assistant.read.places import Pointed
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.values import Plan, PlanItem, Reason
from assistant.words import Text, Word, split_phrase
from assistant.words.lexicon import lexicon

_BEFORE = 4  # words before "one" or "thing" that may describe it
_AFTER = 12  # words after it


@dataclass(frozen=True)
class Described:
    """A description: the exercises it fits best, first and last word, and why."""

    slots: tuple[PlanItem, ...]
    first: int
    last: int
    because: tuple[Reason, ...] = ()


def described(text: Text, pool: Sequence[PlanItem], book: Rulebook, taken: Iterable[Pointed]) -> list[Described]:
    """The exercises of `pool` described in `text`, outside the places already `taken`."""
    busy = {n for p in taken for n in range(p.first, p.last + 1)}
    result: list[Described] = []
    for first, last in _windows(text, book, busy):
        if any(d.first <= last and first <= d.last for d in result):
            continue
        found = fitting(text, first, last, pool, book)
        if found:
            result.append(Described(tuple(found), first, last, _reasons(text, first, last, book)))
    return result


def fitting(text: Text, first: int, last: int, pool: Sequence[PlanItem], book: Rulebook) -> list[PlanItem]:
    """The exercises of `pool` that words `first` to `last` fit best; none where no word fits."""
    hits = [h for h in text.find("looks") if first <= h.first and h.last <= last]
    looks = [h.name.partition("-") for h in hits]
    seen_words = {n for h in hits for n in range(h.first, h.last + 1)}
    tokens = _tokens([text.words[n] for n in range(first, last + 1) if n not in seen_words], book)
    scores = {}
    for slot in pool:
        card = book.exercises.get(slot.exercise)
        if card is not None:
            seen = sum(_has(card, slot, field, value) for field, _, value in looks)
            named, kit = _card_tokens(card.id, book)
            scores[slot] = 2 * (seen + len(tokens & named)) + len(tokens & (kit - named))
    best = max(scores.values(), default=0)
    return [slot for slot, score in scores.items() if score == best] if best else []


def _windows(text: Text, book: Rulebook, busy: set[int]):
    """Spans of words that describe: around a bare "one" or "thing", and "the hold" standing alone."""
    nouns = _nouns(book)
    leads = {h.first for h in text.find("place-lead")}
    opens = {h.first for h in text.find("place-opening")}
    for n, word in enumerate(text.words):
        if n in busy or (word.norm,) not in nouns:
            continue
        first = _back(text, n, busy, opens)
        last = _forth(text, n, leads, busy)
        if first < n or last > n:
            yield first, last
    for hit in text.find("looks/dose-hold") + text.find("looks/trains-stretch"):
        named = any(name.first <= hit.first <= name.last for name in text.names)
        if not named and hit.first not in busy and (hit.first - 1 in opens or hit.first == 0):
            yield hit.first, hit.last


def _back(text: Text, n: int, busy: set[int], opens: set[int]) -> int:
    """The first describing word before the noun at `n`, from "the" on; `n` where there is none."""
    for at in range(n - 1, max(-1, n - 1 - _BEFORE), -1):
        if at in busy or text.words[at + 1].gap >= 2:
            return n
        if at in opens:
            return at + 1
    at_start = max(0, n - 2)
    return at_start if n - at_start >= 1 and (at_start == 0 or text.words[at_start].gap >= 2) else n


def _forth(text: Text, n: int, leads: set[int], busy: set[int]) -> int:
    """The last describing word after the noun at `n`: to the end of the thought that a lead word opens."""
    if n + 1 >= len(text.words) or n + 1 not in leads or text.words[n + 1].gap >= 1:
        return n
    last = n
    for at in range(n + 1, min(n + 1 + _AFTER, len(text.words))):
        if text.words[at].gap >= 1 or at in busy:
            break
        last = at
    return last


def _has(card: Exercise, slot: PlanItem, field: str, value: str) -> bool:
    if field == "position":
        return card.position == value
    if field == "dose":
        held = slot.dose is not None and slot.dose.seconds is not None and not slot.dose.moving
        return value in card.dose if slot.dose is None else held
    return value in card.trains


@lru_cache(maxsize=4)
def _nouns(book: Rulebook) -> frozenset[tuple[str, ...]]:
    """The words that stand for any exercise: one, thing, move."""
    return frozenset(map(split_phrase, book.places["one"].words)) if "one" in book.places else frozenset()


@lru_cache(maxsize=4)
def _small_words(book: Rulebook) -> frozenset[str]:
    """Words that describe nothing: articles, fillers, and the words around a place."""
    classes = ("name/article", "name/filler", "name/particle", "name/before-verb", "place-lead/word", "place-glue/word")
    places = [word for card in ("one",) if card in book.places for word in book.places[card].words]
    return frozenset([*places, *(word for c in classes if c in book.wordclasses for word in book.wordclasses[c].words)])


def _tokens(words: Sequence[Word], book: Rulebook) -> frozenset[str]:
    pieces, small = lexicon(book).names.spellings.pieces(words), _small_words(book)
    return frozenset(p.token for p in pieces if not p.filler and p.token not in small)


@lru_cache(maxsize=1024)
def _card_tokens(exercise: str, book: Rulebook) -> tuple[frozenset[str], frozenset[str]]:
    """The words of an exercise's names, and of the things it needs."""
    card = book.exercises[exercise]
    things = [book.equipment[thing] for need in card.need_sets for thing in need if thing in book.equipment]
    kit = [text for thing in things for text in (thing.name, *thing.called)]
    named, kit = (
        _tokens([Word(w, w, w, 0, 0) for text in texts for w in split_phrase(text)], book)
        for texts in ([card.name, *card.called], kit)
    )
    return named, kit


def _reasons(text: Text, first: int, last: int, book: Rulebook) -> tuple[Reason, ...]:
    return tuple(
        book.wordclasses[h.cls].reason(h.words, h.name)
        for h in text.find("looks")
        if first <= h.first and h.last <= last
    )


def as_pool(ids: Iterable[str], plan: Plan | None) -> list[PlanItem]:
    """Exercise ids as slots: the plan's own where it has them."""
    by_id = {it.exercise: it for it in plan.items} if plan else {}
    return [by_id.get(ex, PlanItem("", ex)) for ex in dict.fromkeys(ids)]

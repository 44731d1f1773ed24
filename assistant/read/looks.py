"""Exercises by description: "the thing with the band", "where you lie on your front and lift arms and legs".

A description is compared with the portraits of the exercises in question. The best fit is meant; several equally good
ones are all named. Where a message names nothing at all, what it tells is taken for a description, if it fits well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from assistant.read.places import Pointed
from assistant.read.portraits import gallery, tokens
from assistant.rulebook import Rulebook
from assistant.values import Plan, PlanItem, Reason
from assistant.words import Text, split_phrase

_BEFORE = 4  # words before "one" or "thing" that may describe it
_OPENING = 10  # words before "on the swingy bar one"
_AFTER = 30  # words after it
_NEAR_PAIN = 4  # words between a sore part and what it feels
_ALIKE = 0.9  # of the best likeness: two descriptions that differ less are equally good
_RIVALS = 3
_LONGER = 1.15  # times the likeness of one sentence that two together must have
_SURE = 7.0  # likeness from which a description outweighs the slot that was pressed
_ENOUGH = {"window": (1, 0.8), "plan": (2, 3.0), "one": (2, 4.0), "book": (4, 7.0)}  # words met, likeness


@dataclass(frozen=True)
class Described:
    """A description: the exercises it fits best, first and last word, and why. `until` = the last word that tells of
    the exercise itself, so that a thing named there is no kit."""

    slots: tuple[PlanItem, ...]
    first: int
    last: int
    because: tuple[Reason, ...] = ()
    until: int = -1
    rivals: tuple[PlanItem, ...] = ()  # nearly as good: then which is meant is in doubt
    sure: bool = True  # like enough to outweigh the slot that was pressed
    like: float = 0.0  # how well the description fits
    led: bool = False  # a sentence leads on from the noun: "the one where ..."


def described(text: Text, pool: Sequence[PlanItem], book: Rulebook, taken: Iterable[Pointed]) -> list[Described]:
    """The exercises of `pool` described in `text`, outside the places already `taken`."""
    busy = {n for p in taken for n in range(p.first, p.last + 1)}
    result: list[Described] = []
    for first, last in _windows(text, book, busy):
        if any(d.first <= last and first <= d.last for d in result):
            continue
        found = _meant(text, first, last, pool, book)
        if found:
            result.append(_as_described(text, first, last, found, book))
    return result


def _meant(text: Text, first: int, last: int, pool: Sequence[PlanItem], book: Rulebook) -> list[PlanItem]:
    """What words `first` to `last` describe: of `pool`; where two things are compared, of the whole book if it fits better."""
    found = fitting(text, first, last, pool, book) if pool else _of_the_book(text, first, last, book)
    if len(found) > 1:
        found = _by_sentence(text, first, last, found, book)
    if pool and text.find("ask/why") and _like(text, first, last, found, book) < _ENOUGH["one"][1]:
        return _of_the_book(text, first, last, book) or found
    return found


def _by_sentence(text: Text, first: int, last: int, found: Sequence[PlanItem], book: Rulebook) -> Sequence[PlanItem]:
    """The one of several equally good exercises that the rest of the sentence fits best; all of them where none does."""
    sentence = [n for n, w in enumerate(text.words) if w.sentence == text.words[first].sentence]
    best = _best(saying(text, {*sentence, *range(first, last + 1)}, book), found, book, "window")
    return best if len(best) == 1 else found


def _like(text: Text, first: int, last: int, found: Sequence[PlanItem], book: Rulebook) -> float:
    said = saying(text, range(first, last + 1), book)
    return gallery(book).portraits[found[0].exercise].likeness(said)[0] if found else 0.0


def _as_described(text: Text, first: int, last: int, found: Sequence[PlanItem], book: Rulebook) -> Described:
    led = last - first > _BEFORE
    because, like = _reasons(text, first, last, book), _like(text, first, last, found, book)
    return Described(tuple(found), first, last, because, _thought(text, first, last), like=like, led=led)


def spoken_of(text: Text, first: int, last: int, pool: Sequence[PlanItem], book: Rulebook) -> Described | None:
    """The one of `pool` that the words `first` to `last` describe best, if one stands out."""
    found = _best(saying(text, range(first, last + 1), book), pool, book, "window")
    return _as_described(text, first, last, found, book) if len(found) == 1 else None


def led_on(text: Text, n: int) -> int:
    """The last word of what is told on from word `n` by a lead word: "the stretch where I lie"; `n` where none is."""
    return _forth(text, n, {h.first for h in text.find("place-lead")}, set())


def told(text: Text, pool: Sequence[PlanItem], book: Rulebook) -> list[Described]:
    """What a message that names nothing tells of: the exercise of `pool`, or of the whole book where there is no pool.

    A description stands in one sentence or in two that follow one another; chat elsewhere adds nothing to it."""
    how = "plan" if pool else "book"
    everything = pool or [PlanItem("", ex) for ex in book.exercises]
    portraits, best = gallery(book).portraits, None
    for first, last in _passages(text):
        said = saying(text, range(first, last + 1), book, things=False)
        found = _best(said, everything, book, how) if len(said) >= _ENOUGH[how][0] else []
        like = portraits[found[0].exercise].likeness(said)[0] if found else 0.0
        if found and (best is None or like > best.like * _LONGER):
            because, rivals = _reasons(text, first, last, book), tuple(found[1:_RIVALS])
            best = Described(tuple(found[:1]), first, last, because, -1, rivals, like >= _SURE, like)
    return [best] if best else []


def _passages(text: Text) -> list[tuple[int, int]]:
    """Every sentence, and every two that follow one another."""
    if not text.words:
        return []
    starts = [n for n, w in enumerate(text.words) if n == 0 or w.sentence != text.words[n - 1].sentence]
    ends = [*(n - 1 for n in starts[1:]), len(text.words) - 1]
    return [*zip(starts, ends, strict=True), *zip(starts, ends[1:], strict=False)]


def _of_the_book(text: Text, first: int, last: int, book: Rulebook) -> list[PlanItem]:
    """The one exercise of the whole book that words `first` to `last` describe well."""
    return _best(saying(text, range(first, last + 1), book), [PlanItem("", ex) for ex in book.exercises], book, "one")[
        :1
    ]


def fitting(text: Text, first: int, last: int, pool: Sequence[PlanItem], book: Rulebook) -> list[PlanItem]:
    """The exercises of `pool` that words `first` to `last` fit best; none where no word fits."""
    return _best(saying(text, range(first, last + 1), book), pool, book, "window")


def _best(said: dict[str, float], pool: Sequence[PlanItem], book: Rulebook, how: str) -> list[PlanItem]:
    """The slots of `pool` most like what was said, if they are like enough."""
    portraits = gallery(book).portraits
    likeness = {}
    for slot in pool:
        if slot.exercise in portraits:
            score, met = portraits[slot.exercise].likeness(said)
            likeness[slot] = score + (2.0 if "dose-hold" in said and _held(slot, book) else 0.0), met
    ranked = sorted(likeness.items(), key=lambda entry: -entry[1][0])
    if not ranked:
        return []
    best, met = ranked[0][1]
    words, enough = _ENOUGH[how]
    if best < enough or met < words:
        return []
    alike = [slot for slot, (score, _) in ranked if score >= _ALIKE * best]
    return sorted(alike, key=list(pool).index) if how == "window" else alike


def _held(slot: PlanItem, book: Rulebook) -> bool:
    if slot.dose is None:
        return "hold" in book.exercises[slot.exercise].dose
    return slot.dose.seconds is not None and not slot.dose.moving


def saying(text: Text, among: Iterable[int], book: Rulebook, things: bool = True) -> dict[str, float]:
    """What the words say of looks, each with its weight; a part that hurts and a thing that is missing describe nothing."""
    among = set(among)
    weights = gallery(book).weights
    sore = _sore(text)
    missing = {n for n in among if text.word_scopes[n] & {"denied", "what-if"}}
    kit = {n for h in text.find("thing") for n in range(h.first, h.last + 1)}
    said: dict[str, float] = {}
    for word, n in tokens(text, among):
        if n in sore or (n in kit and n in missing):
            continue
        if word in weights:
            said[word] = weights[word]
    for hit in text.find("looks"):
        if hit.first in among and hit.last in among and hit.first not in sore:
            said[hit.name] = weights.get(hit.name, 1.0)
    return said


def _sore(text: Text) -> set[int]:
    """Places of parts that hurt, and of what is felt there."""
    feelings = text.find("sensation")
    parts = {
        n
        for part in text.find("part")
        for felt in feelings
        if felt.clause == part.clause and max(felt.first - part.last, part.first - felt.last) <= _NEAR_PAIN
        for n in range(part.first, part.last + 1)
    }
    return parts | {n for felt in feelings for n in range(felt.first, felt.last + 1)}


def _windows(text: Text, book: Rulebook, busy: set[int]) -> Iterator[tuple[int, int]]:
    """Spans of words that describe: around a bare "one" or "thing", and "the hold" standing alone."""
    nouns = _nouns(book)
    leads = {h.first for h in text.find("place-lead")}
    opens = {h.first for h in text.find("place-opening")}
    denied = {h.last + 1 for h in text.find("not-that")}
    times = {h.last for h in text.find("place-time")}
    denied |= {
        n
        for h in text.find("place-none")
        for n in range(h.first, h.last + 1)
        if n == h.last or not text.words[n + 1].gap
    }
    for n, word in enumerate(text.words):
        if n in busy or n - 1 in busy or (word.norm,) not in nouns:
            continue
        first = _back(text, n, busy, opens)
        last = _forth(text, n, leads, busy)
        if (first < n or last > n) and not denied & {first, first - 1, n}:
            yield first, last
    for hit in text.find("looks/dose-hold") + text.find("looks/trains-stretch"):
        named = any(name.first <= hit.first <= name.last for name in text.names)
        doing = text.words[hit.first].norm.endswith("ing") or hit.first - 2 in times
        if not named and not doing and hit.first not in busy and (hit.first - 1 in opens or hit.first == 0):
            yield hit.first, _forth(text, hit.last, leads, busy)


def _back(text: Text, n: int, busy: set[int], opens: set[int]) -> int:
    """The first describing word before the noun at `n`, from "the" on; `n` where there is none."""
    for at in range(n - 1, max(-1, n - 1 - _BEFORE), -1):
        if at in busy or text.words[at + 1].gap >= 2:
            return n
        if at in opens:
            return _led(text, at) + 1
    at_start = max(0, n - 2)
    return at_start if n - at_start >= 1 and (at_start == 0 or text.words[at_start].gap >= 2) else n


def _led(text: Text, at: int) -> int:
    """Just before "elastic to the forehead thing": where the thought opens, if a lead word stands before the "the" at `at`."""
    if at < 2 or not any(
        h.first == at - 1 for h in text.find("place-lead") + text.find("place-glue") + text.find("name/filler")
    ):
        return at
    opening = at
    while opening > 0 and at - opening < _OPENING and text.words[opening].gap < 1:
        opening -= 1
    return opening - 1 if text.words[opening].gap >= 1 or opening == 0 else at


def _forth(text: Text, n: int, leads: set[int], busy: set[int]) -> int:
    """The last describing word after the noun at `n`: to the end of the sentence that a lead word opens."""
    if n + 1 >= len(text.words) or n + 1 not in leads or text.words[n + 1].gap >= 2:
        return n
    last, cuts = n, {h.first for h in text.find("arm-end")}
    for at in range(n + 1, min(n + 1 + _AFTER, len(text.words))):
        if text.words[at].gap >= 3 or at in busy or at in cuts:
            break
        last = at
    return last


def _thought(text: Text, first: int, last: int) -> int:
    """The last word before the first comma of the words `first` to `last`."""
    return next((n - 1 for n in range(first + 1, last + 1) if text.words[n].gap >= 1), last)


@lru_cache(maxsize=4)
def _nouns(book: Rulebook) -> frozenset[tuple[str, ...]]:
    """The words that stand for any exercise: one, thing, move."""
    return frozenset(map(split_phrase, book.places["one"].words)) if "one" in book.places else frozenset()


def _reasons(text: Text, first: int, last: int, book: Rulebook) -> tuple[Reason, ...]:
    return tuple(
        book.wordclasses[h.cls].reason(h.words, h.name)
        for h in (*text.find("looks"), *text.find("sight"))
        if first <= h.first and h.last <= last
    )


def as_pool(ids: Iterable[str], plan: Plan | None) -> list[PlanItem]:
    """Exercise ids as slots: the plan's own where it has them."""
    by_id = {it.exercise: it for it in plan.items} if plan else {}
    return [by_id.get(ex, PlanItem("", ex)) for ex in dict.fromkeys(ids)]

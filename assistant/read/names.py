"""Which of the exercises named in a message it is about.

Left out: names that only say where another is, names withdrawn by a correction, names only said to be fine, names that
are the writer's idea for the swap, plain words and verbs that are names only where the plan has that exercise.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from assistant.read.looks import fitting
from assistant.read.planned import nearest
from assistant.rulebook import Rulebook
from assistant.values import Asked, Kit, Plan, PlanItem, Reason
from assistant.words import Text, split_phrase
from assistant.words.names import NameHit

_NEAR = 6  # words between a withdrawn name and the right one
_BEFORE, _AROUND = 2, 4  # words before and after an ambiguous name that may settle it
_BESIDE = 3  # words between a name and "are fine"


@dataclass(frozen=True)
class Around:
    """What settles an ambiguous name: today's plan, the slot pointed at, exercises of the thread, what is missing."""

    plan: Plan | None = None
    item: str | None = None
    thread: tuple[str, ...] = ()
    offered: tuple[str, ...] = ()  # what the coach offered last
    lacks: tuple[Kit, ...] = ()

    @property
    def planned(self) -> tuple[str, ...]:
        """The exercises of the plan in its order."""
        return tuple(it.exercise for it in self.plan.items) if self.plan else ()


def names(text: Text, around: Around, locating: Iterable[int], elsewhere: bool = False) -> list[NameHit]:
    """The names in `text` it is about, in order. `locating`: word positions of names that only say where;
    `elsewhere`: other exercises are pointed at, so that a name that is only fine may go."""
    hits = [hit for hit in text.names if hit.first not in set(locating) and _counts(hit, text, around)]
    withdrawn = [hit for hit in hits if _withdrawn(hit, hits, text)]
    gone = {hit.ids for hit in withdrawn}
    hits = [hit for hit in hits if hit not in withdrawn and (hit.ids not in gone or hit.first < withdrawn[0].first)]
    hits = [hit for hit in hits if not _again(hit, hits, text)]
    if elsewhere and around.plan:
        hits = [hit for hit in hits if hit.ambiguous is None or set(hit.ids) & {*around.planned, *around.thread}]
    for leaves in (_not_that, _likeness, _only_fine, _idea):
        kept = [hit for hit in hits if not leaves(hit, hits, text)]
        hits = kept if kept or elsewhere else hits
    return hits


def _counts(hit: NameHit, text: Text, around: Around) -> bool:
    """Whether a plain word or a verb is meant as an exercise: the plan or the thread has it, or it stands as a noun."""
    if not hit.weak or set(hit.ids) & {*around.planned, *around.thread}:
        return True
    if text.words[hit.last].norm.endswith("ing") and hit.first == hit.last:
        return False  # "not built for hanging from things"
    if hit.how == "thing" or any(h.first == hit.first == hit.last for h in text.find("part")):
        return False  # "my chin over the bar"
    noun = any(h.last == hit.first - 1 for h in text.find("name/before-noun"))
    return noun and (hit.ambiguous is not None or all(other.weak for other in text.names))


def _withdrawn(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    """ "pull ups, sorry, i mean chin ups" and "pull ups .. chin ups i mean": the first of the two is withdrawn."""
    after = next((h for h in hits if h.first > hit.last), None)
    between = set(range(hit.last + 1, after.first)) if after else set()
    if between and {n for cue in text.find("correct") for n in range(cue.first, cue.last + 1)} >= between:
        return True
    for cue in text.find("correct/word"):
        before = [h for h in hits if h.last < cue.first]
        if before and hit is before[-1] and _taken_back(hit, cue.first, hits, text):
            return True
        after = [h for h in hits if h.first > cue.last and h.first - cue.last <= _NEAR]
        opening = (
            min(c.first for c in text.find("correct/word") if before and c.first > before[-1].last) if before else 0
        )
        if not before or opening - before[-1].last > _NEAR:
            continue
        if after:
            if hit is before[-1]:
                return True
        elif len(before) > 1 and before[-1].first - before[-2].last <= _BESIDE and hit is before[-2]:
            return True
    return False


def _taken_back(hit: NameHit, at: int, hits: Sequence[NameHit], text: Text) -> bool:
    """Whether a sentence that opens with a correction takes back the last name of the one before, and another name comes
    soon after: "... split squats. Scratch that, wrong page. It's the step-ups"."""
    words = text.words
    opens = words[at].sentence != words[at - 1].sentence or (at > 1 and words[at - 2].sentence != words[at].sentence)
    if not opens or words[at].sentence - words[hit.last].sentence != 1:
        return False
    return any(
        0 <= words[h.first].sentence - words[at].sentence <= 1 and h.ids != hit.ids for h in hits if h.first > at
    )


def _again(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    """ "the same push up", where a longer name ending alike was said before: nothing new."""
    taken_up = any(h.last == hit.first - 1 for h in text.find("name/again"))
    stems = {w.stem for w in text.words[hit.first : hit.last + 1]}
    return taken_up and any(
        other.last < hit.first and stems < {w.stem for w in text.words[other.first : other.last + 1]} for other in hits
    )


def _not_that(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    return any(cue.last == hit.first - 1 for cue in text.find("not-that"))


def _likeness(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    """ "more like a dodgy downward dog" tells what it resembles."""
    return hit.first in likened(text)


def likened(text: Text) -> set[int]:
    """Where names begin that only tell what something resembles."""
    cues = text.find("name/likeness")
    return {h.first for h in text.names if any(0 < h.first - cue.last <= _BEFORE + 1 for cue in cues)}


def _only_fine(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    return said_fine(hit.first, hit.last, text, [other.first for other in hits])


def said_fine(first: int, last: int, text: Text, others: Iterable[int] = ()) -> bool:
    """Whether all that is said of the words `first` to `last` is that they are fine, and not in a question."""
    words = text.words
    if _asks(last, text) or text.find("ask/why") or text.find("ask/ready"):
        return False
    for cue in text.find("fine/behind"):
        same = words[cue.first].clause == words[last].clause and not any(last < other < cue.first for other in others)
        if same and 0 < cue.first - last <= _BESIDE:
            return True
    ahead = [cue for cue in text.find("fine/ahead") if words[cue.last].clause == words[first].clause]
    return any(0 < first - cue.last <= 2 for cue in ahead)


def _asks(last: int, text: Text) -> bool:
    """Whether the clause of the word at `last` ends in a question mark."""
    end = max(n for n, w in enumerate(text.words) if w.clause == text.words[last].clause)
    return "?" in text.raw[text.words[end].end : text.words[end].end + 2]


def _idea(hit: NameHit, hits: Sequence[NameHit], text: Text) -> bool:
    """Whether the name is what the writer would do instead of another: "knee push ups instead of push ups?"."""
    if text.find("ask/why"):
        return False
    return any(
        cue.first > hit.last and cue.first - hit.last <= 2 and any(0 < o.first - cue.last <= 3 for o in hits)
        for cue in text.find("idea")
    )


def asked_by_name(hit: NameHit, text: Text, around: Around, book: Rulebook) -> list[Asked]:
    """The exercises a name means: one, or, where the day's plan has several of its meanings, all of those in doubt."""
    words = text.quote(hit.first, hit.last)
    because = (Reason(hit.ambiguous or hit.ids[0], hit.at, words, "", "the name"),)
    base = Asked(hit.ids[0], words, text.words[hit.first].start, text.words[hit.last].end, "name", because=because)
    meant, doubt = _meant(hit, text, around, book)
    options = hit.ids if doubt else ()
    return [replace(base, id=ex, item=_slot(ex, around), doubt=doubt, options=options) for ex in meant]


def _meant(hit: NameHit, text: Text, around: Around, book: Rulebook) -> tuple[tuple[str, ...], bool]:
    """The exercises a name means and whether that is in doubt: what settles it, the strongest first."""
    if len(hit.ids) == 1:
        return (_variant(hit, around, book) or _planned(hit, text, around, book) or hit.ids[0],), False
    slot = around.plan.slot(around.item) if around.plan else None
    if slot is not None and slot.exercise in hit.ids:
        return (slot.exercise,), False
    for known in (around.planned, around.thread):
        found = tuple(ex for ex in dict.fromkeys(known) if ex in hit.ids)
        if found:
            return found, len(found) > 1
    clause = text.words[hit.first].clause
    spoken = [w for w in text.words if w.clause == clause]
    gone = {k.id for k in around.lacks if spoken[0].start <= k.start < spoken[-1].end}
    missed = tuple(ex for ex in hit.ids if any(need <= gone for need in book.exercises[ex].need_sets))
    if len(missed) == 1:
        return missed, False  # what he lacks is what only this one needs
    first, last = _beside(hit, text)
    if planned := _planned(hit, text, around, book):
        return (planned,), False
    fits = fitting(text, first, last, [PlanItem("", ex) for ex in hit.ids], book)
    if len(fits) == 1:
        return (fits[0].exercise,), False
    return hit.ids[:1], True


def _planned(hit: NameHit, text: Text, around: Around, book: Rulebook) -> str | None:
    """The exercise of the plan that is meant by a name the plan does not have."""
    if around.plan is None or hit.ids[0] in {*around.planned, *around.thread}:
        return None
    others = {ex for name in text.names for ex in name.ids if name is not hit}
    found = nearest(hit, text, around.plan, book)
    return found if found not in others else None


def _beside(hit: NameHit, text: Text) -> tuple[int, int]:
    """The words around an ambiguous name that may say which: just before it, and after it where a "with" leads on."""
    words, subjects = text.words, {h.last for h in text.find("name/before-verb")}
    first = hit.first
    while (
        first > max(0, hit.first - _BEFORE)
        and words[first].gap == 0
        and words[first - 1].clause == words[hit.first].clause
    ):
        if first - 1 in subjects or first - 2 in subjects:
            break
        first -= 1
    last = hit.last
    if last + 1 < len(words) and any(h.first == last + 1 for h in text.find("place-lead")):
        while last + 1 < min(len(words), hit.last + _AROUND + 1) and words[last + 1].gap == 0:
            last += 1
    return first, last


def _variant(hit: NameHit, around: Around, book: Rulebook) -> str | None:
    """The one exercise the coach offered last, where its name only adds to what is said: "push ups" on the handles."""
    if len(around.offered) != 1 or around.offered[0] == hit.ids[0] or hit.ids[0] in around.planned:
        return None
    said, offered = (
        set(split_phrase(book.exercises[ex].id.replace("-", " "))) for ex in (hit.ids[0], around.offered[0])
    )
    return around.offered[0] if said < offered else None


def _slot(exercise: str, around: Around) -> str | None:
    """The slot of the plan that has the exercise: the one pointed at where it does, else the first."""
    if around.plan is None:
        return None
    items = [it.item for it in around.plan.items if it.exercise == exercise]
    return around.item if around.item in items else next(iter(items), None)

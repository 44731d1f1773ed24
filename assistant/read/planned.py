"""A name that today's plan does not have, where the words around it fit an exercise that it has: "squats with a jump".

The name is kept unless a slot of the plan that trains the same looks at least as much like what is told beside it.
"""

from __future__ import annotations

from assistant.read.looks import saying
from assistant.read.portraits import gallery
from assistant.rulebook import Rulebook
from assistant.values import Plan
from assistant.words import Text
from assistant.words.names import NameHit

_BEFORE, _AFTER = 8, 12  # words around a name in its sentence that may tell more of it
_MORE, _MUCH_MORE = 1.1, 1.6  # times the likeness of the exercise named: for its kin, for others


def nearest(hit: NameHit, text: Text, plan: Plan, book: Rulebook) -> str | None:
    """The exercise of `plan` that is rather meant than the one named, or None.

    >>> from assistant.rulebook import load
    >>> from assistant.values import PlanItem
    >>> from assistant.words import prepare
    >>> plan, text = Plan("p", "t", (PlanItem("A1", "squat-jump"),)), prepare("squats, the ones with a jump", load())
    >>> nearest(text.names[0], text, plan, load())
    'squat-jump'
    """
    named = book.exercises[hit.ids[0]]
    if hit.how == "thing":
        return None
    if (only := _one_kind(named.id, plan)) and not _told_apart(text):
        return only
    around = [n for n in range(max(0, hit.first - _BEFORE), min(len(text.words), hit.last + _AFTER + 1))
              if text.words[n].sentence == text.words[hit.first].sentence]  # fmt: skip
    told = saying(text, around, book)
    portraits = gallery(book).portraits
    own = portraits[named.id].likeness(told)[0]
    like = {it.exercise: portraits[it.exercise].likeness(told)[0] for it in plan.items if it.exercise in portraits}
    fitting = {ex: much for ex, much in like.items()
               if much >= max(1.0, own * (_MORE if _kin(ex, named.id, book) else _MUCH_MORE))}  # fmt: skip
    return max(fitting, key=fitting.__getitem__, default=None)


def _one_kind(named: str, plan: Plan) -> str | None:
    """The only exercise of `plan` that is a kind of the one named: "push-ups" where the plan has the lean push-up."""
    kinds = {it.exercise for it in plan.items if it.exercise.endswith(f"-{named}")}
    return kinds.pop() if len(kinds) == 1 else None


def _told_apart(text: Text) -> bool:
    """Whether the message sets the plain exercise against another, or asks for it."""
    return any(text.find(family) for family in ("ask/why", "ask/ready", "ask/swap", "ask/use", "plain-one", "idea"))


def plain_of(exercise: str, book: Rulebook) -> str | None:
    """The plain exercise that `exercise` is a kind of, or None.

    >>> from assistant.rulebook import load
    >>> plain_of("fist-push-up", load()), plain_of("squat", load())
    ('push-up', None)
    """
    parts = exercise.split("-")
    rest = ("-".join(parts[n:]) for n in range(1, len(parts)))
    return next((ex for ex in rest if ex in book.exercises), None)


def _kin(exercise: str, named: str, book: Rulebook) -> bool:
    """Whether two exercises train the same in the first place."""
    if exercise not in book.exercises:
        return False
    one, other = book.exercises[exercise], book.exercises[named]
    return one.family == other.family or one.trains[0] in other.trains or other.trains[0] in one.trains

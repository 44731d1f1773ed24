"""Random followers and their questions, the same for the same seed: what stands in the way, what is there, what is gone."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from assistant.rulebook import Rulebook
from assistant.values import Asked, Denied, Kit, Limit, Message, Plan, PlanItem, Profile, Question

WANTS = (
    ("swap",),
    ("swap",),
    ("swap",),
    ("easier",),
    ("harder",),
    ("swap", "easier"),
    ("ready",),
    ("dose",),
    ("form",),
    (),
)


def questions(book: Rulebook, many: int, seed: int) -> Iterator[tuple[str, Question, Message]]:
    """`many` questions, each with the exercise it is about."""
    random = Random(seed)
    for _ in range(many):
        question, message = one(random, book)
        yield question.exercises[0].id, question, message


def one(random: Random, book: Rulebook) -> tuple[Question, Message]:
    """One question with its message: up to three limits, kit said and lacking, a profile, now and then a plan."""
    exercises, limits, things = (list(shelf) for shelf in (book.exercises, book.limits, book.equipment))

    def some(of: list[str], *how_many: int) -> list[str]:
        return random.sample(of, random.choice(how_many))

    asked = random.sample(exercises, random.choice((1, 1, 1, 2)))
    about = (None, None, None, asked[0], asked[-1])
    said = tuple(
        Limit(i, book.limits[i].kind, None, i, 0, 1, random.choice(about)) for i in some(limits, 0, 1, 1, 2, 3)
    )
    question = Question(
        random.choice(WANTS),
        tuple(Asked(i, i, 0, 1, "name") for i in asked),
        said,
        tuple(Kit(i, i, 0, 1) for i in some(things, 0, 0, 1, 3)),
        tuple(Kit(i, i, 0, 1) for i in some(things, 0, 0, 1, 3, 6)),
        tuple(Denied(i, i, 0, 1) for i in some(limits, 0, 0, 1)),
    )
    parts = [part for region in book.regions.values() for part in region.parts] + ["all", "somewhere"]
    profile = Profile(
        has=tuple(some(things, 0, 1, 4)),
        limits=tuple(some(limits, 0, 0, 1, 2) + [d.id for d in question.denied if random.random() < 0.5]),
        held=tuple(random.sample(parts, random.choice((0,) * 9 + (1,)))),
    )
    plan = Plan("p", "p", tuple(PlanItem(f"A{n}", i) for n, i in enumerate(some(exercises, 0, 0, 2, 4), 1)))
    return question, Message("?", plan=plan if plan.items else None, profile=profile)

"""The examples of the cards, run: what an example must do depends on the kind of its card, see `_PROOFS`.

A spelling of an exercise or of a thing is an example of its own: typed alone it must lead to its card.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from assistant.read import read
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Example
from assistant.screen import screen
from assistant.values import Message, Plan, PlanItem
from assistant.words import Text, prepare

_SLOTS = ("W1", "A1", "A2", "B1", "B2", "C1", "Z1")  # the session in which words for a place are tried
_BRACKETS = re.compile(r"[\[\]]")
_QUIETING = ("look-alike", "end")  # cues that put no scope on a word; none may be left on the words in brackets
_TAKEN_AWAY = {"denied", "over", "other-person", "what-if"}


@dataclass(frozen=True)
class Failing:
    """An example that does not do what its card says: where, the sentence, what was expected, what came."""

    example: Example
    expected: str
    got: str

    def __str__(self) -> str:
        file, _, line = self.example.at.rpartition(":")
        return f"{file}, line {line}: '{self.example.text}': expected {self.expected}; got {self.got}"


def examples(book: Rulebook) -> tuple[Example, ...]:
    """Every example of every card in the order of the book, the spellings of exercises and things among them."""
    return (*book.examples, *_spellings(book))


def failing(example: Example, book: Rulebook) -> Failing | None:
    """None when the example does what its card says, else what was expected and what came."""
    proof = _PROOFS.get(example.kind)
    if proof is None:
        return Failing(example, f"no examples on a {example.kind} card", "one: delete it")
    try:
        fired, expected, got = proof(example, book)
    except Exception as error:  # whatever it is: the other examples are still to be run
        return Failing(example, "a reading of it", f"{type(error).__name__}: {error}")
    if fired is example.fires:
        return None
    return Failing(example, expected if example.fires else f"not {expected}", got or "nothing")


def _spellings(book: Rulebook) -> Iterator[Example]:
    for kind in ("exercise", "equipment"):
        for card in book.cards[kind].values():
            for text in card.called:
                yield Example(card=card.id, kind=kind, fires=True, text=text, at=card.at)


Proof = tuple[bool, str, str]  # did it fire; what firing means; what came instead


def session(book: Rulebook) -> Plan:
    """A session of the book's own exercises, so that "the last one" has something to point at."""
    return Plan(
        "example", "Example", tuple(PlanItem(slot, ex) for slot, ex in zip(_SLOTS, book.exercises, strict=False))
    )


def _exercise(example: Example, book: Rulebook) -> Proof:
    found = [hit.name for hit in prepare(example.text, book).find("exercise")]
    return example.card in found, f"exercise '{example.card}'", ", ".join(found)


def _equipment(example: Example, book: Rulebook) -> Proof:
    found = [hit.name for hit in prepare(example.text, book).find("thing")]
    return example.card in found, f"thing '{example.card}'", ", ".join(found)


def _limit(example: Example, book: Rulebook) -> Proof:
    text = prepare(example.text, book)
    found = [limit.id for limit in read(text, Message(example.text), book).limits]
    return example.card in found, f"limit '{example.card}'", ", ".join(found)


def _want(example: Example, book: Rulebook) -> Proof:
    message = Message(example.text, plan=session(book))
    found = read(prepare(example.text, book), message, book).wants
    return example.card in found, f"want '{example.card}'", ", ".join(found)


def _place(example: Example, book: Rulebook) -> Proof:
    message = Message(example.text, plan=session(book))
    found = [
        reason.rule
        for asked in read(prepare(example.text, book), message, book).exercises
        if asked.how == "place"
        for reason in asked.because
    ]
    return example.card in found, f"place '{example.card}'", ", ".join(found)


def _sign(example: Example, book: Rulebook) -> Proof:
    verdict = screen(prepare(example.text, book), None, book)
    found = [(finding.sign, finding.tier) for finding in verdict.findings]
    fired = any(sign == example.card and tier != "clear" for sign, tier in found)
    return fired, f"sign '{example.card}'", ", ".join(f"{sign} ({tier})" for sign, tier in found)


def _class(example: Example, book: Rulebook) -> Proof:
    text = prepare(example.text, book)
    found = [hit.cls for hit in text.hits]
    return example.card in found, f"class '{example.card}'", ", ".join(found)


def _figure(example: Example, book: Rulebook) -> Proof:
    text = prepare(example.text, book)
    marked = [word.raw for word, scopes in zip(text.words, text.word_scopes, strict=True) if "figure" in scopes]
    return bool(marked), f"figure of speech '{example.card}'", " ".join(marked)


def _cue(example: Example, book: Rulebook) -> Proof:
    """The words in brackets carry the scope of the cue; after a cue that keeps another one quiet they carry none."""
    means = book.cues[example.card].means
    text = prepare(_BRACKETS.sub("", example.text), book)
    marked = _bracketed(example.text, text)
    if means in _QUIETING:
        taken = set().union(*marked) & _TAKEN_AWAY
        return bool(taken), "a scope on the words in brackets", ", ".join(sorted(taken))
    got = ", ".join(sorted(set().union(*marked))) or "no scope"
    carried = [means in scopes for scopes in marked]
    fired = all(carried) if example.fires else any(carried)
    return bool(carried) and fired, f"'{means}' on the words in brackets", got if carried else "no words in brackets"


def _bracketed(marked: str, text: Text) -> list[frozenset[str]]:
    """The scopes of every word that stands in [brackets] in `marked`, which reads like `text` without them."""
    inside: list[tuple[int, int]] = []
    for number, found in enumerate(re.finditer(r"\[([^\[\]]*)\]", marked)):
        start = found.start() - 2 * number
        inside.append((start, start + len(found[1])))
    return [
        scopes
        for word, scopes in zip(text.words, text.word_scopes, strict=True)
        if any(start <= word.start and word.end <= end for start, end in inside)
    ]


_PROOFS: dict[str, Callable[[Example, Rulebook], Proof]] = {
    "exercise": _exercise, "equipment": _equipment, "limit": _limit, "want": _want, "place": _place, "sign": _sign,
    "class": _class, "figure": _figure, "cue": _cue,
}  # fmt: skip

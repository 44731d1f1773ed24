"""What every card must bring: text in its fields, a source, examples that fire and that stay quiet."""

from __future__ import annotations

import re
from string import Formatter

from assistant.plan import read_dose
from assistant.rulebook import cards as c
from assistant.rulebook.validate.pencil import Pencil, kind_of
from assistant.values import BadInput

_NO_SOURCE = ("source", "family", "reply")  # a source is its own; a family and a sentence claim nothing
_ONLY_QUIET = ("look-alike", "end")  # such cues do nothing to a word: they keep another cue from it
_REACH = re.compile(r"(forward|backward|both)(, (\d+ words?|sentence|message))?")
_PROVED = ("limit", "sign", "want", "place", "cue", "figure")


def check_proofs(pencil: Pencil) -> None:
    """Notes empty fields, missing sources, missing examples, unreadable doses, ratings without a because."""
    for kind, shelf in pencil.book.cards.items():
        for card in shelf.values():
            _empty(pencil, card)
            if kind not in _NO_SOURCE and not card.source:
                pencil.note(
                    card,
                    (),
                    f"{kind} '{card.id}' names no source",
                    "",
                    "add 'source:'; 'coach' for a judgement of your own",
                )
            if kind in _PROVED and (kind != "limit" or card.when):
                _examples(pencil, card)
    for card in pencil.book.signs.values():
        _sign(pencil, card)
    for card in pencil.book.doserules.values():
        _said(pencil, card)
    for card in pencil.book.cues.values():
        _cue(pencil, card)
    for card in pencil.book.exercises.values():
        _exercise(pencil, card)


def _empty(pencil: Pencil, card: c.Card) -> None:
    for name, info in type(card).model_fields.items():
        value = getattr(card, name)
        if info.is_required() and value in ("", []) and info.annotation is not list and name not in ("when", "needs"):
            pencil.note(
                card,
                (info.alias or name,),
                f"'{info.alias or name}' of {kind_of(card)} '{card.id}' is empty",
                "",
                "write it",
            )


def _examples(pencil: Pencil, card: c.Card) -> None:
    sides = {"fires": "that fires it", "quiet": "in which it stays quiet"}
    if getattr(card, "means", "") in _ONLY_QUIET:
        del sides["fires"]
    for field, says in sides.items():
        if not getattr(card.examples, field):
            pencil.note(
                card,
                ("examples",),
                f"{kind_of(card)} '{card.id}' has no example {says}",
                "",
                f"add one sentence under 'examples: {field}:'",
            )
    for text in sorted(set(card.examples.fires) & set(card.examples.quiet)):
        pencil.note(
            card,
            ("examples",),
            f"an example both fires and stays quiet in {kind_of(card)} '{card.id}'",
            f"'{text}'",
            "keep it on one side",
        )


def _exercise(pencil: Pencil, card: c.Exercise) -> None:
    if card.rated and not card.rated_because:
        pencil.note(
            card,
            ("rated",),
            f"'{card.id}' has rated numbers and does not say why",
            "",
            "add 'rated_because:' with where they come from",
        )
    try:
        read_dose(card.dose)
    except BadInput as error:
        sentence = str(error).rstrip(".")
        pencil.note(card, ("dose",), sentence[0].lower() + sentence[1:])


def _sign(pencil: Pencil, card: c.Sign) -> None:
    if "now" not in card.tier:
        pencil.note(card, ("tier",), f"sign '{card.id}' has no tier for now", "", "add 'now:' under 'tier:'")


def _said(pencil: Pencil, card: c.Doserule) -> None:
    """The sentence of a dose rule holds its numbers in single braces."""
    try:
        names = [name for _, name, _, _ in Formatter().parse(card.how) if name is not None]
    except ValueError as error:
        pencil.note(
            card, ("how",), f"the sentence of doserule '{card.id}' cannot be read", str(error), "check its braces"
        )
        return
    if any(not name.isidentifier() for name in names):
        pencil.note(
            card,
            ("how",),
            f"the sentence of doserule '{card.id}' cannot be read",
            f"found '{card.how}'",
            "name a number in each {}",
        )


def _cue(pencil: Pencil, card: c.Cue) -> None:
    if not _REACH.fullmatch(card.reaches):
        advice = "write 'forward', 'backward, 3 words' or 'both, sentence'"
        pencil.note(
            card, ("reaches",), f"the reach of cue '{card.id}' cannot be read", f"found '{card.reaches}'", advice
        )
    for side in ("fires", "quiet"):
        for n, text in enumerate(getattr(card.examples, side)):
            if not re.search(r"\[[^\[\]]+\]", text):
                pencil.note(
                    card,
                    ("examples", side, n),
                    f"an example of cue '{card.id}' marks no words",
                    f"found '{text}'",
                    "put the words it is about in [brackets]",
                )

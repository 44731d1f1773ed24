"""Frames (`when:`) must speak of word classes, equipment and quantities that exist."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from pydantic import TypeAdapter, ValidationError

from assistant.rulebook import cards as c
from assistant.rulebook.cardfile import Path_
from assistant.rulebook.validate.pencil import Pencil, meant

_BOUND = TypeAdapter(c.Restriction)
_WINDOWS = ("clause", "sentence", "message")
_KIT = ("has", "lacks")
_SPECIAL = ("phrase", "not", "within", "asked", *_KIT)


def check_frames(pencil: Pencil) -> None:
    """Notes every slot, name, window and bound in a frame that says nothing."""
    families = _families(pencil)
    for kind in ("limit", "sign", "want"):
        for card in pencil.book.cards[kind].values():
            for n, frame in enumerate(card.when):
                raw = pencil.raw.get((kind, card.id))
                listed = raw is None or isinstance(raw.fields.get("when"), list)
                path = ("when", n) if listed else ("when",)
                if not frame:
                    pencil.note(card, path, "this frame is empty", "", "say what words it waits for, or delete it")
                _frame(pencil, card, path, frame, families)


def _families(pencil: Pencil) -> dict[str, set[str]]:
    """Family -> names in it: the class cards, and the two families that come by themselves."""
    families: dict[str, set[str]] = defaultdict(set)
    for card_id in pencil.ids("class"):
        family, _, name = card_id.partition("/")
        families[family].add(name)
    families["thing"] |= pencil.ids("equipment")
    families["exercise"] |= pencil.ids("exercise")
    return families


def _frame(pencil: Pencil, card: c.Card, path: Path_, frame: Any, families: dict[str, set[str]]) -> None:
    if not isinstance(frame, dict):
        pencil.note(
            card, path, "a frame is lines of 'slot: name'", f"found '{frame}'", "see the limits in rules/limits"
        )
        return
    for slot, value in frame.items():
        here = (*path, slot)
        if slot == "phrase":
            _phrases(pencil, card, here, value)
        elif slot == "not":
            for inner in value if isinstance(value, list) else [value]:
                _frame(pencil, card, here, inner, families)
        elif slot == "within":
            pencil.known(card, here, str(value), _WINDOWS, "window")
        elif slot == "asked":
            _asked(pencil, card, here, value)
        elif slot in _KIT:
            _members(pencil, card, here, value, pencil.ids("equipment"), "", "equipment")
        elif slot in families:
            _members(pencil, card, here, value, families[slot], f"{slot}/", "class of words")
        else:
            pencil.note(
                card,
                here,
                f"there is no class of words '{slot}'",
                f"in {_place(card)}",
                meant(slot, {*families, *_SPECIAL}, "class"),
            )


def _phrases(pencil: Pencil, card: c.Card, path: Path_, value: Any) -> None:
    for text in value if isinstance(value, list) else [value]:
        if not isinstance(text, str) or not text.strip():
            pencil.note(
                card, path, "a phrase has no words", f"in {_place(card)}", "write the words, or delete the line"
            )


def _members(pencil: Pencil, card: c.Card, path: Path_, value: Any, known: set[str], family: str, what: str) -> None:
    for n, name in enumerate(value if isinstance(value, list) else [value]):
        if name in known or (name == "any" and family):
            continue
        at = (*path, n) if isinstance(value, list) else path
        pencil.known(card, at, f"{family}{name}", {family + other for other in known}, what)


def _asked(pencil: Pencil, card: c.Card, path: Path_, value: Any) -> None:
    if not isinstance(value, dict):
        pencil.note(
            card,
            path,
            "'asked' names quantities with their bounds",
            f"found '{value}'",
            "write 'asked: {wrist_extension_deg: over 30}'",
        )
        return
    for name, bound in value.items():
        pencil.known(card, (*path, name), name, pencil.ids("quantity"), "quantity")
        try:
            _BOUND.validate_python({name: bound})
        except ValidationError as error:
            wrong = error.errors()[0]["msg"].removeprefix("Value error, ")
            pencil.note(card, (*path, name), wrong, f"found '{bound}'", "correct the bound")


def _place(card: c.Card) -> str:
    return f"'when' of {type(card).__name__.lower()} '{card.id}'"

"""Spellings must lead to one meaning: no exercise, no word class shares one with its neighbour."""

from __future__ import annotations

from collections import defaultdict

from assistant.rulebook.validate.pencil import Pencil, joined, spelled

# A word is one body part and is spelled one way; other families overlap on purpose ("twinge" is sore and is a pull).
_ONE_MEANING = ("part", "spelling")


def check_spellings(pencil: Pencil) -> None:
    """Notes a spelling with two meanings, and words that stand twice."""
    _exercises(pencil)
    _classes(pencil)


def _exercises(pencil: Pencil) -> None:
    book = pencil.book
    ambiguous = {joined(text): card for card in book.ambiguous.values() for text in card.called}
    things = {joined(text): card for card in book.equipment.values() for text in card.called}
    first: dict[str, str] = {}
    for card in book.exercises.values():
        own = {spelled(card.name)}
        for path, text in [(("name",), card.name), *((("called", n), text) for n, text in enumerate(card.called))]:
            key, other = joined(text), first.setdefault(joined(text), card.id)
            if path != ("name",) and spelled(text) in own:
                pencil.note(card, path, f"'{text}' is said twice for '{card.id}'", "", "delete one")
            elif key in ambiguous:
                found = f"it stands in ambiguous '{ambiguous[key].id}' ({ambiguous[key].at})"
                pencil.note(
                    card, path, f"'{text}' is a spelling with several meanings", found, "delete it in one place"
                )
            elif key in things:
                found = f"of exercise '{card.id}' and of equipment '{things[key].id}' ({things[key].at})"
                pencil.note(card, path, f"'{text}' is the spelling of two cards", found, "keep it on one of them")
            elif other != card.id:
                found = f"'{other}' ({book.exercises[other].at}) and '{card.id}'"
                wrong = f"'{text}' is the spelling of two exercises"
                pencil.note(card, path, wrong, found, "give it to one, or make it an ambiguous card")
            own.add(spelled(text))


def _classes(pencil: Pencil) -> None:
    first: dict[str, dict[str, str]] = defaultdict(dict)
    for card in pencil.book.wordclasses.values():
        family = card.id.partition("/")[0]
        own: set[str] = set()
        for n, word in enumerate(card.words):
            key = word.casefold().strip()
            other = first[family].setdefault(key, card.id)
            if key in own:
                pencil.note(card, ("words", n), f"'{word}' stands twice in class '{card.id}'", "", "delete one")
            elif other != card.id and family in _ONE_MEANING:
                wrong = f"'{word}' stands in two classes of '{family}'"
                pencil.note(card, ("words", n), wrong, f"'{other}' and '{card.id}'", "keep it where it belongs")
            own.add(key)

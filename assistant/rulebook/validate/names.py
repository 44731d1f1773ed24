"""Every name that one card says of another must be the id of a card: `did you mean` where it is not."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from assistant.rulebook.cardfile import Path_
from assistant.rulebook.validate.pencil import Pencil
from assistant.values import TIERS

# kind of the card, its field, kind of the cards it names
_NAMES = (
    ("exercise", "family", "family"),
    ("exercise", "trains", "purpose"),
    ("exercise", "rated", "quantity"),
    ("exercise", "easier", "exercise"),
    ("exercise", "swap", "exercise"),
    ("equipment", "serves_as", "equipment"),
    ("equipment", "makes_limit", "limit"),
    ("standin", "things", "equipment"),
    ("standin", "for_kit", "equipment"),
    ("standin", "only_for", "exercise"),
    ("limit", "restricts", "quantity"),
    ("limit", "changes_dose", "doserule"),
    ("ambiguous", "exercises", "exercise"),
    ("sign", "category", "category"),
    ("limit", "gives_way_to", "limit"),
    ("region", "restricts", "quantity"),
    ("preference", "exercises", "exercise"),
)
_TIMES = ("now", "recent", "year", "old", "gone", "cleared", "other")  # the keys of a sign's `tier`
_DAYS = ("lasting_days", "ago_days")  # readings that come from the time words themselves
_EVERYTHING = "all-equipment"  # in a limit's `without`: every piece of kit is gone


def check_names(pencil: Pencil) -> None:
    """Notes every id that no card has."""
    for kind, field, names in _NAMES:
        known = pencil.ids(names)
        for card in pencil.book.cards[kind].values():
            for path, name in _named(getattr(card, field), (field,)):
                pencil.known(card, path, name, known, names)
    _sources(pencil)
    _needs(pencil)
    _without(pencil)
    _notices(pencil)
    _signs(pencil)
    _readings(pencil)
    _noanswers(pencil)
    _parts(pencil)
    _load_costs(pencil)


def _named(value: Any, path: Path_) -> Iterator[tuple[Path_, str]]:
    """The names in a field with their paths: a text, the keys of a mapping, the entries of a list of either."""
    if isinstance(value, str):
        if value:
            yield path, value
    elif isinstance(value, dict):
        for key in value:
            yield (*path, key), key
    else:
        for n, entry in enumerate(value):
            yield from _named(entry, (*path, n))


def _sources(pencil: Pencil) -> None:
    known = pencil.ids("source")
    for kind, shelf in pencil.book.cards.items():
        if kind == "source":
            continue
        for card in shelf.values():
            for n, name in enumerate(card.source):
                pencil.known(card, ("source", n), name, known, "source")


def _needs(pencil: Pencil) -> None:
    known = pencil.ids("equipment")
    for card in pencil.book.exercises.values():
        for n, need in enumerate(card.need_sets):
            for name in sorted(need):
                pencil.known(card, ("needs", n), name, known, "equipment")


def _without(pencil: Pencil) -> None:
    known = pencil.ids("equipment") | {_EVERYTHING}
    for card in pencil.book.limits.values():
        for n, name in enumerate(card.without):
            pencil.known(card, ("without", n), name, known, "equipment")


def _notices(pencil: Pencil) -> None:
    known = pencil.ids("reply")
    for card in pencil.book.categories.values():
        for tier, name in card.notice.items():
            pencil.known(card, ("notice", tier), tier, set(TIERS), "tier")
            pencil.known(card, ("notice", tier), name, known, "reply")


def _signs(pencil: Pencil) -> None:
    company = pencil.ids("sign") | pencil.ids("class")
    readings = pencil.ids("reading") | set(_DAYS)
    for card in pencil.book.signs.values():
        for name in card.tier:
            pencil.known(card, ("tier", name), name, set(_TIMES), "time")
        for name in card.together:
            pencil.known(card, ("together", name), name, company, "sign or class of words")
        for path, name in _named(card.reads, ("reads",)):
            pencil.known(card, path, name, readings, "reading")


def _readings(pencil: Pencil) -> None:
    classes = pencil.ids("class")
    known = classes | {card_id.partition("/")[0] for card_id in classes}
    for card in pencil.book.cards["reading"].values():
        for field in ("near", "never"):
            for path, name in _named(getattr(card, field), (field,)):
                pencil.known(card, path, name, known, "class of words")


def _noanswers(pencil: Pencil) -> None:
    exercises, limits = pencil.ids("exercise") | pencil.ids("family"), pencil.ids("limit")
    for card in pencil.book.noanswers.values():
        for n, name in enumerate(card.exercises):
            pencil.known(card, ("exercises", n), name, exercises, "exercise or family")
        for n, entry in enumerate(card.limits):
            for name in entry.split(" + "):
                pencil.known(card, ("limits", n), name.strip(), limits, "limit")


def _parts(pencil: Pencil) -> None:
    known = {card_id.removeprefix("part/") for card_id in pencil.ids("class") if card_id.startswith("part/")}
    for card in pencil.book.regions.values():
        for n, name in enumerate(card.parts):
            pencil.known(card, ("parts", n), name, known, "body part")
    for card in pencil.book.signs.values():
        pencil.known(card, ("part",), card.part, known | {"all", "said"}, "body part")


def _load_costs(pencil: Pencil) -> None:
    """An order that prices one quantity prices nothing else, so any other name in it is a slip."""
    known = pencil.ids("quantity")
    for card in pencil.book.orders.values():
        if known & set(card.costs):
            for name in card.costs:
                pencil.known(card, ("costs", name), name, known, "quantity")

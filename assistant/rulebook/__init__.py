"""rules/ → Rulebook: every card typed, frozen, with file and line; and the progression graph.

`load` reads a folder of cards and gives the book, or raises `RulebookError` with every mistake in it. A book never
changes; a new one is loaded beside it and takes its place only when it is whole.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cached_property
from importlib import resources
from pathlib import Path
from typing import Any, TypeVar

import networkx as nx
from pydantic import ValidationError

from assistant.body import Body, CannotStand
from assistant.rulebook import cards as c
from assistant.rulebook.cardfile import RawCard, read_cards
from assistant.rulebook.demands import body_of, compute
from assistant.rulebook.pause import collector_paused
from assistant.values import Mistake, Reason, RulebookError

__all__ = ["Rulebook", "default_rules", "load"]
CardType = TypeVar("CardType", bound=c.Card)


_SHELVES = {
    "exercises": "exercise",
    "equipment": "equipment",
    "standins": "standin",
    "nevers": "never",
    "limits": "limit",
    "quantities": "quantity",
    "families": "family",
    "sources": "source",
    "wordclasses": "class",
    "cues": "cue",
    "figures": "figure",
    "ambiguous": "ambiguous",
    "signs": "sign",
    "categories": "category",
    "places": "place",
    "wants": "want",
    "doserules": "doserule",
    "orders": "order",
    "replies": "reply",
    "noanswers": "noanswer",
    "preferences": "preference",
    "purposes": "purpose",
    "regions": "region",
    "segments": "segment",
    "assumptions": "assumption",
}


@dataclass(frozen=True, eq=False)
class Rulebook:
    """The whole book. `cards[kind][id]` is a card; the properties below are the shelves by name."""

    cards: dict[str, dict[str, c.Card]]
    fingerprint: str
    root: Path = field(repr=False)

    _example_lines: dict[tuple[str, str], dict[tuple[str, int], str]] = field(default_factory=dict, repr=False)
    exercises: dict[str, c.Exercise] = field(init=False, repr=False)
    equipment: dict[str, c.Equipment] = field(init=False, repr=False)
    standins: dict[str, c.Standin] = field(init=False, repr=False)
    nevers: dict[str, c.Never] = field(init=False, repr=False)
    limits: dict[str, c.Limit] = field(init=False, repr=False)
    quantities: dict[str, c.Quantity] = field(init=False, repr=False)
    families: dict[str, c.Family] = field(init=False, repr=False)
    sources: dict[str, c.Source] = field(init=False, repr=False)
    wordclasses: dict[str, c.Wordclass] = field(init=False, repr=False)
    cues: dict[str, c.Cue] = field(init=False, repr=False)
    figures: dict[str, c.Figure] = field(init=False, repr=False)
    ambiguous: dict[str, c.Ambiguous] = field(init=False, repr=False)
    signs: dict[str, c.Sign] = field(init=False, repr=False)
    categories: dict[str, c.Category] = field(init=False, repr=False)
    places: dict[str, c.Place] = field(init=False, repr=False)
    wants: dict[str, c.Want] = field(init=False, repr=False)
    doserules: dict[str, c.Doserule] = field(init=False, repr=False)
    orders: dict[str, c.Order] = field(init=False, repr=False)
    replies: dict[str, c.Reply] = field(init=False, repr=False)
    noanswers: dict[str, c.Noanswer] = field(init=False, repr=False)
    preferences: dict[str, c.Preference] = field(init=False, repr=False)
    purposes: dict[str, c.Purpose] = field(init=False, repr=False)
    regions: dict[str, c.Region] = field(init=False, repr=False)
    segments: dict[str, c.Segment] = field(init=False, repr=False)
    assumptions: dict[str, c.Assumption] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        for name, kind in _SHELVES.items():
            object.__setattr__(self, name, self.cards.get(kind, {}))

    @cached_property
    def graph(self) -> nx.DiGraph:
        """Exercises as nodes; an edge `a -> b` with `kind` easier, harder (its inverse) or swap, and its `why`."""
        graph = nx.DiGraph()
        graph.add_nodes_from(self.exercises)
        for card in self.exercises.values():
            for other, why in card.swap.items():
                graph.add_edge(card.id, other, kind="swap", why=why, at=card.at)
                graph.add_edge(other, card.id, kind="swap", why=why, at=card.at)
        for card in self.exercises.values():
            for other, why in card.easier.items():
                graph.add_edge(card.id, other, kind="easier", why=why, at=card.at)
                graph.add_edge(other, card.id, kind="harder", why=why, at=card.at)
        return graph

    @cached_property
    def tempos(self) -> dict[str, str]:
        """The tempo of every exercise whose usual dose names one; a plan written in the other order is told by it."""
        parts = {card.id: card.dose.partition("tempo ")[2].partition(";")[0] for card in self.exercises.values()}
        return {id_: tempo for id_, tempo in parts.items() if tempo}

    @cached_property
    def body(self) -> Body | None:
        """The measured body demands are computed with; None where its cards are missing."""
        return body_of(self)

    @cached_property
    def cannot_stand(self) -> tuple[tuple[c.Exercise, CannotStand], ...]:
        """Exercises whose pose cannot stand; looking computes the demands of all others."""
        return tuple(compute(self))

    @cached_property
    def examples(self) -> tuple[c.Example, ...]:
        """Every example of every card with its file and line, in the order of the book."""
        return tuple(self._examples())

    def _examples(self):
        for shelf in self.cards.values():
            for card in shelf.values():
                lines = self._example_lines.get((type(card).__name__, card.id), {})
                for kind in ("fires", "quiet"):
                    for n, text in enumerate(getattr(card.examples, kind)):
                        at = lines.get((kind, n), card.at)
                        yield c.Example(card=card.id, kind=_kind_of(card), fires=kind == "fires", text=text, at=at)

    def reason(self, kind: str, card_id: str, words: str = "", says: str = "") -> Reason:
        """The card `card_id` of `kind` as a reason."""
        return self.cards[kind][card_id].reason(words, says)


def _kind_of(card: c.Card) -> str:
    return next(kind for kind, model in c.KINDS.items() if type(card) is model)


def default_rules() -> Path:
    """The folder of the rulebook that came with the installation: in the wheel, else beside the package."""
    inside = Path(str(resources.files("assistant"))) / "_data" / "rules"
    return inside if inside.is_dir() else Path(__file__).resolve().parents[2] / "rules"


def load(root: Path | str | None = None) -> Rulebook:
    """The rulebook in folder `root` (default: the one installed); raises RulebookError with all mistakes.

    >>> load().exercises["chin-up"].name
    'Chin-up (palms to you)'
    """
    from assistant.rulebook.validate import cross_check  # the cross-checks know the whole book; kept in their own room

    with collector_paused():
        book, raw, mistakes = read_book(Path(root) if root else default_rules())
        mistakes += cross_check(book, raw)
    if mistakes:
        raise RulebookError(sorted(mistakes, key=lambda m: (m.file, m.line)))
    return book


def read_book(root: Path) -> tuple[Rulebook, dict[tuple[str, str], RawCard], list[Mistake]]:
    """The cards of `root` that could be typed, their raw form by (kind, id), and the mistakes of form and type."""
    if not root.is_dir():
        raise RulebookError([Mistake(str(root), 1, "there is no such folder of rules", "", "give --rules a folder")])
    shelves: dict[str, dict[str, c.Card]] = {kind: {} for kind in c.KINDS}
    raw: dict[tuple[str, str], RawCard] = {}
    example_lines: dict[tuple[str, str], dict[tuple[str, int], str]] = {}
    mistakes: list[Mistake] = []
    digest = hashlib.sha256()
    for path in sorted(p for p in root.rglob("*.yaml") if "cases" not in p.parts and "corpus" not in p.parts):
        digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
        found, wrong = read_cards(path, root)
        mistakes += wrong
        for item in found:
            card, wrong = _typed(item)
            mistakes += wrong
            raw.setdefault((item.kind, str(item.fields.get(item.kind, ""))), item)
            if card is None:
                continue
            if card.id in shelves[item.kind]:
                first = shelves[item.kind][card.id].at
                mistakes.append(Mistake(item.file, item.line(), f"{item.kind} '{card.id}' stands twice",
                                        f"first at {first}", "rename or delete one"))  # fmt: skip
                continue
            shelves[item.kind][card.id] = card
            raw[item.kind, card.id] = item
            example_lines[type(card).__name__, card.id] = {
                (path_[1], path_[2]): f"{item.file}:{line}"
                for path_, line in item.lines.items()
                if len(path_) == 3 and path_[0] == "examples"
            }
    book = Rulebook(shelves, digest.hexdigest()[:12], root, _example_lines=example_lines)
    _ = book.cannot_stand  # the demands stand on the cards from here on
    return book, raw, mistakes


def _typed(item: RawCard) -> tuple[c.Card | None, list[Mistake]]:
    model = c.KINDS.get(item.kind)
    if model is None:
        return None, [Mistake(item.file, item.line(), "the first line of a card names its kind", f"found '{item.kind}'",
                              f"one of: {', '.join(c.KINDS)}")]  # fmt: skip
    try:
        return model.model_validate({**item.fields, "at": f"{item.file}:{item.line()}"}), []
    except ValidationError as error:
        return None, [_mistake(item, model, detail) for detail in error.errors()]


def _mistake(item: RawCard, model: type[c.Card], detail: Any) -> Mistake:
    path = tuple(part for part in detail["loc"])
    name = ".".join(map(str, path)) or item.kind
    if detail["type"] == "extra_forbidden":
        known = sorted((info.alias or key) for key, info in model.model_fields.items() if key != "at")
        meant = "".join(f"did you mean '{near}'? " for near in get_close_matches(name, known, n=1))
        return Mistake(item.file, item.line(path), f"a {item.kind} card has no field '{name}'", "",
                       f"{meant}fields are: {', '.join(known)}")  # fmt: skip
    if detail["type"] == "missing":
        return Mistake(item.file, item.line(), f"the field '{name}' is missing", "", f"add '{name}:' to this card")
    found = detail.get("input")
    wrong = detail["msg"].removeprefix("Value error, ").lower()
    return Mistake(item.file, item.line(path), f"'{name}': {wrong}", f"found '{found}'", "correct the value")

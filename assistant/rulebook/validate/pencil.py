"""The red pencil: notes a mistake at the file and line of the field it is in, with the nearest known name."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rapidfuzz import fuzz, process

from assistant.rulebook import cards as c
from assistant.rulebook.cardfile import Path_, RawCard
from assistant.values import Mistake

if TYPE_CHECKING:
    from assistant.rulebook import Rulebook

_KIND = {model: kind for kind, model in c.KINDS.items()}
_ALIKE = 70  # of 100: below this two names have too little in common to be offered as "did you mean"; tried by hand


@dataclass
class Pencil:
    """The book under check and the mistakes found so far."""

    book: Rulebook
    raw: dict[tuple[str, str], RawCard]
    mistakes: list[Mistake] = field(default_factory=list)
    _ids: dict[str, set[str]] = field(default_factory=dict)

    def note(self, card: c.Card, path: Path_, wrong: str, found: str = "", do: str = "") -> None:
        """Add a mistake at the line of the field `path` of `card`."""
        file, line = self.where(card, path)
        self.mistakes.append(Mistake(file, line, wrong, found, do))

    def where(self, card: c.Card, path: Path_ = ()) -> tuple[str, int]:
        """File and line of a field of a card."""
        item = self.raw.get((kind_of(card), card.id))
        if item is None:
            file, _, line = card.at.rpartition(":")
            return file, int(line or 1)
        return item.file, item.line(path)

    def ids(self, kind: str) -> set[str]:
        """Every id of a kind, also of cards that could not be typed, so that one slip is not reported twice."""
        if kind not in self._ids:
            self._ids[kind] = set(self.book.cards.get(kind, {})) | {card_id for of, card_id in self.raw if of == kind}
        return self._ids[kind]

    def known(self, card: c.Card, path: Path_, name: str, known: set[str], what: str) -> bool:
        """Whether `name` is one of `known`; if not, notes that there is no such `what`."""
        if name in known:
            return True
        self.note(
            card,
            path,
            f"there is no {what} '{name}'",
            f"in '{path[0]}' of {kind_of(card)} '{card.id}'",
            meant(name, known, what),
        )
        return False


def kind_of(card: c.Card) -> str:
    """The kind of a card as it stands in its first key."""
    return _KIND[type(card)]


def meant(name: str, known: Iterable[str], what: str) -> str:
    """The advice after a name that is not known.

    >>> meant("chin-pu", ["chin-up", "dip"], "exercise")
    "did you mean 'chin-up'?"
    >>> meant("zzz", ["dip"], "exercise")
    'add the exercise or correct the name'
    """
    known = sorted(known)
    best = process.extractOne(name, known, scorer=fuzz.ratio, score_cutoff=_ALIKE)
    if best:
        return f"did you mean '{best[0]}'?"
    return f"one of: {', '.join(known)}" if 1 < len(known) <= 12 else f"add the {what} or correct the name"


def spelled(text: str) -> str:
    """A spelling as two cards are compared by: lower case, no apostrophes, hyphens as blanks.

    >>> spelled("Wall Push-ups"), spelled("don't"), spelled("=sick")
    ('wall push ups', 'dont', 'sick')
    """
    text = re.sub(r"['’`=]", "", text.casefold())
    return " ".join(re.sub(r"[^\w]+", " ", text).split())


def joined(text: str) -> str:
    """A spelling as a reader takes it: joined letters, plurals dropped, so that "push ups" and "pushup" are one.

    >>> joined("Push-ups") == joined("pushup"), joined("wall press")
    (True, 'wallpress')
    """
    return "".join(w[:-1] if len(w) > 2 and w[-1] == "s" and w[-2] not in "sui" else w for w in spelled(text).split())

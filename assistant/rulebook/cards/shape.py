"""What all cards share: the kinds of values in them, their proof, where they stand."""

from __future__ import annotations

import re
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict

from assistant.values import Reason


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, (str, dict)) else value


def _as_edges(value: Any) -> Any:
    return dict.fromkeys(value, "") if isinstance(value, list) else value


def _as_bound(value: Any) -> Any:
    found = re.fullmatch(r"(over|from|under) (-?\d+(?:\.\d+)?)", str(value).strip())
    if not found:
        raise ValueError("a bound reads 'over 30', 'from 2' or 'under 1'")
    return {"how": found[1], "value": float(found[2])}


class Bound(BaseModel):
    """`over 30` (more than), `from 2` (2 or more), `under 1` (less than)."""

    how: Literal["over", "from", "under"]
    value: float

    def holds(self, value: float) -> bool:
        """Whether `value` lies in the bound.

        >>> Bound(how="over", value=30).holds(30), Bound(how="from", value=30).holds(30)
        (False, True)
        """
        if self.how == "over":
            return value > self.value
        return value >= self.value if self.how == "from" else value < self.value


Texts = Annotated[list[str], BeforeValidator(_as_list)]
Edges = Annotated[dict[str, str], BeforeValidator(_as_edges)]
Restriction = dict[str, Annotated[Bound, BeforeValidator(_as_bound)]]
Restrictions = Annotated[list[Restriction], BeforeValidator(_as_list)]
Frame = dict[str, Any]  # slot -> word or list of words; checked against the word classes by the loader
Frames = Annotated[list[Frame], BeforeValidator(_as_list)]


class Examples(BaseModel):
    """Sentences that must fire the card and sentences that must not; `known_wrong` are kept, marked, and reported."""

    model_config = ConfigDict(extra="forbid")
    fires: Texts = []
    quiet: Texts = []
    known_wrong: Texts = []


class Card(BaseModel):
    """What all cards share: where they stand, where they come from, their own proof."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    at: str = ""  # "limits/joints.yaml:12", filled by the loader
    source: Texts = []
    unsure: str = ""
    examples: Examples = Examples()

    @property
    def id(self) -> str:
        """The id: the value of the card's first key."""
        return self.__dict__[_key_of(type(self))]

    def reason(self, words: str = "", says: str = "") -> Reason:
        """This card as a reason for a value."""
        return Reason(self.id, self.at, words, ", ".join(self.source), says or getattr(self, "says", ""))


@cache
def _key_of(model: type[Card]) -> str:
    """The field that holds a card's id: the name of its kind."""
    return model.__name__.lower()

"""The card language as models: these classes are the documentation of what may stand in `rules/`.

A card is a mapping whose first key names its kind (`exercise:`, `limit:`, `sign:` ...) and gives its id. Every
scalar is read as text and converted by the type of its field here; unknown fields are refused. `at` is filled by the
loader with file and line.
"""

from __future__ import annotations

from pydantic import BaseModel, model_validator

from assistant.rulebook.cards.answering import Doserule, Noanswer, Order, Reply
from assistant.rulebook.cards.dosing import Apart, Height
from assistant.rulebook.cards.language import Ambiguous, Cue, Figure, Place, Want, Wordclass
from assistant.rulebook.cards.pose import Assumption, Posed, Segment
from assistant.rulebook.cards.safety import Category, Reading, Scale, Sign
from assistant.rulebook.cards.shape import Bound, Card, Edges, Examples, Frame, Frames, Restriction, Restrictions, Texts
from assistant.rulebook.cards.training import (
    Equipment,
    Exercise,
    Family,
    Limit,
    Never,
    Preference,
    Purpose,
    Quantity,
    Region,
    Source,
    Standin,
)

__all__ = [  # noqa: RUF022
    "Ambiguous",
    "Assumption",
    "Apart",
    "Bound",
    "Card",
    "Category",
    "Cue",
    "Doserule",
    "Edges",
    "Equipment",
    "Example",
    "Examples",
    "Exercise",
    "Family",
    "Figure",
    "Frame",
    "Frames",
    "Height",
    "KINDS",
    "Limit",
    "Never",
    "Noanswer",
    "Order",
    "Place",
    "Posed",
    "Preference",
    "Purpose",
    "Quantity",
    "Reading",
    "Region",
    "Reply",
    "Restriction",
    "Restrictions",
    "Scale",
    "Segment",
    "Sign",
    "Source",
    "Standin",
    "Texts",
    "Want",
    "Wordclass",
]

KINDS: dict[str, type[Card]] = {
    "source": Source, "family": Family, "quantity": Quantity, "exercise": Exercise, "equipment": Equipment,
    "standin": Standin, "never": Never, "limit": Limit, "class": Wordclass, "cue": Cue, "figure": Figure,
    "ambiguous": Ambiguous, "sign": Sign, "category": Category, "reading": Reading, "scale": Scale,
    "place": Place, "want": Want, "doserule": Doserule,
    "apart": Apart, "height": Height,
    "order": Order, "reply": Reply, "noanswer": Noanswer, "preference": Preference,
    "purpose": Purpose, "region": Region, "segment": Segment, "assumption": Assumption,
}  # fmt: skip


class Example(BaseModel):
    """One example as the tests see it: which card, fires or quiet, the sentence, file and line."""

    card: str
    kind: str
    fires: bool
    text: str
    at: str

    @model_validator(mode="after")
    def _no_empty(self) -> Example:
        if not self.text.strip():
            raise ValueError("an example has no text")
        return self

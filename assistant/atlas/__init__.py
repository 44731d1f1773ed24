"""The book to leaf through: the shelf of each family, one exercise as a leaf, the ladder of a family as a drawing.

Comes in: the rulebook and an id. Goes out: plain values for a page; the drawings are SVG. Nothing is decided here: what
stands on the cards is put together, and where a card gives no reason for a step, the demands on both ends give it.
"""

from assistant.atlas.gauge import gauge
from assistant.atlas.ladder import Ladder, Rung, ladder
from assistant.atlas.leaf import Leaf, leaf
from assistant.atlas.shelves import Shelf, shelves
from assistant.atlas.steps import Step

__all__ = ["Ladder", "Leaf", "Rung", "Shelf", "Step", "gauge", "ladder", "leaf", "shelves"]

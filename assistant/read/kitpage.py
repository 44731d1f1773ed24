"""A message as the reading of kit looks at it, and what was said of one thing in it."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.read.kitmarks import Marks
from assistant.read.things import Mention
from assistant.rulebook import Rulebook
from assistant.words import Text

UNSAFE = 2  # strength: outweighs whatever else is said of the thing


@dataclass(frozen=True)
class Said:
    """What was said of one mention: `has`, `lacks`, or nothing, and the words that say it."""

    mention: Mention
    status: str = ""
    first: int = 0
    last: int = 0
    strength: int = 0  # 0 from its surroundings, 1 said, 2 said to be unsafe
    at: int | None = None  # the word whose scope counts, where it is not the thing's own


@dataclass(frozen=True)
class Page:
    """One message as this module looks at it: its things, its marks, and where exercises are named."""

    text: Text
    book: Rulebook
    found: list[Mention]
    marks: Marks
    exercises: frozenset[int]
    told: frozenset[int] = frozenset()  # places of words that tell how an exercise looks

    def opens(self, family: str) -> frozenset[int]:
        """Positions of the words of a class."""
        return frozenset(hit.first for hit in self.text.find(family))

    def clause(self, n: int) -> list[int]:
        """Positions of all words in the clause of word `n`."""
        return [k for k, word in enumerate(self.text.words) if word.clause == self.text.words[n].clause]

    def asks(self, last: int) -> bool:
        """Whether a question mark follows word `last`."""
        end = self.text.words[last].end
        return "?" in self.text.raw[end : end + 2]

    def sentence_end(self, mention: Mention) -> int:
        """The last word of the sentence in which a thing is mentioned."""
        sentence = self.text.words[mention.first].sentence
        return max(n for n, word in enumerate(self.text.words) if word.sentence == sentence)

"""Words that tell of nobody here: an animal, a thing, a figure of a story, something only imagined, a question answered no.

A sign that stands wholly in such words is not claimed of anyone: "the lift died", "the stroke association".
The range ends where the writer speaks of himself, or of another person: "the dog knocked me over and my head hurts" is
the writer's head.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.words import Hit, Match, Text

_HOW = ("onset", "side", "when")  # how it is told, not what
_THEN = ("and", "then", "after", "so", "when", "while", "until", "till", "before")
_THING = 8  # words of a thing's doing
_DOINGS = ("onset", "aware", "care", "beat", "speech")
_CARRIES_ON = ("she", "he", "shes", "hes", "they", "poor")
_SELF_QUESTIONS = ("do", "did", "have", "had", "am", "was")
_ASKS_ANY = ("any", "anything", "anyone", "ever")
_SHORT_QUESTION = 4  # words: "elbow niggles?"
_ADJECTIVES = 2  # "my old diabetic cat"
_LEAD = 4  # words between "in the" and the kind of story: "in the old detective novel"


class Subjects:
    """The words of one text that tell of nobody here, looked up once and then asked match by match."""

    def __init__(self, text: Text):
        self.text = text
        self._told = _positions(text.find("subject/tells"))
        mine = _positions(text.find("asks/me")) - self._told
        self._people = mine | _positions(text.find("subject/person"))
        self._unreal = {n for start in self._leads() for n in self._range(start)}
        self._of_thing = {n for start in self._things() for n in self._thought_of(start)}
        self._unreal |= self._of_thing
        self._unreal |= {hit.first - 1 for hit in text.find("subject/institution") if not text.words[hit.first].gap}
        self._no = set(self._answered_no()) | set(self._none_of_these()) | set(self._not_mine())
        self._imagined = self._in_mind()

    def unreal(self, match: Match) -> bool:
        """Whether an animal, a thing or a figure of a story is meant; what a thing does is no sign of a body beside it."""
        if any(hit.family in _DOINGS and self._by_thing(hit) for hit in match.hits):
            return True
        return bool(self._unreal) and all(hit.first in self._unreal and not self._names_one(hit) for hit in match.hits)

    def _by_thing(self, hit: Hit) -> bool:
        """Whether a thing did it, and to nobody: not "the bar knocked me out"."""
        return hit.first in self._of_thing and not self._names_one(hit) and hit.last + 1 not in self._people

    def _names_one(self, hit: Hit) -> bool:
        return bool(self._people & set(range(hit.first + 1, hit.last + 1)))

    def unreal_at(self, first: int) -> bool:
        """Whether word `first` tells of an animal, a story, something imagined or a question answered no."""
        return first in self._unreal or self.text.words[first].sentence in self._no | self._imagined

    def answered_no(self, match: Match) -> bool:
        """Whether the sign stands in a question that the writer answers himself: "any tingling? nope"."""
        told = [hit for hit in match.hits if hit.family not in _HOW] or list(match.hits)
        return bool(self._no) and all(self.text.words[hit.first].sentence in self._no for hit in told)

    def imagined(self, match: Match) -> bool:
        """Whether it is only pictured or dreamt: "in my mind i see it tipping onto my head. it hasnt happened"."""
        sentences = {self.text.words[hit.first].sentence for hit in match.hits}
        return bool(sentences) and sentences <= self._imagined

    # -- animals and stories ---------------------------------------------------------------------------------------
    def _leads(self) -> Iterator[int]:
        for hit in (*self.text.find("subject/animal"), *self.text.find("subject/character")):
            start = self._article(hit)
            if self._opens(start):
                yield start
        for hit in self.text.find("subject/story"):
            before = self.text.words[max(hit.first - _LEAD, 0) : hit.first]
            here = self.text.words[hit.first].sentence
            if any(word.norm in ("in", "from") and word.sentence == here for word in before):
                yield hit.last + 1

    def _things(self) -> Iterator[int]:
        """Where a thing is what acts or breaks: "my front caster died", "the lift collapsed"."""
        moves = _positions(self.text.find("exercise")) | _positions(self.text.find("effort"))
        for hit in self.text.find("subject/thing"):
            start = self._article(hit)
            if self._opens(start) and not {hit.first, hit.last, hit.last + 1} & moves:
                yield start

    def _thought_of(self, start: int) -> Iterator[int]:
        """The words of a thing: to the end of its clause, or to a comma, a person or a part of the body."""
        words, parts = self.text.words, _positions(self.text.find("part"))
        for n in range(start, len(words)):
            new = words[n].gap or words[n].clause != words[start].clause or words[n].norm in _THEN
            if n > start and (new or n in parts):
                return
            if (n in self._people and n > start + _ADJECTIVES) or n > start + _THING:
                return
            yield n

    def _article(self, hit: Hit) -> int:
        """The first word of "my diabetic cat": the article before a hit, with at most two words between."""
        words = self.text.words
        for article in self.text.find("subject/article"):
            between = words[article.last + 1 : hit.first + 1]
            if 0 < hit.first - article.last <= _ADJECTIVES + 1 and not any(word.gap for word in between):
                return article.first
        return hit.first

    def _opens(self, first: int) -> bool:
        """Whether word `first` opens a thought: it is who acts, not what is acted upon."""
        words = self.text.words
        if first == 0 or words[first].gap > 0 or words[first].clause != words[first - 1].clause:
            return True
        return any(lead.last == first - 1 for lead in self.text.find("subject/lead"))

    def _range(self, start: int) -> Iterator[int]:
        """From the subject on until a person is named; over the next sentence too where it goes on with "she"."""
        words = self.text.words
        for n in range(start, len(words)):
            fresh = n > start and words[n].sentence != words[n - 1].sentence
            if fresh and words[n].norm not in _CARRIES_ON:
                return
            if n in self._people and n > start + _ADJECTIVES:
                return
            yield n

    # -- answered, imagined ------------------------------------------------------------------------------------------
    def _answered_no(self) -> Iterator[int]:
        """Sentences that end in a question mark and are followed by a "no"."""
        words, mine = self.text.words, _positions(self.text.find("asks/me"))
        answers = {hit.first for hit in self.text.find("denies/no")}
        for n in answers - {0}:
            asked = words[n - 1].sentence
            if asked == words[n].sentence or "?" not in self.text.raw[words[n - 1].end : words[n].start]:
                continue
            first = next(k for k, word in enumerate(words) if word.sentence == asked)
            of_self = {k for k in mine if words[k].sentence == asked}
            if of_self:
                plain = words[first].norm in _SELF_QUESTIONS and of_self == {first + 1}
            else:
                told = n - first > _SHORT_QUESTION or any(word.gap for word in words[first + 1 : n])
                plain = words[first].norm in _ASKS_ANY or not told
            if plain:
                yield asked

    def _none_of_these(self) -> Iterator[int]:
        """ "You asked about chest pain and dizziness. I have had none whatever." """
        words = self.text.words
        asked = {words[hit.first].sentence for hit in self.text.find("denies/asked")}
        for hit in self.text.find("denies/none"):
            yield from {words[hit.first].sentence, words[hit.first].sentence - 1} & asked

    def _not_mine(self) -> Iterator[int]:
        """ "Dizzy spells all day long, none of them mine." and the sentence before "That is the building, not me." """
        for hit in self.text.find("denies/not-mine"):
            here = self.text.words[hit.first].sentence
            yield here
            if hit.first == 0 or self.text.words[hit.first - 1].gap or hit.first == self._first_of(here):
                yield here - 1

    def _first_of(self, sentence: int) -> int:
        return next(n for n, word in enumerate(self.text.words) if word.sentence == sentence)

    def _in_mind(self) -> set[int]:
        sentence = [word.sentence for word in self.text.words]
        found = {sentence[hit.first] for hit in self.text.find("asks/imagined")}
        return found | {sentence[hit.first] - 1 for hit in self.text.find("asks/not-happened")}


def _positions(hits: list[Hit]) -> set[int]:
    return {n for hit in hits for n in range(hit.first, hit.last + 1)}

"""Every spelling of every exercise compiled for comparison: by joined letters, by content words, by kind and head.

Names of things, look-alike phrases and exercises that are not in the book are compiled beside them: they mean nothing
here, they only take their words away.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from assistant.rulebook import Rulebook
from assistant.words.pieces import Forms, Piece, singulars, words_of
from assistant.words.slips import Slips
from assistant.words.tokens import Word, split_phrase

_SURE_WORDS = 3  # content words that mean a name in whatever order
_MOST_KINDS = 4  # exercises that a kind and a head may mean; more is no meaning


@dataclass(frozen=True, slots=True)
class Target:
    """What a spelling means. No `ids` = a thing or a look-alike: it only takes its words away."""

    ids: tuple[str, ...]
    at: str
    ambiguous: str | None = None
    weak: bool = False  # a plain word that is also a name
    verb: bool = False  # a verb as often as a name
    bare: bool = False  # a name only in the plural or after an article
    lookalike: bool = False
    thing: bool = False  # the name of a thing; an exercise of the same name counts only where the plan has it
    plurals: frozenset[int] = frozenset()  # words of the spelling that stand in the plural on the card
    opens: frozenset[str] = frozenset()  # words with which another order of it may open


class Spellings:
    """All spellings of one rulebook. `vocabulary` are the words that slips are corrected to."""

    def __init__(self, book: Rulebook):
        self._read_words(book)
        self.exact: dict[str, Target] = {}
        self.loose: dict[tuple[str, ...], Target | None] = {}
        self.vocabulary: set[str] = set()
        self._kinds: dict[tuple[str, str], dict[str, str]] = {}
        self._ends: set[str] = set()
        tokens: set[str] = set()
        for spelling, target in self._targets(book):
            tokens.update(self._add(spelling, target))
        self._starts = tokens - self.forms.fillers
        self._slips = Slips(tokens)
        self._by_length: dict[int, list[str]] = {}
        for key, target in self.exact.items():
            if target.ids:
                self._by_length.setdefault(len(key), []).append(key)
        self._bands: dict[int, list[str]] = {}

    def _read_words(self, book: Rulebook) -> None:
        self.forms = Forms(book)
        self._particles, self._modifiers = words_of(book, "particle"), words_of(book, "modifier")
        self._before_verb = words_of(book, "before-verb")
        self._weak, self._verb, self._bare = (
            {singulars(split_phrase(word)) for word in words_of(book, name)} for name in ("weak", "verb-too", "bare")
        )
        self._lookalikes: dict[str, list[tuple[tuple[str, ...], Target]]] = {}
        if card := book.wordclasses.get("name/look-alike"):
            for phrase in map(split_phrase, card.words):
                self._lookalikes.setdefault(phrase[0], []).append((phrase, Target((), card.at, lookalike=True)))
        spoken = [singulars(split_phrase(text)) for card in book.ambiguous.values() for text in card.called]
        self._heads = {words[0] for words in spoken if len(words) == 1}
        called = (text for card in book.equipment.values() for text in (card.name, *card.called))
        self._things = {
            word for text in called for word in singulars(split_phrase(text)) if len(word) > 2
        } - self._heads

    def _targets(self, book: Rulebook) -> Iterator[tuple[str, Target]]:
        """Every spelling with its meaning; what comes later does not replace what came first."""
        if card := book.wordclasses.get("name/not-in-book"):
            yield from ((phrase, Target((), card.at)) for phrase in card.words)
        for card in book.equipment.values():
            yield from ((phrase, Target((), card.at, thing=True)) for phrase in card.called)
        for card in book.ambiguous.values():
            yield from ((phrase, Target(tuple(card.exercises), card.at, card.id)) for phrase in card.called)
        names = {card.id: re.sub(r"\(.*?\)", "", card.name).strip() for card in book.exercises.values()}
        for card in book.exercises.values():
            yield from ((phrase, Target((card.id,), card.at)) for phrase in (names[card.id], *card.called))
        for shortened in (_without_hold, _without_comma):
            for card in book.exercises.values():
                yield from ((phrase, Target((card.id,), card.at)) for phrase in shortened(names[card.id]))

    def _add(self, spelling: str, target: Target) -> set[str]:
        """Compile one spelling; gives its words as they are compared."""
        words = split_phrase(spelling)
        pieces = self.forms.pieces([Word(word, word, word, 0, 0) for word in words])
        if not pieces:
            return set()
        content = [piece.token for piece in pieces if not piece.filler]
        if target.ids:
            bare = singulars(words)
            target = replace(target, weak=bare in self._weak, verb=bare in self._verb, bare=bare in self._bare)
            self._ends.add(pieces[-1].token)
            self.vocabulary.update(word for word in (*words, *content) if word.isalpha())
        plurals = frozenset(n for n, piece in enumerate(pieces) if piece.plural)
        key = "".join(piece.token for piece in pieces)
        old = self.exact.setdefault(key, replace(target, plurals=plurals))
        if old.thing and target.ids and not old.ids:
            self.exact[key] = replace(target, plurals=plurals, thing=True)
        elif old.ids == target.ids and not plurals <= old.plurals:
            self.exact[key] = replace(old, plurals=old.plurals | plurals)
        if len(target.ids) == 1:
            self._add_kinds(content, target)
        if target.ids and len(content) > 1 and not self._particles.intersection(content):
            self._add_loose(content, len(pieces) > len(content), target)
        return {piece.token for piece in pieces}

    def _add_loose(self, content: list[str], has_filler: bool, target: Target) -> None:
        """The content words in any order. Another order opens with the head: `push-ups with feet on a chair`."""
        opens = frozenset((content[-1], content[0]) if has_filler else content[-1:])
        key = tuple(sorted(content))
        known = self.loose.setdefault(key, replace(target, opens=opens))
        if known is not None and known.ids != target.ids:
            self.loose[key] = None  # the same words mean two exercises: order decides, not this
        elif known is not None:
            self.loose[key] = replace(known, opens=known.opens | opens)

    def _add_kinds(self, content: list[str], target: Target) -> None:
        """A sheet row is a kind of row: the thing it is done with, right before the head, may say enough."""
        for head in self._heads.intersection(content):
            for kind in self._things.intersection(content) - self._particles:
                self._kinds.setdefault((kind, head), {}).setdefault(target.ids[0], target.at)

    # -- a message -----------------------------------------------------------------------------------------------------
    def pieces(self, words: Sequence[Word]) -> list[Piece]:
        """The words of a message as pieces, each knowing whether a name may open or close with it."""
        result = []
        for piece in self.forms.pieces(words):
            opens = piece.token in self._starts or not piece.known or bool(self._slips.of(piece.token, True))
            closes = opens or piece.token in self._ends
            p = piece  # built anew instead of `replace`: this is the busiest line of reading
            result.append(
                Piece(p.token, p.first, p.last, p.gap, p.known, p.plural, p.filler, opens and not p.filler, closes)
            )
        return result

    def lookalikes(self, words: Sequence[Word]) -> Iterator[tuple[int, int, Target]]:
        """Look-alike phrases in `words` as first word, last word and their card."""
        for first, word in enumerate(words):
            for phrase, target in self._lookalikes.get(word.norm, ()):
                if tuple(w.norm for w in words[first : first + len(phrase)]) == phrase:
                    yield first, first + len(phrase) - 1, target

    def exact_of(self, window: Sequence[Piece]) -> Target | None:
        """What the joined letters of the window mean."""
        return self.exact.get("".join(piece.token for piece in window))

    def loose_of(self, window: Sequence[Piece]) -> tuple[Target, int] | None:
        """What the content words of the window mean in any order, and how many they are."""
        content = [piece.token for piece in window if not piece.filler]
        free = bool(self._modifiers.intersection(content))  # "feet up" may stand before or after the rest
        if len(content) < 2 or (len(content) == len(window) and not free):
            return None
        target = self.loose.get(tuple(sorted(content)))
        if target is None:
            return None
        alone = self.exact.get(content[0])  # "l-sit on the parallettes": the head is a name by itself
        sure = free or len(content) >= _SURE_WORDS or content[0] in target.opens or (alone is not None and alone.ids)
        return (target, len(content)) if sure else None

    def kind_of(self, window: Sequence[Piece]) -> Target | None:
        """What a kind and a head mean together ("sheet rows"): one exercise, or a few to choose from."""
        joined = len(window) == 2 and window[1].gap == 0 and window[1].first == window[0].last + 1
        if not joined or (window[0].plural and not window[1].plural):
            return None
        found = self._kinds.get((window[0].token, window[1].token))
        if not found or len(found) > _MOST_KINDS:
            return None
        return Target(tuple(found), next(iter(found.values())), bare=(window[1].token,) in self._bare)

    def reads_as_sentence(self, window: Sequence[Piece], target: Target) -> bool:
        """`heels raise` is something heels do, `heel raises` is an exercise: a plural before a bare last word."""
        if len(window) < 2 or window[-1].plural:
            return False
        return any(piece.plural and n not in target.plurals for n, piece in enumerate(window[:-1]))

    def after_verb_mark(self, words: Sequence[Word], first: int) -> bool:
        """Whether the word at `first` is used as a verb: `to hang`, `i press`, `it hangs`."""
        return first > 0 and words[first].gap == 0 and words[first - 1].norm in self._before_verb

    def one_slip(self, window: Sequence[Piece]) -> Iterator[list[Piece]]:
        """The window with one of its words read as the word of a name next to it."""
        for n, piece in enumerate(window if len(window) > 1 else ()):
            for other in () if piece.token in self._starts else self._slips.of(piece.token, piece.known):
                yield [*window[:n], replace(piece, token=other), *window[n + 1 :]]

    def keys_near(self, length: int) -> list[str]:
        """Joined names of nearly that length; others cannot reach the ratio."""
        if length not in self._bands:
            spread = max(1, length // 6)
            lengths = range(length - spread, length + spread + 1)
            self._bands[length] = [key for n in lengths for key in self._by_length.get(n, ())]
        return self._bands[length]


def _without_hold(name: str) -> list[str]:
    """Chest-to-wall handstand hold: also said without its last word."""
    first, _, last = name.rpartition(" ")
    return [first] if last == "hold" and len(split_phrase(first)) > 1 else []


def _without_comma(name: str) -> list[str]:
    """Step-up, knee height: also just a step-up, where no other is called so."""
    return [name.partition(",")[0]] if "," in name else []

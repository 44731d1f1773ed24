"""What the follower has and lacks: things mentioned, and the words before and after them that say which.

`ahead` words speak of the things that follow ("no bar, rings or bands"), `behind` words of the thing before them ("my
band snapped"). Unsafe things count as missing. Words: rules/words/kit.yaml.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from assistant.read.kitmarks import marks_of
from assistant.read.kitpage import UNSAFE, Page, Said
from assistant.read.kitwhich import Found, elsewhere, seat, settled
from assistant.read.things import Mention, mentions
from assistant.rulebook import Rulebook
from assistant.values import Profile
from assistant.words import Text

_REACH = 7  # words an `ahead` word reaches without meeting another thing
_BACK = 6  # words a `behind` word reaches back within its clause
_FRAGMENT = 3  # words beside the things; "heavy wood table, sheets" is a list of things, not a sentence
_SAYS = {"have": "has", "only": "has", "lack": "lacks", "needless": "-"}
_SENTENCE = ("ask", "looks", "part", "sensation", "difficulty", "name/before-verb", "name/verb-too")


def kit(
    text: Text, book: Rulebook, asked: Iterable[str], covered: Iterable[tuple[int, int]], profile: Profile,
    told: Iterable[int] = (),
) -> Found:  # fmt: skip
    """What `text` says is there and is missing; `asked` settles a plain "bar", `covered` are spans of other things;
    a thing `told` of in a description is there only where that is said."""
    covered = list(covered)
    found = mentions(text, book, covered)
    page = Page(text, book, found, marks_of(text), frozenset(first for first, _ in covered), frozenset(told))
    said = [_behind(_bare(one, page), page) for one in _ahead(page)]
    said += _proxies(said, page)
    said = [seat(one, page, profile) for one in said if not elsewhere(one, page)]
    return settled(said, page, tuple(asked))


# -- before the thing --------------------------------------------------------------------------------------------------
def _ahead(page: Page) -> Iterator[Said]:
    """Every mention with what the words before it say."""
    words, starts = page.text.words, {m.first: m for m in page.found}
    contrast, own = page.opens("contrast"), page.opens("kit-own")
    ends = page.exercises | page.opens("kit-subject")
    mode, since, cue, listed = "", 0, 0, False
    for n, word in enumerate(words):
        new_clause = n > 0 and word.clause != words[n - 1].clause
        counted = n in page.opens("kit-count") and mode == "lack"  # "no bar, no rings, one armchair"
        if n and (word.sentence != words[n - 1].sentence or (
            new_clause and (counted or not _list_goes_on(n, starts, own, page)))):  # fmt: skip
            mode = ""
        if n in contrast and mode:
            mode, since, cue = ("have" if mode in ("lack", "needless") else ""), n, n
        if n in page.marks.ahead:
            mode, since = page.marks.ahead[n]
            cue, listed = n, False
        elif n in page.exercises or (mode == "lack" and n in ends):
            mode = ""
        elif n in own and mode == "lack" and listed and cue + 1 not in own:
            mode = ""  # "no bar and the rings hang low": the rings are another matter
        if n in starts:
            says = _SAYS.get(mode, "") if n - since <= _REACH and (cue < n or not mode) else ""
            yield _said(starts[n], says, cue, page)
            since, listed = starts[n].last, True


def _list_goes_on(n: int, starts: dict[int, Mention], own: frozenset[int], page: Page) -> bool:
    """Whether the clause that opens at word `n` carries on the list of the clause before: `, rings or bands`."""
    for k in range(n, min(n + 4, len(page.text.words))):
        if k in starts:
            return True
        if k in page.marks.ahead or k in own:
            return False
    return False


def _said(mention: Mention, status: str, cue: int, page: Page) -> Said:
    words = page.text.words
    near = status in ("has", "lacks") and words[cue].clause == words[mention.first].clause
    return Said(mention, status, min(cue, mention.first) if near else mention.first, mention.last, 1 if status else 0)


def _bare(said: Said, page: Page) -> Said:
    """A thing nothing is said of: "my bar" is there, and so is a thing in a list of nothing but things."""
    if said.status:
        return replace(said, status=said.status.strip("-"))
    first = said.mention.first
    if first in page.told or first in page.opens("group-one/anchor"):
        return said
    words = page.text.words
    if any(h.last < first <= h.last + 3 and words[h.last].clause == words[first].clause
           for h in page.text.find("mine")) or first in page.opens("kit-in-use"):  # fmt: skip
        return replace(said, status="has")
    clause = page.clause(first)
    things = (
        {n for m in page.found for n in range(m.first, m.last + 1)}
        | page.opens("name/article")
        | page.opens("kit-joint")
    )
    sentence = {n for family in _SENTENCE for h in page.text.find(family) for n in range(h.first, h.last + 1)} - things
    plain = [n for n in clause if n not in things]
    if page.text.find("thanks/chat"):
        return said
    if _used_in_question(said.mention, page):
        return replace(said, status="has")
    if (
        len(plain) > _FRAGMENT + len(page.found)
        or page.asks(clause[-1])
        or (page.exercises | sentence).intersection(clause)
    ):
        return said
    return replace(said, status="has")


def _used_in_question(mention: Mention, page: Page) -> bool:
    """ "can they go on the sofa?": whoever asks whether a thing of the household will do has it."""
    things = [page.book.equipment[thing] for thing in mention.ids if thing in page.book.equipment]
    before = {mention.first - 1, mention.first - 2}
    beside = page.opens("kit-use") & before or page.opens("kit-own") & before and page.text.find("ask/use")
    asks = page.asks(page.sentence_end(mention))
    return bool(asks and beside and things and all(thing.household for thing in things))


# -- after the thing ---------------------------------------------------------------------------------------------------
def _behind(said: Said, page: Page) -> Said:
    """What the words after (or right before) a thing say of it; being unsafe outweighs everything."""
    mention, words = said.mention, page.text.words
    for cls, first, last in page.marks.behind:
        unsafe = cls.startswith("unsafe")
        if unsafe and "denied" in page.text.word_scopes[first]:
            continue
        if cls == "unsafe/ahead":
            if 0 < mention.first - last <= 2 and words[last].sentence == words[mention.first].sentence:
                return replace(said, status="lacks", first=first, strength=UNSAFE)
        elif _owner(first, page) is not mention:
            continue
        elif cls == "needless/behind":
            return replace(said, status="")
        elif cls == "have/behind":
            said = said if said.strength else replace(said, status="has", last=last)
        else:
            said = replace(said, status="lacks", last=max(last, said.last), strength=max(said.strength, 1 + unsafe))
    if mention.never is not None and said.status != "lacks":
        used = said.status or mention.itself or _meant_for_use(mention, page)
        return replace(said, status="lacks" if used else "", strength=UNSAFE)
    return said if said.status else _fronted(said, page)


def _fronted(said: Said, page: Page) -> Said:
    """ "Rings I do not have": the thing stands first, and the word that says it is missing has nothing behind it."""
    last = said.mention.last
    for n in range(last + 1, min(last + 2 + _FRAGMENT, len(page.text.words))):
        family, end = page.marks.ahead.get(n, ("", 0))
        if page.text.words[n].clause != page.text.words[last].clause or any(m.first == n for m in page.found):
            break
        behind = [m for m in page.found if end < m.first <= end + _REACH]
        commas = [k for k in range(end + 1, len(page.text.words)) if page.text.words[k].gap]
        if family in _SAYS and not any(m.first < min(commas, default=m.last + 1) for m in behind):
            return replace(said, status=_SAYS[family].strip("-"), last=end, strength=1)
    return said


def _owner(at: int, page: Page) -> Mention | None:
    """The thing a `behind` word at `at` speaks of: the nearest before it in its clause, or the one an "it" stands for."""
    before = [m for m in page.found if m.last < at]
    if not before:
        return None
    nearest, words = before[-1], page.text.words
    apart = words[at].clause - words[nearest.last].clause
    if apart == 0:
        return nearest if at - nearest.last <= _BACK else None
    opening = [n for n in range(nearest.last + 1, at) if words[n].clause == words[at].clause]
    stands_for_it = not opening or page.opens("pronoun").intersection(opening[:3])
    return nearest if apart == 1 and stands_for_it else None


def _meant_for_use(mention: Mention, page: Page) -> bool:
    """Whether something on the never list is to be used: in a question, or beside a word of using."""
    words = page.text.words
    sentence = [n for n, w in enumerate(words) if w.sentence == words[mention.first].sentence]
    return page.asks(sentence[-1]) or bool(page.text.find("ask") or page.opens("kit-use").intersection(sentence))


def _proxies(said: list[Said], page: Page) -> Iterator[Said]:
    """ "bought one", "dont have any": said of the thing before."""
    proxies = page.opens("proxy")
    for n, (family, last) in page.marks.ahead.items():
        before = [one for one in said if one.mention.last < n]
        if family not in ("have", "lack") or last + 1 not in proxies or not before:
            continue
        if not any(one.mention.first in range(last, last + 5) for one in said):
            yield Said(before[-1].mention, _SAYS[family], n, last + 1, 1, last + 1)

"""What the follower has and lacks: things mentioned, and the words before and after them that say which.

`ahead` words speak of the things that follow ("no bar, rings or bands"), `behind` words of the thing before them ("my
band snapped"). Unsafe things count as missing. Words: rules/words/kit.yaml.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from assistant.read.things import Mention, mentions
from assistant.rulebook import Rulebook
from assistant.values import Kit, Profile, Reason
from assistant.words import Text

_REACH = 7  # words an `ahead` word reaches without meeting another thing
_BACK = 6  # words a `behind` word reaches back within its clause
_AHEAD = ("have/ahead", "lack/ahead", "needless/ahead", "only/only")
_BEHIND = ("have/behind", "lack/behind", "unsafe/behind", "needless/behind")
_SUBJECTS = ("i", "it", "you", "we", "they", "im", "its")  # a new thought begins with one of these
_GLUE = ("and", "or", "nor", "n", "with", "plus")


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
class Found:
    """Kit of a message in order of mention, and the never cards that were run into."""

    has: tuple[Kit, ...] = ()
    lacks: tuple[Kit, ...] = ()
    because: tuple[Reason, ...] = ()
    only: bool = False  # the follower said that what he has is all there is
    refused: frozenset[str] = frozenset()  # missing only because what he would use instead is on the never list


@dataclass
class _Marks:
    """The cue words of one message by word position."""

    ahead: dict[int, tuple[str, int]] = field(default_factory=dict)
    behind: list[tuple[str, int, int]] = field(default_factory=list)


def kit(text: Text, book: Rulebook, asked: Iterable[str], covered: Iterable[tuple[int, int]], profile: Profile) -> Found:
    """What `text` says is there and is missing; `asked` settles a plain "bar", `covered` are spans of other things."""
    covered = list(covered)
    found = mentions(text, book, covered)
    marks = _marks(text)
    said = [_behind(s, marks, found, text) for s in _ahead(found, marks, text, covered)]
    said += _proxies(said, marks, text)
    said = [_seat(s, found, profile) for s in said if not _elsewhere(s, text)]
    return _settled(said, text, book, tuple(asked), profile)


def _marks(text: Text) -> _Marks:
    """Cue words, the longest where several overlap: "dont have" is no "have"."""
    hits = [h for cls in (*_AHEAD, *_BEHIND, "unsafe/ahead") for h in text.find(cls)]
    marks, taken = _Marks(), []
    for hit in sorted(hits, key=lambda h: (h.first - h.last, _AHEAD.index(h.cls) if h.cls in _AHEAD else 9)):
        if any(first <= hit.last and hit.first <= last for first, last in taken) and hit.last == hit.first:
            continue
        if any(first <= hit.first and hit.last <= last and (first, last) != (hit.first, hit.last) for first, last in taken):
            continue
        taken.append((hit.first, hit.last))
        if hit.cls in _AHEAD:
            marks.ahead.setdefault(hit.first, (hit.cls.split("/")[0], hit.last))
        else:
            marks.behind.append((hit.cls, hit.first, hit.last))
    return marks


def _ahead(found: list[Mention], marks: _Marks, text: Text, covered) -> list[Said]:
    """Every mention with what the words before it say."""
    result: list[Said] = []
    starts = {m.first: m for m in found}
    contrast = {h.first for h in text.find("contrast")}
    exercises = {first for first, _ in covered}
    mode, since, cue, listed = "", 0, 0, False
    for n, word in enumerate(text.words):
        previous = text.words[n - 1] if n else None
        if previous and (word.sentence != previous.sentence or word.gap >= 3):
            mode = ""
        elif previous and word.clause != previous.clause and not _goes_on(n, starts, marks, text):
            mode = ""
        if n in contrast and mode:
            mode, since, cue = ("has" if mode in ("lack", "none") else ""), n, n
        if n in marks.ahead:
            mode, since, cue, listed = _mode(marks.ahead[n][0]), marks.ahead[n][1], n, False
        if n in exercises or (mode == "lack" and word.norm in _SUBJECTS and n > since):
            mode = ""
        if n in starts:
            mention = starts[n]
            near = mode if n - since <= _REACH else ""
            status = {"have": "has", "only": "has", "lack": "lacks", "has": "has"}.get(near, "")
            if near == "none":
                status = "-"
            result.append(_said(mention, status, cue, text))
            since, listed = mention.last, True
        if word.norm in _OWN and (mode == "none" and word.norm != "the" or listed and mode == "lack" and text.words[cue].norm == "no"):
            mode = ""
    things = {n for m in found for n in range(m.first, m.last + 1)}
    things |= {h.first for h in text.find("name/article")} | {n for n, w in enumerate(text.words) if w.norm in _GLUE}
    return [_bare(s, text, exercises, things) for s in result]


def _mode(family: str) -> str:
    """What the things after a mark are: asked about, missing, or there; "only" says what is there."""
    if family == "needless":
        return "none"
    return "have" if family == "only" else family


def _goes_on(n: int, starts, marks: _Marks, text: Text) -> bool:
    """Whether the clause that opens at word `n` carries on the list of the clause before: `, rings or bands`."""
    for k in range(n, min(n + 4, len(text.words))):
        if k in starts:
            return True
        if k in marks.ahead:
            return False
    return False


def _said(mention: Mention, status: str, cue: int, text: Text) -> Said:
    first = cue if status in ("has", "lacks") and text.words[cue].clause == text.words[mention.first].clause else mention.first
    return Said(mention, status, min(first, mention.first), mention.last, 1 if status in ("has", "lacks", "-") else 0)


def _bare(said: Said, text: Text, exercises: set[int], things: set[int]) -> Said:
    """A thing nothing is said of: "my bar" is there, and so is a thing in a list of nothing but things."""
    if said.status:
        return replace(said, status=said.status.strip("-"))
    first = said.mention.first
    before = [text.words[n].norm for n in range(max(0, first - 3), first)]
    if set(before) & {w for h in text.find("mine") for w in [text.words[h.first].norm]}:
        return replace(said, status="has")
    clause = [n for n, w in enumerate(text.words) if w.clause == text.words[first].clause]
    plain = len([n for n in clause if n not in things])
    question = "?" in text.raw[text.words[clause[-1]].end : text.words[clause[-1]].end + 2]
    if plain <= _FRAGMENT and not question and not exercises.intersection(clause) and not _sentence_like(clause, text):
        return replace(said, status="has")
    return said


_FRAGMENT = 3  # words beside the thing; "heavy wood table" is a list of things, not a sentence


def _sentence_like(clause: list[int], text: Text) -> bool:
    taken = {n for family in ("name", "ask", "place", "looks", "part", "sensation", "difficulty") for h in text.find(family)
             if h.cls != "name/article" and h.cls != "name/filler" for n in range(h.first, h.last + 1)}  # fmt: skip
    return bool(taken.intersection(clause))


def _behind(said: Said, marks: _Marks, found: list[Mention], text: Text) -> Said:
    """What the words after (or right before) a thing say of it; being unsafe outweighs everything."""
    mention, words = said.mention, text.words
    for cls, first, last in sorted(marks.behind, key=lambda m: m[1]):
        if "denied" in text.word_scopes[first] and cls.startswith("unsafe"):
            continue
        if cls == "unsafe/ahead":
            if 0 < mention.first - last <= 2 and words[last].sentence == words[mention.first].sentence:
                return replace(said, status="lacks", first=first, strength=2)
            continue
        if _owner(first, found, text) is not mention:
            continue
        if cls == "needless/behind":
            return replace(said, status="")
        if cls == "have/behind":
            said = said if said.strength else replace(said, status="has", last=last)
            continue
        strength = 2 if cls.startswith("unsafe") else 1
        said = replace(said, status="lacks", last=max(last, said.last), strength=max(strength, said.strength))
    if mention.never is not None and said.status != "lacks":
        said = replace(said, status="lacks" if said.status or _meant_for_use(mention, text) else "", strength=2)
    return said


def _owner(at: int, found: list[Mention], text: Text) -> Mention | None:
    """The thing a `behind` word at `at` speaks of: the nearest before it in its clause, or the one an "it" stands for."""
    before = [m for m in found if m.last < at]
    if not before:
        return None
    nearest, words = before[-1], text.words
    same = words[nearest.last].clause == words[at].clause
    if same and at - nearest.last <= _BACK:
        return nearest
    opening = [n for n in range(nearest.last + 1, at) if words[n].clause == words[at].clause]
    named = {h.first for h in text.find("pronoun")}
    if not same and words[at].clause - words[nearest.last].clause <= 1 and (not opening or named.intersection(opening[:3])):
        return nearest
    return None


def _meant_for_use(mention: Mention, text: Text) -> bool:
    """Whether something on the never list is to be used: in a question, or after a word of using."""
    sentence = [n for n, w in enumerate(text.words) if w.sentence == text.words[mention.first].sentence]
    end = text.words[sentence[-1]].end
    asked = "?" in text.raw[end : end + 3] or bool(text.find("ask"))
    return asked or any(text.words[n].norm in ("use", "using", "off", "on", "from", "round", "with") for n in sentence)


def _proxies(said: list[Said], marks: _Marks, text: Text) -> Iterator[Said]:
    """"bought one", "dont have any": said of the thing before."""
    for n, (family, last) in marks.ahead.items():
        after = [h.first for h in text.find("proxy") if h.first == last + 1]
        before = [s for s in said if s.mention.last < n]
        if family not in ("have", "lack") or not after or not before:
            continue
        if any(s.mention.first in range(after[0] - 1, after[0] + 4) for s in said):
            continue
        yield Said(before[-1].mention, "has" if family == "have" else "lacks", n, after[0], 1, after[0])


def _elsewhere(said: Said, text: Text) -> bool:
    """What is supposed, over, or another's says nothing about this follower."""
    scopes = text.word_scopes[said.mention.first if said.at is None else said.at]
    if "what-if" in scopes or ("over" in scopes and said.strength < 2 and not _broken(said, text)):
        return True
    own = {"i", "im", "ive", "me", "mine"}
    return "other-person" in scopes and any(w.norm in own for w in text.words)


def _seat(said: Said, found: list[Mention], profile: Profile) -> Said:
    """The chair of a wheelchair user is the wheelchair."""
    rolls = "wheelchair" in profile.has or any("wheelchair" in m.ids for m in found)
    if rolls and "chair" in said.mention.ids:
        return replace(said, mention=replace(said.mention, ids=("wheelchair",)))
    return said


def _broken(said: Said, text: Text) -> bool:
    return said.status == "lacks" and said.last > said.mention.last


def _settled(said: list[Said], text: Text, book: Rulebook, asked: tuple[str, ...], profile: Profile) -> Found:
    """One status an id: unsafe first, then what was said last."""
    last: dict[str, tuple[Said, str]] = {}
    because: list[Reason] = []
    for s in said:
        if not s.status:
            continue
        if s.mention.never:
            because.append(book.nevers[s.mention.never].reason(text.quote(s.mention.first, s.mention.last)))
        for thing in _meant(s, book, asked):
            old = last.get(thing)
            if old is None or s.strength >= old[0].strength or old[0].strength < 2:
                last[thing] = (s, s.status)
    kits: dict[str, list[Kit]] = {"has": [], "lacks": []}
    for thing, (s, status) in sorted(last.items(), key=lambda one: one[1][0].mention.first):
        start, end = text.words[s.first].start, text.words[s.last].end
        kits[status].append(Kit(thing, text.raw[start:end], start, end))
    has, lacks = tuple(kits["has"]), tuple(kits["lacks"])
    refused = frozenset(thing for thing, (s, _) in last.items() if s.mention.never)
    return Found(has, lacks, tuple(because), bool(text.find("only/only")) and bool(has) and not lacks, refused)


def _meant(said: Said, book: Rulebook, asked: tuple[str, ...]) -> tuple[str, ...]:
    """The ids a mention means; of several the ones the exercise asked about needs, else the first."""
    ids = said.mention.ids
    if not said.mention.one_of:
        return ids
    needed = {thing for ex in asked for need in book.exercises[ex].need_sets for thing in need}
    fitting = tuple(thing for thing in ids if thing in needed)
    if said.mention.never:
        return fitting[:1]
    if fitting and ids[0] not in fitting and said.status == "lacks" and fitting != ("dip-bars",):
        return (ids[0], *fitting)  # without a bar at all there is no low one either
    return fitting[:1] or ids[:1]

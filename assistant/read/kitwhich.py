"""Whose a thing is and when, which of several things a word means, and one status for each thing of a message."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.read.kitpage import UNSAFE, Page, Said
from assistant.rulebook import Rulebook
from assistant.values import Kit, Profile, Reason


@dataclass(frozen=True)
class Found:
    """Kit of a message in order of mention, and the never cards that were run into."""

    has: tuple[Kit, ...] = ()
    lacks: tuple[Kit, ...] = ()
    because: tuple[Reason, ...] = ()
    only: bool = False  # the follower said that what he has is all there is
    asked_about: bool = False  # a thing stands in a question, and nothing says that it is missing
    refused: frozenset[str] = frozenset()  # missing only because what he would use instead is on the never list


def elsewhere(said: Said, page: Page) -> bool:
    """What is supposed, over, or another's says nothing about this follower."""
    scopes = page.text.word_scopes[said.mention.first if said.at is None else said.at]
    gone = said.status == "lacks" and said.last > said.mention.last  # "my bar is gone" is over and missing
    if "what-if" in scopes or ("over" in scopes and said.strength < UNSAFE and not gone):
        return True
    sentence = page.text.words[said.mention.first].sentence
    handed = [
        *page.text.find("have/given"),
        *page.text.find("lack/taken"),
    ]  # "my dad took the bar down" takes it from him
    if any(page.text.words[hit.first].sentence == sentence for hit in handed):
        return False
    if "wheelchair" in said.mention.ids and any("other-person" in hit.scopes for hit in page.text.find("ask")):
        return False  # the question is for whoever sits in it
    return "other-person" in scopes and bool(page.text.find("kit-self"))


def seat(said: Said, page: Page, profile: Profile) -> Said:
    """The chair of a wheelchair user is the wheelchair, and is never taken away."""
    rolls = "wheelchair" in profile.has or any("wheelchair" in m.ids for m in page.found)
    if "wheelchair" in said.mention.ids:
        return replace(said, status="has")
    if rolls and "chair" in said.mention.ids:
        status = "" if said.status == "lacks" else said.status
        return replace(said, mention=replace(said.mention, ids=("wheelchair",)), status=status)
    return said


def settled(said: list[Said], page: Page, asked: tuple[str, ...]) -> Found:
    """One status an id: unsafe first, then what was said last."""
    text, last, because = page.text, {}, []
    for one in said:
        if one.status and one.mention.never:
            card = page.book.nevers[one.mention.never]
            because.append(card.reason(text.quote(one.mention.first, one.mention.last), f"{card.says}: {card.why}"))
        for thing in _meant(one, page.book, asked) if one.status else ():
            if thing not in last or one.strength >= last[thing].strength or last[thing].strength < UNSAFE:
                last[thing] = one
    kits: dict[str, list[Kit]] = {"has": [], "lacks": []}
    for thing, one in sorted(last.items(), key=lambda item: item[1].mention.first):
        start, end = text.words[one.first].start, text.words[one.last].end
        kits[one.status].append(Kit(thing, text.raw[start:end], start, end))
    refused = frozenset(thing for thing, one in last.items() if one.mention.never and not one.mention.itself)
    only = bool(text.find("only") and kits["has"] and not kits["lacks"])
    asked_about = any(page.asks(page.sentence_end(m)) for m in page.found)
    return Found(tuple(kits["has"]), tuple(kits["lacks"]), tuple(because), only, asked_about, refused)


def _meant(said: Said, book: Rulebook, asked: tuple[str, ...]) -> tuple[str, ...]:
    """The ids a mention means; of several the ones the exercise asked about needs, else the first."""
    ids = said.mention.ids
    if not said.mention.one_of:
        return ids
    needed = {thing for ex in asked for need in book.exercises[ex].need_sets for thing in need}
    fitting = tuple(thing for thing in ids if thing in needed)
    if said.mention.never:
        return fitting[:1] or (ids[:1] if said.mention.itself else ())
    if "low-bar" in fitting and "overhead-bar" not in fitting and said.status == "lacks":
        return ("overhead-bar", "low-bar")  # without a bar at all there is no low one either
    return fitting[:1] or ids[:1]

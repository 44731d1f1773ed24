"""What an answer must give: want cards, and what follows where nothing is asked.

A limit without a question wants a swap (or what the limit's card says), a report is feedback, the rest is other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.values import Kit, Limit, Reason
from assistant.words import Text
from assistant.words.frames import Facts
from assistant.words.lexicon import lexicon

_QUIET = ("feedback", "other")  # said beside a question they are no want
_STRENGTH = ("strength", "hold")
_BARE = 10  # words of a message that is hardly more than a name and a question mark
_ANSWERS = {"swap", "easier", "harder", "whole-session"}


@dataclass(frozen=True)
class Scene:
    """What the rest of the reading knows: limits, missing kit, how many exercises, kit, earlier wants."""

    limits: Sequence[Limit] = ()
    lacks: Sequence[Kit] = ()
    exercises: int = 0
    asks_of_kit: bool = False  # kit is spoken of
    before: Sequence[str] = ()


def wants(text: Text, book: Rulebook, facts: Facts, scene: Scene) -> tuple[tuple[str, ...], tuple[Reason, ...]]:
    """The wants of `text`, the main one first, with the cards that say so."""
    met = [(card, found[0]) for card, found in lexicon(book).wants.met(text, facts)]
    asks = sorted((m for m in met if m[0].id not in _QUIET), key=lambda m: (-m[0].weight, m[1].start))
    if text.find("report-only") and "?" not in text.raw:
        told = scene.exercises or scene.limits or scene.lacks or text.find("report") or text.find("report-what")
        return ("feedback" if told else "other",), tuple(card.reason(found.words) for card, found in met)
    if scene.exercises > 1 and text.find("which") and text.find("degree"):
        hits = (text.find("which")[0], text.find("degree")[0])
        return ("why",), tuple(book.wordclasses[hit.cls].reason(hit.words, hit.name) for hit in hits)
    if asks:
        ids = _by_limits([card.id for card, _ in asks], scene.limits, book)
        return tuple(dict.fromkeys(ids)), tuple(card.reason(found.words) for card, found in asks)
    said = sorted((m for m in met if m[0].id in _QUIET), key=lambda m: _QUIET.index(m[0].id))
    said = [m for m in said if m[0].id != "feedback" or _reports(text, scene)]
    because = tuple(card.reason(found.words) for card, found in said)
    return (_without_asking(text, scene, [card.id for card, _ in said], book),), because


def _reports(text: Text, scene: Scene) -> bool:
    """Whether "done", "felt" tell of training: an exercise, a session, or nothing that is thanks or logistics."""
    own = any("other-person" not in hit.scopes for hit in text.find("report"))
    if text.find("thanks/chat") and not (scene.exercises or scene.limits):
        return False
    return own and bool(scene.exercises or scene.limits or text.find("report-what") or not text.find("thanks"))


def _without_asking(text: Text, scene: Scene, said: list[str], book: Rulebook) -> str:
    """What is wanted where no asking word is met."""
    if scene.exercises > 1 and "?" in text.raw and text.find("asking/choice") and not scene.limits:
        return "why"
    if said[:1] == ["other"] and not scene.exercises and "?" not in text.raw:
        return "other"  # "night shift done, thank you": nothing is wanted
    if _only_numbers(text, scene):
        return "feedback"
    if scene.exercises and (how := _asked_how(text)):
        return how
    if scene.limits or scene.lacks:
        return _of_limits(scene.limits, book)
    if scene.asks_of_kit and "?" in text.raw:
        return "kit"
    if scene.before:
        return scene.before[0]
    if said:
        return said[0]
    if "?" in text.raw and scene.exercises:
        return "form" if len(text.words) > _BARE else "swap"  # "one armed. A1 and A2?"
    if not scene.exercises or "?" in text.raw:
        return "other"
    if text.find("part") or any("denied" not in hit.scopes for hit in text.find("difficulty/cannot")):
        return "swap"  # something is in the way, in words that no limit knows
    return "feedback" if any(word.norm.isdigit() for word in text.words) else "other"


def _asked_how(text: Text) -> str:
    """ "Shall I bring the feet in?", "the same reps or fewer?": a question of one's own doing is about form, or how much."""
    for opening in text.find("asking/own"):
        sentence = text.words[opening.first].sentence
        last = max(n for n, w in enumerate(text.words) if w.sentence == sentence)
        if "?" in text.raw[text.words[last].end : text.words[last].end + 2]:
            units = any(text.words[h.first].sentence == sentence for h in text.find("dose-unit"))
            return "dose" if units else "form"
    return ""


def _only_numbers(text: Text, scene: Scene) -> bool:
    """ "Pull-ups 6, 5, 5. Pikes 8, 8, 7.": several exercises with their numbers, nothing asked and nothing that hurts."""
    numbers = sum(word.norm.isdigit() for word in text.words)
    sore = any(limit.kind == "pain" for limit in scene.limits)
    return scene.exercises > 1 and numbers > scene.exercises and "?" not in text.raw and not sore and not scene.lacks


def _of_limits(limits: Sequence[Limit], book: Rulebook) -> str:
    """What a limit wants by itself: as its card says, a swap where one of several says nothing."""
    said = [book.limits[limit.id].wants for limit in limits if limit.id in book.limits]
    if not said or not all(said):
        return "swap"
    return said[0]


def _by_limits(ids: list[str], limits: Sequence[Limit], book: Rulebook) -> list[str]:
    """A swap asked for where only strength is in the way is a step down; a limit that asks for the session comes first."""
    cards = [book.limits[limit.id] for limit in limits if limit.id in book.limits]
    if "whole-session" not in ids and any(card.wants == "whole-session" for card in cards):
        ids = ["whole-session", *ids]
    stated = {limit.kind for limit in limits}
    down = any(card.wants == "easier" for card in cards)
    if "swap" in ids and stated and stated <= set(_STRENGTH) and down:
        ids = ["easier" if want == "swap" else want for want in ids]
    if "easier" in ids and stated <= set(_STRENGTH):
        ids = sorted(ids, key=lambda want: want == "swap")  # "what can i do that is gentler" says what kind of swap
    if "easier" in ids and "harder" in ids:
        ids = [want for want in ids if want != ("harder" if down else "easier")]
    return ids

"""How a reply opens: what is in the way, in the follower's terms."""

from __future__ import annotations

from assistant.write.desk import Desk

_WISHES = ("easier", "harder", "whole-session", "swap")
_WEIGHT = ("pain", "skin", "fear", "balance", "hold", "strength", "mobility", "time", "other", "space", "noise")
_MOST = 3  # what is in the way, at most so many things


def opening(desk: Desk, has_options: bool) -> list[str]:
    """The opening sentences: what was said now, what is remembered, else the wish; nothing for plain words."""
    lines = []
    says = said_now(desk)
    if says:
        lines.append(desk.say(_card(desk, has_options), says=desk.say("list-says", things=says[:_MOST])))
    remembered = _remembered(desk)
    if remembered:
        lines.append(desk.say("opening-remembered", says=desk.say("list-says", things=remembered[:_MOST])))
    wish = next((wish for wish in desk.question.wants if wish in _WISHES), None)
    if not lines and wish and has_options:
        lines.append(desk.say("opening-wish", wish=wish))
    return [" ".join(lines)] if lines else []


def said_now(desk: Desk) -> list[str]:
    """What is in the way, as the limit cards say it to the follower, each once."""
    says = []
    for limit in desk.question.limits:
        card = desk.book.limits.get(limit.id)
        if card:
            says.append(card.says.rstrip("."))
        elif limit.what:
            says.append(desk.say("missing-thing", thing=desk.thing(limit.what)))
    return list(dict.fromkeys(says))


def _card(desk: Desk, has_options: bool) -> str:
    if not has_options:
        return "opening-without"
    kinds = {limit.kind for limit in desk.question.limits}
    named = f"opening-{min(sorted(kinds), key=lambda kind: _WEIGHT.index(kind) if kind in _WEIGHT else len(_WEIGHT))}"
    return named if named in desk.book.replies else "opening-other"


def _remembered(desk: Desk) -> list[str]:
    """Limits of the profile that stand among the reasons of an option and were not said again."""
    said = {limit.id for limit in desk.question.limits} | {denied.id for denied in desk.question.denied}
    rules = {reason.rule for swap in desk.swaps for reason in swap.because}
    kept = [id_ for id_ in desk.message.profile.limits if id_ in rules - said and id_ in desk.book.limits]
    return list(dict.fromkeys(desk.book.limits[id_].says.rstrip(".") for id_ in kept))

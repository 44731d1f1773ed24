"""Why one is harder, or other, than another: the demands that differ most, in words, with rounded figures."""

from __future__ import annotations

from assistant.rulebook.cards import Exercise, Quantity
from assistant.write.desk import Desk

_MOST = 3
_STEP = 5  # shown figures are rounded to 5 % and 5 degrees: ratings are no measurements
_MORE, _LESS = "more", "less"


def why(desk: Desk, with_options: bool) -> list[str]:
    """The two exercises asked about compared; one alone with what is offered, else with its nearest easier step."""
    asked = desk.asked()
    if not asked:
        return []
    if len(asked) > 1:
        return [_compared(desk, asked[0], asked[1])]
    found = next((swap.exercise for swap in desk.options_for(asked[0])[:1] if swap.exercise != asked[0]), None)
    if found and with_options:
        return [_compared(desk, found, asked[0])]
    card = desk.book.exercises[asked[0]]
    alone = desk.say(
        "why-alone", asked=desk.exercise(card.id), trains=_trains(desk, card), loads=card.loads.rstrip(".")
    )
    easier = next((id_ for id_ in card.easier if id_ in desk.book.exercises), None)
    return [f"{alone} {_compared(desk, card.id, easier)}" if easier else alone]


def _compared(desk: Desk, one: str, other: str) -> str:
    differences = _differences(desk, one, other)
    names = {"one": desk.exercise(one), "other": desk.exercise(other)}
    if not differences:
        return desk.say("why-like", **names)
    line = desk.say("why-compared", **names, differences=differences)
    step = desk.book.graph.get_edge_data(one, other) or {"kind": "", "why": ""}
    if step["kind"] not in ("easier", "harder") or not step["why"]:
        return line
    easier = other if step["kind"] == "easier" else one  # the note on a step is written about the easier of the two
    note = step["why"].rstrip(".")
    return f"{line} {desk.say('why-step', option=desk.exercise(easier), why=note[:1].lower() + note[1:])}"


def _differences(desk: Desk, one: str, other: str) -> list[str]:
    """At most three differences: loads first, then figures before scales, then the larger one."""
    now, was = desk.book.exercises[one].asks, desk.book.exercises[other].asks
    rows = []
    for name in {*now, *was} & set(desk.book.quantities):
        quantity, a, b = desk.book.quantities[name], now.get(name, 0.0), was.get(name, 0.0)
        said = _said(desk, quantity, a, b)
        if said:
            size = abs(a - b) / max(abs(a), abs(b))
            rows.append((not quantity.load, quantity.shown_as == "words", -size, name, said))
    return [said for *_, said in sorted(rows)[:_MOST]]


def _said(desk: Desk, quantity: Quantity, now: float, was: float) -> str:
    if abs(now - was) < quantity.worth:
        return ""
    words = getattr(quantity, _MORE if now > was else _LESS)
    if quantity.shown_as == "words" or not now or not was:
        return desk.say("difference-words", words=words) if now != was else ""
    factor = 100 if quantity.shown_as == "percent" else 1
    a, b = (int(round(value * factor / _STEP) * _STEP) for value in (now, was))
    if a == b:
        return ""
    if factor == 1:
        return desk.say("difference-degrees", words=words, now=a, was=b)
    return desk.say(
        "difference-percent", words=words, low=a - _STEP, high=a + _STEP, was_low=b - _STEP, was_high=b + _STEP
    )


def _trains(desk: Desk, card: Exercise) -> list[str]:
    return [desk.book.purposes[name].says if name in desk.book.purposes else name for name in card.trains[:3]]

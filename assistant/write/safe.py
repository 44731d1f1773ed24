"""When the things that an option leans on are safe: the conditions of their cards, in full."""

from __future__ import annotations

from assistant.rulebook.cards import Standin
from assistant.values import Swap
from assistant.write.desk import Desk
from assistant.write.names import ended, lower_first


def conditions(desk: Desk, swap: Swap, with_never: bool = True) -> str:
    """The sentences on every thing that `swap` leans on: stand-ins first, with what they never are."""
    parts = leans_on(desk, swap)
    standin = _standin(desk, swap.exercise, parts)
    rows = [(standin.things, standin.condition)] if standin else []
    covered = set(standin.things) if standin else set()
    rows += [([part], desk.book.equipment[part].condition) for part in parts if part not in covered]
    if not rows and swap.condition:
        rows = [([], swap.condition)]
    lines = []
    for things, condition in rows:
        named = desk.all_of([desk.thing(thing) for thing in things])
        card = "condition-too" if lines else "condition"
        lines.append(desk.say(card, thing=named, condition=ended(lower_first(condition))))
    if standin and standin.never and with_never:
        lines.append(desk.say("condition-never", never=lower_first(standin.never.rstrip("."))))
    new = [line for line in lines if line not in desk.checked]
    desk.checked.update(new)
    return " ".join(new)


def leans_on(desk: Desk, swap: Swap) -> list[str]:
    """The things whose condition matters: what the search leans on, else what is needed and said to be there."""
    given = [part for part in (swap.aid or "").split(" + ") if part in desk.book.equipment]
    if given:
        return given
    now = {kit.id for kit in desk.question.has}
    equipment = desk.book.equipment
    at_home = {id_ for id_ in desk.message.profile.has if id_ in equipment and equipment[id_].household}
    needed = (line.split(" or ") for line in desk.book.exercises[swap.exercise].needs)
    found = (next((thing for thing in line if thing in now | at_home), None) for line in needed)
    return [thing for thing in found if thing]


def _standin(desk: Desk, exercise: str, parts: list[str]) -> Standin | None:
    cards = desk.book.standins.values()
    return next((c for c in cards if exercise in c.only_for and parts and set(c.things) <= set(parts)), None)

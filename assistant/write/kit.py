"""What an exercise needs, in everyday words, and the household thing that will do instead, with its condition."""

from __future__ import annotations

from assistant.rulebook.cards import Exercise, Standin
from assistant.write.desk import Desk
from assistant.write.names import capital, ended


def kit(desk: Desk, with_options: bool) -> list[str]:
    """A line for every exercise asked about, else for every slot of the plan; whether anything has to be bought."""
    asked = desk.asked()
    if not asked and desk.message.plan:
        asked = list(
            dict.fromkeys(slot.exercise for slot in desk.message.plan.items if slot.exercise in desk.book.exercises)
        )
    cards = [desk.book.exercises[id_] for id_ in asked]
    lines = [_line(desk, card) for card in cards]
    if cards and all(_at_home(desk, card) for card in cards):
        lines.append(desk.say("kit-none-to-buy"))
    return ["\n".join(lines)] if lines else []


def _line(desk: Desk, card: Exercise) -> str:
    needs = [desk.say("list-or", things=[desk.a_thing(thing) for thing in line.split(" or ")]) for line in card.needs]
    standin = _standin(desk, card)
    things = desk.all_of([desk.a_thing(thing) for thing in standin.things]) if standin else ""
    condition = ended(capital(standin.condition)) if standin else ""
    return desk.say("kit", asked=desk.exercise(card.id), needs=needs, standin=bool(standin),
                    things=capital(things), condition=condition)  # fmt: skip


def _standin(desk: Desk, card: Exercise) -> Standin | None:
    """The first household stand-in for a need of `card` that is not itself among its needs."""
    named = {thing for line in card.needs for thing in line.split(" or ")}
    for standin in desk.book.standins.values():
        fits = card.id in standin.only_for and named & set(standin.for_kit)
        if fits and not set(standin.things) <= named and all(_household(desk, thing) for thing in standin.things):
            return standin
    return None


def _household(desk: Desk, thing: str) -> bool:
    return thing in desk.book.equipment and desk.book.equipment[thing].household


def _at_home(desk: Desk, card: Exercise) -> bool:
    """Whether every need is met by the household, itself or through a stand-in."""
    met = all(any(_household(desk, thing) for thing in line.split(" or ")) for line in card.needs)
    return met or (len(card.needs) == 1 and _standin(desk, card) is not None)

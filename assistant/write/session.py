"""The whole session: one line for every slot of the plan, in the coach's order."""

from __future__ import annotations

from assistant.values import PlanItem, Swap
from assistant.write.desk import Desk
from assistant.write.names import capital
from assistant.write.option import nevers, sorry_for, stop_lines
from assistant.write.safe import conditions

_WARM_UP = "W"


def session(desk: Desk) -> list[str]:
    """The lines of the session, the conditions of the things it leans on, and when to stop."""
    plan = desk.message.plan
    lines = [_line(desk, slot) for slot in plan.items if slot.exercise in desk.book.exercises]
    used = [swap for slot in plan.items if not _dropped(desk, slot) for swap in _option(desk, slot)[:1]]
    checks = [line for line in dict.fromkeys(conditions(desk, swap) for swap in used) if line]
    notes = [desk.say("session-short" if _short(desk) else "session-order")]
    return ["\n".join(lines), *notes, *checks, *nevers(desk), *stop_lines(desk)]


def _line(desk: Desk, slot: PlanItem) -> str:
    found = _option(desk, slot)
    if _dropped(desk, slot):
        return desk.say("session-dropped", item=slot.item, option=capital(desk.exercise(slot.exercise)))
    if found:
        option, changed = found[0].exercise, found[0].exercise != slot.exercise
        asked = desk.exercise(slot.exercise) if changed else ""
        dose = desk.dose_short(found[0].dose)
        return desk.say("session-line", item=slot.item, option=capital(desk.exercise(option)), dose=dose, asked=asked)
    name = capital(desk.exercise(slot.exercise))
    asked = any(a.id == slot.exercise and a.item in (None, slot.item) for a in desk.question.exercises)
    if asked and (reason := sorry_for(desk, slot.exercise)):
        desk.other_reasons.append(reason)
        return desk.say("session-sorry", item=slot.item, option=name, says=reason.says)
    if asked:
        return desk.say("session-dropped", item=slot.item, option=name)
    return desk.say("session-as-written", item=slot.item, option=name, dose=desk.dose_short(slot.dose))


def _option(desk: Desk, slot: PlanItem) -> list[Swap]:
    """The options for this slot, the recommended one first, without kit that nobody said is there."""
    return [s for s in desk.options_for(slot.exercise) if not s.if_you_have and s.item in (None, slot.item)]


def _short(desk: Desk) -> bool:
    return any(card.keeps_slots for card in desk.limits())


def _dropped(desk: Desk, slot: PlanItem) -> bool:
    """Short of time: the warm-up stays and the slots that search has kept, the others are left out."""
    return _short(desk) and not slot.item.startswith(_WARM_UP) and not _option(desk, slot)

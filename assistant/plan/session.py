"""An inline plan (see the contract) ⇄ values.Plan."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Any

from assistant.plan.effort import effort_words, find_effort
from assistant.plan.notation import read_dose, read_tempo_words
from assistant.plan.tempo import Order, order_shown, read_tempo
from assistant.values import BadInput, Dose, Plan, PlanItem

_PLAN_KEYS = {"id", "title", "items", "day"}
_ITEM_KEYS = {
    "item",
    "exercise",
    "text",
    "dose",
    "sets",
    "reps",
    "seconds",
    "metres",
    "tempo",
    "rest_s",
    "side",
    "moving",
}
_AMOUNTS = ("reps", "seconds", "metres")


def plan_from_json(data: Any, card_tempos: Mapping[str, str] | None = None) -> Plan:
    """The plan in `data`: {"title", "items": [{"item", "exercise", "sets", "reps" | "seconds" | "metres", ...}]}.

    A bare list of items is read as a plan without a title. An item may give a `dose` in notation instead of numbers;
    `card_tempos` (exercise id -> tempo of its card) helps to read a tempo written lift first. Raises BadInput.

    >>> plan_from_json({"items": [{"item": "A1", "exercise": "chin-up", "sets": 3, "reps": 5}]}).slot("A1").dose.reps
    (5, 5)
    """
    if isinstance(data, list):
        data = {"items": data}
    if not isinstance(data, Mapping):
        raise BadInput("A plan must be an object with 'items': a list of slots.")
    _refuse_unknown(data, _PLAN_KEYS, "The plan")
    rows = data.get("items")
    if not isinstance(rows, list) or not rows:
        raise BadInput("The plan has no 'items': give a list of slots, each with 'item' and 'exercise'.")
    tempos = card_tempos or {}
    others = _order_of_coach(rows, tempos)
    items = tuple(_item(row, number, tempos, others) for number, row in enumerate(rows, 1))
    names = [item.item for item in items]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise BadInput(f"The plan has the slot '{twice[0]}' twice: name every slot once, such as A1, A2, B1.")
    return Plan(str(data.get("id") or "inline"), str(data.get("title") or ""), items, str(data.get("day") or ""))


def plan_to_json(plan: Plan) -> dict[str, Any]:
    """The inverse of `plan_from_json`: plain data with numbers as pairs."""
    return {"id": plan.id, "title": plan.title, "day": plan.day, "items": [_row(item) for item in plan.items]}


def unknown_exercises(plan: Plan, ids: Collection[str]) -> tuple[str, ...]:
    """The exercise ids of `plan` that are not in `ids`, in the order of the plan.

    >>> unknown_exercises(Plan("p", "", (PlanItem("A1", "chinn-up"),)), {"chin-up"})
    ('chinn-up',)
    """
    return tuple(dict.fromkeys(item.exercise for item in plan.items if item.exercise not in ids))


def _row(item: PlanItem) -> dict[str, Any]:
    row: dict[str, Any] = {"item": item.item, "exercise": item.exercise}
    if item.text:
        row["text"] = item.text
    if item.dose:
        fields = ("sets", *_AMOUNTS, "tempo", "rest_s", "side", "moving")
        values = ((name, getattr(item.dose, name)) for name in fields)
        row |= {name: list(v) if isinstance(v, tuple) else v for name, v in values if v is not None and v is not False}
        if item.dose.tempo and read_tempo(item.dose.tempo).text != item.dose.tempo:
            row["tempo"] += " lowering first"  # without the words it would be read the other way round
    return row


def _item(row: Any, number: int, tempos: Mapping[str, str], others: Order | None) -> PlanItem:
    where = f"Slot {number} of the plan"
    if not isinstance(row, Mapping):
        raise BadInput(f"{where} is not an object: give 'item' and 'exercise'.")
    _refuse_unknown(row, _ITEM_KEYS, where)
    for key in ("item", "exercise"):
        if not isinstance(row.get(key), str) or not row[key].strip():
            raise BadInput(f"{where} has no '{key}': give it as text, such as {'A1' if key == 'item' else 'chin-up'}.")
    where = f"Slot {row['item']} of the plan"
    dose = _dose(row, where, tempos.get(row["exercise"]), others)
    note = _note(str(row.get("text") or ""), str(row.get("dose") or ""))
    return PlanItem(row["item"].strip(), row["exercise"].strip(), dose, note)


def _note(text: str, dose: str) -> str:
    """The coach's note, with the effort mark of the dose, for which a dose has no place."""
    effort = find_effort(dose)
    if effort is None or find_effort(text):
        return text
    return "; ".join(filter(None, (text, effort_words(effort))))


def _dose(row: Mapping[str, Any], where: str, card_tempo: str | None, others: Order | None) -> Dose | None:
    if row.get("dose") is not None:
        if any(row.get(key) is not None for key in ("sets", *_AMOUNTS)):
            raise BadInput(f"{where} has both 'dose' and numbers: keep one of them.")
        return read_dose(str(row["dose"]), card_tempo, order=others)
    given = [key for key in _AMOUNTS if row.get(key) is not None]
    if not given and row.get("sets") is None:
        return None
    if len(given) > 1:
        raise BadInput(f"{where} has both '{given[0]}' and '{given[1]}': keep one of them.")
    tempo = None if row.get("tempo") is None else read_tempo_words(str(row["tempo"]), others, card_tempo)
    span, side = _span(row[given[0]], f"{where}, '{given[0]}'") if given else (None, False)
    numbers = {given[0]: span} if given else {}
    return Dose(_whole(row.get("sets", 1), f"{where}, 'sets'"), **numbers, tempo=tempo.text if tempo else None,
                rest_s=None if row.get("rest_s") is None else _whole(row["rest_s"], f"{where}, 'rest_s'", least=0),
                side=side or _yes(row, "side", where), moving=_yes(row, "moving", where),
                how=tempo.says if tempo else "")  # fmt: skip


def _span(value: Any, where: str) -> tuple[tuple[int, int], bool]:
    """A number, a pair, or text such as `8-12` or `8/side`, and whether it is for each side."""
    if isinstance(value, str):
        found = re.fullmatch(r"(\d+)(?:\s*[-–]\s*(\d+))?\s*(/\s*side| each(?: side)?| s)?", value.strip())
        if not found:
            raise BadInput(f"{where}: '{value}' is not a number or a range such as 8-12.")
        low, high, side = int(found[1]), int(found[2] or found[1]), (found[3] or "s").strip() != "s"
    elif isinstance(value, (list, tuple)) and len(value) == 2:
        low, high, side = _whole(value[0], where), _whole(value[1], where), False
    else:
        low = high = _whole(value, where)
        side = False
    if low < 1 or high < low:
        raise BadInput(f"{where}: {value} cannot be used; numbers start at 1, the smaller one first.")
    return (low, high), side


def _whole(value: Any, where: str, least: int = 1) -> int:
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        raise BadInput(f"{where}: {value!r} is not a whole number.")
    try:
        number = float(value)
    except ValueError:
        number = -1.0
    if number != int(number) or number < least:
        raise BadInput(f"{where}: {value!r} is not a whole number of at least {least}.")
    return int(number)


def _yes(row: Mapping[str, Any], key: str, where: str) -> bool:
    value = row.get(key, False)
    if not isinstance(value, bool):
        raise BadInput(f"{where}, '{key}': {value!r} is neither true nor false.")
    return value


def _order_of_coach(rows: list[Any], tempos: Mapping[str, str]) -> Order | None:
    """The order of the plan's tempos that show it beyond doubt, if they all agree."""
    shown = set()
    for row in rows:
        written = _tempo_of(row) if isinstance(row, Mapping) else ""
        if written:
            try:
                shown.add(order_shown(written, tempos.get(str(row.get("exercise")))))
            except BadInput:  # said with its slot when the slot is read
                continue
    shown.discard(None)
    return shown.pop() if len(shown) == 1 else None


def _tempo_of(row: Mapping[str, Any]) -> str:
    """The tempo of a slot, from its own field or from its dose."""
    if isinstance(row.get("tempo"), str):
        return row["tempo"]
    found = re.search(r"tempo\s*:?\s*([^;,]+)", str(row.get("dose") or ""), re.I)
    return found[1].strip() if found else ""


def _refuse_unknown(data: Mapping[str, Any], known: set[str], where: str) -> None:
    unknown = sorted(set(map(str, data)) - known)
    if unknown:
        raise BadInput(f"{where} has an unknown field '{unknown[0]}'; known are: {', '.join(sorted(known))}.")

"""Lengths and weights as people write them → cm and kg, and back in the steps in which they are shown.

The factors and the plausible ends come from the caller (the cards `units` and `plausible-person`): nothing is assumed
here. A number that could mean two things is refused with the question to ask.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from assistant.values import BadInput

Numbers = Mapping[str, float]
_N = r"(\d+(?:[.,]\d+)?)"
_FEET = re.compile(rf"(\d)\s*(?:'|ft\.?|feet|foot|-)\s*(?:{_N}\s*(?:\"|''|in|ins|inch|inches)?)?", re.I)
_POINT_FEET = re.compile(r"\d\.\d{1,2}\s*(?:ft|feet|foot)\.?", re.I)
_METRES = re.compile(r"(\d)\s*m\s*(\d{2})|(\d[.,]\d{1,2})\s*(?:m|metres?|meters?)?", re.I)
_CM = re.compile(rf"{_N}\s*(?:cm|centimet(?:re|er)s?)?", re.I)
_STONE = re.compile(rf"(\d+)\s*(?:st|stones?)\.?\s*(?:{_N}\s*(?:lbs?|pounds?)?)?", re.I)
_POUND = re.compile(rf"{_N}\s*(?:lbs?|pounds?)\.?", re.I)
_KILO = re.compile(rf"{_N}\s*(?:kgs?|kilos?|kilograms?)?\.?", re.I)


def stature_cm(text: str, units: Numbers, plausible: Numbers) -> float:
    """A person's height in cm, unrounded: `5'11`, `5 ft 11`, `5-11`, `1.80`, `1m80`, `180 cm`. Raises BadInput with a question.

    >>> units = {"cm_per_in": 2.54, "in_per_ft": 12}
    >>> ends = {"height_low_cm": 91.44, "height_high_cm": 230}
    >>> [round(stature_cm(said, units, ends), 2) for said in ("5'11\\"", "5 ft 11", "1m80", "180")]
    [180.34, 180.34, 180.0, 180.0]
    """
    bare = _straight(text)
    if _POINT_FEET.fullmatch(bare):
        whole, part = re.findall(r"\d+", bare)
        raise BadInput(f"'{bare}' can be {whole} ft {part} in or {whole}.{part} ft: which one is it?")
    cm = _feet_cm(bare, units) if _FEET.fullmatch(bare) else _metric_cm(bare)
    low, high = plausible["height_low_cm"], plausible["height_high_cm"]
    if not low <= cm <= high:
        raise BadInput(f"A height of '{bare}' is {cm:.0f} cm: people are {low:.0f} to {high:.0f} cm; what is it in cm?")
    return cm


def body_kg(text: str, units: Numbers, plausible: Numbers, unit: str | None = None) -> float:
    """A person's weight in kg, unrounded: `165 lb`, `12 st 5`, `75 kg`; a bare number takes `unit`, the one used elsewhere.

    Raises BadInput with a question where the unit is not known or the weight is not plausible.

    >>> units = {"kg_per_lb": 0.45359237, "lb_per_st": 14}
    >>> round(body_kg("165 lb", units, {"weight_low_kg": 30, "weight_high_kg": 250}), 2)
    74.84
    """
    bare = _straight(text)
    kg = _said_kg(bare, units, unit)
    low, high = plausible["weight_low_kg"], plausible["weight_high_kg"]
    if not low <= kg <= high:
        raise BadInput(f"A weight of '{bare}' is {kg:.0f} kg: it should be {low:.0f} to {high:.0f}; what is it in kg?")
    return kg


def shown(value: float, step: float) -> float:
    """`value` to the nearest `step` (kg to 0.5, lb to 1, cm to 1, in to 0.5), halves upwards.

    >>> shown(74.84, 0.5), shown(180.34, 1)
    (75.0, 180)
    """
    return int(value / step + 0.5) * step


def _feet_cm(bare: str, units: Numbers) -> float:
    feet, inches = _FEET.fullmatch(bare).groups()  # type: ignore[union-attr] - asked for by the caller
    more = _number(inches) if inches else 0.0
    if more >= units["in_per_ft"]:
        raise BadInput(f"'{bare}' has {more:g} inches: a foot has {units['in_per_ft']:g}; what is the height?")
    return (int(feet) * units["in_per_ft"] + more) * units["cm_per_in"]


def _metric_cm(bare: str) -> float:
    if found := _METRES.fullmatch(bare):
        return float(f"{found[1]}.{found[2]}") * 100 if found[1] else _number(found[3]) * 100
    if found := _CM.fullmatch(bare):
        return _number(found[1])
    raise BadInput(f"'{bare}' is no height: write it like 180 cm or 5 ft 11.")


def _said_kg(bare: str, units: Numbers, unit: str | None) -> float:
    if found := _STONE.fullmatch(bare):
        pounds = _number(found[2]) if found[2] else 0.0
        if pounds >= units["lb_per_st"]:
            raise BadInput(f"'{bare}' has {pounds:g} pounds: a stone has {units['lb_per_st']:g}; what is the weight?")
        return (int(found[1]) * units["lb_per_st"] + pounds) * units["kg_per_lb"]
    if found := _POUND.fullmatch(bare):
        return _number(found[1]) * units["kg_per_lb"]
    found = _KILO.fullmatch(bare)
    if not found:
        raise BadInput(f"'{bare}' is no weight: write it like 75 kg, 165 lb or 12 st 5.")
    if bare[-1].isdigit():
        if unit not in ("kg", "lb"):
            raise BadInput(f"Is '{bare}' in kg or in lb?")
        return _number(found[1]) * (units["kg_per_lb"] if unit == "lb" else 1)
    return _number(found[1])


def _straight(text: str) -> str:
    return " ".join(text.strip().replace("’", "'").replace("′", "'").replace("”", '"').replace("″", '"').split())


def _number(text: str) -> float:
    return float(text.replace(",", "."))

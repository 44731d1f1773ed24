"""One dose as a coach writes it ⇄ values.Dose."""

from __future__ import annotations

import re
from functools import lru_cache

from assistant.plan.clock import clock
from assistant.plan.effort import effort_words, find_effort
from assistant.plan.tempo import Order, Tempo, read_tempo
from assistant.values import BadInput, Dose

BREATH_S = 5  # one calm breath, 12 a minute (trade notation N5; from memory)

_SIDE = r"(?P<side>\s*/\s*(?:side|leg|arm)|\s+each(?: side| leg| arm)?|\s+(?:per|a) (?:side|leg|arm))"
_UNIT = r"(?P<unit>reps?|seconds?|secs?|s|\"|minutes?|min|metres?|meters?|m|(?:calm )?breaths?)"
_HEAD = re.compile(
    rf"(?P<sets>\d+)\s*(?:x|\*|sets? of)\s*(?P<low>\d+)(?:\s*(?:-|to)\s*(?P<high>\d+))?(?:\s*{_UNIT})?"
    rf"(?:\s+(?P<how>hold|work))?(?:{_SIDE})?(?P<both>\s+(?:alternating|total))?"
)
_LIST = re.compile(r"(?P<sets>\d+)\s*(?:x|sets? of)\s*(?P<list>\d+(?:\s*,\s*\d+)+)")
_MINUTES = re.compile(r"(\d+)'\s*(\d{1,2})\"")
_REST = re.compile(r"(?:rest:?\s*(\d+)(?:\s*-\s*\d+)?\s*(s|sec|secs|seconds|min|minutes)?|\((\d+)\s*s\))")
_ONLY_SETS = re.compile(r"(\d+)\s*sets?")
_AMRAP = re.compile(r"(?:(?P<sets>\d+)\s*(?:x|sets? of)?\s*)?amrap")
_ROUNDS = re.compile(r"amrap(?: in)?\s*(\d+)\s*min(?:utes?)?|(\d+)\s*min(?:utes?)?\s*amrap")
_EMOM = re.compile(r"emom\s*(?P<sets>\d+)(?:\s*min(?:utes?)?)?(?:\s*[:x,]\s*(?P<reps>\d+)(?:\s*reps?)?)?")
_AS_MANY = "as many clean reps as possible, stop with one left"
_IN_TIME = "as many clean rounds as fit in that time"
_MINUTE_S = 60


@lru_cache(maxsize=4096)
def read_dose(text: str, card_tempo: str | None = None, order: Order | None = None) -> Dose:
    """The dose written in `text`; raises BadInput that says what could not be read and what to write.

    `order` is the order of the tempo where it is known: cards and printed doses are always "lowering" first, and
    a plan whose clear tempos agree has the order of those. What does
    not fit into numbers stands in `how`: effort marks, one number a set, as many as possible, an unsure tempo.

    >>> read_dose("3x6/side; tempo 3-0-1-0; rest 60 s")
    Dose(sets=3, reps=(6, 6), seconds=None, metres=None, tempo='3-0-1-0', rest_s=60, side=True, moving=False, how='', because=())
    >>> read_dose("2x5-8 breaths").seconds
    (25, 40)
    """  # noqa: E501 - a doctest line cannot be broken
    bare, effort = _without_effort(_plain(text))
    head, tempo, rest_s, says = _parts(bare, text, card_tempo, order)
    says = "; ".join(filter(None, (effort, says)))
    listed = _LIST.fullmatch(head)
    if listed:
        return _listed(listed, text, tempo, rest_s, says)
    found = _HEAD.fullmatch(head)
    if found:
        return _amount(found, text, tempo, rest_s, says)
    by_clock = _by_clock(head, text, tempo, rest_s, says)
    if by_clock:
        return by_clock
    only = _ONLY_SETS.fullmatch(head)
    if only and int(only[1]):
        return Dose(int(only[1]), tempo=tempo, rest_s=rest_s, how=says)
    raise BadInput(f"The dose '{text.strip()}' cannot be read: write it like 3x8-12; tempo 2-0-1-1; rest 90 s.")


def print_dose(dose: Dose) -> str:
    """The dose in notation, the inverse of `read_dose`.

    >>> print_dose(Dose(3, seconds=(15, 40), side=True, rest_s=45))
    '3x15-40 s hold/side; rest 45 s'
    """
    numbers = dose.reps or dose.seconds or dose.metres
    unit = "" if dose.reps else (" s work" if dose.moving else " s hold") if dose.seconds else " m"
    head = f"{dose.sets}x{_span(numbers, '-')}{unit}{'/side' if dose.side else ''}" if numbers else f"{dose.sets} sets"
    tempo = f"tempo {dose.tempo}" if dose.tempo else ""
    rest = f"rest {dose.rest_s} s" if dose.rest_s is not None else ""
    return "; ".join(part for part in (head, tempo, rest) if part)


def dose_words(dose: Dose) -> str:
    """The dose in short words for a page or a reply; the tempo is left to whoever has room for it.

    >>> dose_words(Dose(3, reps=(8, 12), side=True, rest_s=90)), dose_words(Dose(4, seconds=(20, 40), moving=True))
    ('3 × 8–12 each side, rest 90 s', '4 × 20–40 s work')
    """
    numbers = dose.reps or dose.seconds or dose.metres
    if not numbers:
        head = "1 set" if dose.sets == 1 else f"{dose.sets} sets"
    else:
        unit = "" if dose.reps else (" s work" if dose.moving else " s hold") if dose.seconds else " m"
        head = f"{dose.sets} × {_span(numbers, '–')}{unit}"
    head += " each side" if dose.side else ""
    return f"{head}, rest {dose.rest_s} s" if dose.rest_s else head


def _plain(text: str) -> str:
    """Lower case, one kind of sign for times, dash and quote, minutes turned into seconds."""
    bare = " ".join(text.lower().replace("×", "x").replace("–", "-").replace("”", '"').replace("’", "'").split())
    bare = _MINUTES.sub(lambda found: f"{int(found[1]) * 60 + int(found[2])} s", bare)
    return re.sub(r"(\d+)'(?!\d)", lambda found: f"{int(found[1]) * 60} s", bare)


def _without_effort(bare: str) -> tuple[str, str]:
    """The dose without its effort mark, and the mark in words."""
    effort = find_effort(bare)
    if effort is None:
        return bare, ""
    parts = [part.strip(" ,") for part in bare.replace(effort.mark, "", 1).replace("()", "").split(";")]
    return "; ".join(filter(None, parts)), effort_words(effort)


def _by_clock(head: str, text: str, tempo: str | None, rest_s: int | None, says: str) -> Dose | None:
    """AMRAP: as many as possible, with minutes rounds in that time. EMOM: a set at every full minute."""
    if rounds := _ROUNDS.fullmatch(head):
        time_s = int(rounds[1] or rounds[2]) * _MINUTE_S
        return Dose(1, seconds=(time_s, time_s), moving=True, how="; ".join(filter(None, (_IN_TIME, says))))
    if found := _AMRAP.fullmatch(head):
        how = "; ".join(filter(None, (_AS_MANY, says)))
        return Dose(int(found["sets"] or 1), tempo=tempo, rest_s=rest_s, how=how)
    found = _EMOM.fullmatch(head)
    if not found:
        return None
    if not found["reps"] or not int(found["sets"]) or not int(found["reps"]):
        raise BadInput(f"The dose '{text.strip()}' says when to start, not how many: write it like EMOM 10: 5.")
    dose = Dose(int(found["sets"]), reps=(int(found["reps"]),) * 2, tempo=tempo)
    left_s = _MINUTE_S - clock(dose).set_s[1]  # type: ignore[union-attr] - it has reps
    if left_s <= 0:
        raise BadInput(f"The dose '{text.strip()}' does not fit: {found['reps']} reps take {_MINUTE_S - left_s} s.")
    how = "; ".join(filter(None, ("a set at every full minute, the rest is what is left of it", says)))
    return Dose(dose.sets, reps=dose.reps, tempo=tempo, rest_s=left_s, how=how)


def _parts(bare: str, text: str, card: str | None, order: Order | None) -> tuple[str, str | None, int | None, str]:
    """Head, tempo, rest and what is to be said about the tempo."""
    head, tempo, rest_s, says = "", None, None, ""
    for part in filter(None, (part.strip() for part in re.split(r";|,\s*(?=tempo|rest)", bare))):
        rest = _REST.fullmatch(part)
        if rest:
            rest_s = int(rest[1] or rest[3]) * (60 if (rest[2] or "").startswith("min") else 1)
        elif part.startswith("tempo"):
            found = read_tempo_words(part.removeprefix("tempo").strip(" :"), order, card)
            tempo, says = found.text, found.says
        elif head:
            raise BadInput(f"The dose '{text.strip()}' cannot be read at '{part}': expected 'tempo ...' or 'rest ...'.")
        else:
            head = part
    return head, tempo, rest_s, says


def read_tempo_words(text: str, order: Order | None, card: str | None) -> Tempo:
    """The tempo at the start of `text`; words after it, such as "up first", may say its order. Raises BadInput.

    >>> read_tempo_words("1-0-4-0 lower first", None, None).text
    '1-0-4-0'
    """
    found = re.match(r"[\dx]+(?:\s*[-/.:–]\s*[\dx]+)*", text, re.I)
    counts, words = (found[0], text[found.end() :]) if found else (text, "")
    return read_tempo(counts, words, order, card)


def _listed(found: re.Match[str], text: str, tempo: str | None, rest_s: int | None, says: str) -> Dose:
    reps = [int(number) for number in found["list"].split(",")]
    if len(reps) != int(found["sets"]):
        raise BadInput(
            f"The dose '{text.strip()}' names {found['sets']} sets but {len(reps)} numbers: write one a set."
        )
    said = f"one number a set: {', '.join(map(str, reps))}"
    return Dose(
        len(reps), reps=(min(reps), max(reps)), tempo=tempo, rest_s=rest_s, how="; ".join(filter(None, [said, says]))
    )


def _amount(found: re.Match[str], text: str, tempo: str | None, rest_s: int | None, says: str) -> Dose:
    low, high = int(found["low"]), int(found["high"] or found["low"])
    unit, side = found["unit"] or "", bool(found["side"])
    if found["both"] and not side:
        if low % 2 or high % 2:
            raise BadInput(f"The dose '{text.strip()}' counts both sides together but is odd: write it for each side.")
        low, high, side = low // 2, high // 2, True
    if not int(found["sets"]) or not low or high < low:
        raise BadInput(f"The dose '{text.strip()}' cannot be used: sets and numbers start at 1, the smaller one first.")
    factor = 60 if unit.startswith("min") else BREATH_S if "breath" in unit else 1
    span = (low * factor, high * factor)
    kind = "reps" if not unit or unit.startswith("rep") else "seconds" if unit[0] in 's"cb' or factor > 1 else "metres"
    if found["how"] and kind == "reps":
        kind = "seconds"
    return Dose(int(found["sets"]), **{kind: span}, tempo=tempo, rest_s=rest_s, side=side,
                moving=found["how"] == "work", how=says)  # fmt: skip


def _span(numbers: tuple[int, int], dash: str) -> str:
    return str(numbers[0]) if numbers[0] == numbers[1] else f"{numbers[0]}{dash}{numbers[1]}"

"""Answers in words: how it is done and felt, why, how many, what for it is needed, whether the next step is due."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from assistant.plan import dose_words, read_dose
from assistant.values import Dose
from assistant.write.compare import why
from assistant.write.desk import Desk
from assistant.write.kit import kit
from assistant.write.names import capital, ended
from assistant.write.option import cues_in_line

_NUMBER = re.compile(r"\bof (\d+)\b")
_FROM_NOTHING = "zero-reps"  # with that, the asked exercise is out of reach and its form is not the answer
_NO_LINE = "-"  # a card without a next step


def in_words(desk: Desk, with_options: bool) -> list[str]:
    """A paragraph for each wish that is answered in words, in the order of the message."""
    wants = list(dict.fromkeys(desk.question.wants))
    return [p for want in wants if want in _ANSWERS for p in _ANSWERS[want](desk, with_options)]


def thanks(desk: Desk) -> list[str]:
    """The answer to a report without a question."""
    if "feedback" not in desk.question.wants:
        return []
    return [desk.say("feedback", asked=desk.all_of(desk.asked_names()))]


def form(desk: Desk, with_options: bool) -> list[str]:
    """How the asked exercise is done and where it is felt; with another one offered, where that is felt."""
    return [_form_of(desk, asked, with_options) for asked in desk.asked()]


def _form_of(desk: Desk, asked: str, with_options: bool) -> str:
    found = desk.options_for(asked)
    other = found[0].exercise if with_options and found and found[0].exercise != asked else None
    lines = []
    if not (other and any(card.changes_dose == _FROM_NOTHING for card in desk.limits())):
        card = desk.book.exercises[asked]
        lines.append(desk.say("form", asked=desk.exercise(asked), cues=small_first(cues_in_line(card.cues)),
                              feel=_small(card.feel), goes_wrong=card.goes_wrong.rstrip(".")))  # fmt: skip
    if other:
        feel = _small(desk.book.exercises[other].feel)
        lines.append(desk.say("form-of-option", option=desk.exercise(other), feel=feel))
    return "\n".join(lines)


def dose(desk: Desk, with_options: bool) -> list[str]:
    """How many and how long to rest, for exercises whose option was not already given with its dose."""
    return [] if with_options else [_dose_of(desk, asked) for asked in desk.asked()]


def ready(desk: Desk, with_options: bool) -> list[str]:
    """Whether the next step is due: the card's ready line against what is said to be done."""
    return [_ready_of(desk, asked, with_options) for asked in desk.asked()]


def _dose_of(desk: Desk, asked: str) -> str:
    found = desk.options_for(asked)
    slot = desk.message.plan.slot(desk.item(asked)) if desk.message.plan else None
    written = bool(slot and slot.exercise == asked and slot.dose)
    own = _card_dose(desk, asked)
    given = found[0].dose if found and found[0].exercise == asked else None
    if given is None:
        given = _filled(slot.dose, own) if written else own
    card, tempo = ("dose", desk.tempo(given)) if given.reps else ("dose-hold", "")
    return desk.say(card, asked=desk.exercise(asked), dose=dose_words(given), tempo=tempo, written=written,
                    how=_how(given, written))  # fmt: skip


def _how(given: Dose, written: bool) -> str:
    """How the dose was reckoned, where it is more than the plan's own numbers."""
    return ended(capital(given.how)) if given.how and not written else ""


def _filled(written: Dose, own: Dose) -> Dose:
    """The written dose with tempo and rest from the card where the plan leaves them out."""
    rest_s = own.rest_s if written.rest_s is None else written.rest_s
    return replace(written, tempo=written.tempo or (own.tempo if written.reps else None), rest_s=rest_s)


def _ready_of(desk: Desk, asked: str, with_options: bool) -> str:
    card = desk.book.exercises[asked]
    if card.ready.strip() in ("", _NO_LINE):
        return desk.say("ready-none", asked=desk.exercise(asked))
    best = {**dict(desk.message.profile.can), **dict(desk.question.can)}.get(asked)
    found = _NUMBER.search(card.ready)
    needed = int(found[1]) if found else None
    step = _next_step(desk, asked)
    line = desk.say("ready", asked=desk.exercise(asked), ready=ended(_small(card.ready)), best=best,
                    needed=needed)  # fmt: skip
    if not step or with_options or (best is not None and needed is not None and best < needed):
        return line
    return f"{line} {desk.say('ready-next', next=desk.exercise(step), dose=dose_words(_card_dose(desk, step)))}"


def _next_step(desk: Desk, asked: str) -> str | None:
    """The option that is harder, else the first harder step of the graph that shares the main pattern, by id."""
    offered = next((swap.exercise for swap in desk.options_for(asked) if swap.kind == "harder"), None)
    if offered:
        return offered
    graph, pattern = desk.book.graph, desk.book.exercises[asked].trains[0]
    steps = [b for _, b, data in graph.out_edges(asked, data=True) if data["kind"] == "harder"]
    alike = [id_ for id_ in steps if desk.book.exercises[id_].trains[0] == pattern]
    return min(alike or steps, default=None, key=lambda id_: (_place(desk, id_, asked), id_))


def _place(desk: Desk, step: str, asked: str) -> int:
    """How near `asked` stands among the easier steps of `step`: cards name the nearest first."""
    return list(desk.book.exercises[step].easier).index(asked)


def _card_dose(desk: Desk, exercise: str) -> Dose:
    return read_dose(desk.book.exercises[exercise].dose, order="lowering")


def small_first(cues: list[str]) -> list[str]:
    """The cues as they follow a colon: the first one small, too."""
    return [cues[0][:1].lower() + cues[0][1:], *cues[1:]] if cues else []


def _small(text: str) -> str:
    return (text[:1].lower() + text[1:]).rstrip(".")


_ANSWERS: dict[str, Callable[[Desk, bool], list[str]]] = {
    "form": form,
    "why": why,
    "dose": dose,
    "ready": ready,
    "kit": kit,
}

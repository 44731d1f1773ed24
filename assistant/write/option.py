"""The options for the exercises asked about: what, how much, how, on what condition, when to stop, what else."""

from __future__ import annotations

from assistant.plan import dose_words
from assistant.values import Reason, Swap
from assistant.write.desk import Desk
from assistant.write.names import capital, ended, lower_first
from assistant.write.safe import conditions

_SWAP_WANTS = {"swap", "easier", "harder", "whole-session"}
_SHORT_FROM = 3  # from so many asked exercises on, one line each
_TOO_HARD = ("strength", "hold")
_CUES = 2
_ENOUGH_WORDS = 85  # with more than that about one exercise, the third option is left out
_COSTS = 2  # what an option keeps and costs, the weightiest first


def options(desk: Desk) -> list[str]:
    """The paragraphs of all options; empty when only words were asked for and the exercise simply stays."""
    asked = [id_ for id_ in desk.asked() if _worth_saying(desk, id_)]
    if not asked:
        return []
    several = len(desk.asked()) > 1
    short = len(asked) >= _SHORT_FROM
    paragraphs = [_about_one(desk, id_, several, short) for id_ in asked]
    return [*nevers(desk), *paragraphs, *(_hows(desk, asked) if short else []), *stop_lines(desk)]


def nevers(desk: Desk) -> list[str]:
    """Things spoken of that are never used as kit, with the plain reason."""
    reasons = [*desk.question.because, *(r for refused in desk.refused for r in refused.because)]
    ids = dict.fromkeys(r.rule for r in reasons if r.rule in desk.book.nevers)
    cards = [desk.book.nevers[id_] for id_ in ids]
    return [desk.say("never", thing=lower_first(card.says), why=card.why) for card in cards]


def stop_lines(desk: Desk) -> list[str]:
    """How far to go and when to stop, from the limits said now; nothing where nothing complains."""
    cards = desk.limits()
    lines = [desk.say("pain-free")] if any(card.kind == "pain" for card in cards) else []
    none = desk.book.replies["not-medical"].text.strip()
    signs = [card.clinician.rstrip(".") for card in cards if card.clinician and not card.clinician.startswith(none)]
    if signs:
        lines.append(desk.say("stop-when", clinician="; ".join(dict.fromkeys(signs))))
    return [" ".join(lines)] if lines else []


def sorry_for(desk: Desk, asked: str) -> Reason | None:
    """Why there is no honest answer for `asked`: as given, else the first noanswer card that fits these limits."""
    if asked in desk.sorry:
        return desk.sorry[asked]
    now = {limit.id for limit in desk.question.limits} | set(desk.message.profile.limits)
    family = desk.book.exercises[asked].family
    for card in desk.book.noanswers.values():
        fits = any(set(entry.split(" + ")) <= now for entry in card.limits)
        if fits and (asked in card.exercises or family in card.exercises):
            return card.reason(says=card.says)
    return None


def _worth_saying(desk: Desk, asked: str) -> bool:
    """An option is said when one was wanted, when something is in the way, or when it is not the exercise itself."""
    found = desk.options_for(asked)
    wants = set(desk.question.wants)
    if "ready" in wants and not wants & _SWAP_WANTS and not desk.question.limits:
        return False  # whether the next step is due is said in words, with the step
    if found and (found[0].kind != "same" or found[0].aid):
        return True
    return bool(wants & _SWAP_WANTS) or bool(desk.question.limits)


def _about_one(desk: Desk, asked: str, several: bool, short: bool) -> str:
    found = desk.options_for(asked)
    main = next((swap for swap in found if not swap.if_you_have), None)
    if main is None:
        line = _nothing(desk, asked)
        return _with_item(desk, asked, line, several)
    dose = ended(desk.dose_short(main.dose)) if short and main.dose else desk.dose(main.dose)
    lines = [_honest(desk, main), _what(desk, main), dose, _how(desk, main, 1 if short else _CUES)]
    lines.append(conditions(desk, main))
    first = _with_item(desk, asked, " ".join(filter(None, lines)), several)
    rest = [] if short else _others(desk, [swap for swap in found if swap is not main])
    while len(rest) > 1 and sum(len(line.split()) for line in (first, *rest)) > _ENOUGH_WORDS:
        rest.pop()
    return "\n".join([first, *rest])


def _hows(desk: Desk, asked: list[str]) -> list[str]:
    """How the doses were chosen where all were chosen alike; else when to stop a set, in one sentence for all."""
    mains = [next((swap for swap in desk.options_for(id_) if not swap.if_you_have), None) for id_ in asked]
    hows = {swap.dose.how for swap in mains if swap and swap.dose}
    if not hows:
        return []
    return [ended(capital(hows.pop()))] if len(hows) == 1 and all(hows) else [desk.say("keep-back")]


def _honest(desk: Desk, main: Swap) -> str:
    """Where a noanswer card says that nothing trains this here, the option is only the nearest part of it."""
    reason = None if main.kind == "same" else sorry_for(desk, main.asked)
    if reason is None:
        return ""
    desk.other_reasons.append(reason)
    return desk.say("only-a-part", asked=desk.exercise(main.asked))


def _with_item(desk: Desk, asked: str, line: str, several: bool) -> str:
    item = desk.item(asked)
    return desk.say("slot", item=item, line=line) if several and item else line


def _nothing(desk: Desk, asked: str) -> str:
    reason = sorry_for(desk, asked)
    if reason is None:
        return desk.say("nothing-found", asked=desk.exercise(asked))
    desk.other_reasons.append(reason)
    return desk.say("no-honest-answer", asked=desk.exercise(asked), says=reason.says)


def _what(desk: Desk, swap: Swap) -> str:
    asked, option = desk.exercise(swap.asked), desk.exercise(swap.exercise)
    if swap.kind == "same":
        thing, change = _leans_on(desk, swap)
        return desk.say("option-same", asked=asked, thing=thing, change=change)
    eased = swap.kind == "easier" and not _easier_wished(desk)
    card = "option-swap" if eased else f"option-{swap.kind}"
    return desk.say(card, asked=asked, option=option, costs=list(swap.costs[:_COSTS]), easier=eased)


def _easier_wished(desk: Desk) -> bool:
    """Whether a step down is what was asked for, or what strength or form ask for."""
    return "easier" in desk.question.wants or any(card.kind in _TOO_HARD for card in desk.limits())


def _leans_on(desk: Desk, swap: Swap) -> tuple[str, str]:
    """The aid of an exercise that stays: a thing of the book with its article, or a change in words."""
    if not swap.aid:
        return "", ""
    parts = swap.aid.split(" + ")
    if all(part in desk.book.equipment for part in parts):
        return desk.all_of([desk.a_thing(part) for part in parts]), ""
    return "", swap.aid.rstrip(".")


def _how(desk: Desk, swap: Swap, most: int) -> str:
    cues = desk.book.exercises[swap.exercise].cues[:most]
    return desk.say("cues", cues=cues_in_line(cues)) if cues else ""


def cues_in_line(cues: list[str]) -> list[str]:
    """Cues as parts of one sentence: the first with a capital, no full stops inside."""
    bare = [cue.rstrip(". ") for cue in cues]
    return [capital(bare[0]), *(cue[:1].lower() + cue[1:] for cue in bare[1:])] if bare else []


def _others(desk: Desk, rest: list[Swap]) -> list[str]:
    """The next best, and one for kit that nobody said is there."""
    lines = []
    second = next((swap for swap in rest if not swap.if_you_have), None)
    if second and second.dose:
        lines.append(_fallback(desk, second))
    third = next((swap for swap in rest if swap.if_you_have), None)
    if third and third.dose:
        kit = desk.say("list-or", things=[desk.a_thing(part) for part in third.if_you_have.split(" or ")])
        lines.append(
            desk.say("if-you-have", kit=kit, option=desk.exercise(third.exercise), dose=dose_words(third.dose))
        )
    return lines


def _fallback(desk: Desk, swap: Swap) -> str:
    dose = dose_words(swap.dose)
    if swap.kind == "same":
        thing, change = _leans_on(desk, swap)
        return desk.say("fallback-same", asked=desk.exercise(swap.asked), change=thing or change, dose=dose)
    condition = conditions(desk, swap, with_never=False)
    return desk.say("fallback", option=desk.exercise(swap.exercise), dose=dose, condition=condition)

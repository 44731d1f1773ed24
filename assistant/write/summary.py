"""The one line of the inbox: at most 140 characters."""

from __future__ import annotations

from assistant.plan import dose_words
from assistant.write.desk import Desk
from assistant.write.names import capital

MOST_CHARACTERS = 140


def clip(text: str, most: int = MOST_CHARACTERS) -> str:
    """`text` on one line, cut at a word where it is too long.

    >>> clip("one two three", 9)
    'one two…'
    """
    line = " ".join(text.split())
    if len(line) <= most:
        return line
    cut = line[: most - 1]
    return (cut[: cut.rfind(" ")] if " " in cut else cut).rstrip(" ,;:") + "…"


def summary_of_swaps(desk: Desk) -> str:
    """`No overhead bar: chin-up → table row (3×6–12)`."""
    pairs = []
    for asked in desk.asked():
        found = next((swap for swap in desk.options_for(asked) if not swap.if_you_have), None)
        if found is None:
            pairs.append(desk.say("summary-sorry", asked=desk.exercise(asked)))
        elif found.exercise == asked:
            pairs.append(desk.say("summary-stays", asked=desk.exercise(asked), dose=_short(found.dose)))
        else:
            names = {"asked": desk.exercise(asked), "option": desk.exercise(found.exercise)}
            pairs.append(desk.say("summary-pair", **names, dose=_short(found.dose)))
    return capital(desk.say("summary-swaps", limits=_limits(desk), pairs=pairs))


def summary_of_words(desk: Desk) -> str:
    """`Form: dead bug`."""
    wants = ", ".join(dict.fromkeys(desk.question.wants))
    return capital(desk.say("summary-words", wants=wants, asked=", ".join(desk.asked_names())))


def _limits(desk: Desk) -> str:
    """The limits by their ids as words: what the knots of the inbox are called too."""
    return capital(", ".join(dict.fromkeys(limit.id.replace("-", " ") for limit in desk.question.limits)))


def _short(dose) -> str:
    return dose_words(dose).partition(",")[0].replace(" × ", "×") if dose else ""

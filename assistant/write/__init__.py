"""The draft: one short, warm reply in plain words, from the reply cards; after a safety finding no exercise at all.

Deterministic and pure. Every sentence is a `reply` card of the book; here is which of them are said, in what order.
"""

from __future__ import annotations

from collections.abc import Mapping

from assistant.rulebook import Rulebook
from assistant.values import Draft, Message, Question, Reason, Refused, Swap, Verdict
from assistant.write.ask import ask_back
from assistant.write.desk import Desk
from assistant.write.held import coach_tier, held, notice
from assistant.write.inwords import in_words, thanks
from assistant.write.opening import opening
from assistant.write.option import options
from assistant.write.session import session
from assistant.write.summary import clip, summary_of_swaps, summary_of_words

__all__ = ["write"]
_SEEN_FIRST = ("emergency", "clinician")


def write(
    question: Question, verdict: Verdict, swaps: tuple[Swap, ...], refused: tuple[Refused, ...], message: Message,
    book: Rulebook, sorry: Mapping[str, Reason] | None = None,
) -> Draft:  # fmt: skip
    """The draft for the coach; `swaps` carry their doses, the recommended one of each asked exercise among them.

    `sorry` gives, for an asked exercise that has no honest answer, the reason whose `says` is said instead; without it
    the noanswer cards of the book are looked up."""
    desk = Desk(book, message, question, swaps, refused, dict(sorry or {}))
    if verdict.tier in _SEEN_FIRST:
        summary, text, asked = *held(desk, verdict), None
    elif question.ask_back:
        summary, text, asked = ask_back(desk)
    else:
        summary, text = _reply(desk, verdict)
        asked = None
    told = notice(desk, verdict)
    if verdict.tier == "coach":
        summary = coach_tier(desk, verdict, summary)
    return Draft(clip(summary), text, verdict.urgency, asked, told, desk.because(verdict))


def _reply(desk: Desk, verdict: Verdict) -> tuple[str, str]:
    """Summary and text of an answer: opening, options or the whole session, answers in words, when to stop, the end."""
    body = session(desk) if _whole_session(desk) else options(desk)
    words = in_words(desk, with_options=bool(body))
    if not body and not words:
        return summary_of_words(desk), desk.letter([*opening(desk, False), *_without(desk, verdict)])
    offered = any(not swap.if_you_have for swap in desk.swaps)
    summary = summary_of_swaps(desk) if body else summary_of_words(desk)
    return summary, desk.letter([*opening(desk, offered), *body, *words, *_end(desk, verdict, bool(body) and offered)])


def _without(desk: Desk, verdict: Verdict) -> list[str]:
    """Where there is nothing to offer and nothing to explain: thanks, or a line that leaves it to the coach."""
    if verdict.tier == "coach":
        return [desk.say("looks-only", asked=desk.all_of(desk.asked_names()))]
    return thanks(desk) or [desk.say("other")]


def _end(desk: Desk, verdict: Verdict, offered: bool) -> list[str]:
    if verdict.tier == "coach":
        return [desk.say("coach-looks")]
    return [desk.say("closing" if offered else "closing-words")]


def _whole_session(desk: Desk) -> bool:
    """Whether every slot is answered: it was asked for, or a limit asks for it and no exercise was named."""
    if desk.message.plan is None:
        return False
    by_limit = any(card.wants == "whole-session" for card in desk.limits())
    return "whole-session" in desk.question.wants or (by_limit and not desk.question.exercises)

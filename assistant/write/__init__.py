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
from assistant.write.inwords import in_words
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
    gentle = verdict.tier == "coach"
    if not body and not words:
        asked = desk.asked_names()
        line = desk.say("looks-only", asked=desk.all_of(asked) if asked else "") if gentle else desk.say("other")
        return summary_of_words(desk), desk.letter([line])
    ends = [desk.say("coach-looks")] if gentle else [desk.say("closing" if body else "closing-words")]
    first = opening(desk, bool(body))
    summary = summary_of_swaps(desk) if body else summary_of_words(desk)
    return summary, desk.letter([*first, *body, *words, *ends])


def _whole_session(desk: Desk) -> bool:
    """Whether every slot is answered: it was asked for, or a limit asks for it and no exercise was named."""
    if desk.message.plan is None:
        return False
    by_limit = any(card.wants == "whole-session" for card in desk.limits())
    return "whole-session" in desk.question.wants or (by_limit and not desk.question.exercises)

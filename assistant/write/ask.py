"""A question back: exactly one question, and no option before it is answered."""

from __future__ import annotations

from assistant.write.desk import Desk
from assistant.write.opening import said_now

_HURTS = ("pain", "skin")


def ask_back(desk: Desk) -> tuple[str, str, str]:
    """Summary, text and the question itself."""
    question = _question(desk)
    lines = [desk.say("leave-out")] if any(limit.kind in _HURTS for limit in desk.question.limits) else []
    text = desk.letter([" ".join([desk.say("ask-thanks"), *lines]), desk.say("asked-back", question=question)])
    return desk.say("summary-ask", question=question), text, question


def _question(desk: Desk) -> str:
    """The reply card named by the reading, filled; or the question of an ambiguous spelling."""
    id_ = desk.question.ask_back or ""
    if id_ in desk.book.ambiguous and id_ not in desk.book.replies:
        return desk.book.ambiguous[id_].ask
    choices = [desk.exercise(choice) for choice in desk.question.choices if choice in desk.book.exercises]
    says = said_now(desk)
    names = desk.asked_names()
    return desk.say(
        id_, choices=choices, things=choices, choice_list=desk.say("list-or", things=choices) if choices else "",
        says=desk.all_of(says), asked=desk.all_of(names), exercise=names[0] if names else "",
        words=[asked.words for asked in desk.question.exercises], name="",
        not_understood=list(desk.question.not_understood),
    )  # fmt: skip

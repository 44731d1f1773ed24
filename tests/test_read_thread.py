"""A thread is one conversation: short answers, what still holds, what is taken back."""

from __future__ import annotations

import pytest

from assistant.read import read
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem, Turn
from assistant.words import prepare

BOOK = load()


def last(*texts, plan=None, item=None):
    """The reading of the last text; the follower and the coach speak in turns, the follower first."""
    turns = tuple(Turn("follower" if n % 2 == 0 else "coach", text) for n, text in enumerate(texts[:-1]))
    return read(prepare(texts[-1], BOOK), Message(texts[-1], plan, item, thread=turns), BOOK)


def ids(question):
    return [one.id for one in question.exercises]


def test_a_yes_answers_the_question_about_kit():
    question = last("no bar, pull ups?", "Do you have a sturdy table?", "yes oak")
    assert [k.id for k in question.has] == ["table"]
    assert ids(question) == ["pull-up"]
    assert [limit.id for limit in question.limits] == ["no-overhead-bar"]
    assert question.wants == ("swap",)
    assert question.ask_back is None


def test_a_no_answers_it_too():
    question = last("cant do the band face pulls here", "Do you have a long band with you?", "nope")
    assert [k.id for k in question.lacks] == ["band-long"]
    assert [limit.id for limit in question.limits] == ["no-bands"]


@pytest.mark.parametrize(
    ("answer", "exercise"),
    [
        ("the backpack one", "backpack-row"),
        ("the one under the table", "table-row"),
        ("second", "backpack-row"),
        ("the table row", "table-row"),
    ],
)
def test_a_short_answer_picks_one_of_the_choices(answer, exercise):
    question = last("the row hurts my back", "Which row do you mean, the table row or the backpack row?", answer)
    assert ids(question) == [exercise]
    assert not question.exercises[0].doubt
    assert [limit.id for limit in question.limits] == ["low-back-sore"]


def test_the_answer_to_an_ambiguous_spelling_is_read_with_its_card():
    question = last("my wrist hurts in the plank", "On your forearms or on straight arms?", "straight arms")
    assert ids(question) == ["high-plank"]


def test_that_one_is_what_the_coach_offered():
    question = last(
        "no bar at home, what for the chin ups", "Table rows with bent knees, 3x8-12.", "that one was too easy"
    )
    assert ids(question) == ["table-row"]
    assert question.exercises[0].how == "thread"
    assert question.wants == ("harder",)


def test_how_many_of_those_is_about_the_offer_and_what_was_said_still_holds():
    question = last("hollow hold makes my neck sore", "Swap it for dead bugs, head on the floor.", "how many of those")
    assert ids(question) == ["dead-bug"]
    assert question.wants == ("dose",)
    assert [limit.id for limit in question.limits] == ["neck-sore"]


def test_what_was_said_earlier_has_no_place_in_the_new_message():
    question = last("no bar, pull ups?", "Table rows, 3x8.", "how many of those")
    assert [(limit.id, limit.start, limit.end) for limit in question.limits] == [("no-overhead-bar", 0, 0)]


def test_what_turned_up_again_is_no_longer_missing():
    question = last(
        "my band is lost, face pulls?", "Towel pull-aparts, 3x10.", "found a long band, back to face pulls?"
    )
    assert [k.id for k in question.has] == ["band-long"]
    assert "band-long" not in [k.id for k in question.lacks]
    assert [limit.id for limit in question.limits] == []


def test_a_limit_denied_now_is_taken_back():
    question = last("wrists hurt in push ups", "Use fists, 3x8.", "my wrists are fine now. what next?")
    assert "wrist-sore" not in [limit.id for limit in question.limits]


def test_the_coach_changes_an_exercise_with_a_thing():
    question = last(
        "heel of hand sore in push ups", "Use the handles so the wrist stays straight, 3x8.", "how many of those?"
    )
    assert ids(question) == ["handle-push-up"]


def test_a_thread_about_one_slot_is_not_taken_for_the_slot_of_another():
    plan = Plan("p", "t", (PlanItem("A1", "chin-up"), PlanItem("A2", "push-up")))
    turns = (Turn("follower", "no bar, chin ups?", "A1"), Turn("coach", "Table rows, 3x8.", "A1"))
    text = "how many?"
    same = read(prepare(text, BOOK), Message(text, plan, "A1", thread=turns), BOOK)
    other = read(prepare(text, BOOK), Message(text, plan, "A2", thread=turns), BOOK)
    assert ids(same) == ["table-row"]
    assert ids(other) == ["push-up"]


def test_thanks_in_a_thread_want_nothing():
    question = last("no bar, pull ups?", "Table rows, 3x8.", "thanks coach")
    assert question.wants == ("other",)
    assert question.ask_back is None


def test_an_endless_thread_is_read_by_its_newest_turns():
    turns = tuple(Turn("follower", f"message {n}, wrists hurt in push ups") for n in range(400))
    text = "how many?"
    question = read(prepare(text, BOOK), Message(text, thread=turns), BOOK)
    assert ids(question) == ["push-up"]

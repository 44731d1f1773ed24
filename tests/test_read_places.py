"""Places in the day's session and exercises by description."""

from __future__ import annotations

import pytest

from assistant.read import read
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem
from assistant.words import prepare

BOOK = load()
DAY = Plan(
    "day",
    "today",
    (
        PlanItem("W1", "wrist-circle"),
        PlanItem("W2", "cat-cow"),
        PlanItem("A1", "chin-up"),
        PlanItem("A2", "push-up"),
        PlanItem("B1", "split-squat"),
        PlanItem("B2", "backpack-row"),
        PlanItem("C1", "wall-sit"),
        PlanItem("Z1", "child-pose"),
    ),
)


def placed(text, plan=DAY):
    """Slots asked about."""
    return [one.item for one in read(prepare(text, BOOK), Message(text, plan), BOOK).exercises]


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("A2 hurts my wrist", ["A2"]),
        ("b1 hurts my knee", ["B1"]),
        ("question about c one, how high", ["C1"]),
        ("the first exercise hurts my wrist", ["A1"]),
        ("third one hurts my knee", ["B1"]),
        ("exercise 3 hurts my knee", ["B1"]),
        ("number 4 hurts my back", ["B2"]),
        ("the last one hurts my knee", ["C1"]),
        ("one before last hurts my back", ["B2"]),
        ("second to last exercise hurts my back", ["B2"]),
        ("second one of the first pair hurts my wrist", ["A2"]),
        ("second one of the last pair hurts", []),
        ("the first one in the warm up hurts my wrist", ["W1"]),
        ("warm up no 2 hurts my knees", ["W2"]),
        ("number two in the warm up hurts my knees", ["W2"]),
        ("the second thing after the warm up hurts my wrist", ["A2"]),
        ("the one after the split squats hurts my back", ["B2"]),
        ("the exercise right before the wall sit hurts my back", ["B2"]),
        ("after the push ups there's one that hurts my knee", ["B1"]),
        ("first pair hurts my wrists", ["A1", "A2"]),
        ("how long do i rest between the two A exercises", ["A1", "A2"]),
        ("A2 and B1 hurt", ["A2", "B1"]),
        ("do i have to do the cool down", ["Z1"]),
    ],
)
def test_a_place_is_the_slot_a_coach_would_point_at(text, slots):
    assert placed(text) == slots


def test_after_the_warm_up_says_when_not_which():
    assert placed("after the warm up the push ups hurt my wrist") == ["A2"]


def test_a_place_beyond_the_plan_is_nothing():
    assert placed("the ninth exercise is too hard") == []
    assert placed("exercise 9 is too hard") == []


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("the hold is too long", ["C1"]),
        ("cant do the row one", ["B2"]),
        ("the thing with the backpack hurts my back", ["B2"]),
        ("the hanging one hurts my hands", ["A1"]),
        ("the one on all fours hurts my knees", ["W2"]),
    ],
)
def test_a_description_finds_the_exercise_that_fits(text, slots):
    assert placed(text) == slots


def test_a_description_that_fits_two_lists_both_and_asks():
    plan = Plan("p", "t", (PlanItem("A1", "inverted-row"), PlanItem("A2", "push-up"), PlanItem("B1", "backpack-row")))
    question = read(prepare("cant do the row one", BOOK), Message("cant do the row one", plan), BOOK)
    assert [(one.id, one.doubt) for one in question.exercises] == [("inverted-row", True), ("backpack-row", True)]
    assert question.ask_back == "ask-which-exercise"
    assert question.choices == ("inverted-row", "backpack-row")


def test_the_whole_session_is_every_slot_that_trains():
    text = "can you rewrite the whole thing, hotel room, no kit"
    question = read(prepare(text, BOOK), Message(text, DAY), BOOK)
    assert question.wants[0] == "whole-session"
    assert [one.item for one in question.exercises] == ["A1", "A2", "B1", "B2", "C1"]


def test_missing_kit_alone_is_about_the_slots_that_need_it():
    text = "no bar and no rings here this week"
    question = read(prepare(text, BOOK), Message(text, DAY), BOOK)
    assert [(one.id, one.how) for one in question.exercises] == [("chin-up", "place")]


def test_a_place_carries_the_card_that_read_it():
    text = "the last one hurts my knee"
    one = read(prepare(text, BOOK), Message(text, DAY), BOOK).exercises[0]
    assert [reason.rule for reason in one.because] == ["last", "one"]
    assert text[one.start : one.end] == "last one"

"""What an answer must give, and which question is asked back where the reading is unsure."""

from __future__ import annotations

import pytest

from assistant.read import read
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem
from assistant.words import prepare

BOOK = load()
DAY = Plan("day", "today", (PlanItem("A1", "pull-up"), PlanItem("A2", "push-up"), PlanItem("B1", "squat")))


def question(text, plan=None, item=None):
    return read(prepare(text, BOOK), Message(text, plan, item), BOOK)


@pytest.mark.parametrize(
    ("text", "wants"),
    [
        ("what can i do instead of pull ups", ("swap",)),
        ("no bar, pull ups?", ("swap",)),
        ("push ups hurt my wrist", ("swap",)),
        ("no bottles? then what for the floor press", ("swap",)),
        ("got something easier than push ups", ("easier",)),
        ("cant do a single pull up", ("easier",)),
        ("push ups are way too easy", ("harder",)),
        ("whats the next progression after dead bugs", ("harder",)),
        ("am i ready for pistol squats", ("ready",)),
        ("when can i move up from knee push ups", ("ready",)),
        ("how many push ups", ("dose",)),
        ("tempo on the push ups?", ("dose",)),
        ("what tempo for the push ups", ("dose",)),
        ("how do i breathe in the dead bug", ("form",)),
        ("where should i feel the glute bridge", ("form",)),
        ("why do we do dead bugs", ("why",)),
        ("is the reverse lunge harder than the split squat", ("why",)),
        ("do i need a bar for inverted rows", ("kit",)),
        ("can i use my kitchen table for the table rows", ("kit",)),
        ("did all the push ups today", ("feedback",)),
        ("thanks coach", ("other",)),
        ("what time is the call on friday", ("other",)),
    ],
)
def test_what_is_wanted(text, wants):
    assert question(text).wants == wants


def test_two_questions_are_two_wants_in_their_order():
    assert question("what instead of bench dips? and where should i feel the glute bridges?").wants == ("swap", "form")


def test_a_limit_in_the_session_wants_the_whole_session():
    found = question("only 10 minutes today", DAY)
    assert found.wants == ("whole-session",)
    assert [one.item for one in found.exercises] == ["A1", "A2", "B1"]


@pytest.mark.parametrize(
    ("text", "plan", "item", "asks"),
    [
        ("it hurts when i do it", None, None, "ask-where-it-hurts"),
        ("it pinches when i go deep", DAY, "B1", "ask-where-it-hurts"),
        ("what else can i do", None, None, "ask-which-exercise"),
        ("asdkjh qwe", None, None, "ask-what"),
        ("can we put turkish get ups in", None, None, "ask-unknown-exercise"),
        ("meh A2 didnt really work out", DAY, None, "ask-what-about"),
        ("what instead of pull ups, no bar", None, None, None),
        ("thanks coach", DAY, None, None),
        ("did all of it today", DAY, None, None),
    ],
)
def test_a_question_is_asked_back_only_where_the_reading_is_unsure(text, plan, item, asks):
    assert question(text, plan, item).ask_back == asks


def test_there_are_at_most_three_choices_and_they_come_from_the_plan():
    assert question("what else can i do", DAY).choices == ("pull-up", "push-up", "squat")
    long = Plan("p", "t", tuple(PlanItem(f"A{n}", ex) for n, ex in enumerate(("squat", "dip", "dead-bug", "v-up"), 1)))
    assert question("what else can i do", long).choices == ()


def test_every_question_back_is_a_reply_or_an_ambiguous_spelling():
    for rule in ("ask-which-exercise", "ask-where-it-hurts", "ask-unknown-exercise", "ask-what", "ask-what-about"):
        assert rule in BOOK.replies


def test_words_nobody_knows_are_listed():
    assert question("my flurbix hurts in the push ups").not_understood == ("flurbix",)


@pytest.mark.parametrize(
    ("text", "can"),
    [
        ("i get 3 pull ups and then im cooked", (("pull-up", 3),)),
        ("25 pushups easy", (("push-up", 25),)),
        ("when can i move up from knee push ups? 3x12 clean now", (("knee-push-up", 12),)),
        ("cant do a single pull up", (("pull-up", 0),)),
        ("the plan says 8 pull ups", ()),
        ("i weigh 90 kg, can i do pull ups", ()),
    ],
)
def test_numbers_said_to_be_reached(text, can):
    assert question(text).can == can

"""Which exercises a message is about, by name: spellings, slips, corrections, names that only say where."""

from __future__ import annotations

import pytest

from assistant.read import read
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem
from assistant.words import prepare

BOOK = load()


def asked(text, *slots, item=None):
    """Ids of the exercises asked about; `slots` are "A1 chin-up" of the day's plan."""
    items = tuple(PlanItem(*slot.split()) for slot in slots)
    message = Message(text, Plan("p", "today", items) if items else None, item)
    return [one.id for one in read(prepare(text, BOOK), message, BOOK).exercises]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("what instead of pull-ups", ["pull-up"]),
        ("what instead of pullups", ["pull-up"]),
        ("what instead of pull ups", ["pull-up"]),
        ("what instead of press ups", ["push-up"]),
        ("knee press ups are too hard", ["knee-push-up"]),
        ("push ups with my feet on a chair are too hard", ["decline-push-up"]),
        ("feet up pike push ups are too hard", ["feet-elevated-pike-push-up"]),
        ("rows under the table are too hard", ["table-row"]),
        ("sheet rows are too hard", ["sheet-door-row"]),
        ("band assisted pull ups are too hard", ["band-assisted-pull-up"]),
        ("pull ups and then the dead bugs are too hard", ["pull-up", "dead-bug"]),
    ],
)
def test_a_name_is_found_however_it_is_written(text, ids):
    assert asked(text) == ids


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("bulgarian spilt squats are too hard", ["rear-foot-elevated-split-squat"]),
        ("moutain climbrs are too hard", ["mountain-climber"]),
        ("chnups are too hard", ["chin-up"]),
        ("the glute brigde is too hard", ["glute-bridge"]),
    ],
)
def test_a_slip_of_the_pen_is_forgiven(text, ids):
    assert asked(text) == ids


@pytest.mark.parametrize(
    "text",
    [
        "the people in the front row laughed",
        "three weeks in a row i was ill",
        "i hang around at home",
        "nothing to hang from here",
        "i press my hands together when i pray",
        "any pointers for me",
        "my heels raise a bit",
        "i dont have a pull up bar",
        "ache on the thumb side after work",
    ],
)
def test_plain_words_are_no_exercise(text):
    assert asked(text) == []


def test_a_verb_is_an_exercise_only_where_the_plan_has_it():
    assert asked("it hurts my hands when i hang") == []
    assert asked("it hurts my hands when i hang", "A1 dead-hang", "A2 squat") == ["dead-hang"]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("pull ups, sorry i mean chin ups, hurt my elbow", ["chin-up"]),
        ("pull ups.. chin ups i mean, hurt my elbow", ["chin-up"]),
        ("dead bugs. sorry, bird dogs. they hurt my knee", ["bird-dog"]),
        ("the jumping lunges no wait the squat jumps are too loud", ["squat-jump"]),
        ("i meant the pike push ups, not the push ups, they hurt my wrist", ["pike-push-up"]),
    ],
)
def test_a_correction_withdraws_the_first_name(text, ids):
    assert asked(text) == ids


def test_what_is_only_fine_is_not_asked_about():
    assert asked("squats are fine but the jump lunges hurt my knees") == ["jump-lunge"]
    assert asked("no problem with the dead bugs, the bird dogs hurt my wrist") == ["bird-dog"]
    assert asked("are squats ok for my knees?") == ["squat"]


def test_an_idea_of_the_writer_is_not_asked_about_but_a_comparison_lists_both():
    assert asked("should i do knee push ups instead of push ups, too hard") == ["push-up"]
    assert asked("is the reverse lunge harder than the split squat") == ["reverse-lunge", "split-squat"]


def test_a_spelling_with_several_meanings_is_the_one_of_the_plan():
    assert asked("the planks hurt my wrists", "A1 squat", "A2 high-plank") == ["high-plank"]


def test_without_a_plan_the_first_meaning_stands_in_doubt_and_is_asked_back():
    text = "what instead of the planks"
    question = read(prepare(text, BOOK), Message(text), BOOK)
    assert [(one.id, one.doubt) for one in question.exercises] == [("forearm-plank", True)]
    assert question.ask_back == "plank"
    assert question.choices == ("forearm-plank", "high-plank")


def test_what_is_missing_beside_the_name_settles_it():
    assert asked("no bars for the dips here, what else") == ["dip"]


def test_an_exercise_that_is_not_in_the_book_is_never_guessed():
    text = "barbell bench press, what can i do instead"
    question = read(prepare(text, BOOK), Message(text), BOOK)
    assert question.exercises == ()
    assert question.ask_back == "ask-unknown-exercise"
    assert question.not_understood[0] == "barbell bench press"


def test_every_name_points_at_its_words():
    text = "my wrists hurt in the push-ups"
    one = read(prepare(text, BOOK), Message(text), BOOK).exercises[0]
    assert text[one.start : one.end] == "push-ups" == one.words
    assert (one.how, one.item) == ("name", None)


def test_the_slot_pointed_at_stands_where_nothing_is_named():
    assert asked("how many?", "A1 squat", "A2 push-up", item="A2") == ["push-up"]
    assert asked("and what about the squats?", "A1 squat", "A2 push-up", item="A2") == ["squat"]

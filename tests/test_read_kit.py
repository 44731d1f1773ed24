"""What the follower has and lacks, and the limits that follow."""

from __future__ import annotations

import pytest

from assistant.read import read
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem, Profile
from assistant.words import prepare

BOOK = load()
NOBODY = Profile()


def kit(text, profile=NOBODY, plan=None):
    """Ids that are there, and ids that are missing."""
    question = read(prepare(text, BOOK), Message(text, plan, profile=profile), BOOK)
    return [k.id for k in question.has], [k.id for k in question.lacks]


def limits(text, profile=NOBODY):
    question = read(prepare(text, BOOK), Message(text, profile=profile), BOOK)
    return [limit.id for limit in question.limits if limit.kind == "equipment"]


@pytest.mark.parametrize(
    ("text", "lacks"),
    [
        ("no bar here, what instead of pull ups", ["overhead-bar"]),
        ("my landlord wont let me put a bar up", ["overhead-bar"]),
        ("nothing to hang from in this flat", ["overhead-bar"]),
        ("i left my rings at home", ["rings-high", "rings-low"]),
        ("my band snapped", ["band-long", "band-mini", "band-tube"]),
        ("dont have dumbbells", ["dumbbell", "dumbbell-pair"]),
        ("no weights here", ["dumbbell", "dumbbell-pair", "kettlebell", "extra-load"]),
        ("no bar, rings or kettlebell here", ["overhead-bar", "rings-high", "rings-low", "kettlebell"]),
        ("i have neither a kettlebell nor rings", ["kettlebell", "rings-high", "rings-low"]),
        ("my dad took the pull up bar down", ["overhead-bar"]),
        ("no bars for the dips here", ["dip-bars"]),
        ("what instead of a kettlebell", ["kettlebell"]),  # who asks what to use instead of a thing has not got it
    ],
)
def test_what_is_missing(text, lacks):
    assert kit(text) == ([], lacks)


@pytest.mark.parametrize(
    ("text", "has"),
    [
        ("got rings, what can i do", ["rings-high", "rings-low"]),
        ("theres a big heavy wooden dining table tho", ["table"]),
        ("all i have is a chair", ["chair"]),
        ("i only have a chair and some bottles", ["chair", "bottle-pair"]),
        ("i train on rings btw", ["rings-high", "rings-low"]),
        ("i do have my long rubber band and theres a bench", ["band-long", "box-knee"]),
        ("normal flat, heavy wood table, sheets, a rucksack", ["table", "bedsheet", "backpack"]),
        ("wheelchair user here", ["wheelchair"]),
        ("my neighbour lent me his kettlebell", ["kettlebell"]),
    ],
)
def test_what_is_there(text, has):
    assert kit(text) == (has, [])


@pytest.mark.parametrize(
    ("text", "has", "lacks"),
    [
        ("rings but no bar", ["rings-high", "rings-low"], ["overhead-bar"]),
        ("no dumbbells, just a kettlebell", ["kettlebell"], ["dumbbell", "dumbbell-pair"]),
        (
            "no bar, no rings, just bands",
            ["band-long", "band-mini", "band-tube"],
            ["overhead-bar", "rings-high", "rings-low"],
        ),
        ("no bar, and the rings are up in the garden", ["rings-high", "rings-low"], ["overhead-bar"]),
        ("used to have no bar but i bought one yesterday", ["overhead-bar"], []),
    ],
)
def test_there_and_missing_in_one_message(text, has, lacks):
    assert kit(text) == (has, lacks)


@pytest.mark.parametrize(
    "text",
    [
        "do i need a bar for the inverted rows",
        "no problem with the dead bugs",
        "no idea what you mean",
        "no wall push ups today please",
        "my ring finger is sore",
        "can you send the sheet again",
        "what if i had no rings one day",
        "no bar needed right?",
        "my gym buddy has rings, i am jealous",
    ],
)
def test_words_that_say_nothing_about_kit(text):
    assert kit(text) == ([], [])


@pytest.mark.parametrize(
    ("text", "lacks"),
    [
        ("my table is glass", ["table"]),
        ("my chairs have wheels", ["chair"]),
        ("my kitchen chairs wobble", ["chair"]),
        ("theres a bar but it moves when i hang", ["overhead-bar"]),
        ("my door opens towards me", ["door"]),
    ],
)
def test_unsafe_things_count_as_missing(text, lacks):
    assert kit(text) == ([], lacks)


def test_a_sturdy_thing_is_not_unsafe():
    assert kit("the table is not wobbly at all, theres a table") == (["table"], [])


def test_a_thing_on_the_never_list_is_refused_with_its_reason():
    text = "can i do the dead hangs off the shower rail?"
    question = read(prepare(text, BOOK), Message(text), BOOK)
    assert [k.id for k in question.lacks] == ["overhead-bar"]
    assert [reason.rule for reason in question.because if reason.rule.startswith("N")] == ["N5"]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("no bar here", ["no-overhead-bar"]),
        ("no rings here", ["no-rings"]),
        ("no dumbbells, but a kettlebell", []),
        ("no chair but a sofa", []),
        ("no table here", ["no-table"]),
        ("rings but no bar", ["no-overhead-bar"]),
    ],
)
def test_a_missing_thing_makes_its_limit_unless_another_serves(text, ids):
    assert limits(text) == ids


def test_the_remembered_kettlebell_serves_too_but_not_when_it_is_gone():
    assert limits("no dumbbells here", Profile(has=("kettlebell",))) == []
    assert limits("sold my kettlebell", Profile(has=("kettlebell",))) == ["no-weights"]


def test_the_limit_says_what_is_missing_and_where_it_stands():
    text = "chin ups? sadly no bar here"
    limit = read(prepare(text, BOOK), Message(text), BOOK).limits[0]
    assert (limit.id, limit.kind, limit.what) == ("no-overhead-bar", "equipment", "overhead-bar")
    assert text[limit.start : limit.end] == "no bar"


def test_all_there_is_leaves_out_what_the_exercise_needs():
    assert limits("all i have is a sofa, for the parallel bar dips") == ["no-dip-bars"]


def test_a_plain_bar_is_the_one_the_exercise_needs():
    plan = Plan("p", "t", (PlanItem("A1", "dip"),))
    assert kit("A1: no bars here", plan=plan) == ([], ["dip-bars"])


def test_the_chair_of_a_wheelchair_user_is_never_missing():
    assert kit("wheelchair user here. my chair tips a bit") == (["wheelchair"], [])

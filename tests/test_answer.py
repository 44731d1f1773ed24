"""The five verbs together: what must hold for every answer."""

import json

import pytest

from assistant.answer import answer, as_json, message_from_line
from assistant.rulebook import load
from assistant.values import BadInput, Message, Plan, PlanItem, Profile, Turn


@pytest.fixture(scope="module")
def book():
    return load()


PLAN = Plan("p", "Pull and hold", (
    PlanItem("W1", "wrist-circle"), PlanItem("A1", "chin-up"), PlanItem("A2", "push-up"),
    PlanItem("B1", "split-squat"), PlanItem("B2", "hollow-hold"), PlanItem("Z1", "child-pose"),
))  # fmt: skip
EMERGENCIES = [
    "chest feels crushed and my arm tingles since the chin ups, what else can i do",
    "cant feel my legs after the fall off the bar and i wet myself, swap for chin ups?",
    "i dont want to be here anymore. anyway is A2 3 sets",
    "half my face went numb in the push ups and my words come out wrong",
]


@pytest.mark.parametrize("text", EMERGENCIES)
def test_an_emergency_gets_a_notice_and_no_exercise_anywhere(text, book):
    found = answer(Message(text, PLAN), book)
    assert found.verdict.tier == "emergency"
    assert found.swaps == () and found.draft.notice
    said = f"{found.draft.summary} {found.draft.text} {found.draft.notice}".lower()
    assert "emergency" in found.draft.notice
    for card in book.exercises.values():
        if len(card.name.split()) > 1 or "-" in card.name:
            assert card.name.lower() not in said


def test_an_unknown_exercise_is_asked_back_never_guessed(book):
    found = answer(Message("what can i do instead of the zercher curl thruster?"), book)
    assert found.swaps == () and found.draft.ask_back


def test_nothing_understood_becomes_a_question_back(book):
    found = answer(Message("hi it hurts when i do it, what now"), book)
    assert found.swaps == () and found.draft.ask_back and "?" in found.draft.text


def test_several_questions_are_answered_in_one_reply(book):
    found = answer(Message("no bar for A1, and A2 hurts my wrists. what now?", PLAN), book)
    assert [e.id for e in found.question.exercises] == ["chin-up", "push-up"]
    recommended = {s.asked: s.exercise for s in found.swaps if s.recommended}
    assert set(recommended) == {"chin-up", "push-up"}
    assert recommended["push-up"] != "push-up"


def test_a_place_in_the_plan_is_understood(book):
    found = answer(Message("cant keep my feet up in the second one of the second pair", PLAN), book)
    assert [e.id for e in found.question.exercises] == ["hollow-hold"]


def test_a_question_back_and_its_answer_are_read_together(book):
    thread = (
        Turn("follower", "no bar here, what instead of chin ups?"),
        Turn("coach", "Is the table sturdy?", asked_back=True),
    )
    found = answer(Message("yes oak", PLAN, thread=thread), book)
    assert "table" in {k.id for k in found.question.has}
    assert [e.id for e in found.question.exercises] == ["chin-up"]
    assert next(s for s in found.swaps if s.recommended).exercise == "table-row"


def test_that_one_is_known_two_days_later(book):
    thread = (
        Turn("follower", "my wrists hurt in push ups", exercises=("push-up",)),
        Turn("coach", "Push-ups on fists, 3 x 8, wrists straight.", exercises=("fist-push-up",)),
    )
    found = answer(Message("that one was too easy", thread=thread), book)
    assert [e.id for e in found.question.exercises] == ["fist-push-up"]
    assert "too-easy" in {x.id for x in found.question.limits}


def test_a_clinicians_hold_keeps_the_part_out_of_later_answers(book):
    found = answer(Message("no bar today, what instead of chin ups?", PLAN, profile=Profile(held=("all",))), book)
    assert found.swaps == ()


@pytest.mark.parametrize(
    "text",
    ["<script>alert(1)</script> no bar", "{{ 7*7 }} {% for x in y %}", "no bar \u202e\u200b", "x" * 4000, "?" * 900,
     "My wrist\n\n\nhurts\tin push ups", "👍👍", "привет, у меня болит", "1=1; drop table message"],
)  # fmt: skip
def test_any_text_gets_an_answer_and_nothing_is_executed(text, book):
    found = answer(Message(text, PLAN), book)
    assert found.draft.text and "49" not in found.draft.text
    json.dumps(as_json(found))


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ([], "must be an object"), ({}, "no 'text'"), ({"text": "  "}, "is empty"), ({"text": "x" * 5000}, "at most 4000"),
        ({"text": "x", "plan": {"items": [{"item": "A1", "exercise": "moon-walk"}]}}, "moon-walk"),
        ({"text": "x", "plan": {"items": [{"item": "A1", "exercise": "chin-up"}]}, "item": "C9"}, "no slot 'C9'"),
        ({"text": "x", "profile": {"has": ["jetpack"]}}, "jetpack"),
        ({"text": "x", "thread": [{"from": "nobody", "text": "hi"}]}, "from"),
    ],
)  # fmt: skip
def test_bad_lines_are_told_in_a_sentence(line, says, book):
    with pytest.raises(BadInput, match=says):
        message_from_line(line, book)


def test_control_characters_and_lone_surrogates_lose_nothing_else(book):
    assert message_from_line({"text": "no\x00 bar\x07 \ud800here"}, book).text == "no bar \ufffdhere"


def test_the_same_message_gives_the_same_answer(book):
    message = Message("no bar for A1, and A2 hurts my wrists", PLAN)
    assert as_json(answer(message, book)) == as_json(answer(message, book))


def test_a_mistake_in_reading_never_costs_someone_the_notice(book, monkeypatch):
    def broken(*_):
        raise RuntimeError("made up")

    monkeypatch.setattr("assistant.answer.read", broken)
    assert answer(Message(EMERGENCIES[0], PLAN), book).draft.notice
    with pytest.raises(RuntimeError, match="made up"):
        answer(Message("no bar, what instead?", PLAN), book)

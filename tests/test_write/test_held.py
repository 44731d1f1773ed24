"""After a safety finding: no exercise, no advice on training, the right notice at once."""

import pytest

HELD = ("emergency", "self-harm", "clinician, a part", "clinician, in the plan", "clinician, whole")
TRAINING_WORDS = (
    "reps",
    "sets",
    "rest 9",
    "×",
    "stretch",
    "instead of the",
    "push-up",
    "chin-up",
    "calf raise",
    "burpee",
)


@pytest.mark.parametrize("name", HELD)
def test_no_exercise_and_no_training_advice_in_text_or_notice(room, drafts, name):
    said = f"{drafts[name].text}\n{drafts[name].notice}\n{drafts[name].summary}".lower()
    for word in TRAINING_WORDS:
        assert word not in said, word
    names = {card.name.split(" (")[0].lower() for card in room.book.exercises.values()}
    assert not [exercise for exercise in names if f" {exercise} " in said]


@pytest.mark.parametrize("name", HELD)
def test_the_notice_is_the_one_of_the_category(drafts, name):
    assert drafts[name].notice


def test_an_emergency_notice_says_first_to_stop_and_to_call(drafts):
    first = drafts["emergency"].notice.splitlines()[0]
    assert first.startswith("Stop") and "your local emergency number now" in first
    assert drafts["emergency"].urgency == "now"


def test_self_harm_has_its_own_path(room, drafts):
    assert drafts["self-harm"].notice.startswith("Thank you for saying this.")
    assert "I take it seriously" in drafts["self-harm"].text
    assert "training" not in drafts["self-harm"].notice.lower()


def test_the_highest_finding_decides_the_notice_and_the_more_urgent_of_two(room):
    find = room.finding
    heart = find("cardiac", "emergency", "now")
    low_first = room.draft(["chin-up"], findings=[find("minor", "coach", "routine"), heart])
    assert low_first.notice == room.draft(["chin-up"], findings=[heart]).notice
    later, sooner = find("nerve", "clinician", "before-training"), find("dvt_pe", "clinician", "today")
    two = room.draft(["chin-up"], findings=[later, sooner])
    assert "sudden trouble breathing" in two.notice and " today." in two.notice


def test_a_parked_question_is_acknowledged_by_its_slot(drafts):
    assert "Your question about A1 is parked, not forgotten." in drafts["clinician, in the plan"].text
    assert "Your question is parked, not forgotten." in drafts["clinician, a part"].text
    assert "leave out everything that loads that part" in drafts["clinician, a part"].text
    assert "leave out all training" in drafts["clinician, whole"].text


def test_a_held_message_without_a_question_parks_nothing(room):
    draft = room.draft([], wants=["other"], findings=[room.finding("nerve", "clinician", part="wrist")])
    assert "parked" not in draft.text and "parked" not in draft.summary


def test_an_option_that_came_by_mistake_is_never_said_beside_an_emergency(room):
    draft = room.draft(["chin-up"], [room.table_row()], findings=[room.finding("cardiac", "emergency", "now")])
    assert "row" not in draft.text and "row" not in draft.summary


def test_a_gentle_draft_says_that_the_coach_looks_in_person(room, drafts):
    assert "I am looking at this one in person" in drafts["gentle"].text
    assert drafts["gentle"].summary.startswith("Look in person (pain that lasts). Elbow sore: chin-up → table row")
    assert "before I suggest anything for the chin-up" in drafts["gentle, nothing to offer"].text
    assert drafts["gentle"].notice


def test_a_clear_message_has_no_notice(drafts):
    assert drafts["no bar"].notice is None and drafts["no bar"].urgency == "routine"


def test_every_notice_of_every_category_and_tier_can_be_said(room):
    for category in room.book.categories.values():
        for tier in category.notice:
            draft = room.draft([], wants=["other"], findings=[room.finding(category.id, tier)])
            assert draft.notice and "{" not in draft.notice, (category.id, tier)
            assert draft.because[0].rule == f"{category.id}-sign"

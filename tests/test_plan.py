"""The trade's notation: read, printed, refused with a sentence. Expected values are written by hand."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.plan import (
    clock,
    dose_words,
    plan_from_json,
    plan_to_json,
    print_dose,
    read_dose,
    read_tempo,
    rep_s,
    unknown_exercises,
)
from assistant.rulebook import load
from assistant.values import BadInput, Dose


@pytest.mark.parametrize(
    ("text", "dose"),
    [
        ("3x8-12; tempo 2-0-1-1; rest 90 s", Dose(3, reps=(8, 12), tempo="2-0-1-1", rest_s=90)),
        ("3 × 8–12, tempo 2-0-1-1, rest 90 s", Dose(3, reps=(8, 12), tempo="2-0-1-1", rest_s=90)),
        ("3x15-40 s hold/side; rest 45 s", Dose(3, seconds=(15, 40), side=True, rest_s=45)),
        ('3x20"', Dose(3, seconds=(20, 20))),
        ("2x1'30\" hold", Dose(2, seconds=(90, 90))),
        ("4x20-40 s work; rest 30 s", Dose(4, seconds=(20, 40), moving=True, rest_s=30)),
        ("4x4-8 m; rest 60 s", Dose(4, metres=(4, 8), rest_s=60)),
        ("2x5-8 breaths/side; rest 0 s", Dose(2, seconds=(25, 40), side=True, rest_s=0)),
        ("3x6 each", Dose(3, reps=(6, 6), side=True)),
        ("3x6 per leg; rest 2 min", Dose(3, reps=(6, 6), side=True, rest_s=120)),
        ("5 sets of 5", Dose(5, reps=(5, 5))),
        ("3x8, 8, 6", Dose(3, reps=(6, 8), how="one number a set: 8, 8, 6")),
        ("4 sets", Dose(4)),
    ],
)
def test_a_dose_is_read_as_the_trade_writes_it(text, dose):
    assert read_dose(text) == dose


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("3x13 alternating", "odd"),
        ("EMOM 10", "says when to start, not how many"),
        ("EMOM 10: 30", "30 reps take 90 s"),
        ("3x8 @12", "An effort of 12 cannot be used"),
        ("3x8 @150 %", "write 1 to 100 %"),
        ("3x12-8", "the smaller one first"),
        ("0x8", "start at 1"),
        ("3x8, 8, 6, 6", "names 3 sets but 4 numbers"),
        ("some push-ups", "write it like 3x8-12"),
        ("3x8; tempo fast", "'fast' is not a tempo"),
        ("3x8; slowly", "cannot be read at 'slowly'"),
    ],
)
def test_a_dose_that_cannot_be_used_is_refused_in_one_sentence(text, says):
    with pytest.raises(BadInput, match=re.escape(says)) as caught:
        read_dose(text)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("text", ["4-0-1-0", "4010", "4/0/1/0", "4.0.1.0", "4 - 0 - 1 - 0", "401"])
def test_n10_all_spellings_of_a_tempo_are_the_same(text):
    assert read_tempo(text).text == "4-0-1-0"


def test_n10_more_than_nine_seconds_needs_separators():
    assert read_tempo("10-0-1-0").text == "10-0-1-0"
    with pytest.raises(BadInput):
        read_tempo("10010")


def test_n12_words_beside_a_tempo_decide_before_its_numbers():
    assert read_tempo("4-0-1-0", "up first").text == "1-0-4-0"
    assert read_dose("3x8; tempo 1-0-3-0 lower first").tempo == "1-0-3-0"


def test_n12_the_coachs_other_tempos_decide_before_the_numbers():
    assert read_tempo("1-0-3-0", others="lowering").text == "1-0-3-0"
    assert read_tempo("3-0-1-0", others="lift").text == "1-0-3-0"


def test_n12_a_card_with_a_slow_lift_makes_a_long_place_three_normal():
    assert read_tempo("3-1-5-0", card="3-1-3-0").text == "3-1-5-0"


def test_n12_the_exercises_own_tempo_written_the_same_way_is_no_doubt():
    assert read_tempo("2-1-2-0", card="2-1-2-0").says == ""


def test_n12_when_nothing_decides_lowering_first_is_assumed_and_said():
    tempo = read_tempo("2-1-2-0")
    assert (tempo.text, tempo.by) == ("2-1-2-0", "assumed")
    assert tempo.says == "tempo '2-1-2-0' read as lowering first: 2 s down, 2 s up; check the order"
    assert read_tempo("2-0-2-0").says == ""  # the same in both orders


def test_n12_the_order_of_the_other_tempos_holds_for_doses_in_notation_too():
    rows = [{"item": "A1", "exercise": "a", "dose": "3x5; tempo X-0-3-0"},
            {"item": "A2", "exercise": "b", "dose": "3x5; tempo 2-0-3-0"}]  # fmt: skip
    assert [item.dose.tempo for item in plan_from_json(rows).items] == ["3-0-X-0", "3-0-2-0"]


def test_n13_zero_in_the_lifting_place_is_as_fast_as_control_allows():
    assert rep_s("3-0-0-0") == rep_s("3-0-X-0") == 4


@pytest.mark.parametrize(
    ("text", "dose"),
    [
        ("3xAMRAP", Dose(3, how="as many clean reps as possible, stop with one left")),
        ("AMRAP", Dose(1, how="as many clean reps as possible, stop with one left")),
        ("10 min AMRAP", Dose(1, seconds=(600, 600), moving=True, how="as many clean rounds as fit in that time")),
        ("EMOM 10: 5; tempo 2-0-1-0", Dose(10, reps=(5, 5), tempo="2-0-1-0", rest_s=45,
                                           how="a set at every full minute, the rest is what is left of it")),
        ("3x8 @8; rest 90 s", Dose(3, reps=(8, 8), rest_s=90, how="@8 (2 left)")),
        ("3x8 (2-3 RIR)", Dose(3, reps=(8, 8), how="2-3 rir (2-3 left)")),
        ("3x8, RPE 8.5", Dose(3, reps=(8, 8), how="rpe 8.5 (1-2 left)")),
        ("3x8 @20 kg", Dose(3, reps=(8, 8), how="@20 kg")),
    ],
)  # fmt: skip
def test_n6_n7_n9_as_many_as_possible_every_minute_and_effort(text, dose):
    assert read_dose(text) == dose


def test_n9_the_effort_mark_of_a_dose_stays_with_its_slot_when_the_plan_is_kept():
    plan = plan_from_json([{"item": "A1", "exercise": "push-up", "dose": "3x8 @8", "text": "chest to the floor"}])
    assert plan.slot("A1").text == "chest to the floor; @8 (2 left)"
    assert plan_from_json(plan_to_json(plan)).slot("A1").text == plan.slot("A1").text


def test_metres_have_no_clock():
    assert clock(read_dose("4x4-8 m; rest 60 s")) is None


def test_every_card_of_the_rulebook_has_a_dose_that_reads_and_prints_back():
    for card in load().exercises.values():
        dose = read_dose(card.dose, order="lowering")
        assert read_dose(print_dose(dose), order="lowering") == dose, card.id
        assert dose.reps or dose.seconds or dose.metres, card.id


spans = st.tuples(st.integers(1, 60), st.integers(0, 30)).map(lambda pair: (pair[0], sum(pair)))
pauses = st.integers(0, 9).map(str)
counts = st.one_of(st.integers(0, 12).map(str), st.just("X"))


@given(st.integers(1, 12), spans, st.sampled_from(["reps", "seconds", "metres"]), st.booleans(), st.integers(0, 300),
       st.tuples(pauses, pauses, counts, pauses))  # fmt: skip
def test_a_printed_dose_reads_back_as_the_same_dose(sets, span, kind, side, rest_s, tempo):
    dose = Dose(sets, **{kind: span}, side=side, rest_s=rest_s, tempo="-".join(tempo) if kind == "reps" else None)
    assert read_dose(print_dose(dose), order="lowering") == dose


def test_dose_words_are_short():
    assert dose_words(Dose(3, reps=(8, 12), tempo="2-0-1-1", rest_s=90)) == "3 × 8–12, rest 90 s"
    assert dose_words(Dose(4, metres=(15, 30), rest_s=60)) == "4 × 15–30 m, rest 60 s"
    assert dose_words(Dose(2, seconds=(30, 30), side=True, rest_s=0)) == "2 × 30 s hold each side"
    assert dose_words(Dose(1)) == "1 set"


def test_an_inline_plan_is_read_with_its_slots():
    plan = plan_from_json(
        {"title": "Monday", "items": [
            {"item": "A1", "exercise": "chin-up", "sets": 3, "reps": 5, "tempo": "3-1-1-0"},
            {"item": "A2", "exercise": "hollow-hold", "sets": 3, "seconds": [20, 30], "rest_s": 60},
            {"item": "B1", "exercise": "split-squat", "sets": 3, "reps": "8-12/side"},
            {"item": "B2", "exercise": "dead-bug", "dose": "3x6-10/side; rest 45 s"},
            {"item": "Z1", "exercise": "child-pose", "text": "as long as you like"},
        ]}
    )  # fmt: skip
    assert plan.slot("A1").dose == Dose(3, reps=(5, 5), tempo="3-1-1-0")
    assert plan.slot("A2").dose == Dose(3, seconds=(20, 30), rest_s=60)
    assert plan.slot("B1").dose == Dose(3, reps=(8, 12), side=True)
    assert plan.slot("B2").dose.side and plan.slot("B2").dose.rest_s == 45
    assert plan.slot("Z1").dose is None and plan.slot("Z1").text == "as long as you like"
    assert plan_from_json(plan_to_json(plan)) == plan


def test_n12_a_plan_whose_clear_tempos_are_lift_first_is_read_lift_first_throughout():
    rows = [{"item": "A1", "exercise": "a", "sets": 3, "reps": 5, "tempo": "X-0-3-0"},
            {"item": "A2", "exercise": "b", "sets": 3, "reps": 5, "tempo": "2-0-3-0"}]  # fmt: skip
    plan = plan_from_json(rows)
    assert [item.dose.tempo for item in plan.items] == ["3-0-X-0", "3-0-2-0"]


def test_an_ambiguous_tempo_of_a_plan_is_said_in_its_dose():
    plan = plan_from_json([{"item": "A1", "exercise": "push-up", "sets": 3, "reps": 5, "tempo": "1-0-3-0"}])
    assert plan.slot("A1").dose.tempo == "3-0-1-0"
    assert "check the order" in plan.slot("A1").dose.how


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("monday", "must be an object with 'items'"),
        ({"title": "x"}, "has no 'items'"),
        ({"items": []}, "has no 'items'"),
        ({"items": ["A1"]}, "Slot 1 of the plan is not an object"),
        ({"items": [{"exercise": "chin-up"}]}, "Slot 1 of the plan has no 'item'"),
        ({"items": [{"item": "A1"}]}, "has no 'exercise'"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "reps": 5, "seconds": 5}]}, "both 'reps' and 'seconds'"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "reps": "many"}]}, "'many' is not a number"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "reps": [8, 5]}]}, "the smaller one first"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "sets": 0, "reps": 5}]}, "at least 1"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "sets": True, "reps": 5}]}, "not a whole number"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "weight": 5}]}, "unknown field 'weight'"),
        ({"items": [{"item": "A1", "exercise": "a"}, {"item": "A1", "exercise": "b"}]}, "the slot 'A1' twice"),
        ({"items": [{"item": "A1", "exercise": "chin-up", "sets": 3, "reps": 5, "tempo": "fast"}]}, "not a tempo"),
    ],
)
def test_a_plan_that_cannot_be_used_says_where_and_what(data, says):
    with pytest.raises(BadInput, match=re.escape(says)):
        plan_from_json(data)


def test_unknown_exercises_are_named_once_in_the_order_of_the_plan():
    plan = plan_from_json([{"item": "A1", "exercise": "chinn-up"}, {"item": "A2", "exercise": "push-up"},
                           {"item": "B1", "exercise": "chinn-up"}])  # fmt: skip
    assert unknown_exercises(plan, {"push-up"}) == ("chinn-up",)

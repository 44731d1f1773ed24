"""What a draft says: the right sentences, in plain words, none of them unused, none of them longer than it must be."""

import re

import pytest
from jinja2 import Environment, meta

from assistant.values import Kit, Reason
from assistant.write.names import exercise_names

MY_FILES = {"replies/frame.yaml", "replies/option.yaml", "replies/words.yaml", "replies/held.yaml"}
CONDITION = "test it with half your weight first, hips still on the floor; pull on the long side near a leg; face clear"


def my_cards(book):
    return [card for card in book.replies.values() if card.at.split(":")[0] in MY_FILES]


def test_every_reply_card_uses_each_field_it_lists_and_no_other(room):
    for card in my_cards(room.book):
        used = meta.find_undeclared_variables(Environment().parse(card.text))
        assert used == set(card.fields), card.id


def test_every_reply_card_is_said_in_some_situation(room, drafts):
    said = {reason.rule for draft in drafts.values() for reason in draft.because}
    compared_only = {"not-medical"}  # never said: what a limit writes when no doctor's line is due
    assert {card.id for card in my_cards(room.book)} - said == compared_only


def test_no_field_is_left_open_and_no_word_is_empty(drafts):
    for name, draft in drafts.items():
        assert not re.search(r"[{}]|None|\bthe the\b|  |\(\)|\[\]| ,| \.|\.\.|::", draft.text), name
        assert not re.search(r"[{}]|None|  |→ \(", draft.summary), name


def test_every_sentence_begins_large_and_ends(drafts):
    for name, draft in drafts.items():
        for paragraph in draft.text.split("\n\n")[1:]:
            assert paragraph[0].isupper() or paragraph[0].isdigit(), (name, paragraph)
        assert draft.text.rstrip()[-1] in ".?", name


def test_summaries_have_at_most_140_characters_on_one_line(drafts):
    for name, draft in drafts.items():
        assert 3 <= len(draft.summary) <= 140 and "\n" not in draft.summary, name


def test_an_answer_about_one_exercise_is_short(drafts):
    for name, draft in drafts.items():
        if not re.search("several|whole|kit of", name):
            assert len(draft.text.split()) <= 190, name


def test_the_same_question_always_gets_the_same_draft(room, drafts):
    again = room.draft(["chin-up"], [room.table_row()], ["no-overhead-bar"], name="Lou Example")
    assert again == drafts["no bar"]


def test_a_whole_reply_reads_like_this(drafts):
    assert drafts["no bar"].text == (
        "Hi Lou,\n\n"
        "No bar to hang from: no problem, there is a way round that.\n\n"
        "Instead of the chin-up, do the table row: same muscles, less for the grip. 3 × 6–12, rest 90 s; 2 s lowering, "
        "1 s lifting, 1 s hold. Stop each set with 2 good reps left. Test the table first; pull the breastbone toward "
        "the edge. Before you start, check your table: table does not tip: test it with half your weight first, hips "
        "still on the floor; pull on the long side near a leg; face clear of the edge. Never: glass, folding, trestle, "
        "pedestal or loose-top tables.\n\n"
        "Tell me afterwards how it felt."
    )
    assert drafts["no bar"].summary == "No overhead bar: chin-up → table row (3×6–12)"


def test_the_condition_of_a_household_thing_is_never_shortened(drafts):
    for name in ("no bar", "no bar, others", "several", "whole session", "kit nobody named"):
        assert CONDITION in drafts[name].text, name


def test_one_condition_is_said_once_a_reply(room):
    rows = [room.table_row("chin-up"), room.table_row("inverted-row")]
    text = room.draft(["chin-up", "inverted-row"], rows, ["no-overhead-bar"]).text
    assert text.count("half your weight first") == 1


def test_a_thing_that_the_follower_named_gets_its_condition_too(room):
    has = (Kit("rings-high", "rings", 0, 5), Kit("chair", "chair", 0, 5))
    rings = room.draft(["chin-up"], [room.swap("chin-up", "chin-up", "same")], ["no-overhead-bar"], has=has)
    assert room.book.equipment["rings-high"].condition[1:] in rings.text
    both = room.draft(["dumbbell-row"], [room.swap("dumbbell-row", "dumbbell-row", "same", aid="backpack + chair")])
    assert room.book.standins["backpack-for-dumbbell"].condition[1:] in both.text
    assert f"Check your chair, too: n{room.book.equipment['chair'].condition[1:]}" in both.text


def test_a_second_option_and_kit_that_nobody_named_come_after_the_first(drafts):
    text = drafts["no bar, others"].text
    assert text.index("table row") < text.index("If that does not feel right: the sliding floor pull")
    assert "If you have gymnastic rings: the chin-up" in drafts["kit nobody named"].text


def test_a_sore_joint_gets_a_line_on_when_to_stop(room, drafts):
    text = drafts["sore wrist"].text
    assert "stop if it gets worse" in text
    assert room.book.limits["wrist-sore"].clinician.rstrip(".") in text


def test_what_is_no_medical_matter_gets_no_line_about_a_doctor(drafts):
    assert "doctor" not in drafts["no bar"].text
    assert "medical" not in " ".join(draft.text for draft in drafts.values())


def test_several_exercises_are_answered_in_one_reply_with_their_slots(drafts):
    text = drafts["several"].text
    assert "A1: Instead of the chin-up, do the table row" in text
    assert "A2: Instead of the push-up, do the knee push-up, a step easier" in text
    assert "C1: For the hollow body hold I have nothing that fits" in text


def test_a_whole_session_has_a_line_for_every_slot(drafts):
    lines = drafts["whole session"].text.split("\n")
    assert [line.split(":")[0] for line in lines if re.match(r"[A-Z]\d:", line)] == ["W1", "A1", "A2", "B1", "C1"]
    assert "A1: Table row, 3 × 6–12, rest 90 s (for the chin-up)" in lines
    assert "W1: Cat-cow, 1 × 8, as written" in lines
    assert "C1: Hollow body hold. Rest." in drafts["whole session, one without answer"].text


def test_short_of_time_the_warm_up_and_the_first_two_slots_stay(drafts):
    text = drafts["short of time"].text
    assert "A1: Chin-up, 2 × 6" in text and "A2: Push-up, 2 × 12" in text
    assert "W1: Cat-cow, 1 × 8, as written" in text
    assert "B1: Split squat, leave it out today" in text and "C1: Hollow body hold, leave it out today" in text


def test_where_nothing_honest_exists_the_reply_says_so(room, drafts):
    card = next(card for card in room.book.noanswers.values() if "tuck-front-lever" in card.exercises)
    assert card.says in drafts["nothing honest"].text
    assert drafts["nothing honest"].summary == "No overhead bar: nothing honest for the tuck front lever"
    assert "nothing here replaces the whole of the dead hang" in drafts["only a part"].text
    given = room.draft(["dip"], [], ["no-dip-bars"], sorry={"dip": Reason("r", "x:1", says="No dips without bars.")})
    assert "The honest answer for the parallel-bar dip: No dips without bars." in given.text


def test_where_nothing_fits_no_way_round_is_promised(drafts):
    for name in ("nothing fits", "nothing honest"):
        assert "way round" not in drafts[name].text and "how it felt" not in drafts[name].text, name


def test_a_thing_that_is_never_kit_is_refused_with_its_reason(room, drafts):
    card = room.book.nevers["N5"]
    assert f"Please not this one: {card.says[0].lower()}{card.says[1:]}. {card.why}" in drafts["never"].text


def test_form_says_how_where_and_what_goes_wrong(drafts):
    text = drafts["form"].text
    assert "The glute bridge: tuck the tail first; lift until hips are straight, hold two seconds." in text
    assert "Where you should feel it: buttocks" in text and "Usual slips: ribs flare" in text
    assert "In the dead bug you should feel it here" in drafts["form and swap"].text
    assert "Where you should feel it" not in drafts["no bar"].text


def test_why_compares_two_exercises_in_rounded_figures_with_a_range(drafts):
    assert "more weight on the hands (about 80–90 % of your weight against 70–80 %)" in drafts["why two"].text
    assert "the knee bends more (about 115° against 55°)" in drafts["why with an angle"].text
    assert "More reps for most people" not in drafts["why two"].text
    assert "About the chin-up: more reps for most people" in drafts["why, with a note on the step"].text


def test_how_many_comes_from_the_plan_with_a_word_on_rest(drafts):
    assert "The chin-up, as written for you: 4 × 6, rest 150 s; 2 s lowering" in drafts["dose"].text
    assert "rest 30 s longer" in drafts["dose"].text


@pytest.mark.parametrize(
    ("name", "says", "not_says"),
    [
        ("ready yes", "Your best of 16 reaches the number", "not yet"),
        ("ready no", "You are at 9 and it takes 15: not yet", "decline"),
        ("ready, nothing said", "Tell me your numbers", "reaches"),
    ],
)
def test_ready_holds_the_cards_line_against_what_is_said(drafts, name, says, not_says):
    assert says in drafts[name].text and not_says not in drafts[name].text
    assert "3 sets of 15" in drafts[name].text


def test_kit_names_what_is_needed_and_what_stands_in(drafts):
    assert "For the inverted row (legs straight): a low bar, low rings or suspension straps." in drafts["kit"].text
    assert "For the push-up: nothing but the floor and you." in drafts["kit"].text
    assert "Nothing here has to be bought." in drafts["kit at home"].text
    assert "Nothing here has to be bought." not in drafts["kit of the plan"].text


def test_a_question_back_is_one_question_and_names_no_swap(drafts):
    draft = drafts["asked back"]
    assert draft.ask_back == "Which one do you mean: the dead bug or bird dog?"
    assert draft.text.count("?") == 1 and draft.ask_back in draft.text
    assert "leave out whatever brings it on" in draft.text
    assert draft.summary.startswith("Asks back: Which one")
    assert all(other.ask_back is None for name, other in drafts.items() if name != "asked back")


def test_the_question_of_an_ambiguous_spelling_is_its_cards(room):
    id_, card = next(iter(room.book.ambiguous.items()))
    assert room.draft([card.exercises[0]], ask=id_, choices=card.exercises).ask_back == card.ask


def test_names_inside_a_sentence_are_small_except_for_letters_that_are_shapes(room):
    names = exercise_names(room.book)
    assert names["chin-up"] == "chin-up"
    assert names["l-sit-floor"].startswith("L-sit")
    assert names["v-up"] == "V-up"
    assert names["inverted-row"] == "inverted row (legs straight)"
    assert len(set(names.values())) == len(names), "two exercises have the same name in a sentence"


def test_every_draft_rests_on_reasons_with_a_place(drafts):
    for name, draft in drafts.items():
        assert draft.because and all(reason.at for reason in draft.because), name

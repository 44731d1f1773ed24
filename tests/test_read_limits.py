"""What stands in a follower's way, read from the words of messages; labels in tests/data are written by hand."""

import json
from pathlib import Path

import pytest

from assistant.read import read
from assistant.read.facts import facts_of
from assistant.read.limits import limits
from assistant.rulebook import load
from assistant.values import Message, Plan, PlanItem
from assistant.words import prepare

DATA = Path(__file__).parent / "data"


@pytest.fixture(scope="module")
def book():
    return load()


def rows(name):
    return [json.loads(line) for line in (DATA / name).read_text(encoding="utf-8").splitlines()]


def stated(text, book, asked=()):
    return [limit.id for limit in limits(prepare(text, book), book, facts_of(asked, (), (), book))[0]]


def denied(text, book):
    return [limit.id for limit in limits(prepare(text, book), book, facts_of((), (), (), book))[1]]


def whole(text, book):
    message = Message(text)
    return read(prepare(text, book), message, book)


@pytest.mark.parametrize("row", rows("limits_seen.jsonl"), ids=lambda row: row["text"])
def test_what_people_type_for_a_limit_is_read_as_that_limit(row, book):
    found = [limit.id for limit in whole(row["text"], book).limits]
    assert (row["limit"] in found) is not row.get("known_wrong", False)


@pytest.mark.parametrize(
    "row", [*rows("limits_fresh_1.jsonl"), *rows("limits_fresh_2.jsonl")], ids=lambda row: row["text"]
)
def test_a_labelled_message_is_read_as_labelled_unless_it_is_kept_as_known_wrong(row, book):
    question = whole(row["text"], book)
    found = sorted(
        {limit.id for limit in question.limits if limit.kind != "equipment" or limit.what == "all-equipment"}
    )
    gone = sorted({limit.id for limit in question.denied})
    assert ((found, gone) == (row["limits"], row["denied"])) is not row.get("known_wrong", False)


@pytest.mark.parametrize("row", rows("limits_written.jsonl"), ids=lambda row: row["text"])
def test_a_line_written_for_a_card_is_stated_denied_or_quiet_as_written(row, book):
    question = whole(row["text"], book)
    said, gone = {limit.id for limit in question.limits}, {limit.id for limit in question.denied}
    wanted = (row.get("limit") in said, row.get("denied") in gone, row.get("quiet") in said | gone)
    assert wanted == ("limit" in row, "denied" in row, False)


@pytest.mark.parametrize("row", rows("limits_nothing.jsonl"), ids=lambda row: row["text"])
def test_thanks_logistics_and_jokes_hold_no_limit(row, book):
    question = whole(row["text"], book)
    assert [limit.id for limit in question.limits] == []
    assert question.denied == ()


@pytest.mark.parametrize(
    ("text", "here", "gone"),
    [
        ("no knee pain, ankle pain though", ["ankle-sore"], ["knee-sore"]),
        ("knees fine, wrists hurt", ["wrist-sore"], ["knee-sore"]),
        ("knees fine wrists hurt", ["wrist-sore"], ["knee-sore"]),
        ("back sore, no numbness, bladder normal", ["low-back-sore"], []),
        ("elbow fine in the session but screams next morning", ["elbow-sore"], []),
        ("wrists fine on handles, hurts flat", ["wrist-sore"], []),
        ("no bar and my wrist hurts", ["wrist-sore"], []),
        ("no rings wrist hurts", ["wrist-sore"], []),
        ("no, my knee hurts in lunges", ["knee-sore"], []),
        ("i cant squat without knee pain", ["knee-sore"], []),
        ("it hurts in the wrist not the elbow", ["wrist-sore"], []),
        ("without help i dont get even one", ["zero-reps"], []),
        ("wrists sore, heels lift", ["ankle-stiff", "wrist-sore"], []),
    ],
)
def test_a_present_pain_is_never_read_as_denied(text, here, gone, book):
    assert sorted(stated(text, book)) == here
    assert denied(text, book) == gone


@pytest.mark.parametrize(
    ("text", "gone"),
    [
        ("zero pain in the elbow", ["elbow-sore"]),
        ("knees ok btw", ["knee-sore"]),
        ("wrists are fine", ["wrist-sore"]),
        ("shoulder pain went away", ["shoulder-overhead-sore"]),
        ("my knees dont hurt anymore", ["knee-sore"]),
        ("kneeling is fine now", ["knee-kneel-sore"]),
        ("no wrist pain or elbow pain", ["elbow-sore", "wrist-sore"]),
    ],
)
def test_a_denied_pain_is_denied_and_no_limit(text, gone, book):
    assert stated(text, book) == []
    assert sorted(denied(text, book)) == gone


@pytest.mark.parametrize("text", ["im fine", "all good here", "feeling great today", "everything is ok"])
def test_being_fine_denies_nothing_in_particular(text, book):
    assert (stated(text, book), denied(text, book)) == ([], [])


@pytest.mark.parametrize(
    "text",
    ["my brother has knee pain", "last year i had knee pain", "what if i get knee pain", "she gets dizzy upside down"],
)
def test_past_supposed_and_other_peoples_limits_are_neither_stated_nor_denied(text, book):
    assert (stated(text, book), denied(text, book)) == ([], [])


@pytest.mark.parametrize(
    ("asked", "limit"),
    [
        ("dip", "shoulder-front-sore"),
        ("chest-to-wall-handstand", "shoulder-overhead-sore"),
        ("pull-up", "shoulder-overhead-sore"),
    ],
)
def test_the_exercise_asked_about_decides_which_shoulder_limit_is_meant(asked, limit, book):
    assert limit in stated("my shoulder hurts in this one", book, [asked])


def test_the_slot_the_message_was_written_at_counts_as_asked(book):
    plan = Plan("day", "Day", (PlanItem("A1", "dip"),))
    message = Message("my shoulder hurts in this one", plan=plan, item="A1")
    question = read(prepare(message.text, book), message, book)
    assert "shoulder-front-sore" in [limit.id for limit in question.limits]


def test_when_nothing_decides_the_shoulder_is_kept_from_overhead_work(book):
    assert stated("my shoulder hurts", book) == ["shoulder-overhead-sore"]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("locked elbows hurt", ["elbow-crease-strain"]),
        ("elbow hurts in the planche lean", ["elbow-crease-strain"]),
        ("elbows hurt on pull ups", ["elbow-sore"]),
        ("knees hurt on all fours", ["knee-kneel-sore"]),
        ("wrists feel tight not painful", ["wrist-stiff"]),
        ("quads so sore from yesterday", ["sore-muscles"]),
        ("i wobble in crow", ["loses-balance-inverted"]),
        ("i wobble in lunges", ["poor-balance"]),
    ],
)
def test_the_limit_that_says_more_takes_the_place_of_the_plainer_one(text, ids, book):
    assert stated(text, book) == ids


def test_a_limit_points_at_its_words_its_exercise_and_its_card(book):
    text = "hi coach, my left wrist is sore in push ups"
    (limit,), _ = limits(prepare(text, book), book, facts_of((), (), (), book))
    assert (limit.id, limit.kind, limit.what) == ("wrist-sore", "pain", None)
    assert text[limit.start : limit.end] == limit.words == "wrist is sore"
    assert limit.about == "push-up"
    assert limit.because[0].at.startswith("limits/joints.yaml:")


def test_a_pain_is_about_the_exercise_in_its_own_clause(book):
    text = "push ups are great but my wrist hurts in the plank on straight arms"
    (limit,), _ = limits(prepare(text, book), book, facts_of((), (), (), book))
    assert limit.about == "high-plank"


@pytest.mark.parametrize(
    ("text", "here"),
    [
        ("It is my elbow. I lower slowly and then it hurts.", ["elbow-sore"]),
        ("i wrote my shoulder hurts, sorry, i meant my elbow", ["elbow-sore"]),
        ("my knee was bad years ago. it aches now again", ["knee-sore"]),
        ("my brothers elbow is bad. it hurts him", []),
    ],
)
def test_a_pain_without_a_part_belongs_to_the_part_named_before(text, here, book):
    assert stated(text, book) == here


def test_a_pain_denied_without_a_part_belongs_to_the_part_named_before(book):
    assert denied("wrist is stiff from old work. It is not painful.", book) == ["wrist-sore"]


@pytest.mark.parametrize(
    ("text", "here", "gone"),
    [
        ("any wrist pain? nope", [], ["wrist-sore"]),
        ("is it the wrist pain? no idea", ["wrist-sore"], []),
        ("elbow is completely gone now no trouble at all, its my wrist thats sore", ["wrist-sore"], ["elbow-sore"]),
    ],
)
def test_a_question_answered_with_no_is_a_denial(text, here, gone, book):
    assert (stated(text, book), denied(text, book)) == (here, gone)


@pytest.mark.parametrize(
    ("text", "here"),
    [
        ("my mum has sore wrists, what can she do instead of push ups", ["wrist-sore"]),
        ("I write on behalf of my husband. His wrists are painful.", ["wrist-sore"]),
        ("my mum has sore wrists", []),
        ("my kid jumped on my wrist and now my wrist hurts", ["wrist-sore"]),
    ],
)
def test_a_limit_of_the_person_the_question_is_for_counts(text, here, book):
    assert stated(text, book) == here


@pytest.mark.parametrize(
    ("text", "here"),
    [
        ("if the yard is wet one night, what would i do instead", []),
        ("the yard is wet, what would you do instead", ["wet-or-dirty-ground"]),
        ("do push ups hurt your wrists", []),
    ],
)
def test_what_is_only_supposed_or_anybodys_is_no_limit(text, here, book):
    assert stated(text, book) == here


def test_a_reason_that_no_limit_knows_is_asked_back(book):
    message = Message("squats arent for me because of my knitting, what instead")
    assert read(prepare(message.text, book), message, book).ask_back == "ask-what-about"


def test_every_limit_has_examples_of_both_kinds_and_what_to_offer_first(book):
    for card in book.limits.values():
        assert card.first, card.at
        if card.when:
            assert len(card.examples.fires) >= 3 and len(card.examples.quiet) >= 3, card.at


def test_only_what_the_screen_decides_restricts_everything(book):
    assert [card.id for card in book.limits.values() if card.restricts_all] == ["clinician-first"]
    assert book.limits["clinician-first"].when == []

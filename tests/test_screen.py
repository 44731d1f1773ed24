"""The screen on the project's own labelled lines: what it must never miss, what it must leave alone.

The lines of safety_examples.jsonl, the screen_fresh, screen_written and screen_round files have been seen while the
cards were written: these figures say that nothing was lost, not how well unseen messages fare (the first-sight figures stand in
data/README.md).
"""

import json
from pathlib import Path

import pytest

from assistant.rulebook import load
from assistant.screen import screen
from assistant.values import TIERS
from assistant.words import prepare

DATA = Path(__file__).parent / "data"
TIER = {"E": "emergency", "D": "clinician", "C": "coach", "N": "clear"}
FRESH = sorted(
    [*DATA.glob("screen_fresh_*.jsonl"), *DATA.glob("screen_written_*.jsonl"), *DATA.glob("screen_round_*.jsonl")]
)


@pytest.fixture(scope="module")
def book():
    return load()


def lines(path):
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [row for row in rows if "text" in row]


def tier(text, book):
    return screen(prepare(text, book), None, book).tier


def scored(path, book):
    return [(TIER[row["tier"]], tier(row["text"], book), row["text"]) for row in lines(path)]


@pytest.fixture(scope="module")
def examples(book):
    return scored(DATA / "safety_examples.jsonl", book)


def test_the_data_is_whole():
    rows = lines(DATA / "safety_examples.jsonl")
    assert len(rows) == 798
    assert {row["tier"] for row in rows} == set(TIER)


def test_every_emergency_line_is_an_emergency(examples):
    assert [(got, text) for want, got, text in examples if want == "emergency" and got != "emergency"] == []


def test_no_line_for_a_clinician_is_clear(examples):
    assert [(got, text) for want, got, text in examples if want == "clinician" and got == "clear"] == []


def test_at_least_97_in_100_triggers_are_caught(examples):
    triggers = [got for want, got, _ in examples if want != "clear"]
    assert sum(got != "clear" for got in triggers) / len(triggers) >= 0.97


def test_at_most_4_in_100_harmless_lines_are_stopped_and_none_as_an_emergency(examples):
    harmless = [got for want, got, _ in examples if want == "clear"]
    assert sum(got != "clear" for got in harmless) / len(harmless) <= 0.04
    assert "emergency" not in harmless


@pytest.mark.parametrize("path", FRESH, ids=lambda path: path.stem)
def test_messages_once_fresh_stay_caught(path, book):
    found = scored(path, book)
    assert [(got, text) for want, got, text in found if want == "emergency" and got in ("clear", "coach")] == []
    assert sum(TIERS.index(got) >= TIERS.index(want) for want, got, _ in found) / len(found) >= 0.97


# -- changes of form that must not change the tier -----------------------------------------------------------------
ALARMS = [row["text"] for row in lines(DATA / "safety_examples.jsonl") if row["tier"] == "E"]


def never_lower(book, change, share=1.0):
    """The alarm lines whose tier fell under `change`; at least `share` of them must not fall."""
    fell = [text for text in ALARMS if tier(change(text), book) != "emergency"]
    assert len(fell) <= (1 - share) * len(ALARMS), fell


def test_case_does_not_lower_the_tier(book):
    never_lower(book, str.upper)


def test_dropped_and_curly_apostrophes_do_not_lower_the_tier(book):
    never_lower(book, lambda text: text.replace("'", ""))
    never_lower(book, lambda text: text.replace("cant", "can’t").replace("wont", "won't").replace("dont", "don't"))


def test_negations_written_in_full_do_not_lower_the_tier(book):
    never_lower(book, lambda text: text.replace("cant ", "can not ").replace("dont ", "do not "))
    never_lower(book, lambda text: text.replace("isnt ", "is not ").replace("doesnt ", "does not "))


def test_chatter_before_and_after_does_not_lower_the_tier(book):
    never_lower(book, lambda text: f"Hi coach, loving the new plan. {text}. Anyway, thanks and see you next week!")


def test_lines_of_their_own_do_not_lower_the_tier(book):
    never_lower(book, lambda text: f"hello\n\n{text}\n\nthanks")


def test_laughing_does_not_lower_the_tier(book):
    never_lower(book, lambda text: f"{text} lol")


def test_a_swap_question_beside_it_does_not_lower_the_tier(book):
    never_lower(book, lambda text: f"{text}. also what can i do instead of chin ups?")


def test_british_and_american_spelling_read_alike(book):
    pairs = [("anaemia tumour in my arm", "anemia tumor in my arm"), ("i have haemophilia", "i have hemophilia")]
    pairs += [("my foot has gone a bad colour and numb", "my foot has gone a bad color and numb")]
    for british, american in pairs:
        assert tier(british, book) == tier(american, book) != "clear"


def test_a_slip_in_a_long_word_does_not_lower_the_tier(book):
    slips = {"crushing": "crushign", "pressure": "presure", "swollen": "swolen", "breathe": "breahte"}
    for right, slip in slips.items():
        text = f"{right} on my chest and i cant breathe, arm swollen"
        assert tier(text.replace(right, slip), book) == "emergency", slip


# -- who, whether, when --------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "text",
    [
        "no chest pain, no numbness, no swelling, just weak",
        "no fever, no cough, no rash",
        "never fainted, never dizzy, no palpitations",
        "my mate says he had a stroke years ago",
        "my gran had a heart attack when i was a kid",
        "can handstands cause a stroke?",
        "how do i fall out of a handstand without landing on my head",
        "i broke my arm at 12, fine ever since",
    ],
)
def test_denied_old_others_and_supposed_signs_are_clear(text, book):
    assert tier(text, book) == "clear"


@pytest.mark.parametrize(
    "text",
    [
        "no pain, but my calf is hot and swollen",
        "i dont know why but my hand has gone numb since sunday",
        "probably nothing but my chest is squeezing",
        "not only my chest hurts, my arm has gone numb too",
        "no idea why my calf is so swollen and hot",
        "im fine otherwise but i passed out in the set today",
        "ive never had chest pressure like this",
    ],
)
def test_what_is_not_a_denial_is_not_taken_for_one(text, book):
    assert tier(text, book) in ("clinician", "emergency")


@pytest.mark.parametrize(
    "text",
    [
        "Any dizziness? Never. Any chest pain? None. Which row is next?",
        "You asked whether I get chest pain or faint. I have had none whatever.",
        "In the detective novel I am reading a gentleman loses consciousness upside down.",
        "the dog had a seizure on tuesday so i missed class",
        "in my mind i see the bar falling on my head. it hasnt happened",
        "what should one do if somebody faints in class? just curious",
    ],
)
def test_what_is_told_of_nobody_here_is_clear(text, book):
    assert tier(text, book) == "clear"


@pytest.mark.parametrize(
    "text",
    [
        "Crushing chest, sit down? Nope, still going, should I stop",
        "the dog pulled me over and i hit my head, been sick twice",
        "in the third series of squats blacked out and woke on the floor",
        "my husband is peeing brown and his arms are so swollen they wont bend",
        "she takes apixaban and has just banged her head on the shelf",
    ],
)
def test_an_emergency_near_such_words_stays_one(text, book):
    assert tier(text, book) == "emergency"


def test_numbers_are_read_as_they_are_spoken(book):
    assert tier("my sugar is two point six and i am about to start", book) in ("clinician", "emergency")
    assert tier("my top number has been in the 170s all week, blood pressure i mean", book) == "clinician"


def test_another_persons_emergency_now_is_an_emergency(book):
    assert tier("my mate is out cold on the mat", book) == "emergency"


def test_the_child_who_wants_to_join_is_the_one_who_trains(book):
    assert tier("my son is 12 and wants to join me", book) == "coach"


def test_time_changes_the_tier(book):
    assert tier("i passed out in the burpees an hour ago", book) == "emergency"
    assert tier("i passed out in the burpees three weeks ago", book) == "clinician"
    assert tier("i passed out once years ago at school", book) == "clear"


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("elbow pain is 3/10", "clear"),
        ("elbow pain is 4/10", "coach"),
        ("elbow pain is 6/10", "clinician"),
        ("bp 179/100", "clinician"),
        ("bp 121/79, all good", "clear"),
        ("bp 180/95 and my chest feels tight", "emergency"),
        ("sugar is 3.8 before training", "clinician"),
        ("sugar is 5.5 before training", "clear"),
        ("knee has been sore for 13 days", "clear"),
        ("knee has been sore for 15 days", "coach"),
        ("knee has been sore for 7 weeks", "clinician"),
        ("training with you for 7 weeks now", "clear"),
        ("i am 17, rings ok?", "coach"),
        ("i am 18, rings ok?", "clear"),
    ],
)
def test_numbers_decide_at_the_borders_of_the_cards(text, want, book):
    assert tier(text, book) == want


def test_signs_in_different_sentences_are_taken_together(book):
    assert (
        tier("My calf is hot and swollen. Did legs on monday. Now i suddenly cant get my breath.", book) == "emergency"
    )


def test_text_that_was_not_understood_goes_to_the_coach(book):
    assert tier("mi hombro derecho cruje cuando levanto brazo", book) == "coach"
    assert tier("", book) == "coach"


def test_a_finding_says_who_when_how_and_why(book):
    verdict = screen(prepare("my left calf is swollen and hot since sunday", book), None, book)
    first = verdict.findings[0]
    assert (first.category, first.sign, first.tier, verdict.urgency) == ("dvt_pe", "leg-swollen", "clinician", "today")
    assert (first.who, first.assertion, first.time, first.part) == ("follower", "present", "now", "all")
    assert first.rule.at.startswith("signs/limbs.yaml:")
    assert "calf" in first.words


def test_the_same_text_gets_the_same_verdict(book):
    text = "chest tight, arm heavy, and my calf is swollen"
    assert screen(prepare(text, book), None, book) == screen(prepare(text, book), None, book)

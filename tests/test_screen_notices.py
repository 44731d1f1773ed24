"""What followers are told at once: everything it must say, nothing it must never say."""

import re

import pytest
from jinja2 import Environment, StrictUndefined

from assistant.rulebook import load

BOOK = load()
NOTICES = sorted(name for name in BOOK.replies if name.startswith("notice-"))
CALL = "your local emergency number"


def rendered(name, category="cardiac", urgency="today"):
    card = BOOK.categories[category]
    fields = {"see": card.see, "worse": card.worse, "urgency": urgency}
    return Environment(undefined=StrictUndefined).from_string(BOOK.replies[name].text).render(**fields)


def every_notice():
    return [(name, rendered(name, category)) for name in NOTICES for category in ("cardiac", "hernia", "medication")]


def test_every_category_has_a_notice_for_every_tier_and_says_whom_to_see():
    assert len(BOOK.categories) == 40
    for card in BOOK.categories.values():
        assert set(card.notice) == {"emergency", "clinician", "coach"}, card.id
        assert card.see, card.id
        assert 2 <= len(card.worse) <= 4, card.id


def test_every_notice_of_a_category_exists_and_every_notice_is_used():
    used = {name for card in BOOK.categories.values() for name in card.notice.values()}
    assert used == set(NOTICES)


def test_every_category_has_a_sign_and_every_sign_a_source():
    assert {card.category for card in BOOK.signs.values()} == set(BOOK.categories)
    assert [card.id for card in BOOK.signs.values() if not card.source] == []


EMERGENCY = [name for name in NOTICES if name.startswith("notice-emergency")]


@pytest.mark.parametrize("name", EMERGENCY)
def test_an_emergency_notice_says_the_needful_in_order(name):
    text = rendered(name)
    first = text.splitlines()[0]
    assert first.startswith("Stop exercising now.")
    assert CALL in first
    assert "Do not stay alone" in text
    assert "drive yourself" in text
    assert "calls again" in text
    assert "not an emergency service" in text
    assert "?" not in text


def test_self_harm_has_its_own_words():
    text = rendered("notice-self-harm", "self_harm")
    assert text.startswith("Thank you")
    assert CALL in text
    assert "crisis line" in text
    assert "near you now" in text
    assert BOOK.categories["self_harm"].notice["emergency"] == "notice-self-harm"
    for word in ("secret", "promise", "cheer", "exercise", "train", "pill", "cut"):
        assert not re.search(rf"\b{word}", text, re.IGNORECASE), word


@pytest.mark.parametrize("name", [name for name in NOTICES if name.startswith("notice-clinician")])
def test_a_clinician_notice_says_whom_how_soon_and_what_would_be_worse(name):
    today, later = rendered(name, "hernia", "today"), rendered(name, "hernia", "before-training")
    card = BOOK.categories["hernia"]
    assert card.see in today
    assert CALL in today
    assert all(sign in today for sign in card.worse)
    if name in ("notice-clinician", "notice-clinician-whole"):
        assert "today" in today
        assert "today" not in later
        assert "before you train" in later


@pytest.mark.parametrize("name", [name for name in NOTICES if name.startswith("notice-coach")])
def test_a_coach_notice_asks_at_most_two_things_and_keeps_the_emergency_line(name):
    text = rendered(name)
    assert text.count("?") <= 2
    assert CALL in text
    assert "coach" in text


NEVER = [
    r"sounds like", r"probably", r"likely", r"it'?s just", r"nothing to worry", r"don'?t worry", r"\bodds\b", r"chances",
    r"wait and see", r"wait for (the|your) coach", r"push through", r"test it", r"\bice\b", r"massage", r"stretch",
    r"\bheat pack", r"aspirin", r"painkiller", r"\bmg\b", r"\bdose of", r"\bsugar", r"\bweight\b", r"calorie",
    r"\b(911|999|112|000|111|988)\b", r"drive to", r"your fault", r"should have", r"!", r"\bhaha|\blol\b", r"photo of",
    r"reply (to this )?first", r"diagnos", r"\bwill heal", r"you have (a|an) \w+ (condition|injury)",
]  # fmt: skip


@pytest.mark.parametrize("pattern", NEVER)
def test_no_notice_says_what_a_coach_may_never_say(pattern):
    assert [name for name, text in every_notice() if re.search(pattern, text, re.IGNORECASE)] == []


def words_of(prefix):
    return {
        word.lstrip("=")
        for card in BOOK.wordclasses.values()
        if card.id.startswith(prefix)
        for word in card.words
        if len(word) > 3 and word.isalpha()
    }


def test_no_notice_names_a_medicine():
    named = words_of("medicine/thinner") | words_of("medicine/painkiller") | words_of("medicine/strong")
    named |= words_of("medicine/steroid") | words_of("medicine/supplement")
    assert "ibuprofen" in named
    for name, text in every_notice():
        assert named & set(re.findall(r"[a-z]+", text.lower())) == set(), name


def test_no_notice_names_a_condition():
    named = words_of("condition/") - {
        "after",
        "post",
        "valve",
        "transplant",
        "biopsy",
        "infusion",
        "port",
        "loose",
        "unstable",
    }
    assert "hernia" in named
    for name, text in every_notice():
        assert named & set(re.findall(r"[a-z]+", text.lower())) == set(), name


def test_no_notice_names_an_exercise():
    names = {text.lower() for card in BOOK.exercises.values() for text in (card.name, *card.called)}
    assert BOOK.exercises["chin-up"].name.lower() in names
    for name, text in every_notice():
        found = [called for called in names if len(called) > 4 and re.search(rf"\b{re.escape(called)}\b", text.lower())]
        assert found == [], name


@pytest.mark.parametrize("name", NOTICES)
def test_notices_are_written_in_short_plain_sentences(name):
    sentences = [part for part in re.split(r"[.?:;]\s", rendered(name)) if part.strip()]
    words = [len(sentence.split()) for sentence in sentences]
    assert max(words) <= 30
    assert sum(words) / len(words) <= 14

"""Words, clauses, classes and scope."""

import pytest

from assistant.rulebook import load
from assistant.words import match, prepare


@pytest.fixture(scope="module")
def book():
    return load()


def scopes_of(text, word, book):
    prepared = prepare(text, book)
    return next(s for w, s in zip(prepared.words, prepared.word_scopes, strict=True) if w.norm == word)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("No, my knee hurts in lunges", "hurts"),
        ("I can't squat without knee pain", "pain"),
        ("no knee pain, ankle pain though", "ankle"),
        ("not only the knee hurts, the ankle too", "knee"),
        ("no knee pain, ankle and hip hurt", "hip"),
        ("wrists fine, elbow hurts on the way down", "hurts"),
        ("no pain but my leg is hot", "leg"),
        ("no wonder my knee hurts", "hurts"),
    ],
)
def test_a_present_pain_is_never_read_as_denied(text, word, book):
    """The traps that negation libraries fall into (measured list of the project; method NegEx/ConText)."""
    assert "denied" not in scopes_of(text, word, book)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("no numbness, tingling or weakness", "weakness"),
        ("zero pain in the elbow", "pain"),
        ("wrists are fine", "wrists"),
        ("knee pain: none", "knee"),
        ("i don't have any swelling", "swelling"),
        ("no murmurs, gallops, rubs", "rubs"),
        ("nothing wrong with my wrists", "wrists"),
    ],
)
def test_a_denied_sign_is_denied(text, word, book):
    assert "denied" in scopes_of(text, word, book)


@pytest.mark.parametrize(
    ("text", "word", "scope"),
    [
        ("last year I had knee pain", "pain", "over"),
        ("my knee pain is gone", "pain", "over"),
        ("my brother has knee pain", "pain", "other-person"),
        ("what if I get knee pain", "pain", "what-if"),
    ],
)
def test_past_other_people_and_suppositions_are_marked(text, word, scope, book):
    assert scope in scopes_of(text, word, book)


def test_slips_of_long_words_are_mended_and_plain_english_is_left_alone(book):
    prepared = prepare("my shoudler aches in the crowd", book)
    assert [w.norm for w in prepared.words] == ["my", "shoulder", "aches", "in", "the", "crowd"]


def test_offsets_count_into_the_raw_text(book):
    raw = "  My   WRISTS hurt!!"
    hit = next(h for h in prepare(raw, book).find("part") if h.name == "wrist")
    assert raw[hit.start : hit.end] == "WRISTS"


def test_a_longer_phrase_wins_over_a_part_of_it(book):
    assert [h.name for h in prepare("my elbow crease is sore", book).find("part")] == ["elbow-crease"]


def test_a_look_alike_is_no_body_part(book):
    assert not prepare("back to wall handstand, chest to floor", book).find("part")


def test_a_frame_joins_a_word_with_the_nearest_part(book):
    text = prepare("wrists are stiff and my elbow hurts", book)
    found = match([{"part": "any", "sensation": "sore"}], text)
    assert [m.hit("part").name for m in found] == ["elbow"]


def test_a_frame_takes_parts_joined_by_and(book):
    text = prepare("my wrists and my elbows hurt", book)
    found = match([{"part": "any", "sensation": "sore"}], text)
    assert sorted(m.hit("part").name for m in found) == ["elbow", "wrist"]


def test_a_slot_is_borrowed_from_the_neighbouring_clause(book):
    text = prepare("about my wrist in the plank. it really hurts", book)
    assert [m.hit("part").name for m in match([{"part": "any", "sensation": "sore"}], text)] == ["wrist"]


@pytest.mark.parametrize("text", ["", "   ", "😀😀😀", "!!!???", "a" * 4000, "no " * 1500, "(" * 2000, "'" * 500])
def test_any_text_can_be_prepared(text, book):
    assert prepare(text, book).raw == text


def test_the_same_text_gives_the_same_reading(book):
    text = "no bar at the cabin, what instead of chinups? wrists fine"
    assert prepare(text, book).hits == prepare(text, book).hits

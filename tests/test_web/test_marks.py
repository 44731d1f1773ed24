"""Words marked as they were read, and figures as words."""

from hypothesis import given
from hypothesis import strategies as st

from assistant.web.marks import ORDER, Mark, excerpt, marks, pieces
from assistant.web.spoken import Names, dose
from tests.test_inbox.made_up import book

LINE = {
    "question": {
        "exercises": [
            {"id": "decline-push-up", "words": "decline pushups", "start": 4, "end": 19, "item": "A2", "doubt": True},
        ],
        "limits": [{"id": "wrist-sore", "words": "wrist", "start": 25, "end": 30}],
        "kit": [{"id": "chair", "words": "chair", "start": 40, "end": 45, "there": False}],
        "denied": [{"id": "wrist-sore", "words": "fine", "start": 50, "end": 54}],
    },
    "verdict": {
        "findings": [
            {"category": "joint_hot", "tier": "clinician", "words": "hot", "start": 26, "end": 29, "who": "other"},
        ],
    },
}


@given(st.text(max_size=40), st.lists(st.tuples(st.sampled_from(ORDER), st.integers(-5, 60), st.integers(-5, 60))))
def test_the_pieces_joined_are_the_message_whatever_was_marked(text, spans):
    found = [Mark(kind, start, end, "", "") for kind, start, end in spans]
    assert "".join(piece.text for piece in pieces(text, found)) == text


def test_every_mark_is_listed_in_words_signs_first():
    labels = [(mark.kind, mark.label, mark.doubt) for mark in marks(LINE, Names(book()))]
    assert labels == [
        ("sign", "joint hot, clinician, other", False),
        ("limit", "it is in the way", False),
        ("not", "it is in the way", False),
        ("lacks", "chair", False),
        ("ex", "Decline push-up (A2)", True),
    ]


def test_where_someone_should_be_seen_no_exercise_and_no_kit_is_marked():
    assert {mark.kind for mark in marks(LINE, Names(book()), exercises=False)} == {"sign", "limit", "not"}


def test_a_word_under_two_marks_carries_both_and_doubt_shows_on_its_own():
    text = "the decline pushups hurt wrist hot"
    shown = {piece.text: piece.kinds for piece in pieces(text, marks(LINE, Names(book())))}
    assert shown["decline pushups"] == ("doubt", "ex")
    assert shown["ris"] == ("limit", "sign")


def test_an_excerpt_keeps_the_words_of_the_sign_and_says_where_it_was_cut():
    text = "a" * 200 + " numb leg " + "b" * 200
    cut = excerpt(text, [Mark("sign", 201, 209, "numb leg", "")])
    assert [piece.text for piece in cut if piece.kinds] == ["numb leg"]
    assert cut[0].text == "… " and cut[-1].text == " …" and len("".join(p.text for p in cut)) == 2 + 60 + 8 + 60 + 2


def test_doses_are_said_in_one_line():
    assert dose({"sets": 3, "seconds": [20, 20], "side": True, "rest_s": 45}) == "3 × 20 s each side, rest 45 s"
    assert dose({"sets": 2, "metres": [10, 15]}) == "2 × 10 to 15 m"
    assert dose(None) == ""

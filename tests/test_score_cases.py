"""The scorer itself, on answers written by hand: a scorer that cannot fail a wrong answer is worth nothing."""

import importlib
import json
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from assistant.rulebook import default_rules, read_book

sys.path.insert(0, str(Path(__file__).parent))
scores = importlib.import_module("score_cases")

LINE = {
    "id": "k1", "text": "no bar, chin ups?", "tier": "clear", "asked": ["chin-up"], "limits": ["no-overhead-bar"],
    "best": ["table-row"], "acceptable": ["backpack-row"], "never": ["dead-hang"], "ask_back": False,
}  # fmt: skip


def out(recommended=("table-row",), also=(), tier="clear", asked=("chin-up",), limits=("no-overhead-bar",), ask=None):
    """A line out with only what is scored."""
    swaps = [{"exercise": one, "recommended": True} for one in recommended]
    return {
        "question": {
            "wants": ["swap"],
            "exercises": [{"id": one} for one in asked],
            "limits": [{"id": one} for one in limits],
        },
        "verdict": {"tier": tier},
        "swaps": swaps + [{"exercise": one, "recommended": False} for one in also],
        "ask_back": ask,
    }


def missed(line=None, **answer):
    return scores.outcome(scores.case_from_line(LINE | (line or {})), out(**answer)).missed


def test_the_expected_answer_misses_nothing():
    assert missed() == []


def test_an_acceptable_answer_fits_but_is_not_the_best():
    one = scores.outcome(scores.case_from_line(LINE), out(recommended=["backpack-row"]))
    assert (one.fits, one.is_best, one.missed) == (True, False, [])


@pytest.mark.parametrize(
    ("answer", "expected"),
    [
        ({"recommended": ["prone-lat-sweep"]}, ["recommended"]),
        ({"recommended": ["table-row", "prone-lat-sweep"]}, ["recommended"]),
        ({"recommended": []}, ["recommended"]),
        ({"also": ["dead-hang"]}, ["never"]),
        ({"recommended": ["dead-hang"]}, ["never", "recommended"]),
        ({"tier": "coach"}, ["tier"]),
        ({"asked": []}, ["asked"]),
        ({"asked": ["chin-up", "pull-up"]}, ["asked"]),
        ({"limits": []}, ["limits"]),
        ({"limits": ["no-overhead-bar", "wrist-sore"]}, ["limits"]),
        ({"ask": "Which one?"}, ["ask_back"]),
    ],
)
def test_a_wrong_answer_is_missed_under_its_own_name(answer, expected):
    assert missed(**answer) == expected


def test_an_exercise_where_none_is_expected_is_uncalled():
    assert missed({"best": [], "acceptable": []}) == ["uncalled"]
    assert missed({"best": [], "acceptable": []}, recommended=[]) == []


def test_limits_are_not_compared_where_a_clinician_comes_first():
    line = {"tier": "clinician", "limits": ["clinician-first"], "best": [], "acceptable": []}
    assert missed(line, recommended=[], tier="clinician", limits=["wrist-sore"]) == []


def test_figures_are_shares_over_the_cases_they_are_about():
    good, bad = scores.case_from_line(LINE), scores.case_from_line(LINE | {"id": "k2"})
    result = scores.score([scores.outcome(good, out()), scores.outcome(bad, out(recommended=["dead-hang"], limits=[]))])
    assert (result["fits"], result["never"], result["tier"]) == (0.5, 1, 1.0)
    assert result["limits"] == {"precision": 1.0, "recall": 0.5, "f1": pytest.approx(2 / 3), "exact": 0.5}
    assert [one["id"] for one in result["misses"]] == ["k2"]


def test_a_case_with_an_exercise_the_book_does_not_have_is_left_out_unless_all_are_wanted():
    cases = [scores.case_from_line(LINE), scores.case_from_line(LINE | {"id": "k2", "best": ["moon-row"]})]
    book = SimpleNamespace(exercises=dict.fromkeys(["chin-up", "table-row", "backpack-row", "dead-hang"]))

    def ask(known, _book):
        return [scores.outcome(case, out()) for case in known]

    assert scores.run(cases, book, ask=ask)["skipped"] == 1
    assert scores.run(cases, book, every=True, ask=ask)["cases"] == 2


def test_plans_and_people_are_put_in_place_of_their_ids():
    line = {"text": "A1?", "plan": "wed", "follower": "odra", "expect": {"tier": "clear"}}
    case = scores.case_from_line(line, {"wed": {"items": []}}, {"odra": {"has": ["wheelchair"]}})
    assert case.line == {"text": "A1?", "plan": {"items": []}, "profile": {"has": ["wheelchair"]}}


def test_a_line_that_is_no_case_is_named_with_its_number(tmp_path):
    path = tmp_path / "cases.jsonl"
    path.write_text(json.dumps(LINE) + "\nno bar here\n", encoding="utf-8")
    with pytest.raises(SystemExit, match="line 2: not a case"):
        scores.read_cases(path)


def test_the_worked_answers_name_only_exercises_of_the_book():
    cases = scores.read_cases(Path(__file__).parent / "data" / "worked_answers.jsonl")
    known = set(read_book(default_rules())[0].exercises)
    assert len(cases) == 90
    assert sorted({one for case in cases for one in case.named} - known) == []

"""Measuring a corpus: right, extra and missed by field, what counts neither way, and lines that cannot be used."""

import json

import pytest
from typer.testing import CliRunner

from assistant.__main__ import app
from assistant.measure import measure
from assistant.rulebook import load
from assistant.values import BadInput


@pytest.fixture(scope="module")
def book():
    return load()


def measured(book, *labels):
    return measure([json.dumps(label) for label in labels], book)


def counts(found, name):
    score = found.scores[name]
    return score.right, score.extra, score.missed


def test_what_the_label_says_and_what_is_found_are_counted(book):
    label = {"text": "my wrist hurts in push ups, what instead?", "wants": ["swap"], "exercises": ["push-up", "dip"],
             "limits": ["wrist-sore"], "has": [], "lacks": []}  # fmt: skip
    found = measured(book, label)
    assert counts(found, "exercises") == (1, 0, 1)
    assert counts(found, "limits") == (1, 0, 0)
    assert counts(found, "wants") == (1, 0, 0)
    assert found.confusions == [("exercises", "dip → -", 1)]


def test_a_field_without_a_label_is_not_measured(book):
    assert counts(measured(book, {"text": "no bar here"}), "limits") == (0, 0, 0)


def test_what_may_be_found_counts_neither_way(book):
    label = {"text": "my wrist hurts in push ups", "limits": [], "maybe": ["wrist-sore"]}
    assert counts(measured(book, label), "limits") == (0, 0, 0)


def test_a_want_that_is_as_good_counts_as_right(book):
    label = {"text": "my wrist hurts in push ups, what instead?", "wants": ["easier"], "want_ok": ["swap"]}
    assert counts(measured(book, label), "wants") == (1, 0, 0)


def test_in_a_message_about_nothing_anything_is_too_much(book):
    assert counts(measured(book, {"text": "thanks, see you monday", "nothing": True}), "nothing") == (1, 0, 0)
    assert counts(measured(book, {"text": "no bar for my push ups", "nothing": True}), "nothing")[1] >= 1


def test_the_tier_is_measured_where_it_is_labelled(book):
    label = {"text": "crushing pressure on my chest", "tier": "emergency"}
    assert counts(measured(book, label), "tier") == (1, 0, 0)


@pytest.mark.parametrize(("line", "says"), [("{", "Line 1 is not JSON"), ("[]", "Line 1 has no 'text'")])
def test_a_line_that_cannot_be_used_is_told_by_its_number(book, line, says):
    with pytest.raises(BadInput, match=says):
        measure([line], book)


def test_the_command_prints_a_table_or_json(tmp_path):
    corpus = tmp_path / "corpus.jsonl"
    corpus.write_text(json.dumps({"text": "my wrist hurts in push ups", "limits": ["wrist-sore"]}) + "\n")
    table = CliRunner().invoke(app, ["measure", str(corpus)])
    assert table.exit_code == 0 and "limits" in table.output
    plain = CliRunner().invoke(app, ["measure", str(corpus), "--json"])
    assert json.loads(plain.output)["fields"]["limits"]["f1"] == 1.0

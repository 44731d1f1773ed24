"""`assistant check`: all mistakes, then every example, then the counts."""

import shutil
from pathlib import Path

import pytest

from assistant.check import check, unanswered
from assistant.rulebook import default_rules, load

SOUND = Path(__file__).parent / "mistakes" / "_sound"


@pytest.fixture
def rules(tmp_path):
    return Path(shutil.copytree(SOUND, tmp_path / "rules"))


def rewrite(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def test_the_report_ends_with_its_counts():
    lines = list(check(SOUND, answers=False).lines())
    assert lines == [
        "computed from a pose: 0 of 3 loaded exercises",
        "rated by hand, judgement: push-up, incline-push-up, wall-push-up",
        "56 cards (source 1, family 1, quantity 2, exercise 3, equipment 2, standin 1, limit 1, class 4, category 1, "
        "reply 1, purpose 3, segment 13, assumption 23)",
        "0 mistakes; 9 examples run, 0 failing, 0 known wrong",
    ]


def test_an_example_kept_as_known_wrong_is_counted_and_not_run(rules):
    rewrite(rules / "limits.yaml", "    quiet:", '    known_wrong: ["the wrist of my sister hurts"]\n    quiet:')
    report = check(rules, answers=False)
    assert report.ok
    assert report.known_wrong == ("limits.yaml:1: 'the wrist of my sister hurts'",)
    assert list(report.lines())[-1] == "0 mistakes; 9 examples run, 0 failing, 1 known wrong"


def test_no_example_is_run_while_a_card_is_wrong(rules):
    rewrite(rules / "limits.yaml", "wrist_extension_deg", "wrist_extension")
    report = check(rules, answers=False)
    assert not report.ok
    assert report.ran == 0
    assert list(report.lines())[0].startswith("limits.yaml, line 5: there is no quantity 'wrist_extension'")


def test_a_spelling_that_does_not_lead_to_its_card_is_told(rules):
    rewrite(rules / "exercises.yaml", "[press ups]", '[press ups, "..."]')
    assert [str(failing) for failing in check(rules, answers=False).failing] == [
        "exercises.yaml, line 1: '...': expected exercise 'push-up'; got nothing"
    ]


def test_a_folder_that_is_not_there_is_a_mistake_and_not_a_crash(tmp_path):
    assert [mistake.wrong for mistake in check(tmp_path / "nowhere").mistakes] == ["there is no such folder of rules"]


@pytest.fixture
def whole_rules(tmp_path):
    """A copy of the real book, the only one with everything an answer needs."""
    return Path(shutil.copytree(default_rules(), tmp_path / "rules"))


def test_the_real_book_can_answer_its_own_examples():
    assert [str(mistake) for mistake in unanswered(load())] == []


def test_a_reply_that_answers_need_and_that_was_renamed_is_told(whole_rules):
    rewrite(whole_rules / "replies" / "frame.yaml", "- reply: greeting", "- reply: greetings")
    found = [str(mistake) for mistake in unanswered(load(whole_rules), sample=12)]
    assert len(found) == 1
    assert found[0].endswith(
        "'greeting' is needed and not in the book; put back the card or the number that was deleted or renamed"
    )

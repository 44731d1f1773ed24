"""`assistant check`: all mistakes, then every example, then the counts."""

import shutil
from pathlib import Path

import pytest

from assistant.check import check

SOUND = Path(__file__).parent / "mistakes" / "_sound"


@pytest.fixture
def rules(tmp_path):
    return Path(shutil.copytree(SOUND, tmp_path / "rules"))


def rewrite(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def test_the_report_ends_with_its_counts():
    lines = list(check(SOUND).lines())
    assert lines == [
        "19 cards (source 1, family 1, quantity 2, exercise 3, equipment 2, standin 1, limit 1, class 4, category 1, "
        "reply 1, purpose 3)",
        "0 mistakes; 8 examples run, 0 failing, 0 known wrong",
    ]


def test_an_example_kept_as_known_wrong_is_counted_and_not_run(rules):
    rewrite(rules / "limits.yaml", "    quiet:", '    known_wrong: ["the wrist of my sister hurts"]\n    quiet:')
    report = check(rules)
    assert report.ok
    assert report.known_wrong == ("limits.yaml:1: 'the wrist of my sister hurts'",)
    assert list(report.lines())[-1] == "0 mistakes; 8 examples run, 0 failing, 1 known wrong"


def test_no_example_is_run_while_a_card_is_wrong(rules):
    rewrite(rules / "limits.yaml", "wrist_extension_deg", "wrist_extension")
    report = check(rules)
    assert not report.ok
    assert report.ran == 0
    assert list(report.lines())[0].startswith("limits.yaml, line 5: there is no quantity 'wrist_extension'")


def test_a_spelling_that_leads_to_another_exercise_is_told(rules):
    rewrite(rules / "exercises.yaml", "[press ups]", '[press ups, "hands on chair push up, wide"]')
    assert [str(failing) for failing in check(rules).failing] == [
        "exercises.yaml, line 1: 'hands on chair push up, wide': expected exercise 'push-up'; got incline-push-up"
    ]


def test_a_folder_that_is_not_there_is_a_mistake_and_not_a_crash(tmp_path):
    assert [mistake.wrong for mistake in check(tmp_path / "nowhere").mistakes] == ["there is no such folder of rules"]

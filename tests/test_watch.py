"""A rulebook that changes on disk: the last good one stays in use until a whole one takes its place."""

import shutil
from pathlib import Path

import pytest

from assistant.rulebook.watch import LiveBook
from assistant.values import Mistake, RulebookError

SOUND = Path(__file__).parent / "mistakes" / "_sound"


class Clock:
    """Seconds that pass only when the test says so."""

    now_s = 0.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture
def rules(tmp_path):
    return Path(shutil.copytree(SOUND, tmp_path / "rules"))


@pytest.fixture
def clock():
    return Clock()


def rename_push_up(rules: Path, name: str) -> None:
    cards = rules / "exercises.yaml"
    cards.write_text(cards.read_text().replace("name: Push-up", f"name: {name}", 1))


def test_a_changed_card_is_read_after_a_second_and_not_before(rules, clock):
    book = LiveBook(rules, clock)
    rename_push_up(rules, "Push-up on the floor")
    clock.now_s = 0.9
    assert book().exercises["push-up"].name == "Push-up"
    clock.now_s = 1.0
    assert book().exercises["push-up"].name == "Push-up on the floor"


def test_a_broken_book_is_told_and_does_not_replace_the_good_one(rules, clock):
    book = LiveBook(rules, clock)
    good = book()
    (rules / "quantities.yaml").write_text("- quantity: hand_share\n")
    clock.now_s = 2.0
    assert book() is good
    assert "quantities.yaml, line 1: the field 'less' is missing; add 'less:' to this card" in map(str, book.mistakes())


def test_mistakes_are_gone_once_the_book_is_mended(rules, clock):
    book = LiveBook(rules, clock)
    sound = (rules / "limits.yaml").read_text()
    (rules / "limits.yaml").write_text("")
    clock.now_s = 2.0
    assert [str(mistake) for mistake in book.mistakes()] == [
        "limits.yaml, line 1: this file is empty; write a card or delete the file"
    ]
    (rules / "limits.yaml").write_text(sound)
    clock.now_s = 4.0
    assert book.mistakes() == []
    assert "wrist-sore" in book().limits


def test_an_unchanged_book_is_not_read_again(rules, clock):
    book = LiveBook(rules, clock)
    good = book()
    clock.now_s = 60.0
    assert book() is good


def test_a_first_book_that_is_broken_is_refused(rules, clock):
    (rules / "limits.yaml").write_text("- nothing\n")
    with pytest.raises(RulebookError):
        LiveBook(rules, clock)


def test_a_whole_book_that_fails_its_proof_does_not_replace_the_good_one(rules, clock):
    def no_floor(book):
        wrong = book.exercises["push-up"].name == "Push-up on the floor"
        return [Mistake("exercises.yaml", 1, "no answer can be written")] if wrong else []

    book = LiveBook(rules, clock, proof=no_floor)
    rename_push_up(rules, "Push-up on the floor")
    clock.now_s = 2.0
    assert book().exercises["push-up"].name == "Push-up"
    assert [str(mistake) for mistake in book.mistakes()] == ["exercises.yaml, line 1: no answer can be written"]

"""Every example on every card, and every spelling, is one test named by its file and line."""

import pytest

from assistant.check import examples, failing
from assistant.rulebook import Rulebook, default_rules, read_book
from assistant.rulebook.validate import cross_check

BOOK, _RAW, _MISTAKES = read_book(default_rules())


@pytest.fixture(scope="session")
def book() -> Rulebook:
    return BOOK


def test_the_cards_have_no_mistakes():
    assert [str(mistake) for mistake in _MISTAKES + cross_check(BOOK, _RAW)] == []


def test_there_are_examples_of_every_kind_that_needs_them():
    assert {example.kind for example in BOOK.examples} >= {"limit", "sign", "want", "cue", "figure", "place"}


@pytest.mark.parametrize("example", examples(BOOK), ids=lambda e: f"{e.at} {'' if e.fires else 'not '}{e.text}")
def test_an_example_does_what_its_card_says(example, book):
    if found := failing(example, book):
        pytest.fail(str(found), pytrace=False)

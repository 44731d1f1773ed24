"""Nobody is left without an answer: every exercise under every limit, every profile, and the pairs."""

import io
import json
from collections import Counter
from dataclasses import replace

import pytest
from rich.console import Console

from assistant import gapsheet
from assistant.check.gaps import PROFILES, Gaps, Row, gaps
from assistant.rulebook import load
from assistant.search import possible, search
from assistant.values import Asked, Limit, Message, Question

EVERY = 7  # the quick run looks at every seventh exercise; .ci/run at all of them


@pytest.fixture(scope="module")
def book():
    return load()


def cells(book, way, every=1):
    return [cell for card in list(book.exercises.values())[::every] for cell in getattr(Row(card, book), way)()]


def without_answer(found):
    return [str(cell) for cell in found if cell.kind == "gap"]


def test_every_seventh_exercise_has_an_answer_under_every_limit(book):
    found = cells(book, "singles", EVERY)
    assert len(found) >= len(book.limits) * len(book.exercises) // EVERY
    assert without_answer(found) == []


def test_whoever_trains_seated_one_armed_off_the_floor_or_with_nothing_is_answered(book):
    found = cells(book, "profiles", 3)
    assert {cell.profile for cell in found} == set(PROFILES)
    assert without_answer(found) == []


@pytest.mark.long
def test_no_single_limit_and_no_profile_has_a_gap_and_at_most_2_in_100_pairs(book):
    found = gaps(book)
    assert (found.singles["gap"], found.profiles["gap"]) == (0, 0)
    assert found.share(found.pairs) <= 0.02
    assert all(cell.because for cell in found.gaps)


def test_what_may_be_offered_is_what_search_offers_and_more(book):
    asked = Asked("push-up", "", 0, 0, "name")
    sore = Limit("wrist-sore", "pain", None, "", 0, 0)
    question = Question(("swap",), (asked,), (sore,))
    offered = {swap.exercise for swap in search(question, Message(""), book)[0] if not swap.if_you_have}
    assert offered and offered <= possible("push-up", question, Message(""), book)


def test_a_pair_taken_apart_is_the_pair_searched_whole(book):
    row = Row(book.exercises["pike-push-up"], book)
    for cell in list(row.pairs())[::97]:
        limits = tuple(Limit(i, book.limits[i].kind, None, "", 0, 0) for i in cell.limits)
        question = Question(("swap",), (Asked("pike-push-up", "", 0, 0, "name"),), limits)
        assert (cell.kind == "answered") == bool(possible("pike-push-up", question, Message(""), book)), cell


def test_a_limit_that_leaves_nothing_is_a_gap_with_its_reason(book):
    bare = replace(book, cards={**book.cards, "noanswer": {}})
    row = Row(bare.exercises["assisted-split-squat"], bare)
    gap = next(cell for cell in row.singles() if cell.limits == ("seated-only",))
    assert gap.kind == "gap"
    assert gap.because[0].rule == "seated-only"
    assert "seated-only" in str(gap)


def test_the_sheet_tells_the_counts_and_every_gap(book):
    console = Console(width=120, record=True, file=io.StringIO())
    small = gaps_of_two(book)
    gapsheet.show(small, console)
    assert "single" in console.export_text()
    plain = json.loads(json.dumps(gapsheet.as_json(small)))
    assert plain["single"]["answered"] > 100
    assert plain["gaps"] == []


def gaps_of_two(book):
    """The gaps of a book cut down to two exercises asked for; what may be offered stays whole."""
    singles = Counter(cell.kind for one in ("push-up", "squat") for cell in Row(book.exercises[one], book).singles())
    return Gaps(singles, Counter(), Counter(), ())

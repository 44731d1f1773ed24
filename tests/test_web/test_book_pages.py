"""The pages that show the book: families, one exercise, the ladder of a family, the map of what has no answer."""

import re
import threading
from dataclasses import replace
from html import unescape

import pytest
from fastapi.testclient import TestClient

from assistant.atlas import ladder, leaf, shelves
from assistant.atlas.arranged import arranged
from assistant.check.gapmap import GapMap, Square, column, square
from assistant.inbox import Inbox
from assistant.rulebook import load
from assistant.store import Store
from assistant.web import Settings, create_app
from tests.test_web.made_up import words

NAME, PASSWORD = "mill-street", "a long made-up one"


@pytest.fixture(scope="module")
def book():
    return load()


@pytest.fixture(scope="module")
def app(tmp_path_factory, book):
    store = Store(f"sqlite:///{tmp_path_factory.mktemp('book') / 'archive.db'}")
    store.upgrade()
    inbox = Inbox(store, lambda: book)
    inbox.add_coach(NAME, "Mill Street", PASSWORD)
    return create_app(Settings(), inbox=inbox, book=lambda: book)


@pytest.fixture(scope="module")
def coach(app):
    browser = TestClient(app, headers={"accept": "text/html"}, follow_redirects=False)
    browser.post("/sign-in", data={"name": NAME, "password": PASSWORD})
    return browser


@pytest.mark.parametrize(
    "page", ["/book", "/book/exercise/push-up", "/book/family/jumps", "/book/gaps", "/book/gaps/jumps/wrist-sore"]
)
def test_only_a_signed_in_coach_sees_the_book_and_comes_back_to_the_page_after_signing_in(app, page):
    stranger = TestClient(app, headers={"accept": "text/html"}, follow_redirects=False)
    sent = stranger.get(page)
    assert (sent.status_code, sent.headers["location"]) == (303, f"/sign-in?then={page}")
    back = stranger.post("/sign-in", data={"name": NAME, "password": PASSWORD, "then": page})
    assert back.headers["location"] == page
    assert stranger.get(page).status_code == 200


@pytest.mark.parametrize("page", ["/book", "/book/exercise/chin-up", "/book/family/vertical-pull?here=chin-up",
                                  "/book/gaps/squat-and-lunge/seated-only"])  # fmt: skip
def test_no_page_of_the_book_has_a_style_or_a_script_in_it_that_the_policy_forbids(coach, page):
    answer = coach.get(page)
    assert "style-src 'self'" in answer.headers["content-security-policy"]
    assert re.findall(r"<script|<style|\sstyle=|\son[a-z]+=", answer.text) == []


@pytest.mark.parametrize("page", ["/book/exercise/no-such", "/book/family/no-such", "/book/gaps/jumps/no-such",
                                  "/book/gaps/no-such/wrist-sore"])  # fmt: skip
def test_what_the_book_does_not_have_is_said_in_words(coach, page):
    answer = coach.get(page)
    assert answer.status_code == 404
    assert "The book has no" in words(answer.text)


def test_the_book_shows_every_family_with_all_its_exercises_and_how_many(coach, book):
    page = coach.get("/book").text
    for card in book.exercises.values():
        assert f'href="/book/exercise/{card.id}"' in page, card.id
    in_jumps = sum(card.family == "jumps" for card in book.exercises.values())
    assert f"{book.families['jumps'].name} {in_jumps} exercises" in words(page)
    assert f"{len(book.exercises)} exercises in {len(book.families)} families" in words(page)


def test_looking_up_finds_by_the_beginning_of_words_by_other_names_and_through_a_slip(book):
    def found(text):
        return [card.id for shelf in shelves(book, text) for card in shelf.exercises]

    assert set(found("knee push")) >= {"knee-push-up", "fist-knee-push-up"}
    assert "squat" not in " ".join(found("knee push"))
    assert "push-up" in found("press up")  # one of the names on its card
    assert found("chinnups") == ["chin-up"]
    assert found("xylophone") == []
    assert len(found("  ")) == len(book.exercises)


def test_what_was_looked_up_is_counted_shown_as_text_and_can_be_undone(coach):
    page = coach.get("/book", params={"q": "chinnups"}).text
    assert re.search(r"1 of \d+ exercises are called like “chinnups”", words(page))
    nothing = coach.get("/book", params={"q": "<b>xylophone</b>"}).text
    assert "No exercise is called like “&lt;b&gt;xylophone&lt;/b&gt;”" in words(nothing)
    assert "Show all" in words(nothing)


def test_an_exercise_shows_all_of_its_card_and_where_the_card_stands(coach, book):
    card, page = book.exercises["two-chair-row"], coach.get("/book/exercise/two-chair-row").text
    said = unescape(words(page))
    for words_of_card in (card.name, *card.called, *card.cues, card.feel, card.goes_wrong, card.ready, card.dose):
        assert words_of_card in said
    assert f"rules/{card.at}" in page
    assert book.sources["coach"].citation in said
    assert '<svg xmlns="http://www.w3.org/2000/svg" class="figure" role="img"' in page


def test_a_dose_is_told_in_words(coach):
    assert "4 × 3–8, rest 150 s 2 s down, 1 s up, 1 s still" in words(coach.get("/book/exercise/chin-up").text)


def test_a_stand_in_is_shown_with_its_condition_and_what_is_never_used(coach, book):
    standin, page = book.standins["table-for-low-bar"], words(coach.get("/book/exercise/bent-knee-inverted-row").text)
    assert standin.condition in page and f"Never: {standin.never}" in page


def test_a_demand_is_told_with_its_band_and_where_it_comes_from(book):
    found = leaf("push-up", book)
    by_name = {one.quantity.id: one for one in found.demands["computed"]}
    share = by_name["hand_share"].demand
    assert 0.6 < share.low < share.value < share.high < 0.85
    assert [source.id for source in found.demand_sources["computed"]] == list(share.source)
    assert {one.quantity.id for one in found.demands["rated"]} >= {"elbow_load", "hands_used"}
    assert all(one.most >= one.demand.high for some in found.demands.values() for one in some)


def test_the_page_rounds_a_demand_and_gives_the_reason_of_a_rated_one(coach, book):
    page = words(coach.get("/book/exercise/push-up").text)
    assert "75 % 70 % to 75 %" in page
    assert f"Rated by hand {book.exercises['push-up'].rated_because}" in page


def test_every_step_leads_on_with_the_coach_s_why_or_what_the_demands_say(coach, book):
    found = leaf("chin-up", book)
    harder = next(step for step in found.harder if step.to.id == "pull-up")
    assert harder.why == book.exercises["pull-up"].easier["chin-up"]
    assert [step.to.id for step in found.easier] == list(book.exercises["chin-up"].easier)
    assert all(step.says for step in (*found.harder, *found.easier, *found.swaps))
    page = coach.get("/book/exercise/chin-up").text
    for step in (*found.harder, *found.easier, *found.swaps):
        assert f'href="/book/exercise/{step.to.id}"' in page
    assert words(page).count(harder.why) == 1


def test_every_exercise_of_the_book_has_a_page(coach, book):
    for exercise in list(book.exercises)[::9]:
        assert coach.get(f"/book/exercise/{exercise}").status_code == 200, exercise
    assert all(leaf(exercise, book).card.id == exercise for exercise in list(book.exercises)[::3])


def test_every_easier_step_leads_to_a_lower_layer_and_is_in_the_list_with_its_why(book):
    for family in book.families:
        found = ladder(family, book)
        layer = {rung.card.id: rung.layer for rungs in found.layers for rung in rungs}
        shown = set(layer) | {rung.card.id for rung in found.apart}
        assert shown == {card.id for card in book.exercises.values() if card.family == family}
        for rung in (rung for rungs in found.layers for rung in rungs):
            assert {step.to.id for step in rung.down} | {step.to.id for step in rung.outside} == set(rung.card.easier)
            assert all(layer[step.to.id] < rung.layer and step.says for step in rung.down)


def test_a_step_that_smaller_ones_replace_is_listed_and_not_drawn(coach, book):
    found = ladder("horizontal-push", book)
    push_up = next(rung for rungs in found.layers for rung in rungs if rung.card.id == "push-up")
    assert "mid-incline-push-up" in {step.to.id for step in push_up.down} - push_up.drawn
    assert 0 < found.steps[1] < found.steps[0]
    assert f"{found.steps[1]} of {found.steps[0]} steps are drawn" in words(
        coach.get("/book/family/horizontal-push").text
    )


def test_the_drawing_has_a_box_for_each_rung_a_line_for_each_step_and_the_why_as_title(coach, book):
    page = coach.get("/book/family/vertical-pull", params={"here": "chin-up"}).text
    drawing = re.search(r'<svg class="ladder".*?</svg>', page, re.S)[0]
    found = ladder("vertical-pull", book)
    assert drawing.count("<rect") == sum(map(len, found.layers))
    assert drawing.count("<title>") == found.steps[1]
    assert "Pull-up (palms away) → Chin-up (palms to you): More reps for most people" in drawing
    assert re.findall(r'<a href="([^"]*)" class="here" aria-current="true">', drawing) == ["/book/exercise/chin-up"]


def test_no_two_boxes_of_a_drawing_lie_on_one_another(book):
    for family in book.families:
        drawing = ladder(family, book).picture or ""
        boxes = [(float(x), float(y)) for x, y in re.findall(r'<rect x="([\d.-]+)" y="([\d.-]+)"', drawing)]
        wide = float((re.findall(r'<rect [^>]*width="([\d.]+)"', drawing) or ["0"])[0])
        assert all(x >= 0 for x, _ in boxes)
        assert [
            (a, b) for i, a in enumerate(boxes) for b in boxes[i + 1 :] if a[1] == b[1] and abs(a[0] - b[0]) < wide
        ] == []


def test_layers_are_sorted_so_that_steps_need_not_cross():
    found = arranged({"a": 1, "b": 1, "c": 0, "d": 0}, [("a", "d"), ("b", "c"), ("a", "c")], lambda _: 10)
    assert found.order == (("c", "d"), ("b", "a"))
    assert found.across["c"] < found.across["d"] and found.across["b"] < found.across["a"]


def test_a_family_without_steps_is_shown_side_by_side(coach, book):
    page = unescape(words(coach.get("/book/family/stretches").text))
    assert "Side by side, no ladder" in page
    assert all(card.name in page for card in book.exercises.values() if card.family == "stretches")


def test_a_square_is_as_bad_as_the_worst_in_it():
    assert Square(of=9, in_words=1, gaps=1, fewest=3, room=3).kind == "gap"
    assert Square(of=9, in_words=1, gaps=0, fewest=3, room=3).kind == "in words"
    assert Square(of=9, in_words=0, gaps=0, fewest=2, room=3).kind == "thin"
    assert Square(of=9, in_words=0, gaps=0, fewest=3, room=3).kind == "answered"


def test_a_professional_first_is_answered_in_words_for_a_whole_family_and_the_card_is_named(book):
    found = column("jumps", book)
    jumps = sum(card.family == "jumps" for card in book.exercises.values())
    assert (found["clinician-first"].kind, found["clinician-first"].in_words) == ("in words", jumps)
    _, limit, lines = square("jumps", "clinician-first", book)
    assert {line.cell.because[0].at for line in lines} == {limit.at}


def test_without_its_card_of_words_a_square_is_a_gap_and_leads_to_the_cards_to_change(book):
    bare = replace(book, cards={**book.cards, "noanswer": {}})
    _, limit, lines = square("squat-and-lunge", "seated-only", bare)
    gap = next(line for line in lines if line.cell.kind == "gap")
    assert lines[0].cell.kind == "gap"  # what has no answer comes first
    assert gap.cell.because[0].at == limit.at


def seen(kind):
    """What a family that was looked at looks like: one square of this kind under every limit."""
    of = {"answered": (0, 0, 9), "in words": (2, 0, 9), "gap": (0, 1, 9)}[kind]
    return lambda family, book: dict.fromkeys(book.limits, Square(6, *of, room=3))


def test_every_family_is_looked_at_once_for_each_rulebook(book):
    looked = []
    kept = GapMap(lambda family, book: looked.append(family) or seen("answered")(family, book))
    assert list(kept.columns(book, 60)) == list(kept.columns(book, 60)) == looked == list(book.families)
    kept.columns(replace(book, fingerprint="changed"), 60)
    assert looked == 2 * list(book.families)


def test_a_look_that_fails_is_tried_again_and_keeps_nobody_waiting(book):
    tries = []

    def look(family, book):
        tries.append(family)
        if len(tries) == 1:
            raise KeyError(family)
        return seen("answered")(family, book)

    kept = GapMap(look)
    kept.columns(book, 0.2)
    assert len(kept.columns(book, 60)) == len(book.families)


def test_the_map_shows_what_is_known_and_says_what_is_still_being_looked_at(app, coach, book):
    gate, first = threading.Event(), next(iter(book.families))

    def look(family, book):
        if family != first:
            gate.wait(60)
        return seen("gap")(family, book)

    before, app.state.gapmap = app.state.gapmap, GapMap(look)
    early = coach.get("/book/gaps").text
    gate.set()
    app.state.gapmap.columns(book, 60)
    late = coach.get("/book/gaps").text
    app.state.gapmap = before
    assert f"1 of {len(book.families)} families have been looked at" in words(early)
    assert early.count('<td class="unknown">') == (len(book.families) - 1) * len(book.limits)
    name = book.families[first].name
    assert (
        f'class="gap" href="/book/gaps/{first}/wrist-sore" title="{name}, wrist sore: 1 of 6 without an answer"'
        in early
    )
    assert "have been looked at" not in words(late) and 'class="unknown"' not in late
    squares = len(book.families) * len(book.limits)
    assert f"{squares:,} of {6 * squares:,} questions have no answer" in words(late)


def test_a_square_s_page_lists_what_is_offered_first_and_what_is_said_instead(coach, book):
    page = unescape(words(coach.get("/book/gaps/squat-and-lunge/seated-only").text))
    said = next(line.cell.because[0] for line in square("squat-and-lunge", "seated-only", book)[2])
    assert said.rule in book.noanswers
    assert f"{said.says} rules/{said.at}" in page
    assert f"rules/{book.limits['seated-only'].at}" in page
    assert "legs that must work from 1" in page


def test_the_inbox_leads_to_the_book_and_an_option_to_its_exercise(home):
    browser = home.coach()
    message = home.says("no bar here", exercises=[("chin-up", "A1")], limits=[("no-overhead-bar", "equipment", None)])
    page = browser.get(f"/inbox/{message}").text
    assert '<a href="/book">The book</a>' in page
    assert 'In the book: <a href="/book/exercise/inverted-row">Inverted row</a>' in page

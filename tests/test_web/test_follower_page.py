"""The follower's page: a conversation beside the session."""

import re

import pytest

from tests.test_inbox.made_up import COACH
from tests.test_web.made_up import HELP, house, words


def form(page, **fields):
    """The fields of the page's form, filled in."""
    key = re.search(r'name="key" value="([^"]+)"', page)[1]
    return {"key": key, "item": "whole-day", **fields}


@pytest.fixture
def mine(home):
    """The follower's browser and the address of his page."""
    return home.browser(), f"/ask/{home.teuvo['token']}"


def test_the_page_shows_the_session_and_takes_a_message_about_a_slot(home, mine):
    browser, page = mine
    shown = browser.get(page).text
    assert "A1 Chin-up 4 × 4" in words(shown) and "not an emergency service" in shown
    sent = browser.post(page, data=form(shown, text="no bar here", item="A1"))
    assert sent.status_code == 303 and sent.headers["location"].startswith(f"{page}#m-")
    after = words(browser.get(page).text)
    assert "You about A1" in after and "no bar here Received." in after
    assert home.verbs.asked[-1].item == "A1"


def test_a_double_tap_gives_one_message_and_another_text_after_going_back_gives_two(home, mine):
    browser, page = mine
    shown = browser.get(page).text
    for text in ("no bar", "no bar", "no bar and a sore wrist"):
        browser.post(page, data=form(shown, text=text))
    assert home.inbox.session(COACH).waiting == 2


def test_who_is_in_danger_sees_the_notice_at_once_as_an_alert(home, mine):
    browser, page = mine
    home.verbs.tell("my leg went numb", tier="emergency", notice=HELP)
    browser.post(page, data=form(browser.get(page).text, text="my leg went numb"))
    shown = browser.get(page).text
    assert re.search(rf'class="notice" role="alert">.*{re.escape(HELP)}', shown, re.DOTALL)


def test_the_reply_appears_and_the_thread_goes_on(home, mine):
    browser, page = mine
    browser.post(page, data=form(browser.get(page).text, text="no bar"))
    first = home.inbox.session(COACH).loose.knots[0].rows[0].id
    home.inbox.decide(COACH, first, "asked-back", "Is there a door frame?")
    assert "Ferry Lane asks" in words(browser.get(page).text)
    browser.post(page, data=form(browser.get(page).text, text="yes a solid one"))
    assert [turn.text for turn in home.verbs.asked[-1].thread] == ["no bar", "Is there a door frame?"]


def test_what_was_approved_is_shown_at_a_glance_and_what_was_edited_is_not(home, mine):
    browser, page = mine
    for text, outcome in (("no bar", "approved"), ("still no bar", "edited")):
        message = home.says(text)
        home.inbox.decide(COACH, message, outcome, home.inbox.open(COACH, message).row.result["draft"]["text"]
                          if outcome == "approved" else "Rest today.")  # fmt: skip
    shown = browser.get(page).text
    assert shown.count('<ul class="glance">') == 1
    assert "Inverted row 3 × 5 to 8" in words(shown)


@pytest.mark.parametrize("text", ["", "   ", "x" * 4001])
def test_what_cannot_be_sent_is_said_on_the_page_and_the_text_stays(home, mine, text):
    browser, page = mine
    answer = browser.post(page, data=form(browser.get(page).text, text=text, item="A2"))
    assert answer.status_code == 422 and 'role="alert"' in answer.text
    assert f">{text}</textarea>" in answer.text
    assert re.search(r'value="A2" checked', answer.text)
    assert home.inbox.session(COACH).waiting == 0


def test_too_many_messages_are_refused_on_the_page_with_the_text_kept(tmp_path):
    home = house(tmp_path, messages_per_follower="1/minute")
    browser, page = home.browser(), f"/ask/{home.teuvo['token']}"
    browser.post(page, data={"text": "one"})
    late = browser.post(page, data={"text": "two, it got worse"})
    assert late.status_code == 429 and "two, it got worse</textarea>" in late.text
    assert "call your local emergency number" in words(late.text)


def test_a_link_that_leads_nowhere_says_what_to_do(home):
    answer = home.browser().get("/ask/made-up-token")
    assert answer.status_code == 404 and "ask your coach for a new one" in words(answer.text)


def test_without_a_link_the_page_explains_and_with_a_known_browser_it_goes_on(home, mine):
    browser, page = mine
    assert "Open the link your coach sent you" in browser.get("/ask").text
    browser.get(page)
    assert browser.get("/ask").headers["location"] == page


def test_a_link_to_one_conversation_opens_that_one_alone(home):
    message = home.says("no bar")
    thread = home.inbox.receive(COACH, home.teuvo["id"], "another day", "thursday", "A1").thread
    browser = home.browser()
    shown = words(browser.get(f"/ask/{thread}").text)
    assert "another day" in shown and "no bar" not in shown
    assert "follower" not in browser.cookies
    assert browser.get(f"/messages/{message}").status_code == 401


def test_news_of_the_conversation_come_with_an_etag(home, mine):
    browser, page = mine
    message = home.says("no bar")
    first = browser.get(f"{page}/news")
    same = browser.get(f"{page}/news", headers={"if-none-match": first.headers["etag"]})
    assert (first.status_code, same.status_code) == (200, 304)
    home.inbox.decide(COACH, message, "edited", "Rest today.")
    assert "Rest today." in browser.get(f"{page}/news", headers={"if-none-match": first.headers["etag"]}).text

"""The coach's pages: the session as the map, a message opened in place, decisions."""

import re

import pytest

from assistant.values import Mistake
from tests.test_inbox.made_up import COACH
from tests.test_web.made_up import HELP, panel, words

LACKS_BAR = {"exercises": [("chin-up", "A1")], "limits": [("no-overhead-bar", "equipment", None)]}
IN_DANGER = {"tier": "emergency", "notice": HELP, "exercises": [("side-plank", "Z1")], "draft": "Are you with someone?",
             "findings": [("numb-leg", "emergency", "all", {})]}  # fmt: skip


def decision(home, message):
    kept = home.inbox.open(COACH, message).decision
    return kept and (kept["outcome"], kept["text"], kept["reason"], kept["comment"])


def test_alike_questions_are_one_knot_on_their_slot_and_the_count_is_in_words(home, coach):
    home.says("no bar here", **LACKS_BAR)
    home.another("Ansa", "no bar at all", **LACKS_BAR)
    home.says("how does it feel right", item=None, wants=("form",))
    page = words(coach.get("/inbox").text)
    assert "3 waiting, oldest 2 min" in page
    assert "A1 Chin-up 4 × 4 2 no overhead bar Teuvo, Ansa A2 Decline push-up" in page
    assert "Stop first" not in page


def test_people_in_danger_stand_above_the_session_with_their_words_and_what_they_were_told(home, coach):
    message = home.says("my leg went numb", **IN_DANGER)
    page = words(coach.get("/inbox").text)
    assert "Get help now: 1" in page
    assert page.index("Stop first: 1 person should stop and be seen") < page.index("Chin-up")
    assert "told at once · no word since" in page
    opened = panel(coach.get(f"/inbox/{message}").text)
    assert HELP in opened and "my leg went numb" in opened.replace('<mark class="sign">m</mark>', "m")
    assert "plank" not in opened.lower() and "row" not in words(opened).lower().split()


def test_an_emergency_is_closed_only_with_a_comment_and_nothing_typed_is_lost(home, coach):
    message = home.says("my leg went numb", **IN_DANGER)
    form = {"do": "approve", "text": "Are you there?", "comment": ""}
    refused = coach.post(f"/inbox/{message}/decide", data=form)
    assert refused.status_code == 422
    assert "Are you there?" in refused.text and "comment" in words(refused.text)
    assert decision(home, message) is None
    coach.post(f"/inbox/{message}/decide", data={**form, "comment": "called, with her sister"})
    assert decision(home, message) == ("edited", "Are you there?", None, "called, with her sister")


def test_markup_and_template_syntax_in_a_message_show_as_text(home, coach):
    message = home.says("<b>bold</b> {{ 7*7 }} {% raw %}", **LACKS_BAR)
    for page in (coach.get(f"/inbox/{message}").text, home.browser().get(f"/ask/{home.teuvo['token']}").text):
        assert "<b>bold</b>" not in page
        assert "&lt;b&gt;bold&lt;/b&gt;" in re.sub(r"</?mark[^>]*>", "", page)
        assert "{{ 7*7 }} {% raw %}" in page and "49" not in words(page)


def test_approving_sends_the_draft_and_goes_on_to_the_next_with_a_short_word(home, coach):
    first = home.says("no bar here", **LACKS_BAR)
    second = home.another("Ansa", "too easy", exercises=[("side-plank", "Z1")])
    draft = home.inbox.open(COACH, first).row.result["draft"]["text"]
    form = {"do": "approve", "text": draft.replace("\n", "\r\n"), "version": "1"}
    answer = coach.post(f"/inbox/{first}/decide", data=form)
    assert answer.headers["location"] == f"/inbox/{second}?done={first}#open"
    assert decision(home, first) == ("approved", draft, None, "")
    assert "Approved and sent to Teuvo. Next: Ansa." in words(coach.get(answer.headers["location"]).text)


def test_an_edited_reply_is_kept_as_edited_with_its_reason(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    coach.post(f"/inbox/{message}/decide", data={"do": "approve", "text": "Rest today.", "reason": "too-hard"})
    assert decision(home, message) == ("edited", "Rest today.", "too-hard", "")
    assert "Rest today." in home.browser().get(f"/ask/{home.teuvo['token']}").text


def test_asking_back_sends_the_question_and_not_the_draft(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    coach.post(f"/inbox/{message}/decide", data={"do": "ask-back", "question": "Is there a door frame?"})
    assert decision(home, message)[:2] == ("asked-back", "Is there a door frame?")


def test_turning_down_needs_a_coded_reason_and_sends_nothing(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    assert coach.post(f"/inbox/{message}/decide", data={"do": "turn-down", "text": "x"}).status_code == 422
    coach.post(f"/inbox/{message}/decide", data={"do": "turn-down", "reason": "misread", "comment": "he has one"})
    assert decision(home, message) == ("turned-down", "", "misread", "he has one")
    assert "without a written answer" in home.browser().get(f"/ask/{home.teuvo['token']}").text


@pytest.mark.parametrize(
    "form", [{"do": "explode"}, {"do": "approve", "text": "  "}, {"do": "approve", "text": "x", "reason": "mood"}]
)
def test_a_form_that_cannot_be_used_decides_nothing_and_says_so_on_the_page(home, coach, form):
    message = home.says("no bar here", **LACKS_BAR)
    answer = coach.post(f"/inbox/{message}/decide", data=form)
    assert answer.status_code == 422 and 'role="alert"' in answer.text
    assert decision(home, message) is None


def test_a_message_is_decided_once_and_the_second_try_is_told(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    form = {"do": "approve", "text": "Rest today."}
    coach.post(f"/inbox/{message}/decide", data=form)
    again = coach.post(f"/inbox/{message}/decide", data={**form, "text": "Train twice."})
    assert again.status_code == 409 and "decided already" in again.text
    assert decision(home, message)[1] == "Rest today."
    assert "Answered in your own wording" in coach.get(f"/inbox/{message}").text


def test_all_alike_are_approved_together_each_with_the_words_of_his_own(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    others = [home.another(name, f"no bar, says {name}", **LACKS_BAR) for name in ("Ansa", "Bo")]
    page = coach.get(f"/inbox/{message}").text
    assert "Approve for all 3" in words(page) and "Hi Ansa, do inverted-row." in page
    draft = home.inbox.open(COACH, message).row.result["draft"]["text"]
    answer = coach.post(f"/inbox/{message}/decide", data={"do": "approve-all", "text": draft, "alike": others[:1]})
    assert decision(home, others[0])[:2] == ("approved", "Hi Ansa, do inverted-row.")
    assert decision(home, others[1]) is None  # his box was not ticked
    assert "and 1 more approved" in words(coach.get(answer.headers["location"]).text)


def test_another_option_redrafts_the_reply_and_its_swap_is_what_is_sent(home, coach):
    message = home.says("no bar here", **LACKS_BAR)
    page = coach.get(f"/inbox/{message}", params={"use:chin-up": "side-plank"}).text
    assert "Hi Teuvo, do side-plank.</textarea>" in page
    assert 'name="chosen" value="chin-up=side-plank"' in page
    form = {"do": "approve", "text": "Hi Teuvo, do side-plank.", "chosen": "chin-up=side-plank"}
    coach.post(f"/inbox/{message}/decide", data=form)
    assert decision(home, message)[0] == "approved"
    assert "Side plank" in words(home.browser().get(f"/ask/{home.teuvo['token']}").text)
    other = home.says("no bar there", **LACKS_BAR)
    assert coach.get(f"/inbox/{other}", params={"use:chin-up": "planche"}).status_code == 422


def test_a_draft_that_asks_back_is_sent_as_a_question(home, coach):
    message = home.says(
        "that thing", ask_back="Which exercise is it?", swaps=(), draft="Hi Teuvo, which exercise is it?"
    )
    page = panel(coach.get(f"/inbox/{message}").text)
    assert 'name="question"' in page and 'value="ask-back"' in page and "Hi Teuvo, which exercise is it?" in page
    coach.post(f"/inbox/{message}/decide", data={"do": "ask-back", "question": "Hi Teuvo, which exercise is it?"})
    assert decision(home, message)[0] == "asked-back"


def test_a_hold_is_shown_and_cleared_only_with_a_note(home, coach):
    home.says(
        "my knee is hot", tier="clinician", notice="Have it seen.", findings=[("joint-hot", "clinician", "knee", {})]
    )
    message = home.says("and the chin-ups?", **LACKS_BAR)
    page = coach.get(f"/inbox/{message}").text
    assert "Held back since" in words(page)
    hold = home.inbox.open(COACH, message).holds[0]["id"]
    assert coach.post(f"/inbox/{message}/holds/{hold}/clear", data={"note": " "}).status_code == 422
    coach.post(f"/inbox/{message}/holds/{hold}/clear", data={"note": "seen by a doctor on Monday"})
    assert home.inbox.open(COACH, message).holds == ()


def test_news_come_as_a_small_fragment_and_only_when_there_are_any(home, coach):
    home.says("no bar here", **LACKS_BAR)
    first = coach.get("/inbox/news?plan=thursday")
    again = coach.get("/inbox/news?plan=thursday", headers={"if-none-match": first.headers["etag"]})
    assert (first.status_code, again.status_code, again.text) == (200, 304, "")
    assert "<html" not in first.text and "1</b> waiting" in first.text
    home.another("Ansa", "no bar at all", **LACKS_BAR)
    fresh = coach.get("/inbox/news?plan=thursday", headers={"if-none-match": first.headers["etag"]})
    assert fresh.status_code == 200 and "2</b> waiting" in fresh.text


def test_mistakes_in_the_rules_on_disk_are_listed_while_the_inbox_goes_on(home, coach):
    home.mistakes.append(Mistake("limits/joints.yaml", 12, "a limit card has no field 'whenn'", "", "fields are: when"))
    home.says("no bar here", **LACKS_BAR)
    page = words(coach.get("/inbox").text)
    assert "1 mistake; the last good ones are in use" in page
    assert "limits/joints.yaml, line 12: a limit card has no field &#39;whenn&#39;; fields are: when" in page
    assert "1 waiting" in page


def test_a_message_of_another_coach_or_none_is_not_found_in_words(home, coach):
    answer = coach.get("/inbox/no-such-message")
    assert answer.status_code == 404 and "There is nothing at this address" in answer.text
    assert "text/html" in answer.headers["content-type"]

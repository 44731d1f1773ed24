"""From a follower's question to the reply and back, in a real browser, with and without script."""

import re

import pytest
from playwright.sync_api import expect

QUESTION = "no bar in the hotel, what can i do instead of the chin ups?"


def ask(page, text, slot=None):
    if slot:
        page.get_by_role("radio", name=slot).check()
    page.get_by_label("What is in the way?").fill(text)
    page.get_by_role("button", name="Send to your coach").click()


@pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])
def test_a_question_is_asked_read_answered_and_answered_back(site, script):
    follower = site.follower("Teuvo", script=script)
    ask(follower, QUESTION, "A1")
    expect(follower.get_by_text("Received. Your coach reads it")).to_be_visible()

    coach = site.coach(script=script)
    coach.locator(".slot", has_text="A1").locator(".knot").click()
    opened = coach.get_by_role("article", name="Teuvo")
    expect(opened.locator(".said")).to_have_text(QUESTION)
    expect(opened.locator("mark.ex", has_text="chin ups")).to_be_visible()
    expect(opened.locator("mark.limit, mark.lacks").first).to_be_visible()
    expect(opened.get_by_text("Chin-up", exact=False).first).to_be_visible()
    reply = opened.get_by_label("Reply to Teuvo")
    draft = reply.input_value()
    assert len(draft) > 40
    reply.fill(draft + "\nTell me how it went.")
    name = "Send edited to Teuvo" if script else "Approve and send to Teuvo"
    opened.get_by_role("button", name=name).click()
    expect(coach.get_by_text("Your own wording was sent to Teuvo.")).to_be_visible()
    expect(coach.get_by_text("Nobody is waiting")).to_be_visible()

    if not script:
        follower.reload()
    expect(follower.locator(".turn.coach .words")).to_contain_text("Tell me how it went.")
    ask(follower, "did it, felt good!")
    expect(follower.locator(".turn.me")).to_have_count(2)
    coach.goto("/inbox")
    coach.locator(".knot").first.click()
    expect(coach.get_by_text("Said before in this conversation: 2")).to_be_visible()


@pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])
def test_another_option_changes_the_reply_that_is_approved(site, script):
    ask(site.follower("Teuvo"), QUESTION, "A1")
    coach = site.coach(script=script)
    coach.locator(".knot").first.click()
    before = coach.get_by_label("Reply to Teuvo").input_value()
    options = coach.locator(".option")
    assert options.count() > 1
    other = options.nth(1)
    name = other.locator("b").inner_text()
    other.click()
    if script:
        expect(coach.get_by_role("button", name="Approve and send to Teuvo")).to_be_disabled()
    coach.get_by_role("button", name="Use this option").click()
    expect(coach.locator(".option:has(:checked) b")).to_have_text(name)
    after = coach.get_by_label("Reply to Teuvo").input_value()
    assert after != before
    coach.get_by_role("button", name="Approve and send to Teuvo").click()
    expect(coach.get_by_text("Approved and sent to Teuvo.")).to_be_visible()


def test_who_is_in_danger_is_told_at_once_and_stands_first_in_the_inbox(site):
    follower = site.follower("Imre", width=390)
    ask(follower, "my chest feels crushed and the pain goes down my left arm, should i do the chin ups anyway?")
    notice = follower.get_by_role("alert")
    expect(notice).to_be_visible()
    expect(notice).to_contain_text(re.compile("emergency|ambulance", re.IGNORECASE))

    coach = site.coach()
    coach.get_by_role("link", name="Open Imre").click()
    opened = coach.get_by_role("article", name="Imre")
    expect(opened.get_by_text("What Imre was told at once")).to_be_visible()
    expect(opened.locator("mark.sign").first).to_be_visible()
    expect(opened.locator(".option")).to_have_count(0)
    opened.get_by_label(re.compile("Your words to Imre")).fill("I am calling you now.")
    opened.get_by_role("button", name="Send to Imre and close").click()
    expect(opened).to_be_visible()  # the browser asks for what was done before it sends anything
    opened.get_by_label("What was done kept").fill("called him, his neighbour drives")
    opened.get_by_role("button", name="Send to Imre and close").click()
    expect(coach.get_by_text("Nobody is waiting")).to_be_visible()
    expect(follower.get_by_text("I am calling you now.")).to_be_visible()


def test_keys_open_decide_and_move_on_but_never_while_typing(site):
    for name in ("Ansa", "Bo"):
        ask(site.follower(name), QUESTION, "A1")
    coach = site.coach()
    coach.keyboard.press("n")
    expect(coach.locator("article.open")).to_be_visible()
    first = coach.locator("article h4").first.inner_text()
    reply = coach.get_by_label(f"Reply to {first}")
    reply.press("End")
    coach.keyboard.type(" qat")
    expect(reply).to_have_value(re.compile("qat"))
    reply.blur()
    coach.keyboard.press("t")
    expect(coach.get_by_label("Why the draft is no use")).to_be_focused()
    coach.get_by_label("Why the draft is no use").blur()
    coach.keyboard.press("q")
    expect(coach.get_by_label(f"Your question to {first}")).to_be_focused()
    coach.reload()
    coach.get_by_role("button", name="Keys are on").click()
    coach.get_by_role("button", name="Keys are off").blur()
    coach.keyboard.press("a")
    expect(coach.get_by_label(f"Reply to {first}")).to_be_visible()
    coach.get_by_role("button", name="Keys are off").click()
    coach.get_by_role("button", name="Keys are on").blur()
    coach.keyboard.press("a")
    expect(coach.get_by_text(f"Approved and sent to {first}. Next:")).to_be_visible()


def test_news_arrive_while_the_coach_types_and_nothing_typed_is_lost(site):
    ask(site.follower("Ansa"), QUESTION, "A1")
    coach = site.coach()
    coach.locator(".knot").first.click()
    reply = coach.get_by_label("Reply to Ansa")
    reply.fill("half a sentence")
    ask(site.follower("Bo"), "side plank hurts my elbow on the hard floor", "B1")
    expect(coach.locator(".counts").first).to_contain_text("2 waiting")
    expect(coach.locator(".slot", has_text="B1").locator(".knot")).to_be_visible()
    expect(reply).to_have_value("half a sentence")
    expect(reply).to_be_focused()


def test_the_session_can_be_pointed_at_without_script_by_its_labels(site):
    follower = site.follower("Teuvo", script=False)
    follower.locator(".beside .point", has_text="Side plank").click()
    assert follower.locator("#about-B1").is_checked()

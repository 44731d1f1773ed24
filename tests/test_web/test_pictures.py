"""Stick figures on the pages: beside the options, beside the reply, and nowhere else."""

import re

import pytest

from assistant.rulebook import load
from tests.test_inbox.made_up import COACH
from tests.test_web.made_up import HELP, panel

ASKS = {"exercises": [("chin-up", "A1")], "limits": [("no-overhead-bar", "equipment", None)],
        "swaps": ("inverted-row", "side-plank")}  # fmt: skip


@pytest.fixture
def drawn(home):
    """The doors over the project's own book, so that exercises have poses; the verbs stay made up."""
    home.app.state.book = lambda: load_once()
    return home


_kept = []


def load_once():
    if not _kept:
        _kept.append(load())
    return _kept[0]


def titles(html):
    return re.findall(r"<svg[^>]*><title>([^<]*)</title>", html)


def mine(home):
    return home.browser().get(f"/ask/{home.teuvo['token']}").text


def approve(home, message, **more):
    home.inbox.decide(COACH, message, "approved", home.inbox.open(COACH, message).row.result["draft"]["text"], **more)


def test_the_coach_sees_before_and_after_beside_the_options(drawn):
    message = drawn.says("no bar here", **ASKS)
    shown = panel(drawn.coach().get(f"/inbox/{message}").text)
    assert titles(shown) == ["Chin-up (palms to you)", "Inverted row, legs straight"]  # a side plank has no pose
    assert shown.index("<svg") < shown.index('class="option"')


def test_the_follower_sees_the_exercise_of_the_approved_reply_and_no_other(drawn):
    message = drawn.says("no bar here", **ASKS)
    assert titles(mine(drawn)) == []
    approve(drawn, message)
    assert titles(mine(drawn)) == ["Inverted row, legs straight"]


def test_an_option_without_a_pose_leaves_the_reply_without_a_picture(drawn):
    approve(drawn, drawn.says("no bar here", **{**ASKS, "swaps": ("side-plank",)}))
    assert titles(mine(drawn)) == []


def test_a_reply_in_the_coachs_own_words_has_no_picture(drawn):
    drawn.inbox.decide(COACH, drawn.says("no bar here", **ASKS), "edited", "Rest today.")
    assert titles(mine(drawn)) == []


@pytest.mark.parametrize("tier", ["emergency", "clinician"])
def test_no_picture_is_shown_to_anyone_where_someone_should_be_seen(drawn, tier):
    message = drawn.says(
        "my leg went numb", tier=tier, notice=HELP, exercises=[("chin-up", "A1")], draft="Are you there?"
    )
    assert titles(drawn.coach().get(f"/inbox/{message}").text) == []
    drawn.inbox.decide(COACH, message, "edited", "Call me.", comment="called")
    assert titles(mine(drawn)) == []


@pytest.mark.parametrize("tier", ["coach", "clear"])
def test_a_question_for_the_coach_and_an_ordinary_one_have_pictures(drawn, tier):
    message = drawn.says("no bar here", tier=tier, **ASKS)
    assert len(titles(panel(drawn.coach().get(f"/inbox/{message}").text))) == 2


def test_pages_with_pictures_keep_the_strict_policy(drawn):
    message = drawn.says("no bar here", **ASKS)
    answer = drawn.coach().get(f"/inbox/{message}")
    assert "style-src 'self'" in answer.headers["content-security-policy"]
    assert "unsafe-inline" not in answer.headers["content-security-policy"]
    assert not re.search(r"<style|\sstyle=|<script>|\son\w+=", answer.text)

"""Taking messages in: nothing lost, nothing twice, everything that explains them handed to the verbs."""

import logging
import threading

import pytest

from assistant.values import BadInput, NotFound
from tests.test_inbox.made_up import COACH, OTHER, add_coach


def test_a_message_waits_with_its_draft_and_the_notice_is_told_at_once(inbox, say):
    receipt = say("cannot feel my leg", tier="emergency", notice="Get help now.")
    assert (receipt.status, receipt.notice, receipt.new) == ("waiting", "Get help now.", True)
    assert inbox.status(COACH, receipt.id, None) == {
        "id": receipt.id, "status": "waiting", "notice": "Get help now.", "reply": None,
    }  # fmt: skip
    assert inbox.open(COACH, receipt.id).row.text == "cannot feel my leg"


def test_ids_and_threads_cannot_be_guessed(say):
    receipts = [say(), say()]
    assert len({receipts[0].id, receipts[1].id, receipts[0].thread, receipts[1].thread}) == 4
    assert all(len(r.id) >= 22 and len(r.thread) >= 22 for r in receipts)


def test_the_same_key_again_gives_the_same_receipt_and_no_second_message(inbox, say):
    first = say("no bar", key="k1")
    again = say("no bar", key="k1")
    other = say("no bar", key="k2")
    assert (again.id, again.thread, again.new) == (first.id, first.thread, False)
    assert other.id != first.id
    assert inbox.session(COACH).waiting == 2


def test_the_same_key_of_another_follower_is_another_message(inbox, say):
    bo = inbox.add_follower(COACH, "Bo")
    assert inbox.receive(COACH, bo["id"], "no bar", key="k1").id != say("no bar", key="k1").id


def test_the_same_key_from_many_at_once_makes_one_message(inbox, teuvo):
    receipts, start = [], threading.Barrier(8)

    def send():
        start.wait()
        receipts.append(inbox.receive(COACH, teuvo["id"], "no bar", key="tapped twice"))

    senders = [threading.Thread(target=send) for _ in range(8)]
    [sender.start() for sender in senders]
    [sender.join() for sender in senders]
    assert len({receipt.id for receipt in receipts}) == 1
    assert sorted(receipt.new for receipt in receipts) == [False] * 7 + [True]
    assert inbox.session(COACH).waiting == 1


def test_the_verbs_are_given_all_that_explains_a_message(inbox, say, verbs):
    say("no bar", item="A1")
    asked = verbs.asked[-1]
    assert (asked.text, asked.plan.id, asked.item, asked.thread) == ("no bar", "thursday", "A1", ())
    assert asked.plan.slot("A1").dose.reps == (4, 4)
    assert (asked.profile.name, asked.profile.has, asked.profile.can) == ("Teuvo", ("rings-high",), (("chin-up", 2),))
    assert asked.at == "2026-03-05T07:30:00.000000Z"


def test_a_later_message_of_a_thread_brings_what_was_said_before(inbox, say, verbs, clock):
    first = say("no bar", exercises=[("chin-up", "A1")], ask_back="which-bar")
    clock.move(60)
    inbox.decide(COACH, first.id, "asked-back", "Is there a door?")
    clock.move(60)
    say("yes", thread=first.thread)
    follower, coach = verbs.asked[-1].thread
    assert (follower.by, follower.text, follower.exercises, follower.asked_back) == (
        "follower", "no bar", ("chin-up",), False,
    )  # fmt: skip
    assert (coach.by, coach.text, coach.exercises, coach.asked_back) == (
        "coach", "Is there a door?", ("chin-up",), True,
    )  # fmt: skip


def test_a_coach_turn_is_about_the_swap_that_was_sent(inbox, say, verbs):
    first = say("no bar", exercises=[("chin-up", "A1")])
    inbox.decide(COACH, first.id, "approved", "Hi Teuvo, do inverted-row.")
    say("how many?", thread=first.thread)
    assert verbs.asked[-1].thread[1].exercises == ("inverted-row",)


def test_without_a_plan_it_is_about_the_threads_plan_else_the_days(inbox, say, verbs, clock):
    first = say("no bar")
    clock.move(3 * 24 * 3600)
    say("and now?", thread=first.thread)
    assert verbs.asked[-1].plan.id == "thursday"
    clock.move(-30 * 24 * 3600)
    say("before there was any plan")
    assert verbs.asked[-1].plan is None


@pytest.mark.parametrize("text", ["", "  \n\t ", "\x00\x07"])
def test_an_empty_message_is_refused_in_a_plain_sentence(say, text):
    with pytest.raises(BadInput, match="the message is empty: write some words"):
        say(text)


def test_a_message_that_is_too_long_is_told_so(inbox, say):
    assert say("a" * 4000).status == "waiting"
    with pytest.raises(BadInput, match="4001 characters and 4000 are the most"):
        say("a" * 4001)


def test_what_cannot_be_shown_is_taken_out_and_the_rest_is_kept(inbox, say):
    receipt = say("no\x00 bar\r\n\x1b[1m\there \ud83d\xa0🙂")
    assert inbox.open(COACH, receipt.id).row.text == "no bar\n[1m\there \ufffd\xa0🙂"


def test_an_unknown_plan_or_item_is_told_with_the_known_ones(say):
    with pytest.raises(BadInput, match="no plan 'friday'; known are: thursday"):
        say(plan="friday")
    with pytest.raises(BadInput, match="no item 'C9' in the plan 'thursday'; known are: A1, A2, Z1"):
        say(item="C9")


def test_an_unknown_follower_or_a_thread_of_somebody_else_is_not_found(inbox, say):
    with pytest.raises(NotFound):
        inbox.receive(COACH, "nobody", "no bar")
    bo = inbox.add_follower(COACH, "Bo")
    with pytest.raises(NotFound):
        inbox.receive(COACH, bo["id"], "no bar", thread=say().thread)


def test_a_message_the_verbs_fail_on_reaches_the_coach_unread_and_no_log_tells_it(inbox, say, caplog):
    with caplog.at_level(logging.DEBUG):
        receipt = say("my secret knee", fails=True)
    row = inbox.open(COACH, receipt.id).row
    assert (row.tier, row.result["swaps"], row.text) == ("coach", [], "my secret knee")
    assert "RuntimeError" in caplog.text and "secret" not in caplog.text


def test_no_message_stands_in_a_log(inbox, say, caplog):
    with caplog.at_level(logging.DEBUG):
        receipt = say("my secret knee")
        inbox.session(COACH)
        inbox.decide(COACH, receipt.id, "edited", "my secret answer")
    assert "secret" not in caplog.text


def test_another_coach_sees_nothing_of_it(inbox, say, teuvo):
    add_coach(inbox, OTHER)
    receipt = say("no bar", findings=[("numb", "clinician", "wrist", {})])
    hold = inbox.open(COACH, receipt.id).holds[0]["id"]
    for forbidden in (
        lambda: inbox.open(OTHER, receipt.id),
        lambda: inbox.status(OTHER, receipt.id, None),
        lambda: inbox.receive(OTHER, teuvo["token"], "no bar"),
        lambda: inbox.redraft(OTHER, receipt.id, {}),
        lambda: inbox.decide(OTHER, receipt.id, "edited", "hello"),
        lambda: inbox.approve_alike(OTHER, [receipt.id]),
        lambda: inbox.clear_hold(OTHER, hold, "mine now"),
        lambda: inbox.session(OTHER, "thursday"),
        lambda: inbox.plan(OTHER, "thursday"),
    ):
        with pytest.raises(NotFound):
            forbidden()
    assert inbox.session(OTHER).waiting == 0 and inbox.followers(OTHER) == [] and inbox.tasks(OTHER) == []

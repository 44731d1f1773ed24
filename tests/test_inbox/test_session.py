"""The inbox laid out like the day's session, one message opened, and the follower's page."""

import pytest

from assistant.values import NotFound, Plan, PlanItem
from tests.test_inbox.made_up import COACH

FRIDAY = Plan("friday", "Friday: push", (PlanItem("A1", "decline-push-up"),), "2026-03-06")


def hung(session):
    """What hangs where: item -> [(label, texts)]."""
    return {
        slot.item: [(knot.label, [row.text for row in knot.rows]) for knot in slot.knots]
        for slot in (*session.slots, session.loose)
        if slot.knots
    }


def test_the_spine_shows_every_slot_with_its_name_and_dose(inbox, teuvo):
    session = inbox.session(COACH)
    assert [(slot.item, slot.exercise, slot.name, slot.dose) for slot in session.slots] == [
        ("A1", "chin-up", "Chin-up", "4 × 4"),
        ("A2", "decline-push-up", "Decline push-up", "3 × 6–8"),
        ("Z1", "side-plank", "Side plank", ""),
    ]
    assert (session.plan.id, session.day, session.waiting, session.oldest_s) == ("thursday", "2026-03-05", 0, 0)


def test_messages_hang_on_the_slot_they_are_about_tied_by_their_first_limit(inbox, say, clock):
    say("no bar", item="Z1", exercises=[("chin-up", "A1")], limits=[("no-overhead-bar", "equipment", None)])
    clock.move(30)
    say("bar is gone", exercises=[("chin-up", "A1")], limits=[("no-overhead-bar", "equipment", None)])
    say("wrist", item="A2", limits=[("wrist-sore", "pain", None), ("no-overhead-bar", "equipment", None)])
    say("how do i do it", item="A1", wants=("form",))
    say("which one", item="A1", exercises=[("chin-up", "A1")], doubt=True)
    clock.move(1)
    say("hm", item="A1", ask_back="which", limits=[("wrist-sore", "pain", None)])
    say("what about my burpee", exercises=[("burpee", None)], wants=("whole-session",))
    clock.move(29)
    session = inbox.session(COACH)
    assert hung(session) == {
        "A1": [
            ("no overhead bar", ["no bar", "bar is gone"]),
            ("how to do it", ["how do i do it"]),
            ("read with doubt", ["which one", "hm"]),
        ],
        "A2": [("wrist sore", ["wrist"])],
        "?": [("whole session", ["what about my burpee"])],
    }
    assert (session.waiting, session.oldest_s) == (7, 60)
    keys = [knot.key for slot in (*session.slots, session.loose) for knot in slot.knots]
    assert keys == ["A1-no-overhead-bar", "A1-form", "A1-doubt", "A2-wrist-sore", "loose-whole-session"]


def test_what_is_serious_stands_first_and_only_there(inbox, say, clock):
    say("clinician, older", tier="clinician", item="A1")
    clock.move(10)
    say("emergency", tier="emergency", item="A1")
    clock.move(10)
    say("emergency, newer", tier="emergency")
    session = inbox.session(COACH)
    assert [row.text for row in session.stop_first] == ["emergency", "emergency, newer", "clinician, older"]
    assert hung(session) == {} and session.waiting == 3


def test_what_is_serious_is_shown_whatever_day_the_coach_looks_at(inbox, say):
    inbox.add_plan(COACH, FRIDAY)
    say("numb", tier="clinician", plan="thursday")
    assert [row.text for row in inbox.session(COACH, "friday").stop_first] == ["numb"]


def test_what_the_follower_wrote_after_the_notice_is_shown_with_it(inbox, say, clock):
    first = say("my heart jumps", tier="emergency", notice="Get help.")
    clock.move(60)
    say("with my sister", thread=first.thread)
    clock.move(60)
    say("doctor at 4", thread=first.thread)
    assert [row.wrote_back for row in inbox.session(COACH).stop_first] == ["doctor at 4"]
    assert inbox.open(COACH, first.id).row.wrote_back == "doctor at 4"


def test_decided_messages_leave_the_inbox(inbox, say):
    message = say("no bar")
    inbox.decide(COACH, message.id, "turned-down", reason="other")
    assert inbox.session(COACH).waiting == 0


def test_the_days_are_listed_with_what_waits_and_the_newest_one_asked_about_is_shown(inbox, say, clock):
    inbox.add_plan(COACH, FRIDAY)
    say("one", plan="friday")
    clock.move(1)
    say("two", plan="thursday")
    session = inbox.session(COACH)
    assert session.plan.id == "thursday"
    assert session.plans == (("thursday", "Thursday: pull and hold", 1), ("friday", "Friday: push", 1))
    assert [row.text for row in inbox.session(COACH, "friday").loose.knots[0].rows] == ["one"]
    with pytest.raises(NotFound):
        inbox.session(COACH, "monday")


def test_what_was_asked_on_no_plan_is_loose_on_every_day(inbox, say, clock):
    clock.move(-30 * 24 * 3600)
    say("before any plan")
    clock.move(30 * 24 * 3600)
    assert [row.text for row in inbox.session(COACH, "thursday").loose.knots[0].rows] == ["before any plan"]


def test_an_opened_message_comes_with_all_that_is_needed_to_decide(inbox, say, clock):
    bo = inbox.add_follower(COACH, "Bo")
    limits = {"exercises": [("chin-up", "A1")], "limits": [("no-overhead-bar", "equipment", None)]}
    earlier = say("hello")
    clock.move(60)
    message = say("no bar", thread=earlier.thread, **limits)
    other = inbox.receive(COACH, bo["id"], "no bar")
    say("wrist", exercises=[("chin-up", "A1")], limits=[("wrist-sore", "pain", None)])
    clock.move(90)
    opened = inbox.open(COACH, message.id)
    assert [(turn["by"], turn["text"]) for turn in opened.thread] == [("follower", "hello")]
    assert [row.id for row in opened.alike] == [other.id]
    assert (opened.row.waiting_s, opened.row.follower, opened.plan.id, opened.decision) == (
        90,
        "Teuvo",
        "thursday",
        None,
    )
    assert (opened.profile.has, opened.since[:10], opened.rulebook) == (("rings-high",), "2026-03-05", "b00c")
    with pytest.raises(NotFound):
        inbox.open(COACH, "no such message")


def test_nothing_is_alike_to_what_is_read_with_doubt_or_serious(inbox, say):
    doubtful = [say("hm", ask_back="which"), say("hm again", ask_back="which")]
    serious = [say("numb", tier="clinician"), say("numb too", tier="clinician")]
    assert [inbox.open(COACH, message.id).alike for message in (*doubtful, *serious)] == [()] * 4


def test_a_followers_page_shows_every_turn_in_order_of_time(inbox, say, teuvo, clock):
    first = say("one", notice="Careful.")
    clock.move(10)
    say("two")
    clock.move(10)
    inbox.decide(COACH, first.id, "edited", "answer to one")
    page = inbox.conversation(teuvo["token"])
    assert [(turn["by"], turn["text"]) for turn in page.turns] == [
        ("follower", "one"), ("follower", "two"), ("coach", "answer to one"),
    ]  # fmt: skip
    assert (page.follower, page.plan.id, page.coach, page.turns[0]["notice"]) == (
        "Teuvo",
        "thursday",
        COACH,
        "Careful.",
    )


def test_a_thread_link_opens_only_that_thread(inbox, say, teuvo):
    first = say("one")
    say("two")
    page = inbox.conversation(first.thread)
    assert [turn["text"] for turn in page.turns] == ["one"]
    assert (page.thread, page.token) == (first.thread, teuvo["token"])
    with pytest.raises(NotFound):
        inbox.conversation("no such link")


def test_the_thread_goes_on_the_same_day_or_while_one_waits_for_the_other(inbox, say, teuvo, clock):
    inbox.add_plan(COACH, FRIDAY)
    assert inbox.conversation(teuvo["token"]).thread is None
    first = say("no bar")
    assert inbox.conversation(teuvo["token"]).thread == first.thread
    clock.move(24 * 3600)
    assert inbox.conversation(teuvo["token"]).plan.id == "friday"
    assert inbox.conversation(teuvo["token"]).thread == first.thread  # it still waits
    inbox.decide(COACH, first.id, "asked-back", "Which bar?")
    assert inbox.conversation(teuvo["token"]).thread == first.thread  # the coach waits for an answer
    second = say("the low one", thread=first.thread)
    inbox.decide(COACH, second.id, "edited", "Rows then.")
    assert inbox.conversation(teuvo["token"]).thread is None  # all said: a new day begins a new one


def test_a_message_of_somebody_else_is_not_found(inbox, say):
    bo, message = inbox.add_follower(COACH, "Bo"), say("no bar")
    with pytest.raises(NotFound):
        inbox.status(COACH, message.id, bo["token"])
    with pytest.raises(NotFound):
        inbox.status(COACH, message.id, "no such link")

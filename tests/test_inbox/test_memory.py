"""What is remembered of a follower, what is held back, and how older drafts keep step with both."""

import threading

import pytest

from assistant.values import BadInput, NotAllowed, NotFound
from tests.test_inbox.made_up import COACH

CLINICIAN = [("numb-hand", "clinician", "wrist", {})]


def profile(inbox, message):
    return inbox.open(COACH, message.id).profile


def test_kit_said_to_be_there_is_remembered_and_kit_said_to_be_gone_is_taken_off(inbox, say, verbs):
    told = say("i have a chair, rings are gone", has=["chair"], lacks=["rings-high"])
    assert profile(inbox, told).has == ("chair",)
    say("next day")
    assert verbs.asked[-1].profile.has == ("chair",)


def test_kit_said_both_to_be_there_and_gone_is_taken_to_be_gone(inbox, say):
    assert profile(inbox, say("rings? no rings", has=["rings-high"], lacks=["rings-high"])).has == ()


@pytest.mark.parametrize(
    ("limit", "remembered"),
    [
        (("wrist-sore", "pain", "chin-up"), True),
        (("heavier-body", "other", None), True),
        (("no-overhead-bar", "equipment", None), False),
        (("short-time", "time", None), False),
        (("tired-today", "other", None), False),  # its card says so
        (("hotel-room", "space", None), True),  # its card says so
        (("few-reps", "strength", None), True),
        (("few-reps", "strength", "chin-up"), False),  # said of one exercise: no reason to make the others easier
        (("no-such-card", "mobility", None), True),
    ],
)
def test_limits_that_last_are_remembered_and_those_of_the_day_are_not(inbox, say, limit, remembered):
    assert profile(inbox, say("it is in the way", limits=[limit])).limits == ((limit[0],) if remembered else ())


def test_a_limit_denied_later_is_taken_off(inbox, say):
    say("wrist is sore", limits=[("wrist-sore", "pain", None)])
    assert profile(inbox, say("wrist is fine now", denied=["wrist-sore"])).limits == ()


def test_what_one_can_do_is_brought_up_to_date(inbox, say):
    assert profile(inbox, say("5 chin-ups now", can=[("chin-up", 5)])).can == (("chin-up", 5),)


def test_the_change_is_kept_with_the_message_and_its_words(inbox, say):
    message = say("sore, no rings, 5 now", limits=[("wrist-sore", "pain", None)], lacks=["rings-high"],
                  can=[("chin-up", 5)])  # fmt: skip
    assert inbox.open(COACH, message.id).remembered == {
        "has": {"added": [], "removed": ["rings-high"], "words": {"rings-high": "no rings-high"}},
        "limits": {"added": ["wrist-sore"], "removed": [], "words": {"wrist-sore": "the words"}},
        "can": {"chin-up": {"before": 2, "after": 5}},
    }
    assert inbox.open(COACH, say("thanks").id).remembered == {}


def test_many_messages_at_once_lose_nothing_of_the_memory(inbox, teuvo, verbs):
    texts = [verbs.tell(f"i can do {n}", can=[(f"exercise-{n}", n)]) for n in range(8)]
    senders = [threading.Thread(target=inbox.receive, args=(COACH, teuvo["id"], text)) for text in texts]
    [sender.start() for sender in senders]
    [sender.join() for sender in senders]
    last = inbox.receive(COACH, teuvo["id"], "and now?")
    assert dict(profile(inbox, last).can) == {"chin-up": 2, **{f"exercise-{n}": n for n in range(8)}}


def test_a_hold_lasts_over_later_messages_until_it_is_cleared_with_a_note(inbox, say, verbs):
    first = say("my hand is numb", findings=CLINICIAN)
    say("no bar today")
    assert verbs.asked[-1].profile.held == ("wrist",)
    (hold,) = inbox.open(COACH, first.id).holds
    assert (hold["part"], hold["category"], hold["words"]) == ("wrist", "numb-hand", "the words")
    with pytest.raises(BadInput, match="the note is empty"):
        inbox.clear_hold(COACH, hold["id"], "  ")
    inbox.clear_hold(COACH, hold["id"], "seen by a physiotherapist", "Ada")
    say("no bar today either")
    assert verbs.asked[-1].profile.held == ()
    with pytest.raises(NotAllowed):
        inbox.clear_hold(COACH, hold["id"], "again")
    with pytest.raises(NotFound):
        inbox.clear_hold(COACH, "no such hold", "note")


def test_the_same_sign_again_is_one_hold_and_another_sign_a_second_one(inbox, say, clock):
    say("my hand is numb", findings=CLINICIAN)
    clock.move(1)
    say("still numb", findings=CLINICIAN)
    last = say("and i fainted", findings=[("faint", "emergency", "all", {})])
    assert [(hold["part"], hold["category"]) for hold in inbox.open(COACH, last.id).holds] == [
        ("wrist", "numb-hand"), ("all", "faint"),
    ]  # fmt: skip


def test_a_hold_that_was_cleared_comes_back_with_the_sign(inbox, say):
    first = say("my hand is numb", findings=CLINICIAN)
    inbox.clear_hold(COACH, inbox.open(COACH, first.id).holds[0]["id"], "fine")
    assert len(inbox.open(COACH, say("numb again", findings=CLINICIAN).id).holds) == 1


@pytest.mark.parametrize(
    "finding",
    [
        ("faint", "emergency", "all", {"who": "other"}),
        ("faint", "clinician", "all", {"assertion": "denied"}),
        ("faint", "clinician", "all", {"assertion": "what-if"}),
        ("old-injury", "coach", "wrist", {}),
        ("none", "clear", "wrist", {}),
    ],
)
def test_what_is_somebody_elses_or_not_so_serious_holds_nothing_back(inbox, say, finding):
    assert inbox.open(COACH, say("something", findings=[finding]).id).holds == ()


def test_a_sign_told_with_doubt_holds_back(inbox, say):
    message = say("maybe numb?", findings=[("numb-hand", "clinician", "wrist", {"assertion": "doubt"})])
    assert len(inbox.open(COACH, message.id).holds) == 1


def test_a_draft_that_waits_is_made_anew_when_a_part_is_held_and_again_when_it_is_cleared(inbox, say, store):
    older = say("no bar")
    assert inbox.open(COACH, older.id).row.result["draft"]["text"] == "Hi Teuvo, do inverted-row."
    serious = say("my hand is numb", findings=CLINICIAN)
    row = inbox.open(COACH, older.id).row
    assert (row.result["draft"]["text"], row.result["swaps"], row.version) == ("Hi Teuvo, do nothing.", [], 2)
    inbox.clear_hold(COACH, inbox.open(COACH, serious.id).holds[0]["id"], "seen and fine")
    row = inbox.open(COACH, older.id).row
    assert (row.result["draft"]["text"], row.version) == ("Hi Teuvo, do inverted-row.", 3)
    with store.reading() as archive:
        assert [draft["version"] for draft in archive.messages.drafts(COACH, older.id)] == [1, 2, 3]


def test_making_a_draft_anew_never_lowers_how_serious_a_message_is(inbox, say, verbs):
    older = say("it hurts", tier="clinician", notice="See somebody.")
    verbs.tell("it hurts", tier="clear", draft="All is well.")
    say("my hand is numb", findings=CLINICIAN)
    row = inbox.open(COACH, older.id).row
    assert (row.tier, row.notice, row.version) == ("clinician", "See somebody.", 2)
    assert older.id in [first.id for first in inbox.session(COACH).stop_first]


def test_a_decided_message_keeps_the_draft_it_was_decided_on(inbox, say):
    older = say("no bar")
    inbox.decide(COACH, older.id, "approved", "Hi Teuvo, do inverted-row.")
    say("my hand is numb", findings=CLINICIAN)
    assert inbox.open(COACH, older.id).row.version == 1


def test_an_emergency_opens_a_task_that_is_closed_with_the_comment_of_the_decision(inbox, say, clock):
    message = say("fainted", findings=[("faint", "emergency", "all", {})])
    assert inbox.tasks(COACH) == [{"message": message.id, "since": "2026-03-05T07:30:00.000000Z"}]
    clock.move(60)
    inbox.decide(COACH, message.id, "edited", "I called you.", comment="spoke on the phone", by="Ada")
    assert inbox.tasks(COACH) == []
    task = inbox.open(COACH, message.id).task
    assert (task["note"], task["by"], task["closed"]) == ("spoke on the phone", "Ada", "2026-03-05T07:31:00.000000Z")


def test_only_an_emergency_opens_a_task(inbox, say):
    message = say("my hand is numb", findings=CLINICIAN)
    assert inbox.tasks(COACH) == [] and inbox.open(COACH, message.id).task is None

"""Taken in at once, drafted a moment later: nothing is lost, nothing is seen half, and what is serious never waits."""

import pytest

from assistant.values import BadInput
from tests.test_inbox.made_up import COACH, Clock, Verbs, inbox_at


@pytest.fixture
def take(inbox, teuvo):
    return lambda text="no bar", **more: inbox.take(COACH, teuvo["token"], text, **more)


def test_the_receipt_of_a_plain_message_waits_for_no_verb(take, verbs):
    receipt = take()
    assert (receipt.status, receipt.notice, receipt.read, verbs.asked) == ("waiting", None, False, [])


def test_whoever_looks_finds_it_drafted(inbox, take):
    receipt = take()
    assert inbox.open(COACH, receipt.id).row.result["draft"]["text"]
    assert inbox.session(COACH).waiting == 1
    assert [turn["text"] for turn in inbox.conversation(receipt.thread).turns] == ["no bar"]


@pytest.mark.parametrize("look", ["status", "conversation", "receive", "session", "open", "tasks"])
def test_every_look_drafts_first_what_a_killed_process_left(inbox, take, teuvo, tmp_path, look):
    receipt, verbs = take(), Verbs()
    later = inbox_at(tmp_path / "archive.db", verbs, Clock())
    {
        "status": lambda: later.status(COACH, receipt.id, teuvo["token"]),
        "conversation": lambda: later.conversation(receipt.thread),
        "receive": lambda: later.receive(COACH, teuvo["token"], "and rings?", thread=receipt.thread),
        "session": lambda: later.session(COACH),
        "open": lambda: later.open(COACH, receipt.id),
        "tasks": lambda: later.tasks(COACH),
    }[look]()
    assert verbs.asked[0].text == "no bar"


def test_what_the_screen_sees_is_answered_whole_before_the_receipt(inbox, take, verbs, teuvo):
    verbs.tell("chest", tier="emergency", notice="Call now.")
    receipt = take("chest")
    assert (receipt.notice, receipt.read) == ("Call now.", True)
    assert [task["message"] for task in inbox.tasks(COACH)] == [receipt.id]


def test_a_screen_that_fails_makes_nobody_wait_unseen(take, verbs):
    verbs.blind = True
    assert take().read is True


def test_messages_are_read_in_the_order_in_which_they_came(inbox, take, verbs):
    first = take("no bar")
    take("and rings?", thread=first.thread)
    assert inbox.read_waiting(COACH) == 2
    assert [message.text for message in verbs.asked] == ["no bar", "and rings?"]
    assert [turn.text for turn in verbs.asked[1].thread] == ["no bar"]


def test_a_second_reader_changes_nothing(inbox, take):
    receipt = take()
    assert [inbox.read_waiting(COACH), inbox.read_waiting(COACH)] == [1, 0]
    assert inbox.open(COACH, receipt.id).row.version == 1


def test_the_same_key_gives_the_same_receipt_read_or_not(inbox, take):
    first = take(key="k")
    again = take(key="k")
    inbox.read_waiting(COACH)
    assert (again.id, again.new, take(key="k").id) == (first.id, False, first.id)
    assert inbox.session(COACH).waiting == 1


def test_the_same_key_with_other_words_is_refused_in_words(take):
    take(key="k")
    with pytest.raises(BadInput, match="send a new key with every new message"):
        take("my wrist is sore", key="k")


@pytest.mark.parametrize(
    ("more", "says"),
    [({"plan": "nowhere"}, "no plan 'nowhere'"), ({"item": "Q9"}, "no item 'Q9'"), ({"text": " "}, "is empty")],
)
def test_what_cannot_be_used_is_refused_as_ever(take, more, says):
    with pytest.raises(BadInput, match=says):
        take(**more)

"""The coach's word: every outcome, what reaches the follower, and what cannot be decided."""

import pytest

from assistant.values import BadInput, NotAllowed, NotFound
from tests.test_inbox.made_up import COACH

DRAFT = "Hi Teuvo, do inverted-row."


def turns(inbox, teuvo):
    return inbox.conversation(teuvo["token"]).turns


def test_an_approved_reply_reaches_the_followers_page_with_the_swap_chosen(inbox, say, teuvo, clock):
    message = say("no bar", item="A1")
    clock.move(600)
    inbox.decide(COACH, message.id, "approved", DRAFT, by="Ada")
    assert inbox.status(COACH, message.id, teuvo["token"])["reply"] == DRAFT
    follower, coach = turns(inbox, teuvo)
    assert (follower["by"], follower["text"], follower["status"]) == ("follower", "no bar", "answered")
    assert (coach["by"], coach["text"], coach["at"], coach["item"], coach["outcome"]) == (
        "coach", DRAFT, "2026-03-05T07:40:00.000000Z", "A1", "approved",
    )  # fmt: skip
    assert [swap["exercise"] for swap in coach["swaps"]] == ["inverted-row"]
    decision = inbox.open(COACH, message.id).decision
    assert (decision["outcome"], decision["by"], decision["at"]) == ("approved", "Ada", "2026-03-05T07:40:00.000000Z")


def test_line_ends_of_a_form_do_not_make_an_approval_an_edit(inbox, say):
    message = say("no bar", draft="One.\nTwo.")
    inbox.decide(COACH, message.id, "approved", "One.\r\nTwo.\r\n")
    assert inbox.open(COACH, message.id).decision["outcome"] == "approved"


def test_approving_other_words_than_the_draft_is_kept_as_an_edit(inbox, say):
    message = say("no bar")
    inbox.decide(COACH, message.id, "approved", "Do rows, please.")
    assert inbox.open(COACH, message.id).decision["outcome"] == "edited"


def test_an_edited_reply_is_sent_as_edited_with_its_reason(inbox, say, teuvo):
    message = say("no bar")
    inbox.decide(COACH, message.id, "edited", "Rows, 2 sets.", "too-hard", "he was ill")
    decision = inbox.open(COACH, message.id).decision
    assert (decision["outcome"], decision["reason"], decision["comment"]) == ("edited", "too-hard", "he was ill")
    assert turns(inbox, teuvo)[1]["outcome"] == "edited"


def test_asking_back_sends_the_question_and_no_swap(inbox, say, teuvo):
    message = say("no bar")
    inbox.decide(COACH, message.id, "asked-back", "Is there a door?")
    coach = turns(inbox, teuvo)[1]
    assert (coach["text"], coach["asked_back"], coach["swaps"]) == ("Is there a door?", True, [])


def test_approving_a_draft_that_asks_back_counts_as_a_question(inbox, say, teuvo):
    message = say("hm", ask_back="what-is-in-the-way", draft="What is in the way?", swaps=())
    inbox.decide(COACH, message.id, "approved", "What is in the way?")
    assert turns(inbox, teuvo)[1]["asked_back"] is True


def test_turning_down_needs_a_reason_and_sends_nothing(inbox, say, teuvo):
    message = say("no bar")
    with pytest.raises(BadInput, match="turning down needs a reason"):
        inbox.decide(COACH, message.id, "turned-down")
    inbox.decide(COACH, message.id, "turned-down", reason="other")
    assert inbox.status(COACH, message.id, None) == {
        "id": message.id, "status": "closed", "notice": None, "reply": None,
    }  # fmt: skip
    assert len(turns(inbox, teuvo)) == 1


def test_turning_down_with_words_sends_the_words(inbox, say, teuvo):
    message = say("no bar")
    inbox.decide(COACH, message.id, "turned-down", "Let us talk on Monday.", "other")
    assert inbox.status(COACH, message.id, None)["status"] == "answered"
    assert turns(inbox, teuvo)[1]["swaps"] == []


@pytest.mark.parametrize("outcome", ["approved", "edited", "asked-back"])
def test_an_empty_reply_is_refused(inbox, say, outcome):
    message = say("no bar")
    with pytest.raises(BadInput, match="the reply is empty"):
        inbox.decide(COACH, message.id, outcome, " \r\n")
    assert inbox.status(COACH, message.id, None)["status"] == "waiting"


def test_unknown_outcomes_and_reasons_are_told_with_the_known_ones(inbox, say):
    message = say("no bar")
    with pytest.raises(BadInput, match="approved, edited, asked-back, turned-down"):
        inbox.decide(COACH, message.id, "liked", DRAFT)
    with pytest.raises(BadInput, match="unsafe, too-hard"):
        inbox.decide(COACH, message.id, "edited", DRAFT, "dull")


def test_what_was_decided_cannot_be_decided_again(inbox, say):
    message = say("no bar")
    inbox.decide(COACH, message.id, "approved", DRAFT)
    with pytest.raises(NotAllowed, match="decided already"):
        inbox.decide(COACH, message.id, "turned-down", reason="other")
    assert inbox.open(COACH, message.id).decision["outcome"] == "approved"


@pytest.mark.parametrize("tier", ["emergency", "clinician"])
def test_what_is_serious_is_closed_only_with_a_comment(inbox, say, tier):
    message = say("something serious", tier=tier, draft="I am calling you.")
    with pytest.raises(BadInput, match="the comment .* is empty"):
        inbox.decide(COACH, message.id, "approved", "I am calling you.")
    with pytest.raises(BadInput, match="the comment .* is empty"):
        inbox.decide(COACH, message.id, "turned-down", reason="other")
    inbox.decide(COACH, message.id, "approved", "I am calling you.", comment="called")
    assert inbox.status(COACH, message.id, None)["status"] == "answered"


def test_a_draft_that_changed_since_it_was_shown_is_not_approved_unseen(inbox, say):
    message = say("no bar")
    shown = inbox.open(COACH, message.id).row.version
    say("my hand is numb", findings=[("numb-hand", "clinician", "wrist", {})])
    with pytest.raises(NotAllowed, match="changed since it was shown"):
        inbox.decide(COACH, message.id, "edited", DRAFT, version=shown)
    inbox.decide(COACH, message.id, "edited", "Rest.", version=shown + 1)


def test_redrafting_recommends_the_option_chosen_and_keeps_nothing(inbox, say):
    message = say("no bar")
    line = inbox.redraft(COACH, message.id, {"chin-up": "side-plank"})
    assert line["draft"]["text"] == "Hi Teuvo, do side-plank."
    row = inbox.open(COACH, message.id).row
    assert (row.result["draft"]["text"], row.version) == (DRAFT, 1)


def test_only_what_was_offered_can_be_chosen(inbox, say):
    message = say("no bar")
    with pytest.raises(BadInput, match="'chin-up' is no option for 'chin-up'; offered are: inverted-row, side-plank"):
        inbox.redraft(COACH, message.id, {"chin-up": "chin-up"})
    with pytest.raises(BadInput, match="nothing is offered for it"):
        inbox.decide(COACH, message.id, "approved", DRAFT, choose={"side-plank": "chin-up"})


def test_approving_another_option_sends_its_words_and_its_swap(inbox, say, teuvo):
    message = say("no bar")
    inbox.decide(COACH, message.id, "approved", "Hi Teuvo, do side-plank.", choose={"chin-up": "side-plank"}, version=1)
    coach = turns(inbox, teuvo)[1]
    assert (coach["outcome"], [swap["exercise"] for swap in coach["swaps"]]) == ("approved", ["side-plank"])
    assert inbox.open(COACH, message.id).row.result["draft"]["text"] == "Hi Teuvo, do side-plank."


def test_alike_ones_are_approved_each_with_its_own_words(inbox, say):
    bo = inbox.add_follower(COACH, "Bo")
    first, second = say("no bar"), inbox.receive(COACH, bo["id"], "no bar")
    inbox.decide(COACH, first.id, "approved", DRAFT)
    assert inbox.approve_alike(COACH, [first.id, second.id, second.id], "Ada") == 1
    assert inbox.status(COACH, second.id, bo["id"])["reply"] == "Hi Bo, do inverted-row."


def test_what_is_serious_or_has_no_draft_is_not_approved_with_others_and_nothing_else_is(inbox, say):
    plain, serious = say("no bar"), say("numb", tier="clinician", draft="See a doctor.")
    unread = say("something", fails=True)
    for other in (serious, unread):
        with pytest.raises(BadInput, match="Teuvo cannot be approved with others"):
            inbox.approve_alike(COACH, [plain.id, other.id])
    with pytest.raises(NotFound):
        inbox.approve_alike(COACH, [plain.id, "no such message"])
    assert inbox.status(COACH, plain.id, None)["status"] == "waiting"

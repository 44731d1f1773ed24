"""Who may come in: passwords, sessions, keys, links; and what a coach may put in."""

import dataclasses

import pytest

from assistant.values import BadInput, NotAllowed, NotFound, Plan, PlanItem, Profile
from tests.test_inbox.made_up import COACH, PLAN


@pytest.fixture
def coach(inbox):
    inbox.add_coach(COACH, "Ferry Lane", "a long password")
    return COACH


def test_a_coach_signs_in_with_the_password_and_with_no_other(inbox, coach):
    session = inbox.sign_in(coach, "a long password")
    assert inbox.signed_in(session) == coach
    for name, password in ((coach, "another password"), ("nobody", "a long password"), (coach, "")):
        with pytest.raises(NotAllowed, match="do not go together"):
            inbox.sign_in(name, password)
    assert inbox.signed_in("made up") is None and inbox.signed_in("") is None


def test_a_session_runs_out_and_can_be_ended(inbox, coach, clock):
    first, second, third = (inbox.sign_in(coach, "a long password", hours=2) for _ in range(3))
    clock.move(2 * 3600 - 1)
    assert inbox.signed_in(first) == coach
    inbox.sign_out(first)
    assert inbox.signed_in(first) is None and inbox.signed_in(second) == coach
    inbox.sign_out_everywhere(coach)
    assert inbox.signed_in(third) is None
    fourth = inbox.sign_in(coach, "a long password", hours=2)
    clock.move(2 * 3600)
    assert inbox.signed_in(fourth) is None


def test_a_new_password_ends_the_old_sessions(inbox, coach):
    session = inbox.sign_in(coach, "a long password")
    inbox.add_coach(coach, "Ferry Lane", "another password")
    assert inbox.signed_in(session) is None
    assert inbox.signed_in(inbox.sign_in(coach, "another password")) == coach


def test_the_archive_keeps_no_secret_that_opens_a_door(inbox, coach, tmp_path):
    secrets = ["a long password", inbox.sign_in(coach, "a long password"), inbox.add_key(coach, "site")]
    kept = b"".join(file.read_bytes() for file in tmp_path.glob("archive.db*"))
    assert b"$argon2id$" in kept
    assert [secret for secret in secrets if secret.encode() in kept] == []


def test_a_key_names_its_coach_until_it_is_revoked(inbox, coach):
    key = inbox.add_key(coach, "my site")
    assert inbox.coach_of_key(key) == coach and inbox.coach_of_key("made up") is None
    (kept,) = inbox.keys(coach)
    assert kept["label"] == "my site"
    inbox.drop_key(coach, kept["id"])
    assert inbox.coach_of_key(key) is None
    with pytest.raises(NotFound):
        inbox.drop_key(coach, kept["id"])


def test_a_follower_is_known_by_an_unguessable_link(inbox, teuvo):
    assert inbox.follower(teuvo["token"])["name"] == "Teuvo" and len(teuvo["token"]) == 32
    with pytest.raises(NotFound):
        inbox.follower(teuvo["id"])
    inbox.add_follower(COACH, "Ansa")
    assert [one["name"] for one in inbox.followers(COACH)] == ["Ansa", "Teuvo"]


@pytest.mark.parametrize(
    ("profile", "says"),
    [
        (Profile(has=("flying-carpet",)), "no equipment called flying-carpet"),
        (Profile(limits=("dull",)), "no limit called dull"),
        (Profile(can=(("cartwheel", 3),)), "no exercise called cartwheel"),
    ],
)
def test_a_profile_may_only_hold_what_the_book_knows(inbox, teuvo, profile, says):
    with pytest.raises(BadInput, match=says):
        inbox.add_follower(COACH, "Bo", profile)


def test_a_plan_comes_back_as_it_was_put_in_and_can_be_changed(inbox, teuvo):
    assert inbox.plan(COACH, "thursday") == PLAN
    inbox.add_plan(COACH, dataclasses.replace(PLAN, title="Thursday: rest"))
    assert inbox.plan(COACH, "thursday").title == "Thursday: rest"
    with pytest.raises(NotFound, match="known are: thursday"):
        inbox.plan(COACH, "friday")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"items": (PlanItem("A1", "cartwheel"),)}, "no exercise called cartwheel"),
        ({"items": (PlanItem("A1", "chin-up"), PlanItem("A1", "side-plank"))}, "the item A1 twice"),
        ({"items": ()}, "at least one item"),
        ({"id": " "}, "an id of 1 to 200 characters"),
        ({"day": "Thursday"}, "is no date, found 'Thursday': write 2026-03-02"),
    ],
)
def test_a_plan_that_cannot_be_used_is_refused_in_words(inbox, teuvo, change, says):
    with pytest.raises(BadInput, match=says):
        inbox.add_plan(COACH, dataclasses.replace(PLAN, **change))


def test_names_ids_and_passwords_are_checked(inbox, coach):
    for id, name, password, says in (
        ("Ferry Lane", "x", "a long password", "small letters"),
        ("ferry", "x", "short", "5 characters and 10 are the fewest"),
        ("ferry", " ", "a long password", "the coach's name is empty"),
    ):
        with pytest.raises(BadInput, match=says):
            inbox.add_coach(id, name, password)
    with pytest.raises(NotFound):
        inbox.add_plan("nobody", Plan("p", "t", (PlanItem("A1", "chin-up"),)))
    assert inbox.coaches() == [COACH] and inbox.coach_name(COACH) == "Ferry Lane"


def test_the_inbox_says_whether_it_is_whole(inbox):
    assert inbox.healthy() is True

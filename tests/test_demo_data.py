"""The invented week: whole in itself, in step with the book, and answered as a careful coach expects."""

import importlib
import json
import sys
from collections import Counter
from pathlib import Path

import pytest

from assistant.plan import plan_from_json
from assistant.rulebook import Rulebook, load
from assistant.values import TIERS, WANTS

sys.path.insert(0, str(Path(__file__).parent))
scores = importlib.import_module("score_cases")

FOLDER = Path(__file__).parents[1] / "demo_data"
PLANS = json.loads((FOLDER / "plans.json").read_text(encoding="utf-8"))
FOLLOWERS = json.loads((FOLDER / "followers.json").read_text(encoding="utf-8"))
MESSAGES = [json.loads(line) for line in (FOLDER / "messages.jsonl").read_text(encoding="utf-8").splitlines()]
EXERCISES = ("asked", "best", "acceptable", "never")
# What must come out as expected. These guard against falling back: the first figures, and the open misses that the
# closing notes name, stand in DEVELOPERS.md; the aim is 85 % of each and no forbidden exercise at all.
SHARE = {"recommended": 0.70, "asked": 0.85, "limits": 0.74, "tier": 0.85}
OPEN_BROKE = 11  # messages in which an exercise is offered (not always recommended) that the coach would never give
OPEN_HELD = 3  # clinician messages in which the sign is not seen yet


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


@pytest.fixture(scope="module")
def outcomes(book):
    plans = {plan["id"]: plan for plan in PLANS}
    people = {one["id"]: {key: one[key] for key in ("name", "has", "limits", "can")} for one in FOLLOWERS}
    return scores.answers([scores.case_from_line(message, plans, people) for message in MESSAGES], book)


# -- the data itself -----------------------------------------------------------------------------------------------


def test_there_are_a_hundred_messages_in_the_order_they_came():
    assert len(MESSAGES) == 100
    assert [message["id"] for message in MESSAGES] == [f"m{number:03}" for number in range(1, 101)]
    times = [message["at"] for message in MESSAGES]
    assert times == sorted(times) and len(set(times)) == 100


def test_the_tiers_are_spread_as_the_readme_says():
    assert Counter(message["expect"]["tier"] for message in MESSAGES) == {
        "clear": 62,
        "coach": 14,
        "clinician": 12,
        "emergency": 12,
    }


def test_twelve_clear_messages_are_about_nothing():
    idle = [m for m in MESSAGES if m["expect"]["tier"] == "clear" and m["expect"]["wants"][0] in ("other", "feedback")]
    assert len(idle) == 12
    assert not any(m["expect"]["asked"] or m["expect"]["limits"] or m["expect"]["best"] for m in idle)


def test_the_newest_message_is_on_the_current_day_and_most_wait_there():
    counts = Counter(message["plan"] for message in MESSAGES)
    assert MESSAGES[-1]["plan"] == "wed" == counts.most_common(1)[0][0]
    assert 35 <= counts["wed"] <= 45


def test_fourteen_followers_have_a_history_and_every_earlier_thread_is_answered():
    told = [one for one in FOLLOWERS if one["threads"]]
    assert (len(FOLLOWERS), len(told)) == (40, 14)
    for thread in (thread for one in told for thread in one["threads"]):
        assert [turn["from"] for turn in thread["turns"][:2]] == ["follower", "coach"]
        assert [turn["at"] for turn in thread["turns"]] == sorted(turn["at"] for turn in thread["turns"])


def test_nobody_writes_an_ordinary_message_after_being_stopped():
    stopped = set()
    for message in MESSAGES:
        tier = message["expect"]["tier"]
        assert message["follower"] not in stopped or tier in ("clinician", "emergency"), message["id"]
        if tier in ("clinician", "emergency"):
            stopped.add(message["follower"])


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan["id"])
def test_a_plan_can_be_read_and_has_warm_up_pairs_and_cool_down(plan, book):
    read = plan_from_json(plan)
    letters = [slot.item[0] for slot in read.items]
    assert letters == sorted(letters, key="WABCZ".index)
    assert letters.count("W") in (1, 2, 3) and letters.count("Z") == 2
    assert all(slot.exercise in book.exercises and slot.dose for slot in read.items)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan["id"])
def test_the_two_of_a_pair_never_have_the_same_main_purpose(plan, book):
    for letter in "ABC":
        pair = [slot["exercise"] for slot in plan["items"] if slot["item"][0] == letter]
        purposes = [book.exercises[exercise].trains[0] for exercise in pair]
        assert len(set(purposes)) == len(purposes), pair


def test_the_plans_use_every_family_of_the_book(book):
    used = {book.exercises[slot["exercise"]].family for plan in PLANS for slot in plan["items"]}
    assert used == set(book.families)


@pytest.mark.parametrize("message", MESSAGES, ids=lambda message: message["id"])
def test_a_message_names_only_what_exists(message, book):
    plans = {plan["id"]: plan for plan in PLANS}
    expect = message["expect"]
    assert message["follower"] in {one["id"] for one in FOLLOWERS}
    assert message["plan"] is None or message["plan"] in plans
    if message["item"]:
        assert message["item"] in [slot["item"] for slot in plans[message["plan"]]["items"]]
    assert expect["tier"] in TIERS and set(expect["wants"]) <= set(WANTS) and expect["wants"]
    assert {one for field in EXERCISES for one in expect[field]} <= set(book.exercises)
    assert set(expect["has"] + expect["lacks"]) <= set(book.equipment)
    missing = {f"no-{thing}" for thing in book.equipment}
    assert set(expect["limits"] + expect["denied"]) <= set(book.limits) | missing | {"clinician-first"}
    right = set(expect["best"]) | set(expect["acceptable"])
    assert not right & set(expect["never"]) and not set(expect["best"]) & set(expect["acceptable"])


def test_a_message_for_a_clinician_expects_no_exercise_and_forbids_some_where_one_is_asked():
    for message in MESSAGES:
        expect = message["expect"]
        if expect["tier"] in ("clinician", "emergency"):
            assert not expect["best"] and not expect["acceptable"] and expect["limits"] == ["clinician-first"]
            assert expect["never"] or not expect["asked"], message["id"]


def test_every_follower_remembers_only_what_the_book_knows(book):
    for one in FOLLOWERS:
        assert set(one["has"]) <= set(book.equipment) and set(one["limits"]) <= set(book.limits)
        assert set(one["can"]) <= set(book.exercises)


# -- the data through the five verbs -------------------------------------------------------------------------------


def test_every_emergency_is_seen(outcomes):
    emergencies = [one for one in outcomes if one.case.expect["tier"] == "emergency"]
    assert len(emergencies) == 12
    assert [one.case.line["text"] for one in emergencies if one.tier != "emergency"] == []


def test_nobody_who_should_see_a_clinician_is_offered_an_exercise(outcomes):
    held = [one for one in outcomes if one.case.expect["tier"] in ("clinician", "emergency")]
    assert not [one.case.id for one in held if one.offered and one.case.expect["tier"] == "emergency"]
    assert len([(one.case.id, sorted(one.offered)) for one in held if one.offered]) <= OPEN_HELD


def test_nothing_is_offered_that_is_never_right(outcomes):
    assert len([(one.case.id, one.case.line["text"], sorted(one.broke)) for one in outcomes if one.broke]) <= OPEN_BROKE


@pytest.mark.parametrize("name", ["recommended", "asked", "limits", "tier"])
def test_most_messages_come_out_as_a_careful_coach_expects(name, outcomes):
    counted = [one for one in outcomes if name != "recommended" or one.wanted]
    counted = [one for one in counted if name != "limits" or one.limits_count]
    missed = [one for one in counted if name in one.missed]
    print("".join(scores.miss_line(scores.miss(one)) for one in missed))
    right = 1 - len(missed) / len(counted)
    assert right >= SHARE[name], f"{name}: {right:.0%} of {len(counted)}; the misses are printed above"

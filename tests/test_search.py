"""The graph search: allowed is never traded, the best is chosen, and everything says why."""

import pytest

from assistant.rulebook import load
from assistant.search import search
from assistant.search.allowed import breaks, standing_limits
from assistant.search.kit import kit_of, meets
from assistant.values import Asked, Denied, Kit, Limit, Message, Profile, Question


@pytest.fixture(scope="module")
def book():
    return load()


def question(asked, limits=(), has=(), lacks=(), wants=("swap",), denied=()):
    return Question(
        tuple(wants),
        tuple(Asked(a, a, 0, 1, "name") for a in asked.split()),
        tuple(Limit(x, "pain", None, x, 0, 1) for x in limits),
        tuple(Kit(k, k, 0, 1) for k in has),
        tuple(Kit(k, k, 0, 1) for k in lacks),
        tuple(Denied(d, d, 0, 1) for d in denied),
    )


def best(book, profile=None, **given):
    profile = profile or Profile()
    swaps, _ = search(question(**given), Message("x", profile=profile), book)
    return next(s for s in swaps if s.recommended)


# The trade's own ladders: common practice, no source.
@pytest.mark.parametrize(
    ("given", "expected"),
    [
        ({"asked": "pull-up", "lacks": ["overhead-bar"], "has": ["table"]}, {"table-row"}),
        ({"asked": "chin-up", "lacks": ["overhead-bar"], "has": ["rings-high", "rings-low"]}, {"chin-up"}),
        ({"asked": "pull-up", "limits": ["zero-reps"], "has": ["chair"], "wants": ["easier"]}, {"foot-assisted-pull-up"}),
        ({"asked": "push-up", "limits": ["zero-reps"], "wants": ["easier"]}, {"mid-incline-push-up", "high-incline-push-up"}),
        ({"asked": "lean-push-up", "limits": ["wrist-sore"], "has": ["handles"]}, {"handle-lean-push-up", "handle-push-up"}),
        ({"asked": "squat", "limits": ["knee-sore"]}, {"partial-squat"}),
        ({"asked": "dip", "lacks": ["dip-bars"]}, {"close-push-up"}),
        ({"asked": "hollow-hold", "limits": ["back-arches"], "wants": ["easier"]}, {"tuck-hollow-hold", "one-leg-hollow-hold"}),
    ],
)  # fmt: skip
def test_the_ladders_of_the_trade_hold(given, expected, book):
    assert best(book, **given).exercise in expected


def test_no_option_breaks_a_limit_or_needs_a_missing_thing(book):
    limits = ["wrist-sore", "shoulder-overhead-sore", "knee-sore", "low-back-sore", "hard-floor", "seated-only"]
    for asked in list(book.exercises)[::7]:
        for limit in limits:
            q = question(asked=asked, limits=[limit], lacks=["overhead-bar", "chair"])
            message = Message("x")
            standings = standing_limits(q, message, book)
            for swap in search(q, message, book)[0]:
                card = book.exercises[swap.exercise]
                stays = swap.kind == "same" and book.limits[limit].stays_with
                assert stays or not any(breaks(card, s) for s in standings), (asked, limit, swap.exercise)
                if swap.if_you_have is None and swap.kind != "same":
                    assert meets(card, kit_of(q, message, asked, book), book), (asked, limit, swap.exercise)


def test_a_remembered_limit_counts_until_it_is_denied(book):
    remembered = Profile(limits=("wrist-sore",))
    assert best(book, remembered, asked="push-up").exercise != "push-up"
    assert best(book, remembered, asked="push-up", denied=["wrist-sore"], lacks=["mat"]).exercise == "push-up"


def test_what_the_message_says_beats_the_profile(book):
    profile = Profile(has=("overhead-bar",))
    assert best(book, profile, asked="pull-up", lacks=["overhead-bar"]).exercise not in ("pull-up", "chin-up")


def test_a_household_stand_in_says_its_condition(book):
    swap = best(book, asked="goblet-squat", lacks=["kettlebell", "dumbbell"], has=["backpack"])
    assert swap.exercise == "goblet-squat" and swap.kind == "same"
    row = best(book, asked="pull-up", lacks=["overhead-bar"])
    assert row.exercise == "table-row" and "half your weight" in row.condition


def test_a_held_part_is_not_loaded(book):
    for swap in search(question(asked="push-up squat"), Message("x", profile=Profile(held=("calf",))), book)[0]:
        assert book.exercises[swap.exercise].rated.get("legs_used", 0) < 1
    assert not search(question(asked="push-up"), Message("x", profile=Profile(held=("all",))), book)[0]


def test_a_straight_arm_step_up_waits(book):
    swaps, _ = search(question(asked="lean-hold", limits=["too-easy"], wants=["harder"]), Message("x"), book)
    assert [s.exercise for s in swaps if s.recommended] == ["lean-hold"]


def test_the_same_question_gives_the_same_answer(book):
    q = question(asked="pull-up", lacks=["overhead-bar"])
    assert search(q, Message("x"), book) == search(q, Message("x"), load())


def test_the_coachs_choice_comes_first(book):
    q = question(asked="pull-up", lacks=["overhead-bar"])
    offered = search(q, Message("x"), book)[0]
    other = offered[1].exercise
    assert search(q, Message("x"), book, {"pull-up": other})[0][0].exercise == other


def test_every_option_and_refusal_names_rule_file_and_line(book):
    swaps, refused = search(question(asked="push-up", limits=["wrist-sore"]), Message("x"), book)
    for found in (*swaps, *refused):
        assert found.because and all(r.rule and ".yaml:" in r.at for r in found.because)

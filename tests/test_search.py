"""The graph search: allowed is never traded, the best is chosen, and everything says why."""

import pytest

from assistant.rulebook import load
from assistant.search import possible, search
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


def test_missing_kit_is_missing_whether_it_was_said_today_or_is_remembered(book):
    remembered = Profile(limits=("no-equipment-at-all",))
    for swap in search(question(asked="pull-up"), Message("x", profile=remembered), book)[0]:
        assert not book.exercises[swap.exercise].needs and swap.if_you_have is None
    there_now = question(asked="pull-up", has=["overhead-bar"])
    no_bar = Profile(limits=("no-overhead-bar",))
    assert {s.exercise for s in search(there_now, Message("x", profile=no_bar), book)[0]} & {"chin-up"}


def test_no_weights_but_a_kettlebell_leaves_only_the_kettlebell(book):
    q = question(asked="rear-raise", limits=["no-weights"], has=["kettlebell"])
    kit = kit_of(q, Message("x"), "rear-raise", book)
    assert "kettlebell" in kit.there and not {"dumbbell", "dumbbell-pair", "extra-load"} & kit.there


def test_if_you_have_names_all_that_is_lacking(book):
    for asked in list(book.exercises)[::5]:
        q = question(asked=asked, lacks=["anchor-mid", "anchor-high"])
        for swap in search(q, Message("x"), book)[0]:
            if swap.if_you_have:  # with that one thing in hand everything it needs is there
                had = question(asked=asked, lacks=["anchor-mid", "anchor-high"], has=[swap.if_you_have])
                assert meets(book.exercises[swap.exercise], kit_of(had, Message("x"), asked, book), book)


def test_a_stretch_is_swapped_only_for_one_of_the_same_region(book):
    possible_now = possible("lying-hamstring-stretch", question(asked="lying-hamstring-stretch"), Message("x"), book)
    assert "standing-hamstring-stretch" in possible_now
    assert not {"doorway-chest-stretch", "forearm-stretch", "counter-lat-stretch"} & possible_now


def test_a_stand_in_that_was_spoken_of_comes_before_one_the_household_has(book):
    q = question(asked="door-frame-row", has=["pole"], lacks=["low-bar"])
    met = meets(book.exercises["door-frame-row"], kit_of(q, Message("x"), "door-frame-row", book), book)
    assert met.said and "pole" in met.things


def test_of_two_conditions_neither_is_left_unsaid(book):
    row = book.exercises["dumbbell-row"]
    q = question(asked="pull-up", lacks=["overhead-bar"])
    met = meets(row, kit_of(q, Message("x"), "pull-up", book), book)
    assert met.things[0] == "backpack" and len(met.things) == 2
    assert "Packed tight" in met.condition and book.equipment[met.things[1]].condition in met.condition

"""The trade's own ladders: what every coach puts above and below what. Common practice, no source."""

from itertools import pairwise

import pytest

from assistant.rulebook import load
from assistant.search import search
from assistant.values import Asked, Kit, Limit, Message, Question, Swap


@pytest.fixture(scope="module")
def book():
    return load()


def offers(book, asked: str, limits=(), has=(), lacks=(), wants=("swap",), prefer=None) -> list[Swap]:
    question = Question(
        tuple(wants),
        (Asked(asked, asked, 0, 1, "name"),),
        tuple(Limit(i, book.limits[i].kind, None, i, 0, 1) for i in limits),
        tuple(Kit(i, i, 0, 1) for i in has),
        tuple(Kit(i, i, 0, 1) for i in lacks),
    )
    return list(search(question, Message("?"), book, {asked: prefer} if prefer else None)[0])


def best(book, asked: str, **given) -> Swap:
    return next(swap for swap in offers(book, asked, **given) if swap.recommended)


LADDERS = [  # each from the hardest down
    ("lean-push-up", "push-up", "low-incline-push-up", "mid-incline-push-up", "high-incline-push-up", "wall-push-up"),
    ("wall-handstand-shoulder-tap", "elevated-pike-shoulder-tap", "pike-shoulder-tap", "plank-shoulder-tap"),
    ("hollow-to-l-sit", "v-up", "tuck-up", "tuck-hollow-hold"),
    ("pull-up", "band-assisted-pull-up", "foot-assisted-pull-up"),
    ("row-rotate-press", "row-rotate"),
]


@pytest.mark.parametrize(("upper", "lower"), [rungs for ladder in LADDERS for rungs in pairwise(ladder)])
def test_each_rung_is_a_step_down_from_the_one_above_and_never_a_step_up(upper, lower, book):
    has = ("overhead-bar", "band-long")  # so that kit is not what decides
    down = [s for s in offers(book, upper, has=has, wants=["easier"], prefer=lower) if s.exercise == lower]
    assert [swap.kind for swap in down] == ["easier"]
    assert upper not in [s.exercise for s in offers(book, lower, has=has, wants=["easier"], prefer=upper)]
    assert upper not in [s.exercise for s in offers(book, lower, has=has, wants=["swap"], prefer=upper)]


@pytest.mark.parametrize(
    ("has", "lacks", "rows"),
    [
        ([], [], {"table-row"}),
        (["low-bar"], [], {"inverted-row"}),
        (["rings-low"], [], {"inverted-row"}),
        (["straps"], ["table"], {"inverted-row", "incline-row"}),
        (["dumbbell"], ["table"], {"dumbbell-row"}),
        (["bedsheet"], ["table", "backpack", "low-bar"], {"sheet-door-row"}),
        ([], ["table", "door"], {"dumbbell-row", "backpack-row"}),  # a packed backpack in the place of the dumbbell
    ],
)
@pytest.mark.parametrize("asked", ["pull-up", "chin-up"])
def test_without_a_bar_the_pull_becomes_a_row_with_what_is_there(asked, has, lacks, rows, book):
    gone = ["overhead-bar", *lacks]
    assert best(book, asked, limits=["no-overhead-bar"], has=has, lacks=gone).exercise in rows


def test_without_a_bar_and_with_nothing_at_all_it_stays_a_pull_that_needs_nothing(book):
    swap = best(book, "pull-up", limits=["no-equipment-at-all"])
    assert not book.exercises[swap.exercise].needs and "vertical-pull" in book.exercises[swap.exercise].trains


@pytest.mark.parametrize("asked", ["pull-up", "chin-up", "neutral-grip-pull-up"])
@pytest.mark.parametrize("has", [["overhead-bar"], ["overhead-bar", "band-long"], ["rings-high", "chair"]])
def test_whoever_has_no_pull_up_yet_gets_an_assisted_one_first(asked, has, book):
    assisted = {"foot-assisted-pull-up", "band-assisted-pull-up"}
    offered = [s.exercise for s in offers(book, asked, limits=["zero-reps"], has=has, wants=["easier"])]
    assert offered[0] in assisted and asked not in offered
    strict = [offered.index(one) for one in ("pull-up", "chin-up", "neutral-grip-pull-up") if one in offered]
    assert all(offered.index(one) < place for one in assisted & set(offered) for place in strict)


def test_a_push_up_that_does_not_go_yet_goes_against_something_higher(book):
    assert best(book, "push-up", limits=["zero-reps"], wants=["easier"]).exercise in (
        "mid-incline-push-up", "high-incline-push-up",
    )  # fmt: skip
    steps = [s.exercise for s in offers(book, "lean-push-up", wants=["easier"])]
    assert "push-up" in steps  # the lean taken out, the floor kept


def test_wall_taps_without_the_wall_or_the_courage_become_pike_taps_on_a_chair_then_plank_taps(book):
    afraid = offers(book, "wall-handstand-shoulder-tap", limits=["fear-upside-down"])
    assert afraid[0].exercise == "elevated-pike-shoulder-tap" and afraid[0].aid == "chair" and afraid[0].condition
    dizzy = best(book, "elevated-pike-shoulder-tap", limits=["dizzy-position-change"])
    assert dizzy.exercise == "plank-shoulder-tap"


def test_when_the_legs_do_not_stay_straight_in_the_v_up_they_are_tucked(book):
    assert best(book, "v-up", limits=["legs-bend"]).exercise == "tuck-up"


@pytest.mark.parametrize(
    ("limits", "has", "aid"),
    [
        (["no-rings"], ["band-long"], None),
        (["no-bands"], ["dumbbell-pair"], None),
        (["no-bands", "no-weights"], [], "bottle-pair"),
    ],
)
def test_bands_give_way_to_dumbbells_and_dumbbells_to_water_bottles(limits, has, aid, book):
    swap = best(book, "row-rotate-press", limits=limits, has=has)
    assert (swap.exercise, swap.kind, swap.aid) == ("row-rotate-press", "same", aid)
    assert bool(swap.condition) == bool(aid)  # what is lent by the household says when it is safe


@pytest.mark.parametrize("given", [{"wants": ["easier"]}, {"limits": ["overhead-stiff"]}])
def test_of_row_rotate_and_press_the_press_is_left_out_first(given, book):
    assert best(book, "row-rotate-press", **given).exercise == "row-rotate"

"""Properties of the search over random followers: a limit is never broken, nothing missing is needed, held parts rest."""

from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.rulebook import Rulebook, load
from assistant.search import possible, search
from assistant.values import Asked, Denied, Kit, Limit, Message, Plan, PlanItem, Profile, Question, Swap

BOOK = load()
ARM = BOOK.regions["arm"].parts
LEG = BOOK.regions["leg"].parts
settings.register_profile("search", deadline=None)  # the first question about an exercise works out its ways
settings.load_profile("search")


@cache
def second_book() -> Rulebook:
    """The same cards, read a second time."""
    return load(BOOK.root)


def some(of, most: int):
    return st.lists(st.sampled_from(sorted(of)), max_size=most, unique=True).map(tuple)


@st.composite
def followers(draw) -> tuple[Question, Message]:
    """A question of somebody: limits said and remembered, kit there and gone, held parts, a plan, any wish."""
    ids = draw(st.lists(st.sampled_from(sorted(BOOK.exercises)), min_size=1, max_size=2, unique=True))
    abouts = st.sampled_from([None, *ids])
    question = Question(
        draw(some(("swap", "easier", "harder", "ready", "dose", "form", "why", "kit", "whole-session"), 2)),
        tuple(Asked(i, i, 0, 1, "name") for i in ids),
        tuple(Limit(i, BOOK.limits[i].kind, None, i, 0, 1, draw(abouts)) for i in draw(some(BOOK.limits, 3))),
        tuple(Kit(i, i, 0, 1) for i in draw(some(BOOK.equipment, 3))),
        tuple(Kit(i, i, 0, 1) for i in draw(some(BOOK.equipment, 6))),
        tuple(Denied(i, i, 0, 1) for i in draw(some(BOOK.limits, 2))),
    )
    profile = Profile(
        has=draw(some(BOOK.equipment, 4)),
        limits=draw(some(BOOK.limits, 3)),
        held=draw(some((*ARM, *LEG, "low-back", "all", "somewhere"), 1)),
    )
    items = tuple(PlanItem(f"A{n}", i) for n, i in enumerate(draw(some(BOOK.exercises, 4)), 1))
    return question, Message("?", Plan("p", "p", items) if items else None, profile=profile)


def in_force(question: Question, message: Message) -> list[str]:
    """The limits that count: said now, or remembered and not denied now."""
    denied = {d.id for d in question.denied}
    return [limit.id for limit in question.limits] + [i for i in message.profile.limits if i not in denied]


def gone(question: Question, message: Message) -> set[str]:
    """What is not there: said to be missing or taken by a limit, unless it is said to be there after all."""
    taken = {thing for i in in_force(question, message) for thing in BOOK.limits[i].without}
    taken |= set(BOOK.equipment) if "all-equipment" in taken else set()
    seat = {"wheelchair"} & set(message.profile.has)  # who sits in one is not asked to leave it
    return (taken - seat | {kit.id for kit in question.lacks}) - {kit.id for kit in question.has}


def too_much(exercise: str, restricts) -> bool:
    asks = BOOK.exercises[exercise].asks
    signs = {"over": lambda v, b: v > b, "from": lambda v, b: v >= b, "under": lambda v, b: v < b}
    return any(all(signs[b.how](asks.get(q, 0), b.value) for q, b in one.items()) for one in restricts)


def ways_to_meet(exercise: str) -> list[list[set[str]]]:
    """For each need the sets of things of which one will do: what it names, what serves as that, its stand-ins."""
    found = []
    for line in BOOK.exercises[exercise].needs:
        named = set(line.split(" or "))
        sets = [{e} for e, card in BOOK.equipment.items() if e in named or named & set(card.serves_as)]
        sets += [set(s.things) for s in BOOK.standins.values() if exercise in s.only_for and named & set(s.for_kit)]
        found.append(sets)
    return found


def offers(question: Question, message: Message) -> list[Swap]:
    return list(search(question, message, BOOK)[0])


@given(followers())
def test_no_answer_breaks_a_limit_said_or_remembered(follower):
    for swap in offers(*follower):
        broken = [
            limit for limit in map(BOOK.limits.get, in_force(*follower))
            if limit.restricts_all or too_much(swap.exercise, limit.restricts)
        ]  # fmt: skip
        if swap.kind == "same":  # may stay with the aid that the limit's own card names
            assert all(limit.stays_with for limit in broken), (swap.exercise, broken)
            assert not broken or swap.aid in {limit.stays_with for limit in broken}
        else:
            assert not broken, (swap.exercise, [limit.id for limit in broken])


@given(followers())
def test_no_answer_needs_a_missing_thing(follower):
    missing = gone(*follower)
    for swap in offers(*follower):
        lacking = [sets for sets in ways_to_meet(swap.exercise) if all(things & missing for things in sets)]
        assert not lacking, (swap.exercise, swap.if_you_have, lacking)
        assert swap.if_you_have not in missing


@given(followers())
def test_only_household_things_and_what_was_spoken_of_or_planned_are_leant_on(follower):
    question, message = follower
    items = message.plan.items if message.plan else ()
    for swap in offers(question, message):
        known = {kit.id for kit in question.has} | set(message.profile.has) | {swap.if_you_have}
        known |= {e for e, card in BOOK.equipment.items() if card.household}
        planned = [swap.asked, *(item.exercise for item in items)]
        known |= {line.split(" or ")[0] for i in planned for line in BOOK.exercises[i].needs}
        for sets in ways_to_meet(swap.exercise):
            assert any(things <= known for things in sets), (swap.exercise, sets)


@given(followers())
def test_no_answer_loads_a_held_part(follower):
    question, message = follower
    for swap in offers(question, message):
        asks = BOOK.exercises[swap.exercise].asks
        for part in message.profile.held:
            assert part in (*ARM, *LEG), f"{part} holds everything, and {swap.exercise} was offered"
            if part in ARM:
                assert asks.get("hands_used", 0) < 1 and not asks.get("hand_share") and not asks.get("grip_share")
            else:
                assert all(asks.get(name, 0) < 1 for name in ("legs_used", "impact", "kneel_pressure"))


@given(followers())
def test_what_is_offered_may_be_offered_and_says_why_and_one_is_recommended(follower):
    question, message = follower
    swaps = offers(question, message)
    for asked in question.exercises:
        mine = [swap for swap in swaps if swap.asked == asked.id]
        may = possible(asked.id, question, message, BOOK)
        assert [swap.recommended for swap in mine] == [True] + [False] * (len(mine) - 1) if mine else True
        assert {swap.exercise for swap in mine if not swap.if_you_have} <= may
        assert len({swap.exercise for swap in mine}) == len(mine) <= 4
        assert all(swap.way[0] == asked.id and swap.way[-1] == swap.exercise and swap.because for swap in mine)


@given(followers())
def test_nothing_harder_is_offered_to_someone_who_did_not_ask_for_more(follower):
    question, message = follower
    asks_for_more = {"harder", "ready"} & set(question.wants)
    asks_for_more |= {i.id for i in question.limits if BOOK.limits[i.id].wants == "harder"}
    if not asks_for_more:
        assert not [swap.exercise for swap in offers(question, message) if swap.kind == "harder"]


@settings(max_examples=25)
@given(followers())
def test_the_same_question_gives_the_same_answer(follower):
    question, message = follower
    again = Question(**{name: getattr(question, name) for name in question.__dataclass_fields__})
    assert search(question, message, BOOK) == search(again, message, BOOK) == search(question, message, second_book())

"""Whether the loads of two exercises can be compared, and whether they are nearly the same."""

from __future__ import annotations

from assistant.dose.case import GRIP, HAND, IMPACT, Case


def shares(case: Case) -> tuple[float, float] | None:
    """The loads before and after, where they can be compared: same pattern, same quantity, no jump, no skill."""
    numbers = case.book.doserules["when-to-compute"].numbers
    before, after = case.asked.asks, case.option.asks
    skill = any(card.trains[-1] == "skill" or card.asks.get(IMPACT, 0) > 0 for card in (case.asked, case.option))
    if skill or case.asked.trains[0] != case.option.trains[0]:
        return None
    for quantity, other in ((HAND, GRIP), (GRIP, HAND)):
        pair = before.get(quantity, 0.0), after.get(quantity, 0.0)
        if all(pair) and not (before.get(other) or after.get(other)):
            fits = numbers["least_ratio"] <= pair[1] / pair[0] <= numbers["most_ratio"]
            return pair if fits else None
    return None


def near(case: Case) -> bool:
    """Whether the loads can be compared and are the same within the rule's share."""
    both = shares(case)
    return bool(both) and abs(both[1] / both[0] - 1) <= case.book.doserules["same-time"].numbers["near_equal"]

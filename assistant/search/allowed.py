"""Whether an exercise keeps within what stands in the follower's way: limits and holds restrict demands, nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from weakref import WeakKeyDictionary

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise, Restriction
from assistant.values import Limit, Message, Question, Reason


@dataclass(frozen=True)
class Standing:
    """A limit in force: its card's id, its restrictions, the words it came from (empty when remembered)."""

    id: str
    words: str
    restricts: tuple[Restriction, ...]
    everything: bool = False
    limit: Limit | None = None


def standing_limits(question: Question, message: Message, book: Rulebook) -> list[Standing]:
    """Limits said now, then those remembered and not denied now, then parts held by a finding of the screen."""
    denied = {d.id for d in question.denied}
    result = []
    for limit in question.limits:
        card = book.limits.get(limit.id)
        if card:
            result.append(Standing(limit.id, limit.words, tuple(card.restricts), card.restricts_all, limit))
    known = {standing.id for standing in result}
    for name in message.profile.limits:
        card = book.limits.get(name)
        if card and name not in known and name not in denied:
            result.append(Standing(name, "", tuple(card.restricts), card.restricts_all))
    for part in message.profile.held:
        region = next((r for r in book.regions.values() if part in r.parts), None)
        everything = part == "all" or region is None or region.restricts_all
        result.append(Standing(f"held:{part}", "", tuple(region.restricts) if region else (), everything))
    return result


def broken_by(card: Exercise, standings: list[Standing]) -> tuple[Standing, Restriction] | None:
    """The first limit that `card` breaks with the restriction it breaks; None when it is allowed."""
    asks = card.asks
    for standing in standings:
        if standing.everything:
            return standing, {}
        for restriction in standing.restricts:
            if all(bound.holds(asks.get(name, 0.0)) for name, bound in restriction.items()):
                return standing, restriction
    return None


def reason_of(card: Exercise, standing: Standing, restriction: Restriction, book: Rulebook) -> Reason:
    """A broken limit as a reason with its figures."""
    says = next((_figure(card, name, bound, standing, book) for name, bound in restriction.items()), "")
    return _reason(standing, book, says)


def breaks(card: Exercise, standing: Standing) -> bool:
    """Whether `card` breaks this one limit.

    >>> from assistant.rulebook.cards import Bound, Exercise
    >>> sore = Standing("wrist-sore", "", ({"wrist_extension_deg": Bound(how="over", value=30)},))
    >>> card = dict(name="", family="", trains=[], position="", dose="", feel="", cues="", loads="", goes_wrong="", ready="")
    >>> breaks(Exercise(exercise="push-up", rated={"wrist_extension_deg": 90}, **card), sore)
    True
    """
    return broken_by(card, [standing]) is not None


_BREAKING: WeakKeyDictionary[Rulebook, dict[str, frozenset[str]]] = WeakKeyDictionary()
_USED: WeakKeyDictionary[Rulebook, dict[str, Mapping[str, float]]] = WeakKeyDictionary()


def breaking(standings: list[Standing], book: Rulebook) -> frozenset[str]:
    """Every exercise of the book that breaks any of these limits."""
    known = _BREAKING.setdefault(book, {})
    for standing in standings:
        if standing.id not in known:
            known[standing.id] = frozenset(id_ for id_, card in book.exercises.items() if breaks(card, standing))
    return frozenset().union(*(known[standing.id] for standing in standings))


def left_of_limits(card: Exercise, standings: list[Standing], book: Rulebook) -> float:
    """How near `card` comes to the limits said now: the largest share of any bound it still uses, 0 to 1."""
    known = _USED.setdefault(book, {})
    most = 0.0
    for standing in standings:
        if standing.limit is not None:
            if standing.id not in known:
                known[standing.id] = {id_: _used(one, standing) for id_, one in book.exercises.items()}
            most = max(most, known[standing.id][card.id])
    return most


def _used(card: Exercise, standing: Standing) -> float:
    """The largest share of a restriction that `card` uses; of its bounds the one least used counts."""
    shares = (
        min(_share(card.asks.get(name, 0.0), bound.value) for name, bound in restriction.items())
        for restriction in standing.restricts
    )
    return max(shares, default=0.0)


def _share(value: float, bound: float) -> float:
    return min(value / bound, 1.0) if bound > 0 else float(value > 0)


def _reason(standing: Standing, book: Rulebook, says: str) -> Reason:
    words = book.orders["words"].texts
    if standing.id.startswith("held:"):
        part = standing.id.removeprefix("held:")
        region = next((r for r in book.regions.values() if part in r.parts), None)
        held = words["held"].format(part=part)
        return region.reason(part, held) if region else Reason("held", "regions.yaml:1", part, "", held)
    return book.limits[standing.id].reason(standing.words, says)


def _figure(card: Exercise, name: str, bound, standing: Standing, book: Rulebook) -> str:
    quantity = book.quantities.get(name)
    value = card.asks.get(name, 0.0)
    shown = {"percent": f"{value:.0%}", "degrees": f"{value:.0f}°"}.get(getattr(quantity, "shown_as", ""), f"{value:g}")
    edge = {"percent": f"{bound.value:.0%}", "degrees": f"{bound.value:.0f}°"}.get(
        getattr(quantity, "shown_as", ""), f"{bound.value:g}"
    )
    allowed = {"over": "at most", "from": "less than", "under": "at least"}[bound.how]
    return (
        book.orders["words"]
        .texts["breaks"]
        .format(quantity=quantity.says if quantity else name, value=shown, limit=standing.id, bound=f"{allowed} {edge}")
    )

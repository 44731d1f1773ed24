"""What course an answer takes: whether the asked exercise may stay, which side of the ladder is wished, what load fits."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Exercise
from assistant.search.allowed import Standing, breaks
from assistant.search.kit import Met
from assistant.search.rank import Wish, load_of
from assistant.values import Asked, Message, Question, Reason

_WORDS_ONLY = {"form", "why", "dose", "kit", "ready", "feedback", "other"}


@dataclass(frozen=True)
class Course:
    """`stays`: None = the asked exercise is out; "" = stays as it is; else the aid or change it stays with.

    `easing`: limits that say where an option must ask for less than the asked exercise."""

    wish: Wish
    stays: str | None
    stays_second: bool = False
    met: Met | None = None
    easing: tuple[Standing, ...] = ()
    asked_demands: tuple[tuple[str, float], ...] = ()
    no_harder: bool = False
    wait: bool = False
    because: tuple[Reason, ...] = ()

    @property
    def only_harder(self) -> bool:
        """Where someone asks for more and the exercise stays, only what is harder is worth naming beside it."""
        return self.wish.kind == "harder" and self.stays is not None

    def refuses(self, card: Exercise, side: str, book: Rulebook) -> Reason | None:
        """Why an allowed exercise on that `side` of the ladder is still no answer to this wish, or None."""
        if self.no_harder and side == "harder":
            return card.reason("", book.orders["words"].texts["too_hard"])
        if self.wait and card.asks.get("straight_arm_load", 0) >= book.orders["targets"].costs["straight_arm_wait"]:
            return card.reason("", book.orders["words"].texts["waits"])
        if not self.easing:
            return None
        demands = dict(self.asked_demands)
        for standing in self.easing:
            for restriction in standing.restricts:
                if all(card.asks.get(n, 0.0) >= demands.get(n, 0.0) > 0 for n in restriction):
                    return book.limits[standing.id].reason(standing.words)
        return None


def course_of(
    asked: Asked, card: Exercise, question: Question, standings: list[Standing], met: Met | None, message: Message,
    book: Rulebook,
) -> Course:  # fmt: skip
    """The course for one asked exercise."""
    mine = [s for s in standings if s.limit is None or s.limit.about in (None, asked.id)]
    broken = [s for s in standings if breaks(card, s)]
    aids = [book.limits[s.id].stays_with for s in broken if s.id in book.limits and book.limits[s.id].stays_with]
    wishes = _wishes(question, mine, book)
    easing = tuple(
        s for s in mine if s.limit is not None and s.restricts and not breaks(card, s) and _touches(card, s, book)
        and _about(s, asked, question)
    )  # fmt: skip
    because = tuple(book.limits[s.id].reason(s.words) for s in mine if s.id in book.limits and s.limit)
    kind, share = _kind_and_share(wishes, mine, card, book)
    stays = _stays(question, met, broken, aids, easing, kind, wishes, mine, book)
    harder = kind == "harder"
    second = stays is not None and kind != "swap" and not _keep(mine, book)
    return Course(
        Wish(kind, share * load_of(card, book)), stays, stays_second=second, met=met, easing=easing,
        asked_demands=tuple(card.asks.items()), no_harder=not harder, wait=harder, because=because,
    )  # fmt: skip


def _touches(card: Exercise, standing: Standing, book: Rulebook) -> bool:
    """Whether the asked exercise asks for any of what the limit restricts, though within the bounds; limbs only count."""
    return any(
        all(card.asks.get(name, 0.0) > 0 and not _counted(name, book) for name in restriction)
        for restriction in standing.restricts
    )


def _counted(quantity: str, book: Rulebook) -> bool:
    return quantity in book.quantities and book.quantities[quantity].counted


def _about(standing: Standing, asked: Asked, question: Question) -> bool:
    return standing.limit.about == asked.id or (standing.limit.about is None and len(question.exercises) == 1)


def _wishes(question: Question, standings: list[Standing], book: Rulebook) -> list[str]:
    """Wishes in the message, then what its limits ask for by themselves."""
    wishes = list(question.wants)
    wishes += [
        book.limits[s.id].wants for s in standings if s.limit and s.id in book.limits and book.limits[s.id].wants
    ]
    return list(dict.fromkeys(wishes))


def _kind_and_share(wishes: list[str], standings, card: Exercise, book: Rulebook) -> tuple[str, float]:
    """The side of the ladder and the share of the asked load that fits."""
    targets = book.orders["targets"].costs
    changes = {book.limits[s.id].changes_dose for s in standings if s.limit and s.id in book.limits}
    if "zero-reps" in changes or any(s.id == "zero-reps" for s in standings if s.limit):
        return "easier", targets["zero_reps"]
    if "return" in changes or any(s.id == "back-after-break" for s in standings if s.limit):
        return "easier", targets["restart"]
    for wish in wishes:
        if wish == "easier":
            return "easier", targets["easier"]
        if wish in ("harder", "ready"):
            return "harder", targets["harder"]
    sore = any(s.limit and s.limit.kind in ("pain", "skin") for s in standings)
    return "swap", targets["sore"] if sore else 1.0


def _keep(standings, book: Rulebook) -> bool:
    """Limits that are met by another dose of the same exercise."""
    return any(
        s.limit and s.id in book.limits and book.limits[s.id].wants in ("dose", "form") for s in standings
    )  # fmt: skip


def _stays(question: Question, met, broken, aids, easing, kind, wishes, mine, book: Rulebook) -> str | None:
    if met is None or easing or len(aids) < len(broken):
        return None
    if aids:
        return aids[0]
    only_words = bool(wishes) and all(wish in _WORDS_ONLY for wish in wishes)
    if kind == "harder" or _keep(mine, book) or only_words:
        return ""
    said = [s for s in mine if s.limit is not None]
    if kind == "swap" and (said or question.lacks):
        return ""
    return None if kind == "easier" or "swap" in wishes else ""

"""The pages that show the book to the coach: families, one exercise, the ladder of a family, the map of what has no answer."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import Response

from assistant.atlas import gauge, ladder, leaf, shelves
from assistant.check.gapmap import square
from assistant.rulebook import Rulebook
from assistant.rulebook.cards import Limit
from assistant.web.signin import Coach
from assistant.web.spoken import Names

router = APIRouter(prefix="/book")
WAIT_S = 1.5  # for the map: with a small book or one looked at before, the first look shows all of it
Looked = Annotated[str, Query(max_length=100)]


@router.get("")
def families(request: Request, coach: Coach, q: Looked = "") -> Response:
    """Every family with its exercises, or those called like `q`."""
    book = request.app.state.book()
    every, found = shelves(book), shelves(book, q)
    return _page(request, coach, "book.html", shelves=found, every=every, looked_for=" ".join(q.split()))


@router.get("/exercise/{exercise}")
def exercise(request: Request, coach: Coach, exercise: str) -> Response:
    """One exercise of the book."""
    return _page(request, coach, "book_exercise.html", leaf=leaf(exercise, request.app.state.book()), gauge=gauge)


@router.get("/family/{family}")
def family(request: Request, coach: Coach, family: str, here: Looked = "") -> Response:
    """The ladder of a family, with the exercise `here` marked."""
    return _page(request, coach, "book_ladder.html", ladder=ladder(family, request.app.state.book(), here))


@router.get("/gaps")
def gaps(request: Request, coach: Coach) -> Response:
    """Families × limits, as far as they have been looked at."""
    book = request.app.state.book()
    columns = request.app.state.gapmap.columns(book, WAIT_S)
    return _page(request, coach, "book_gaps.html", book=book, columns=columns, limits=_by_kind(book),
                 counts=_counts(columns))  # fmt: skip


@router.get("/gaps/{family}/{limit}")
def gaps_of(request: Request, coach: Coach, family: str, limit: str) -> Response:
    """One square of the map: every exercise of the family under this limit, and the card to change."""
    book = request.app.state.book()
    shown, card, lines = square(family, limit, book)
    return _page(request, coach, "book_square.html", family=shown, limit=card, lines=lines)


def _by_kind(book: Rulebook) -> list[tuple[str, list[Limit]]]:
    """The limits by kind, in the order in which the kinds come up in the book; what is of no kind comes last."""
    kinds = list(dict.fromkeys(limit.kind for limit in book.limits.values() if limit.kind != "other")) + ["other"]
    ordered = sorted(book.limits.values(), key=lambda limit: kinds.index(limit.kind))
    return [(kind, list(some)) for kind, some in groupby(ordered, key=lambda limit: limit.kind)]


def _counts(columns: Mapping[str, Mapping[str, Any]]) -> dict[str, int]:
    """How many squares of each kind are known, and how many questions they stand for."""
    known = [one for column in columns.values() for one in column.values()]
    counts = {kind: sum(one.kind == kind for one in known) for kind in ("answered", "thin", "in words", "gap")}
    return counts | {
        "questions": sum(one.of for one in known),
        "in words only": sum(one.in_words for one in known),
        "no answer": sum(one.gaps for one in known),
    }


def _page(request: Request, coach: Coach, template: str, **context: Any) -> Response:
    names = Names(request.app.state.book())
    return request.app.state.pages.page(request, template, coach=coach, names=names, **context)

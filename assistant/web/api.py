"""The doors for programs: a message in, its status out, health."""

from __future__ import annotations

import re
from typing import Annotated, Any

from fastapi import APIRouter, Header, Request
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from assistant.values import NotFound
from assistant.web.follower import COOKIE
from assistant.web.problems import Problem

router = APIRouter()
Id = Annotated[str, Field(min_length=1, max_length=200)]


class Incoming(BaseModel):
    """A message as it comes in. `follower` is a follower's own link token, or with an API key also a follower's id."""

    model_config = ConfigDict(extra="forbid", strict=True)
    text: str = Field(min_length=1)
    follower: Id
    plan: Id | None = None
    item: Annotated[str, Field(min_length=1, max_length=16)] | None = None
    thread: Id | None = None


@router.post("/messages", status_code=202)
def take_in(
    request: Request,
    body: Incoming,
    idempotency_key: Annotated[str | None, Header()] = None,
    authorization: Annotated[str | None, Header()] = None,
) -> JSONResponse:
    """Take a message in; 202 with its id, thread, status, and the notice the follower is to see at once."""
    state = request.app.state
    if idempotency_key is not None and not re.fullmatch(r"[!-~]{1,200}", idempotency_key):
        raise Problem("bad-key")
    coach = _coach_of_key(request, authorization) if authorization is not None else None
    state.pace.message(f"{coach or ''}/{body.follower}")
    receipt = state.inbox.take(coach, body.follower, body.text, body.plan, body.item, body.thread, idempotency_key)
    told = {"id": receipt.id, "thread": receipt.thread, "status": receipt.status, "notice": receipt.notice}
    if not receipt.read:
        state.drafter.taken(receipt.coach)
    return JSONResponse(told, 202, {"Location": f"/messages/{receipt.id}"})


def _coach_of_key(request: Request, authorization: str) -> str:
    coach = request.app.state.inbox.coach_of_key(bearer(authorization))
    if coach is None:
        raise Problem("not-signed-in", "This API key is not known. Check it, or make a new one.",
                      {"WWW-Authenticate": "Bearer"})  # fmt: skip
    return coach


@router.get("/messages/{message}")
def status(request: Request, message: str, authorization: Annotated[str | None, Header()] = None) -> dict[str, Any]:
    """How far a message is: to the follower who wrote it, or to the coach's key."""
    state = request.app.state
    shown = bearer(authorization) if authorization is not None else request.cookies.get(COOKIE, "")
    if coach := state.inbox.coach_of_key(shown) if authorization is not None else None:
        return state.inbox.status(coach, message, None)
    try:
        known = state.inbox.follower(shown)
    except NotFound:
        raise Problem("not-signed-in", headers={"WWW-Authenticate": "Bearer"}) from None
    return state.inbox.status(known["coach"], message, known["id"])


def bearer(authorization: str) -> str:
    """The token in an Authorization header; raises a problem when it is of another kind.

    >>> bearer("Bearer abc")
    'abc'
    """
    kind, _, token = authorization.partition(" ")
    if kind.lower() != "bearer" or not token.strip():
        raise Problem("not-signed-in", headers={"WWW-Authenticate": "Bearer"})
    return token.strip()


@router.get("/health")
def health(request: Request) -> Response:
    """200 when the store answers and the rulebook is whole."""
    state = request.app.state
    mistakes = [str(mistake) for mistake in state.book_mistakes()]
    alive = state.inbox.healthy()
    answers = "answers" if alive else "does not answer"
    report = {"store": answers, "rulebook": state.book().fingerprint, "mistakes": mistakes}
    if alive and not mistakes:
        return JSONResponse({"status": "ok", **report})
    wrong = [] if alive else ["the store does not answer"]
    wrong += [f"mistakes in the rules: {len(mistakes)}; the last good ones are in use"] if mistakes else []
    problem = Problem("not-ready", f"{'; '.join(wrong)}. Mend what is listed here.".capitalize(), more=report)
    return JSONResponse(problem.members(), 503, media_type="application/problem+json")

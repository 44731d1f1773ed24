"""The follower's page: a conversation beside the session."""

from __future__ import annotations

import hashlib
import secrets
from typing import Annotated, Any

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from assistant.values import BadInput, NotFound
from assistant.web import board
from assistant.web.problems import Problem
from assistant.web.signin import set_cookie
from assistant.web.spoken import Names

COOKIE = "follower"
COOKIE_AGE_S = 365 * 24 * 3600
WHOLE_DAY = "whole-day"
router = APIRouter()
Field = Annotated[str, Form()]


@router.get("/ask")
def ask(request: Request) -> Response:
    """Back to the follower's own page where this browser knows it, else a word on how to get a link."""
    token = request.cookies.get(COOKIE, "")
    try:
        known = request.app.state.inbox.follower(token)
    except NotFound:
        return request.app.state.pages.page(request, "no_link.html")
    return RedirectResponse(f"/ask/{known['token']}", 303)


@router.get("/ask/{token}")
def conversation(request: Request, token: str) -> Response:
    """The page behind a follower's link or the link of one conversation."""
    response = _page(request, token)
    if request.app.state.inbox.conversation(token).token == token:  # a link to one conversation opens only that one
        set_cookie(request, response, COOKIE, token, COOKIE_AGE_S)
    return response


@router.get("/ask/{token}/news")
def news(request: Request, token: str) -> Response:
    """The turns alone, for the page's script to look for a reply."""
    return request.app.state.pages.fragment(request, "ask_news.html", **_context(request, token))


@router.post("/ask/{token}")
def send(request: Request, token: str, text: Field = "", item: Field = "", key: Field = "") -> Response:
    """Take what was written in, then show the page again with the receipt or the notice."""
    state = request.app.state
    talk = state.inbox.conversation(token)
    known = state.inbox.follower(talk.token)
    try:
        state.pace.message(f"{known['coach']}/{known['id']}")
        plan, slot = talk.plan.id if talk.plan else None, None if item in ("", WHOLE_DAY) else item
        key = _key(key, text, item)
        receipt = state.inbox.receive(known["coach"], known["id"], text, plan, slot, talk.thread, key)
    except (BadInput, Problem) as error:
        problem = error if isinstance(error, Problem) else Problem("bad-fields", str(error))
        return _page(request, token, problem.status, text=text, item=item, error=problem.detail)
    return RedirectResponse(f"/ask/{token}#m-{receipt.id}", 303)


def _key(key: str, text: str, item: str) -> str | None:
    """The form's key for this very text: a double tap gives one message, another text after Back gives another."""
    return f"{key}.{hashlib.sha256(f'{item} {text}'.encode()).hexdigest()[:16]}" if key else None


def _context(request: Request, token: str) -> dict[str, Any]:
    state = request.app.state
    talk = state.inbox.conversation(token)
    items = [slot.item for slot in talk.plan.items] if talk.plan else []
    return {"talk": talk, "token": token, "names": Names(state.book()), "pairs": board.pairs(items),
            "coach_name": state.inbox.coach_name(talk.coach)}  # fmt: skip


def _page(request: Request, token: str, status: int = 200, text: str = "", item: str = "", error: str = "") -> Response:
    return request.app.state.pages.page(
        request, "ask.html", status=status, **_context(request, token), key=secrets.token_urlsafe(12),
        typed=text, about=item or WHOLE_DAY, whole_day=WHOLE_DAY, error=error,
    )  # fmt: skip

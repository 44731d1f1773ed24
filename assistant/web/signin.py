"""The coach's sign-in page and the guard before the coach's pages."""

from __future__ import annotations

import threading
from dataclasses import dataclass
from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from assistant.values import NotAllowed
from assistant.web.problems import Problem

COOKIE = "coach"
router = APIRouter()
Short = Annotated[str, Form(max_length=200)]
_verifying = threading.BoundedSemaphore(2)  # one argon2 check takes 64 MiB and a core: never more than two at once


@dataclass(frozen=True)
class SignedIn:
    """The coach behind a request: id and the name shown."""

    coach: str
    name: str


class SignInFirst(Exception):
    """The page is for a signed-in coach: go to the sign-in page, then come back to `page`."""

    def __init__(self, page: str):
        super().__init__(page)
        self.page = page


def signed_in(request: Request) -> SignedIn:
    """The signed-in coach; else the sign-in page, or a 401 for the page's script."""
    inbox = request.app.state.inbox
    if coach := inbox.signed_in(request.cookies.get(COOKIE, "")):
        return SignedIn(coach, inbox.coach_name(coach))
    if request.url.path.endswith("/news"):
        raise Problem("not-signed-in", "The session is over. Sign in again.")
    raise SignInFirst(request.url.path if request.method == "GET" else "/inbox")


Coach = Annotated[SignedIn, Depends(signed_in)]


def to_sign_in(request: Request, error: Exception) -> Response:
    """Send whoever is not signed in to the sign-in page, and back again afterwards."""
    return RedirectResponse(f"/sign-in?then={quote(getattr(error, 'page', '/inbox'))}", 303)


@router.get("/sign-in")
def sign_in_page(request: Request, then: str = "/inbox") -> Response:
    return request.app.state.pages.page(request, "sign_in.html", then=_own(then), name="", error="")


@router.post("/sign-in")
def sign_in(request: Request, name: Short = "", password: Annotated[str, Form(max_length=1000)] = "",
            then: Short = "/inbox") -> Response:  # fmt: skip
    """A session for the right name and password; the same page with one sentence for everything else."""
    state = request.app.state
    state.pace.sign_in(name, request.client.host if request.client else "")
    try:
        with _verifying:
            session = state.inbox.sign_in(name.strip(), password, state.settings.session_hours)
    except NotAllowed:
        said = "That name and password do not belong together. Check both, then sign in again."
        return state.pages.page(request, "sign_in.html", status=401, then=_own(then), name=name, error=said)
    response = RedirectResponse(_own(then), 303)
    set_cookie(request, response, COOKIE, session, state.settings.session_hours * 3600)
    return response


@router.post("/sign-out")
def sign_out(request: Request) -> Response:
    if session := request.cookies.get(COOKIE):
        request.app.state.inbox.sign_out(session)
    response = RedirectResponse("/sign-in", 303)
    response.delete_cookie(COOKIE)
    return response


def set_cookie(request: Request, response: Response, name: str, value: str, age_s: int) -> None:
    """A cookie no script can read and no other site can send along."""
    secure = request.app.state.settings.secure_cookie == "always" or request.url.scheme == "https"
    response.set_cookie(name, value, max_age=age_s, httponly=True, samesite="lax", secure=secure)


def _own(page: str) -> str:
    """`page` when it is a coach's page of this site, else the inbox: nobody is sent elsewhere after signing in.

    >>> _own("/inbox/m1"), _own("/book/gaps"), _own("//elsewhere.example"), _own("https://elsewhere.example")
    ('/inbox/m1', '/book/gaps', '/inbox', '/inbox')
    """
    return page if page.startswith(("/inbox", "/book")) and "\\" not in page and page.isprintable() else "/inbox"

"""The app: every door, every guard, one place where they are put together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path

from fastapi import FastAPI, Request
from fastapi.responses import RedirectResponse, Response
from fastapi.staticfiles import StaticFiles

from assistant.check import unanswered
from assistant.check.gapmap import GapMap
from assistant.inbox import Drafter, Inbox
from assistant.rulebook import Rulebook
from assistant.rulebook.watch import LiveBook
from assistant.store import Store
from assistant.values import Mistake
from assistant.web import api, coach, follower, signin
from assistant.web import book as bookpages
from assistant.web.pace import Pace
from assistant.web.problems import PROBLEMS, add_handlers
from assistant.web.render import PAGES, Pages
from assistant.web.security import BodyLimit, Headed, SameOrigin
from assistant.web.settings import Settings


def create_app(
    settings: Settings | None = None,
    *,
    store_url: str | None = None,
    rules: Path | None = None,
    inbox: Inbox | None = None,
    book: Callable[[], Rulebook] | None = None,
    book_mistakes: Callable[[], Sequence[Mistake]] | None = None,
    now: Callable[[], datetime] | None = None,
) -> FastAPI:
    """The web application. What is not given is made from `settings`: the last good rulebook, the store, the inbox.

    `store_url` and `rules` stand in for those of the settings; `now` gives the time in UTC.
    """
    settings = settings or Settings()
    if book is None:
        book = live = LiveBook(rules or settings.rules, proof=unanswered)
        book_mistakes = live.mistakes
    if inbox is None:
        store = Store(store_url or settings.store_url)
        store.upgrade()
        inbox = Inbox(store, book, now or (lambda: datetime.now(UTC)))
    app = FastAPI(title="Movement modification assistant", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.settings, app.state.inbox, app.state.drafter = settings, inbox, Drafter(inbox.read_waiting)
    app.state.book, app.state.book_mistakes = book, book_mistakes or tuple
    app.state.pages, app.state.pace, app.state.gapmap = Pages(settings), Pace(settings), GapMap()
    add_handlers(app)
    app.add_exception_handler(signin.SignInFirst, signin.to_sign_in)
    for door in (api.router, signin.router, coach.router, bookpages.router, follower.router):
        app.include_router(door)
    app.add_api_route("/", _home, methods=["GET"])
    app.add_api_route("/problems", _problems, methods=["GET"])
    app.mount("/static", StaticFiles(directory=PAGES / "static"), name="static")
    app.add_middleware(BodyLimit, limit=settings.body_limit_bytes)
    app.add_middleware(SameOrigin, public_url=settings.public_url)
    app.add_middleware(Headed)
    return app


def _home(request: Request) -> Response:
    """The coach's door; followers come by their own link."""
    return RedirectResponse("/inbox", 303)


def _problems(request: Request) -> Response:
    """Every problem this service can answer with: what a `type` link leads to."""
    return request.app.state.pages.page(request, "problems.html", problems=PROBLEMS)

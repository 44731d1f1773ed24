"""The coach's pages: the inbox laid out as the session, one message opened in place, decisions."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from assistant.inbox import Session
from assistant.values import DECISION_REASONS, BadInput, NotFound
from assistant.web import board, opening
from assistant.web.problems import Problem
from assistant.web.signin import Coach
from assistant.web.spoken import Names

router = APIRouter(prefix="/inbox")
CHOICE = "use:"  # a query parameter "use:<asked exercise>" carries the option chosen for it
Text = Annotated[str, Field(max_length=20_000)]
OUTCOMES = {"approve": "approved", "approve-all": "approved", "ask-back": "asked-back", "turn-down": "turned-down",
            "close": "turned-down"}  # fmt: skip


@router.get("")
def inbox(request: Request, coach: Coach, plan: str | None = None, done: str = "", also: int = 0) -> Response:
    """The inbox of one plan with nothing opened."""
    session = request.app.state.inbox.session(coach.coach, plan)
    return _page(request, coach, session, None, done=done, also=also)


@router.get("/news")
def news(request: Request, coach: Coach, plan: str | None = None, opened: str = "") -> Response:
    """Counts, the strip and the knots alone, for the page's script."""
    session = request.app.state.inbox.session(coach.coach, plan)
    return request.app.state.pages.fragment(request, "inbox_news.html", **_board(request, session, opened))


@router.get("/{message}")
def opened(request: Request, coach: Coach, message: str, done: str = "", also: int = 0) -> Response:
    """The inbox with one message opened in place; `use:<asked>=<exercise>` shows the reply for another option."""
    chosen = {k.removeprefix(CHOICE): v for k, v in request.query_params.items() if k.startswith(CHOICE)}
    return _opened(request, coach, message, chosen=chosen, done=done, also=also)


class Decided(BaseModel):
    """The form under an opened message. `do` is the button that was pressed; `chosen` holds "asked=exercise" pairs."""

    model_config = ConfigDict(extra="forbid")
    do: str
    text: Text = ""
    question: Text = ""
    reason: Annotated[str, Field(max_length=32)] = ""
    comment: Text = ""
    alike: Annotated[list[str], Field(max_length=500)] = []
    version: int | None = None
    chosen: Annotated[list[str], Field(max_length=20)] = []

    @property
    def choose(self) -> dict[str, str]:
        """The options chosen, as the inbox takes them."""
        return dict(pair.split("=", 1) for pair in self.chosen if "=" in pair)

    def typed(self) -> opening.Typed:
        """What the coach typed, with one kind of line end."""
        words = self.question if self.do == "ask-back" else self.text
        return opening.Typed(self.do, _lines(words), self.reason, self.comment.strip())


@router.post("/{message}/decide")
def decide(request: Request, coach: Coach, message: str, form: Annotated[Decided, Form()]) -> Response:
    """Keep one decision (with `do` = approve-all also the alike ones), then go on to the next waiting message."""
    inbox = request.app.state.inbox
    before = inbox.open(coach.coach, message)
    session = inbox.session(coach.coach, before.plan.id if before.plan else None)
    try:
        _decide(request, coach, message, before.row.result, form)
    except BadInput as error:
        again = {"chosen": form.choose, "typed": form.typed(), "error": Problem("bad-fields", str(error)).detail}
        return _opened(request, coach, message, status=422, **again)
    others = [other for other in form.alike if other != message] if form.do == "approve-all" else []
    also = inbox.approve_alike(coach.coach, others, coach.name) if others else 0
    return _go_on(session, message, {message, *others}, also)


def _decide(request: Request, coach: Coach, message: str, result: dict[str, Any], form: Decided) -> None:
    """The form's words as an outcome; the inbox calls it edited where the words are not the draft's."""
    if form.do not in OUTCOMES:
        raise BadInput("Choose what to do with this message: approve, ask back or turn down.")
    outcome, typed = OUTCOMES[form.do], form.typed()
    text = "" if outcome == "turned-down" else typed.text
    unchanged = outcome == "approved" and text == _lines(result["draft"]["text"])
    reason = None if unchanged else typed.reason or ("other" if typed.do == "close" else None)
    request.app.state.inbox.decide(
        coach.coach, message, outcome, text, reason, typed.comment, coach.name, form.choose or None, form.version
    )


@router.post("/{message}/holds/{hold}/clear")
def clear_hold(request: Request, coach: Coach, message: str, hold: str,
               note: Annotated[str, Form(max_length=4000)] = "") -> Response:  # fmt: skip
    """Clear a hold with a note and show the message again."""
    try:
        request.app.state.inbox.clear_hold(coach.coach, hold, note.strip(), coach.name)
    except BadInput as error:
        return _opened(request, coach, message, error=Problem("bad-fields", str(error)).detail, status=422)
    return RedirectResponse(f"/inbox/{message}#open", 303)


def _lines(text: str) -> str:
    """One kind of line end (a form sends two characters), nothing around."""
    return text.replace("\r\n", "\n").replace("\r", "\n").strip()


def _go_on(session: Session, message: str, gone: set[str], also: int) -> Response:
    order = [row.id for row in board.waiting(session)]
    after = board.following(order, message, gone)
    tail = f"done={message}" + (f"&also={also}" if also else "")
    if after is not None:
        return RedirectResponse(f"/inbox/{after}?{tail}#open", 303)
    here = f"plan={session.plan.id}&" if session.plan else ""
    return RedirectResponse(f"/inbox?{here}{tail}", 303)


def _opened(request: Request, coach: Coach, message: str, status: int = 200, done: str = "", also: int = 0,
            chosen: dict[str, str] | None = None, **view: Any) -> Response:  # fmt: skip
    state = request.app.state
    redrafted = state.inbox.redraft(coach.coach, message, chosen) if chosen else None
    found = state.inbox.open(coach.coach, message)
    session = state.inbox.session(coach.coach, found.plan.id if found.plan else None)
    shown = opening.view(found, Names(state.book()), redrafted, chosen, **view)
    return _page(request, coach, session, shown, status=status, done=done, also=also)


def _page(request: Request, coach: Coach, session: Session, view: opening.View | None, status: int = 200,
          done: str = "", also: int = 0) -> Response:  # fmt: skip
    opened = view.opened.row.id if view else ""
    order = [row.id for row in board.waiting(session)]
    return request.app.state.pages.page(
        request, "inbox.html", status=status, **_board(request, session, opened), view=view, coach=coach,
        done=_done(request, coach, done), also=also, reasons=DECISION_REASONS,
        next_id=board.following(order, opened, {opened}), mistakes=request.app.state.book_mistakes(),
    )  # fmt: skip


def _board(request: Request, session: Session, opened: str) -> dict[str, Any]:
    return {
        "session": session,
        "place": board.place(session, opened) if opened else None,
        "opened_id": opened,
        "pairs": board.pairs([slot.item for slot in session.slots]),
        "names": Names(request.app.state.book()),
    }


def _done(request: Request, coach: Coach, message: str) -> tuple[str, str] | None:
    """What was just decided, as outcome and first name; asked of the archive, so that no link can make it up."""
    if not message:
        return None
    try:
        found = request.app.state.inbox.open(coach.coach, message)
    except NotFound:
        return None
    return (found.decision["outcome"], found.row.follower) if found.decision else None

"""Every error a caller can meet, as RFC 9457 problem details for programs and in words for people.

Neither form repeats what was sent in: a follower's message is health data and belongs in no log and no error.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from assistant.values import BadInput, NotAllowed, NotFound

PROBLEMS: dict[str, tuple[int, str, str]] = {  # slug -> status, title, what to do
    "bad-request": (400, "The request cannot be read", "Send a body in the form this address expects."),
    "bad-json": (400, "The body is not JSON", "Send one JSON object in UTF-8, with Content-Type: application/json."),
    "bad-key": (400, "The Idempotency-Key cannot be used", "Send 1 to 200 printable ASCII characters without spaces."),
    "not-signed-in": (401, "You are not signed in", "Send Authorization: Bearer with a key or a follower's token."),
    "wrong-place": (403, "The form came from another site", "Open the page itself and send the form from there."),
    "not-found": (404, "There is nothing at this address", "Check the address and the id, or ask for a new link."),
    "wrong-method": (405, "This address does not take that method", "Use one of the methods in the Allow header."),
    "already-done": (409, "This was already decided", "Open the message again to see what was decided."),
    "too-large": (413, "The body is too large", "Send less: the limit is 64 KiB for everything together."),
    "wrong-type": (415, "The body has the wrong media type", "Send Content-Type: application/json."),
    "bad-fields": (422, "Some fields cannot be used", "Correct the fields listed under errors and send again."),
    "too-many": (429, "Too many in a short time", "Wait for the seconds in Retry-After, then send again."),
    "our-fault": (500, "Something went wrong on this side", "Send it again in a minute; if it stays, tell the coach."),
    "not-ready": (503, "The service is not whole", "See what is reported here; the operator has to mend it."),
}
BY_STATUS = {400: "bad-request", 401: "not-signed-in", 403: "wrong-place", 404: "not-found", 405: "wrong-method",
             409: "already-done", 413: "too-large", 415: "wrong-type", 422: "bad-fields", 429: "too-many",
             500: "our-fault", 503: "not-ready"}  # fmt: skip
API_PATHS = ("/messages", "/health")
PAGE_PATHS = ("/ask", "/inbox", "/book", "/sign-")


@dataclass(eq=False)
class Problem(Exception):
    """One problem, raised anywhere in the doors.

    >>> Problem("not-found").status, Problem("too-many", "Wait 20 s.").detail
    (404, 'Wait 20 s.')
    """

    slug: str
    detail: str = ""
    headers: Mapping[str, str] = field(default_factory=dict)
    more: dict[str, Any] = field(default_factory=dict)  # further members of the problem, such as `errors`

    def __post_init__(self) -> None:
        detail = self.detail or self.do
        self.detail = detail[:1].upper() + detail[1:] + ("" if detail[-1:] in ".!?" else ".")

    status = property(lambda self: PROBLEMS[self.slug][0])
    title = property(lambda self: PROBLEMS[self.slug][1])
    do = property(lambda self: PROBLEMS[self.slug][2])

    def members(self) -> dict[str, Any]:
        """The problem as RFC 9457 members; `type` is a link to the list of problems."""
        return {"type": f"/problems#{self.slug}", "title": self.title, "status": self.status,
                "detail": self.detail, **self.more}  # fmt: skip


def wants_page(request: Request) -> bool:
    """Whether whoever asks is a person with a browser; the API's addresses always answer as a program expects."""
    if request.url.path.startswith(API_PATHS):
        return False
    return "text/html" in request.headers.get("accept", "") or request.url.path.startswith(PAGE_PATHS)


def answer(request: Request, problem: Problem) -> Response:
    """The problem as a page or as `application/problem+json`, whichever the caller reads."""
    if wants_page(request):
        page = request.app.state.pages.problem(request, problem)
        page.headers.update(problem.headers)
        return page
    return JSONResponse(problem.members(), problem.status, dict(problem.headers), "application/problem+json")


def from_validation(error: RequestValidationError) -> Problem:
    """A refused body or form as a problem that names fields and never their content."""
    if any(detail["type"] == "json_invalid" for detail in error.errors()):
        return Problem("bad-json")
    if any(detail["type"] == "model_attributes_type" or detail["loc"] == ("body",) for detail in error.errors()):
        return Problem("bad-fields", "The body has to be one JSON object with its fields, sent as application/json.")
    errors = [{"field": _field_name(detail["loc"]), "problem": _plainly(detail)} for detail in error.errors()]
    said = "; ".join(f"{e['field']}: {e['problem']}" for e in errors[:3])
    return Problem("bad-fields", f"{said}. Correct and send again.", more={"errors": errors})


def _field_name(loc: tuple[Any, ...]) -> str:
    name = ".".join(str(part) for part in loc[1:]) or "body"
    return name.encode("ascii", "replace").decode()[:60]


def _plainly(detail: dict[str, Any]) -> str:
    known = {"missing": "this field is needed", "extra_forbidden": "there is no such field",
             "string_unicode": "this is not valid Unicode text", "string_type": "this has to be text"}  # fmt: skip
    return known.get(detail["type"], detail["msg"].removeprefix("Value error, "))[:200]


def add_handlers(app: FastAPI) -> None:
    """Turn every error the doors can meet into a problem."""

    @app.exception_handler(Problem)
    def _problem(request: Request, error: Problem) -> Response:
        return answer(request, error)

    @app.exception_handler(RequestValidationError)
    def _validation(request: Request, error: RequestValidationError) -> Response:
        return answer(request, from_validation(error))

    @app.exception_handler(HTTPException)
    def _http(request: Request, error: HTTPException) -> Response:
        problem = Problem(BY_STATUS.get(error.status_code, "bad-request"), headers=dict(error.headers or {}))
        return answer(request, problem)

    @app.exception_handler(NotFound)
    def _not_found(request: Request, error: NotFound) -> Response:
        return answer(request, Problem("not-found", str(error)))

    @app.exception_handler(NotAllowed)
    def _not_allowed(request: Request, error: NotAllowed) -> Response:
        return answer(request, Problem("already-done", str(error)))

    @app.exception_handler(BadInput)
    def _bad_input(request: Request, error: BadInput) -> Response:
        return answer(request, Problem("bad-fields", str(error)))

"""Templates into pages. Everything is escaped: HTML and template syntax in a message show as text."""

from __future__ import annotations

import hashlib
from importlib import resources
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse, Response
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from assistant.inbox import Row
from assistant.inbox.desk import MESSAGE_MAX
from assistant.inbox.session import dose_words
from assistant.web import spoken
from assistant.web.marks import Piece, excerpt, marks
from assistant.web.problems import Problem
from assistant.web.settings import Settings

PAGES = Path(str(resources.files("assistant"))) / "pages"


class Pages:
    """Renders the templates in `assistant/pages/`."""

    def __init__(self, settings: Settings):
        self.jinja = Environment(loader=FileSystemLoader(PAGES), autoescape=True, undefined=StrictUndefined,
                                 trim_blocks=True, lstrip_blocks=True)  # fmt: skip
        self.jinja.globals.update(poll_s=settings.poll_s, longest=MESSAGE_MAX)
        self.jinja.filters.update(span=spoken.span_of_time, clock=spoken.clock, day=spoken.day, dose=spoken.dose,
                                  plandose=dose_words, raised=raised, amount=spoken.amount)  # fmt: skip

    def page(self, request: Request, template: str, /, status: int = 200, **context: Any) -> HTMLResponse:
        """The template as a whole page."""
        return HTMLResponse(self.jinja.get_template(template).render(request=request, **context), status)

    def fragment(self, request: Request, template: str, /, **context: Any) -> Response:
        """The template as a fragment with an ETag; 304 without a body when the caller has it already."""
        html = self.jinja.get_template(template).render(request=request, **context)
        tag = f'"{hashlib.sha256(html.encode()).hexdigest()[:20]}"'
        if request.headers.get("if-none-match") == tag:
            return Response(status_code=304, headers={"ETag": tag})
        return HTMLResponse(html, headers={"ETag": tag})

    def problem(self, request: Request, problem: Problem) -> HTMLResponse:
        """The problem in words, on a page."""
        return self.page(request, "problem.html", status=problem.status, problem=problem)


def raised(row: Row, names: spoken.Names) -> list[Piece]:
    """The words of a message that raised its safety sign, with a few around them."""
    return excerpt(row.text, marks(row.result, names, exercises=False))

"""What stands in front of every door: headers, size of bodies, where forms come from, and a log without words.

Plain ASGI, so that a refused body is never parsed and a failure never reaches the log with a message in it.
"""

from __future__ import annotations

import logging
import time
import traceback
from urllib.parse import urlsplit

from fastapi import Request
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from assistant.web.problems import Problem, answer

log = logging.getLogger("assistant.web")
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; "
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    # A follower's link is a secret, so no other site may see it. "no-referrer" would also hide the Origin of our own
    # forms on plain http ("Origin: null"), and the same-origin check below would then refuse them.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS", "TRACE"})


class Headed:
    """Adds the security headers, forbids caching of everything private, catches and logs what nobody caught."""

    def __init__(self, app: ASGIApp):
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        started, status = time.perf_counter(), 0

        async def send_headed(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
                headers["Cache-Control"] = "no-cache" if scope["path"].startswith("/static/") else "no-store"
            await send(message)

        try:
            await self.app(scope, receive, send_headed)
        except Exception as error:  # the last resort: nothing but its kind and place may reach the log
            log.error("failed: %s", _kind_and_place(error))
            if not status:
                await answer(Request(scope), Problem("our-fault"))(scope, receive, send_headed)
        finally:
            log.info("%s %s %s %.0f ms", scope["method"], _route(scope), status, (time.perf_counter() - started) * 1000)


def _kind_and_place(error: Exception) -> str:
    frames = traceback.extract_tb(error.__traceback__)
    return f"{type(error).__name__} at " + " < ".join(f"{f.filename}:{f.lineno}" for f in reversed(frames[-4:]))


def _route(scope: Scope) -> str:
    """The pattern of the address, not the address: links hold secrets."""
    return getattr(scope.get("route"), "path", "(no such address)")


class BodyLimit:
    """Refuses a body over `limit` bytes with 413, whether its length was announced or not."""

    def __init__(self, app: ASGIApp, limit: int):
        self.app, self.limit = app, limit

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["method"] in SAFE_METHODS:
            return await self.app(scope, receive, send)
        announced = Headers(scope=scope).get("content-length", "0")
        body, more = b"", True
        too_large = not announced.isdigit() or int(announced[:12]) > self.limit
        while more and not too_large:
            message = await receive()
            if message["type"] == "http.disconnect":
                return None
            body, more = body + message.get("body", b""), message.get("more_body", False)
            too_large = len(body) > self.limit
        if too_large:
            detail = f"Send less: the limit is {self.limit // 1024} KiB for everything together."
            return await answer(Request(scope), Problem("too-large", detail))(scope, receive, send)
        return await self.app(scope, _once(body, receive), send)


def _once(body: bytes, receive: Receive) -> Receive:
    """The body that was read already, handed on once; afterwards whatever else the caller sends."""
    given = False

    async def replay() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return replay


class SameOrigin:
    """Refuses a change asked for by another site's page, by Sec-Fetch-Site, else by Origin against Host.

    A caller that sends neither is no browser, and carries no cookie that another site could borrow.
    """

    def __init__(self, app: ASGIApp, public_url: str = ""):
        self.app, self.public = app, urlsplit(public_url).netloc.lower()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http" and scope["method"] not in SAFE_METHODS and not self.allows(Headers(scope=scope)):
            return await answer(Request(scope), Problem("wrong-place"))(scope, receive, send)
        return await self.app(scope, receive, send)

    def allows(self, headers: Headers) -> bool:
        """Whether a change may be made on behalf of the page these headers come from.

        >>> SameOrigin(None).allows(Headers({"sec-fetch-site": "cross-site", "host": "a.example"}))
        False
        >>> SameOrigin(None).allows(Headers({"origin": "http://a.example", "host": "a.example"}))
        True
        """
        site, origin = headers.get("sec-fetch-site"), headers.get("origin")
        if site is not None:
            return site in ("same-origin", "none")
        if origin is None:
            return True
        return urlsplit(origin).netloc.lower() in {headers.get("host", "").lower(), self.public} - {""}

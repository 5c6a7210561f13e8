"""What every request must pass: host, origin, token, size; and the headers every response carries."""

from __future__ import annotations

import hashlib
import hmac

from starlette.requests import Request
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pinfold.web.desk import Desk

SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
LARGEST = 25_000_000
"""Bytes of the largest request: a photo from a phone."""
TOKEN = "x-pinfold-token"
HEADERS = (
    (b"content-security-policy", b"default-src 'self'; img-src 'self' data: blob:; object-src 'none'; "
                                 b"base-uri 'none'; form-action 'self'; frame-ancestors 'none'"),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)  # fmt: skip


def token_of(desk: Desk) -> str:
    """The token that a change must bring along; forms carry it as `token`, scripts in a header."""
    return hmac.new(desk.secret, b"change", hashlib.sha256).hexdigest()


class Guard:
    """Middleware around everything; it refuses before any page is asked."""

    def __init__(self, app: ASGIApp, desk: Desk) -> None:
        self.app, self.desk = app, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or refuse it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        refused = self._refused(request)
        if refused:
            await PlainTextResponse(refused[1], status_code=refused[0])(scope, receive, self._headed(send))
            return
        await self.app(scope, receive, self._headed(send))

    def _refused(self, request: Request) -> tuple[int, str] | None:
        host = request.headers.get("host", "")
        if host not in self.desk.hosts:
            return 400, "this server does not answer to that name"
        if int(request.headers.get("content-length", "0") or 0) > LARGEST:
            return 413, "too large"
        if request.method in SAFE:
            return None
        origin = request.headers.get("origin")
        if origin is not None and origin.partition("://")[2] != host:
            return 403, "a change must come from pinfold's own pages"
        return None

    @staticmethod
    def _headed(send: Send) -> Send:
        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", []), *HEADERS]
            await send(message)

        return with_headers

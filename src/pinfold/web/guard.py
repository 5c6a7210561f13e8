"""What every request must pass: host, caller, origin, size, token; and the headers every response carries.

In the order of asking: is it a request we know how to answer, is it for us, who asks, may they, does a change come from
our own pages (Origin, Sec-Fetch-Site), is it small enough, does it carry the token, can it be read. What is refused
reaches no page. What breaks in a page is told in words; its trace goes to the owner's window only.

In tests a caller is this machine when the client is built so: TestClient(app, base_url="http://127.0.0.1:8765",
client=("127.0.0.1", 1)); its changes need the headers `Origin: http://127.0.0.1:8765` and `X-Pinfold-Token`.
"""

from __future__ import annotations

import hashlib
import hmac
import sys
import traceback

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pinfold.errors import PinfoldError
from pinfold.web.bodies import (
    FORMS,
    PHOTOS,
    Refused,
    form_of,
    kind_of,
    largest_for,
    read_body,
    replay,
    strict_json,
    told_length,
)
from pinfold.web.desk import Desk
from pinfold.web.pairing import HERE, NOBODY, Caller, caller_of, shown_token

TOKEN = "x-pinfold-token"
SAFE = frozenset({"GET", "HEAD"})
OPEN = frozenset({"/pair", "/pair/trust", "/ca.pem"})
"""What a device sees before it is paired, beside the style and script of these pages."""
OPEN_STATIC = ("pinfold.css", "pairing.css", "pairing.js")
ONLY_HERE = ("/pairing",)
"""Only this machine asks for these, paired or not."""
LONGEST_ADDRESS = 4096
MOST_HEADER_BYTES = 16_384
MOST_HEADERS = 80
_ONCE = ("host", "origin", "content-length", "content-type", "sec-fetch-site", "transfer-encoding", TOKEN)
_FORWARDED = ("forwarded", "x-real-ip", "x-original-url", "x-rewrite-url", "x-http-method-override", "via")
HEADERS = (
    ("content-security-policy", "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; "
                                "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"),
    ("x-content-type-options", "nosniff"),
    ("x-frame-options", "DENY"),
    ("referrer-policy", "same-origin"),  # with no-referrer, forms of our own would come from Origin "null"
    ("cross-origin-resource-policy", "same-origin"),
    ("permissions-policy", "camera=(), display-capture=(), geolocation=(), microphone=(), payment=(), usb=()"),
)  # fmt: skip


_UNPAIRED = (
    '<!doctype html><html lang="en"><meta charset="utf-8">'
    '<meta name="viewport" content="width=device-width, initial-scale=1">'
    '<title>Not paired</title><link rel="stylesheet" href="/static/{version}/pinfold.css">'
    '<link rel="stylesheet" href="/static/{version}/pairing.css"><body class="pairing"><main>'
    "<h1>This device is not paired</h1><p>It sees nothing until it is. On the machine that keeps the records, make a "
    'code on the page “pair”; then <a href="/pair">type it here</a>.</main>'
)


def token_of(desk: Desk, caller: Caller = HERE) -> str:
    """The token that a change must bring along; forms carry it as `token`, scripts in a header.

    It is good for this run of the server and for this device only.
    """
    who = caller.proof or ("here" if caller.here else "nobody")
    return hmac.new(desk.secret, f"change {who}".encode(), hashlib.sha256).hexdigest()


def token_for(request: Request) -> str:
    """The token that the page being answered hands out."""
    return token_of(request.app.state.desk, caller_of(request))


class Guard:
    """Middleware around everything; it refuses before any page is asked."""

    def __init__(self, app: ASGIApp, desk: Desk) -> None:
        self.app, self.desk = app, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or refuse it."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        elif scope["type"] == "http":
            await self._answer(scope, receive, _headed(scope, send))
        else:
            await send({"type": "websocket.close", "code": 1008})

    async def _answer(self, scope: Scope, receive: Receive, send: _Headed) -> None:
        try:
            receive = await self._admit(scope, receive)
            await self.app(scope, receive, send)
        except Refused as refused:
            await _refusal(scope, refused, self.desk.version)(scope, receive, send)
        except PinfoldError as error:
            words = self.desk.without_paths(str(error))
            told = Refused(error.http_status, words, code=error.code)
            await _refusal(scope, told, self.desk.version)(scope, receive, send)
        except Exception:
            traceback.print_exc(file=sys.stderr)
            if not send.started:
                words = "pinfold met a fault of its own; its window tells more. Nothing was half written."
                await _refusal(scope, Refused(500, words, code="fault"), self.desk.version)(scope, receive, send)

    async def _admit(self, scope: Scope, receive: Receive) -> Receive:
        headers = Headers(scope=scope)
        _well_formed(scope, headers)
        host = headers.get("host", "")
        if host not in self.desk.hosts:
            raise Refused(400, "this server does not answer to that name", code="host")
        caller = self._caller(scope, headers, host)
        scope.setdefault("state", {})["caller"] = caller
        self._may(scope, caller, host)
        if scope["method"] in SAFE:
            _not_from_elsewhere(headers)
            return receive
        _from_own_page(headers, f"{scope['scheme']}://{host}")
        return await self._change(scope, headers, receive)

    def _caller(self, scope: Scope, headers: Headers, host: str) -> Caller:
        client = scope.get("client")
        if host in self.desk.home:
            return HERE if client and client[0] in self.desk.near else NOBODY
        token = shown_token(headers, scope["scheme"])
        if not token or host in self.desk.handing:
            return NOBODY
        from pinfold.actions.pairing import device_with

        device = device_with(self.desk.folder, token)
        return Caller(name=device.name, proof=device.proof) if device else NOBODY

    def _may(self, scope: Scope, caller: Caller, host: str) -> None:
        path = scope["path"]
        if not caller.here and any(path == each or path.startswith(f"{each}/") for each in ONLY_HERE):
            raise Refused(403, "this page is shown only on the machine that pinfold runs on", code="only-here")
        if host in self.desk.handing and path == "/pair":
            raise Refused(403, "devices are not paired in the clear here; use the https address", code="only-tls")
        if path == "/ca.pem" and scope["scheme"] != "http":
            raise Refused(404, "there is no such page", code="not-found")
        open_static = path.startswith("/static/") and path.endswith(tuple(f"/{name}" for name in OPEN_STATIC))
        if not (caller.known or path in OPEN or open_static):
            raise Refused(403, "this device is not paired", code="unpaired")

    async def _change(self, scope: Scope, headers: Headers, receive: Receive) -> Receive:
        kind = kind_of(headers)
        known = caller_of(Request(scope)).known
        _right_kind(scope["path"], kind)
        largest = largest_for(kind) if known else 10_000
        if told_length(headers) > largest:
            raise Refused(413, f"too large; {largest / 1e6:g} MB are the most", code="too-large")
        body = await read_body(receive, largest)
        token = headers.get(TOKEN)
        if kind in FORMS:
            fields = await form_of(headers, kind, body)
            scope["state"]["fields"] = {name: text for name, text in fields.multi_items() if isinstance(text, str)}
            token = token or scope["state"]["fields"].get("token")
            await fields.close()
        elif kind == "application/json":
            scope["state"]["json"] = strict_json(body)
        wanted = token_of(self.desk, scope["state"]["caller"])
        if not hmac.compare_digest((token or "").encode("utf-8", "replace"), wanted.encode()):
            raise Refused(403, "the page is from before pinfold was started anew; load it again", code="token")
        return replay(body, receive)


def _well_formed(scope: Scope, headers: Headers) -> None:
    if (
        len(headers.raw) > MOST_HEADERS
        or sum(len(name) + len(value) for name, value in headers.raw) > MOST_HEADER_BYTES
    ):
        raise Refused(431, "the request has too much in its head")
    if len(scope["path"]) + len(scope.get("query_string", b"")) > LONGEST_ADDRESS:
        raise Refused(414, "the address is too long")
    if any(len(headers.getlist(name)) > 1 for name in _ONCE):
        raise Refused(400, "the request says something twice that may be said once")
    if any(name in _FORWARDED or name.startswith("x-forwarded") for name in headers):
        raise Refused(400, "pinfold does not answer through a go-between", code="forwarded")
    if scope["method"] not in SAFE and scope["method"] != "POST":
        raise Refused(405, "only GET, HEAD and POST are answered", code="method")
    path = scope["path"]
    if not path.startswith("/") or "//" in path or "\\" in path or not path.isprintable():
        raise Refused(400, "the address cannot be read")
    if ".." in path.split("/") or b"%00" in scope.get("query_string", b""):
        raise Refused(400, "the address cannot be read")


def _not_from_elsewhere(headers: Headers) -> None:
    """Other pages in the same browser may link here, but not load our things as parts of theirs."""
    site = headers.get("sec-fetch-site", "none")
    if site in {"same-origin", "none"}:
        return
    if headers.get("sec-fetch-mode") != "navigate" or headers.get("sec-fetch-dest", "document") != "document":
        raise Refused(403, "pinfold's pages are not part of other pages", code="origin")


def _from_own_page(headers: Headers, own: str) -> None:
    origin, site = headers.get("origin"), headers.get("sec-fetch-site")
    if origin is None and site is None:
        raise Refused(403, "a change must say which page it comes from", code="origin")
    if (origin is not None and origin != own) or site not in {None, "same-origin", "none"}:
        raise Refused(403, "a change must come from pinfold's own pages", code="origin")


def _right_kind(path: str, kind: str) -> None:
    if path.startswith("/api/"):
        if kind not in {"application/json", *PHOTOS} and not kind.startswith("image/"):
            raise Refused(415, "a script's change is sent as application/json, a photo as image/…", code="kind")
    elif kind not in FORMS:
        raise Refused(415, "a form is wanted here", code="kind")


def _refusal(scope: Scope, refused: Refused, version: str) -> Response:
    headers = Headers(scope=scope)
    also = {"Allow": "GET, HEAD, POST"} if refused.status == 405 else {}
    if scope["path"].startswith("/api/") or headers.get("accept", "").startswith("application/json"):
        record = {"error": refused.code, "message": refused.words, "problems": []}
        return JSONResponse(record, status_code=refused.status, headers=also)
    if refused.code == "unpaired":
        return HTMLResponse(_UNPAIRED.format(version=version), status_code=refused.status)
    return PlainTextResponse(refused.words, status_code=refused.status, headers=also)


class _Headed:
    """A `send` that puts our headers on every response and knows whether one has begun."""

    def __init__(self, send: Send, headers: tuple[tuple[str, str], ...]) -> None:
        self.send, self.headers, self.started = send, headers, False

    async def __call__(self, message: Message) -> None:
        """Send on."""
        if message["type"] == "http.response.start":
            self.started = True
            given = list(message.get("headers", []))
            names = {name.lower() for name, _ in given}
            given += [(n.encode(), v.encode()) for n, v in self.headers if n.encode() not in names]
            message = {**message, "headers": given}
        await self.send(message)


def _headed(scope: Scope, send: Send) -> _Headed:
    own: tuple[tuple[str, str], ...] = (("cache-control", "no-store"),)
    host = Headers(scope=scope).get("host", "").partition(":")[0]
    if scope["scheme"] == "https" or host in {"127.0.0.1", "localhost"}:  # elsewhere browsers complain about it
        own += (("cross-origin-opener-policy", "same-origin"),)
    return _Headed(send, (*HEADERS, *own))

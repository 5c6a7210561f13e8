"""The server's application: every page's routes behind one guard."""

from __future__ import annotations

from functools import cache

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from pinfold.errors import NotFoundError, PinfoldError
from pinfold.web.answering import told, wants_json
from pinfold.web.desk import Desk, static_bytes, static_names
from pinfold.web.guard import Guard
from pinfold.web.pages import PAGES

_KINDS = {
    "css": "text/css", "js": "text/javascript", "mjs": "text/javascript", "svg": "image/svg+xml", "woff2": "font/woff2",
    "png": "image/png", "webmanifest": "application/manifest+json", "txt": "text/plain",
}  # fmt: skip
_WORDS = {405: "this page is asked in another way", 400: "the request cannot be read", 413: "too large"}


def make_app(desk: Desk) -> Starlette:
    """The application on one site folder."""
    routes = [Route("/static/{version}/{name:path}", _static)]
    routes += [route for each in PAGES for route in each.routes]
    app = Starlette(
        routes=routes,
        middleware=[Middleware(Guard, desk=desk)],
        exception_handlers={PinfoldError: _told, HTTPException: _refused},  # type: ignore[dict-item]
    )
    app.router.redirect_slashes = False
    app.state.desk, app.state.pages = desk, PAGES
    return app


async def _told(request: Request, error: PinfoldError) -> Response:
    return await run_in_threadpool(told, request, error)


async def _refused(request: Request, refused: HTTPException) -> Response:
    if refused.status_code == 404:
        return await _told(request, NotFoundError("there is no such page"))
    words = _WORDS.get(refused.status_code, "this cannot be answered")
    if wants_json(request):
        record = {"error": "refused", "message": words, "problems": []}
        return JSONResponse(record, status_code=refused.status_code, headers=refused.headers)
    return PlainTextResponse(words, status_code=refused.status_code, headers=refused.headers)


async def _static(request: Request) -> Response:
    name = request.path_params["name"]
    if name not in _names():
        raise NotFoundError("there is no such file")
    kept = "public, max-age=31536000, immutable"
    kind = _KINDS.get(name.rpartition(".")[2], "application/octet-stream")
    return Response(static_bytes(name), media_type=kind, headers={"Cache-Control": kept})


@cache
def _names() -> frozenset[str]:
    return frozenset(static_names())

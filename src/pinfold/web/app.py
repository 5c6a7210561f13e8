"""The server's application: every page's routes behind one guard."""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import NotFoundError, PinfoldError
from pinfold.web.answering import told
from pinfold.web.desk import Desk, static_bytes, static_names
from pinfold.web.guard import Guard
from pinfold.web.pages import PAGES

_KINDS = {
    "css": "text/css", "js": "text/javascript", "mjs": "text/javascript", "svg": "image/svg+xml", "woff2": "font/woff2",
    "png": "image/png", "webmanifest": "application/manifest+json", "txt": "text/plain",
}  # fmt: skip


def make_app(desk: Desk) -> Starlette:
    """The application on one site folder."""
    routes = [Route("/static/{version}/{name:path}", _static)]
    routes += [route for each in PAGES for route in each.routes]
    app = Starlette(
        routes=routes,
        middleware=[Middleware(Guard, desk=desk)],
        exception_handlers={PinfoldError: _told, HTTPException: _refused},  # type: ignore[dict-item]
    )
    app.state.desk = desk
    return app


async def _told(request: Request, error: PinfoldError) -> Response:
    return told(request, error)


async def _refused(request: Request, refused: HTTPException) -> Response:
    if refused.status_code == 404:
        return told(request, NotFoundError("there is no such page"))
    return Response(str(refused.detail), status_code=refused.status_code, media_type="text/plain")


async def _static(request: Request) -> Response:
    name = request.path_params["name"]
    if name not in static_names():
        raise NotFoundError("there is no such file")
    kept = "public, max-age=31536000, immutable"
    kind = _KINDS.get(name.rpartition(".")[2], "application/octet-stream")
    return Response(static_bytes(name), media_type=kind, headers={"Cache-Control": kept})

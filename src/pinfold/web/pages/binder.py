"""All of it on paper."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.files import PDF, to_save
from pinfold.web.pages.records import VerbPage


def binder(request: Request) -> Response:
    """What the binder holds, and where to get it."""
    from pinfold.actions.binding import contents_of

    return page(request, "binder.html", title="the binder", contents=contents_of(desk_of(request).folder))


def binder_pdf(request: Request) -> Response:
    """The binder, printed when asked for."""
    from pinfold.actions.binding import binder_bytes

    return to_save(binder_bytes(desk_of(request).folder), name="binder.pdf", media=PDF)


PAGE = VerbPage(
    verb="binder", path="/binder", says="All of it on paper",
    routes=(Route("/binder", binder), Route("/binder.pdf", binder_pdf)), group="look up",
)  # fmt: skip

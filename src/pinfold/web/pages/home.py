"""The first page: what stands open today, and the way to everything else."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def home(request: Request) -> Response:
    """What does not hold, what is not shown, what comes next."""
    from pinfold.actions.front import front_of

    front = front_of(desk_of(request).folder)
    return page(request, "home.html", title="today", front=front)


PAGE = VerbPage(verb="today", path="/", says="What stands open?", routes=(Route("/", home),))

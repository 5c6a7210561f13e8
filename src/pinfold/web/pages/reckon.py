"""What it will cost."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def reckon(request: Request) -> Response:
    """Planned cost, and whatever else the action tells."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckoning import reckon_site

    answer = reckon_site(desk_of(request).folder)
    return page(request, "answer.html", title=answer.page.title, body=as_html(answer))


PAGE = VerbPage(verb="reckon", path="/reckon", says="What will it cost?", routes=(Route("/reckon", reckon),))

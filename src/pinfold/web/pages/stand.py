"""Will it stand."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def stand(request: Request) -> Response:
    """All findings, each open to its working."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.standing import assess_site

    answer = assess_site(desk_of(request).folder, working=True)
    return page(request, "answer.html", title=answer.page.title, body=as_html(answer))


PAGE = VerbPage(verb="stand", path="/stand", says="Will it stand?", routes=(Route("/stand", stand),))

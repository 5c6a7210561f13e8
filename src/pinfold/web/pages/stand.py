"""Will it stand."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def stand(request: Request) -> Response:
    """All findings; a script fetches the working of one when it is opened, a link leads there without one."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.standing import assess_site

    answer = assess_site(desk_of(request).folder, working=False)
    return page(request, "stand.html", title=answer.page.title, body=as_html(answer), worked=False)


def all_working(request: Request) -> Response:
    """All findings with all their working on one page, to print."""
    from pinfold.actions.standing import assess_site, worked_html

    folder = desk_of(request).folder
    title = assess_site(folder, working=True).page.title
    return page(request, "stand.html", title=title, body=worked_html(folder), worked=True)


def working(request: Request) -> Response:
    """The working of one finding, as a page or as the part of one."""
    from pinfold.actions.standing import working_of

    part = "part" in request.query_params
    html, about = working_of(desk_of(request).folder, request.path_params["name"], alone=not part)
    if part:
        return HTMLResponse(html, headers={"Cache-Control": "no-store"})
    return page(request, "working.html", title=about, body=html, name=request.path_params["name"])


PAGE = VerbPage(
    verb="stand",
    path="/stand",
    says="Will it stand?",
    routes=(
        Route("/stand", stand),
        Route("/stand/working", all_working),
        Route("/stand/working/{name}", working),
    ),
)

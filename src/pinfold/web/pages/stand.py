"""Will it stand."""

from __future__ import annotations

from typing import Any

from starlette.concurrency import run_in_threadpool
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
    return page(request, "stand.html", title=answer.page.title, body=as_html(answer, titled=False), worked=False)


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


def storms(request: Request) -> Response:
    """Chances of cracking and of falling."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.standing import storms_page

    answer = storms_page(desk_of(request).folder)
    return page(request, "storms.html", title=answer.page.title, body=as_html(answer, titled=False))


def mends(request: Request) -> Response:
    """What would mend what fails; with `near` also what holds only barely.

    Trying takes a while: the page says so, and a script fetches the answer as a `part`; without one a link asks `now`.
    """
    from pinfold.actions.standing import mends_title

    near = "near" in request.query_params
    title = mends_title(desk_of(request).folder)
    if "part" in request.query_params:
        return page(request, "mends_found.html", title=title, near=near, **_found(request, near=near))
    if "now" in request.query_params:
        return page(request, "mends.html", title=title, near=near, **_found(request, near=near))
    return page(request, "mends.html", title=title, near=near, body="")


def _found(request: Request, *, near: bool) -> dict[str, Any]:
    from pinfold.actions.answers import as_html
    from pinfold.actions.standing import MendFor, mends_page

    answer, names, revision = mends_page(desk_of(request).folder, mending=MendFor.NEAR if near else MendFor.FAILS)
    return {"body": as_html(answer, titled=False), "names": names, "revision": revision}


async def put_mend(request: Request) -> Response:
    """Write one of them into the plan."""
    async with request.form(max_files=0, max_fields=10) as form:
        told = {key: str(form.get(key, "")) for key in ("name", "revision", "near")}
    return await run_in_threadpool(_put, request, told)


def _put(request: Request, told: dict[str, str]) -> Response:
    from pinfold.actions.standing import MendFor, put_named

    mending = MendFor.NEAR if told["near"] else MendFor.FAILS
    words = put_named(desk_of(request).folder, told["name"], mending=mending, revision=told["revision"])
    return page(request, "mended.html", title="Written into the plan", words=desk_of(request).without_paths(words))


PAGE = VerbPage(
    verb="stand",
    path="/stand",
    says="Will it stand?",
    routes=(
        Route("/stand", stand),
        Route("/stand/working", all_working),
        Route("/stand/working/{name}", working),
        Route("/stand/storms", storms),
        Route("/stand/mends", mends),
        Route("/stand/mends", put_mend, methods=["POST"]),
    ),
)

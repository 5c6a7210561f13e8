"""Making a response out of a template, an action's answer, or an error."""

from __future__ import annotations

from http import HTTPStatus

from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from pinfold.errors import InvalidPlan, PinfoldError
from pinfold.web.desk import Desk


def desk_of(request: Request) -> Desk:
    """The server's desk."""
    desk = request.app.state.desk
    assert isinstance(desk, Desk)
    return desk


def page(request: Request, template: str, *, status: int = 200, **values: object) -> HTMLResponse:
    """A template as a page; it always knows the desk, the verbs, the token and where it is.

    Args:
        request: being answered
        template: name of the file under templates/
        status: of the response
        values: what the template asks for; `title` is wanted by all
    """
    from pinfold.web.guard import token_of
    from pinfold.web.pages import PAGES

    desk = desk_of(request)
    text = desk.templates.get_template(template).render(
        desk=desk, version=desk.version, pages=PAGES, here=request.url.path, token=token_of(desk), **values
    )
    return HTMLResponse(text, status_code=status, headers={"Cache-Control": "no-store"})


def told(request: Request, error: PinfoldError) -> Response:
    """An error in the builder's words: JSON where JSON was asked for or sent, a page for all else."""
    problems = [{"place": problem.place, "message": problem.message} for problem in error.problems] if isinstance(
        error, InvalidPlan) else []  # fmt: skip
    if wants_json(request):
        record = {"error": error.code, "message": str(error), "problems": problems}
        return JSONResponse(record, status_code=error.http_status)
    return page(
        request, "error.html", status=error.http_status, title=HTTPStatus(error.http_status).phrase,
        message=str(error), problems=problems,
    )  # fmt: skip


def wants_json(request: Request) -> bool:
    """Whether a script asks."""
    headers = request.headers
    return request.url.path.startswith("/api/") or headers.get("accept", "").startswith("application/json")

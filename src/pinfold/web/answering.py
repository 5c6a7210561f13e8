"""Making a response out of a template, an action's answer, or an error."""

from __future__ import annotations

from collections.abc import Iterable
from http import HTTPStatus

from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from pinfold.errors import InvalidPlan, PinfoldError
from pinfold.web.desk import Desk

_TITLES = {
    400: "That cannot be used", 404: "Not found", 409: "The file cannot be read or written", 422: "No answer to that",
}  # fmt: skip


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
    from pinfold.actions.front import head_of
    from pinfold.web.guard import token_for
    from pinfold.web.pairing import caller_of

    desk, caller = desk_of(request), caller_of(request)
    pages = tuple(each for each in request.app.state.pages if caller.here or not each.here_only)
    frame = {
        "desk": desk, "version": desk.version, "here": request.url.path, "token": token_for(request),
        "current": _current((each.path for each in request.app.state.pages), request.url.path),
        "pages": pages if caller.known else (), "plot": head_of(desk.folder) if caller.known else None,
    }  # fmt: skip
    text = desk.templates.get_template(template).render(frame, **values)
    return HTMLResponse(text, status_code=status, headers={"Cache-Control": "no-store"})


def _current(paths: Iterable[str], here: str) -> str:
    """Path of the page that one is on, or below."""
    if here == "/":
        return here
    fits = [path for path in paths if path != "/" and f"{here}/".startswith(f"{path}/")]
    return max(fits, key=len, default="")


def told(request: Request, error: PinfoldError) -> Response:
    """An error in the builder's words: JSON where JSON was asked for or sent, a page for all else."""
    problems = [{"place": problem.place, "message": problem.message} for problem in error.problems] if isinstance(
        error, InvalidPlan) else []  # fmt: skip
    words = desk_of(request).without_paths(str(error))
    if wants_json(request):
        record = {"error": error.code, "message": words, "problems": problems}
        return JSONResponse(record, status_code=error.http_status)
    return page(
        request, "error.html", status=error.http_status, title=_title(error), message=words, problems=problems
    )  # fmt: skip


def _title(error: PinfoldError) -> str:
    """Its first line where that is a sentence of its own."""
    if isinstance(error, InvalidPlan):
        return str(error).partition(":\n")[0]
    return _TITLES.get(error.http_status, HTTPStatus(error.http_status).phrase)


def wants_json(request: Request) -> bool:
    """Whether a script asks."""
    headers = request.headers
    return request.url.path.startswith("/api/") or headers.get("accept", "").startswith("application/json")

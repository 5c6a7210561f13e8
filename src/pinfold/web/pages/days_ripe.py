"""When what was placed is strong enough, out of the log or as if."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from pinfold.errors import InputError, NotFoundError
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import get_route


def ripe(request: Request) -> Response:
    """The form, and below it what was placed."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_ripe import days_ripe, ripe_form

    folder = desk_of(request).folder
    name, placed = (request.query_params.get(key, "").strip()[:80] for key in ("name", "placed"))
    wrong = ""
    try:
        answer = days_ripe(folder, name, placed)
    except (InputError, NotFoundError) as refused:
        wrong = refused.message if isinstance(refused, InputError) else str(refused)
        answer = days_ripe(folder)
    return page(
        request, "days_ripe.html", status=400 if wrong else 200, title=answer.page.title,
        body=as_html(answer, titled=False), form=ripe_form(folder, name, placed, wrong),
    )  # fmt: skip


ROUTES = (get_route("/days/ripe", ripe),)

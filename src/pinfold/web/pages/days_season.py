"""What the season allows day by day."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import get_route


def season(request: Request) -> Response:
    """The form, and below it the days; a day that cannot be read is told at its field."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_season import days_season

    folder = desk_of(request).folder
    day, wrong = request.query_params.get("day", "").strip()[:40], ""
    try:
        answer = days_season(folder, day)
    except InputError as refused:
        wrong = refused.message
        answer = days_season(folder)
    return page(
        request, "days_season.html", status=400 if wrong else 200, title=answer.page.title,
        body=as_html(answer, titled=False), day=day, wrong=wrong,
    )  # fmt: skip


ROUTES = (get_route("/days/season", season),)

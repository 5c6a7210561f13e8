"""A wet wall's day: a choice of face, day, wind and cover, its picture and its tables."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.web.answering import desk_of, page

_ASKED = ("face", "day", "wind_share", "cover")


def wet(request: Request) -> Response:
    """All faces today, or what is asked for."""
    from pinfold.actions.days_wet import WetAsked, WetShown, wet_as_html, wet_choices

    folder = desk_of(request).folder
    typed = {key: request.query_params.get(key, "").strip()[:60] for key in _ASKED}
    shown, wrong = WetShown(title="Keeping faces damp", picture="", body="", about=""), dict[str, str]()
    try:
        shown = wet_as_html(folder, WetAsked(**typed))
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
    except NotFoundError as refused:
        wrong = {"face": str(refused)}
    return page(
        request, "days_wet.html", status=400 if wrong else 200, title=shown.title, shown=shown, typed=typed,
        wrong=wrong, choices=wet_choices(folder),
    )  # fmt: skip


ROUTES = (Route("/days/wet", wet),)

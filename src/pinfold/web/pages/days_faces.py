"""Sun and shade on the faces through one day: its picture and its tables."""

from __future__ import annotations

from datetime import timedelta

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page


def faces(request: Request) -> Response:
    """Today, or the day that is asked for."""
    from pinfold.actions.days_faces import faces_as_html

    folder, typed, wrong = desk_of(request).folder, request.query_params.get("date", "").strip()[:40], ""
    try:
        title, day, picture, body = faces_as_html(folder, typed)
    except InputError as refused:
        wrong = refused.message
        title, day, picture, body = faces_as_html(folder)
    ways = [(word, (day + timedelta(days=off)).isoformat()) for word, off in (("day before", -1), ("day after", 1))]
    return page(
        request, "days_faces.html", status=400 if wrong else 200, title=title, typed=typed or day.isoformat(),
        ways=ways, wrong=wrong, picture=picture, body=body,
    )  # fmt: skip


ROUTES = (Route("/days/faces", faces),)

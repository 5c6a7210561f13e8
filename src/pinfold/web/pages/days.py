"""When to do what, by the weather."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from pinfold.web.pages import days_faces, days_ripe, days_season, days_weather, days_wet
from pinfold.web.pages.records import VerbPage


def days(_: Request) -> Response:
    """Leads to what there is of the days."""
    return RedirectResponse("/days/weather", status_code=303)


PAGE = VerbPage(
    verb="days", path="/days", says="When to do what, by the weather?", group="work",
    routes=(Route("/days", days), *days_faces.ROUTES, *days_weather.ROUTES, *days_season.ROUTES,
            *days_ripe.ROUTES, *days_wet.ROUTES),
)  # fmt: skip

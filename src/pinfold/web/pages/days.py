"""When to do what, by the weather."""

from __future__ import annotations

from pinfold.web.pages import days_faces, days_job, days_ripe, days_season, days_weather, days_wet
from pinfold.web.pages.records import VerbPage

PAGE = VerbPage(
    verb="days", path="/days", says="When to do what, by the weather?", group="work",
    routes=(*days_job.ROUTES, *days_faces.ROUTES, *days_weather.ROUTES, *days_season.ROUTES,
            *days_ripe.ROUTES, *days_wet.ROUTES),
)  # fmt: skip

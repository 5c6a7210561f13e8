"""Plan against actual, and the forecast with its picture."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from starlette.requests import Request
from starlette.responses import Response

from pinfold.actions.days_lately import Lately, lately
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import get_route

_AGAIN = "2"
"""Seconds after which a page that is not of now looks again."""


class _Shown(NamedTuple):
    """What a page shows: its title, its body, what stands before its picture, and the picture, as HTML."""

    title: str
    body: str
    opening: str = ""
    picture: str = ""


def against(request: Request) -> Response:
    """What the work done should have taken, what it took, and why."""
    folder = desk_of(request).folder
    return _page(request, "reckon_against.html", lately(folder, "against", lambda: _against(folder)))


def forecast(request: Request) -> Response:
    """When it will be done and what it still takes."""
    folder = desk_of(request).folder
    return _page(request, "reckon_forecast.html", lately(folder, "forecast", lambda: _forecast(folder)))


def _against(folder: Path) -> _Shown:
    from pinfold.actions.answers import as_folded
    from pinfold.actions.reckon_actuals import against_site

    answer = against_site(folder)
    return _Shown(answer.page.title, as_folded(answer, unfolded=("Hours",)))


def _forecast(folder: Path) -> _Shown:
    from pinfold.actions.answers import as_cards, as_opening
    from pinfold.actions.reckon_forecast import forecast_site

    answer, picture = forecast_site(folder)
    return _Shown(answer.page.title, as_cards(answer), as_opening(answer), picture)


def _page(request: Request, template: str, found: Lately[_Shown]) -> Response:
    """One of them; one that is not of now says so and looks again by itself."""
    shown = page(request, template, older=not found.is_of_now, **found.answer._asdict())
    if not found.is_of_now:
        shown.headers["Refresh"] = _AGAIN
    return shown


ROUTES = (get_route("/reckon/against", against), get_route("/reckon/forecast", forecast))

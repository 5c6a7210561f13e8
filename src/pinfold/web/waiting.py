"""Pages that take seconds the first time: one says that it is being worked out, and looks again by itself."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TypeVar

from starlette.requests import Request
from starlette.responses import Response

from pinfold.actions.days_lately import first
from pinfold.web.answering import desk_of, page

PATIENCE_S: float | None = 1.5
"""Seconds that a page is waited for before it says so; None for as long as it takes."""
_AGAIN = "2"
"""Seconds after which it looks again."""

Found = TypeVar("Found")


def awaited(request: Request, work: Callable[[], Found], *, also: Hashable = None) -> Found | None:
    """What a page shows; None while that is being worked out.

    Args:
        request: for the page; another address is another question
        work: gives it
        also: what it hangs on beside the site, its weather and the hour

    Raises:
        PinfoldError: as the work tells.
    """
    url = request.url
    return first(desk_of(request).folder, (url.path, url.query, also), work, patience=PATIENCE_S)


def working(request: Request, title: str, says: str) -> Response:
    """The page in its place.

    Args:
        request: for the page
        title: of the page
        says: what is being done
    """
    shown = page(request, "waiting.html", title=title, says=says)
    shown.headers["Refresh"] = _AGAIN
    return shown

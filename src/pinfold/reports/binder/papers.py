"""Sizes of paper, and which one a drawing needs to be printed at its true size (millimeters)."""

from __future__ import annotations

from pinfold.reports.binder.records import Paper

PAPERS: dict[Paper, tuple[tuple[str, float, float], ...]] = {
    "a4": (("A4", 210.0, 297.0), ("A3", 297.0, 420.0)),
    "letter": (("Letter", 215.9, 279.4), ("Tabloid", 279.4, 431.8)),
}
"""The binder's own paper, upright, and the one for what does not fit on it."""
ASIDE = 11.5
"""Kept free left and right of a drawing."""
ABOVE = 16.0
"""Kept free above and below it, for head and foot."""


def page_of(paper: Paper) -> dict[str, object]:
    """The binder's own page."""
    name, width, height = PAPERS[paper][0]
    return _page(name, width, height)


def page_for(paper: Paper, width: float, height: float) -> dict[str, object]:
    """The smallest page that takes a drawing at its true size, on its side for what is wider than tall.

    A drawing too large for both papers gets a page cut to it.
    """
    for name, narrow, long in PAPERS[paper]:
        across, down = (long, narrow) if width > height else (narrow, long)
        if width + 2 * ASIDE <= across and height + 2 * ABOVE <= down:
            return _page(name, across, down)
    return _page("larger paper", width + 2 * ASIDE, height + 2 * ABOVE)


def _page(name: str, width: float, height: float) -> dict[str, object]:
    return {"name": name, "width": width, "height": height, "aside": ASIDE, "above": ABOVE}

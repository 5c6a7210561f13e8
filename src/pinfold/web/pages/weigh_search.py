"""All build-ups that axes make: a form for what is asked, and what was found."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan
from pinfold.web.answering import desk_of, page

_LONGEST = 400


def search(request: Request) -> Response:
    """The form; once it is asked what was found, or how far that is; what cannot be read over the form."""
    from pinfold.actions.weigh_search import SearchAsked
    from pinfold.actions.weigh_searching import search_shown

    asked, wrong = request.query_params, ""
    axes = tuple((key, asked[key][:_LONGEST]) for key in asked if key not in _OTHERS and asked[key].strip())
    typed = SearchAsked(buildup=asked.get("buildup", "")[:60], limits=asked.get("limits", "")[:_LONGEST],
                        by=asked.get("on", "")[:200], axes=axes, every="every" in asked)  # fmt: skip
    try:
        shown = search_shown(desk_of(request).folder, typed, run="asked" in asked)
    except InvalidPlan as refused:
        wrong = "; ".join(str(problem) for problem in refused.problems)
        shown = search_shown(desk_of(request).folder, SearchAsked(), run=False)
    found = page(
        request, "weigh_search.html", status=400 if wrong else 200, title=shown.title, shown=shown, wrong=wrong,
        typed=typed, values=dict(axes),
    )  # fmt: skip
    if shown.going is not None:
        found.headers["Refresh"] = _AGAIN
    return found


_AGAIN = "2"
"""Seconds after which a page that is searched for looks again."""
_OTHERS = ("buildup", "limits", "on", "asked", "every")
ROUTES = (Route("/weigh/search", search),)

"""All build-ups that axes make: a form for what is asked, and what was found."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan
from pinfold.web.answering import desk_of, page

_LONGEST = 400


def search(request: Request) -> Response:
    """The form; what was found once it is asked, as the search takes a while; what cannot be read over the form."""
    from pinfold.actions.weigh_search import SearchAsked, search_shown

    asked, wrong = request.query_params, ""
    axes = tuple((key, asked[key][:_LONGEST]) for key in asked if key not in _OTHERS and asked[key].strip())
    typed = SearchAsked(buildup=asked.get("buildup", "")[:60], limits=asked.get("limits", "")[:_LONGEST], axes=axes,
                        every="every" in asked)  # fmt: skip
    try:
        shown = search_shown(desk_of(request).folder, typed, run="asked" in asked)
    except InvalidPlan as refused:
        wrong = "; ".join(str(problem) for problem in refused.problems)
        shown = search_shown(desk_of(request).folder, SearchAsked(), run=False)
    return page(
        request, "weigh_search.html", status=400 if wrong else 200, title=shown.title, shown=shown, wrong=wrong,
        typed=typed, values=dict(axes),
    )  # fmt: skip


_OTHERS = ("buildup", "limits", "asked", "every")
ROUTES = (Route("/weigh/search", search),)

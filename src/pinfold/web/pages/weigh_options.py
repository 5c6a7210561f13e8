"""Build-ups side by side, and one of them with its working."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.web.answering import desk_of, page
from pinfold.web.waiting import awaited, working

if TYPE_CHECKING:
    from pinfold.actions.weigh_side import WeighAsked

_LONGEST = 200
_WEIGHED = "Every build-up is being laid out, checked, priced and timed, which takes some seconds the first time."


def weigh(request: Request) -> Response:
    """All of them, sorted as asked; what cannot be asked so is told over the usual answer."""
    from pinfold.actions.weigh_side import WeighAsked, weigh_shown

    folder, wrong = desk_of(request).folder, ""
    names = tuple(each[:60] for each in request.query_params.getlist("name") if each)
    try:
        shown = awaited(request, lambda: weigh_shown(folder, replace(_asked(request), names=names)))
    except InvalidPlan as refused:
        wrong = "; ".join(str(problem) for problem in refused.problems)
        shown = weigh_shown(folder, WeighAsked())
    except NotFoundError as refused:
        wrong = str(refused)
        shown = weigh_shown(folder, WeighAsked())
    if shown is None:
        return working(request, "Which build-up", _WEIGHED)
    return page(request, "weigh.html", status=400 if wrong else 200, title=shown.title, shown=shown, wrong=wrong)


def option(request: Request) -> Response:
    """One of them with what its scores rest on."""
    from pinfold.actions.weigh_side import option_shown

    name = request.query_params.get("name", "")[:60]
    found = awaited(request, lambda: option_shown(desk_of(request).folder, name, _asked(request)))
    if found is None:
        return working(request, name, _WEIGHED)
    title, body = found
    return page(request, "weigh_option.html", title=title, body=body, name=name)


def _asked(request: Request) -> WeighAsked:
    """What is asked; the boxes of animals stand one by one, or with commas between."""
    from pinfold.actions.weigh_side import WeighAsked

    typed = request.query_params
    animals = ",".join(typed.getlist("animals")) or ("none" if "asked" in typed else "")
    return WeighAsked(
        by=typed.get("by", "")[:40], animals=animals[:_LONGEST], years=typed.get("years", "").strip()[:10]
    )  # fmt: skip


ROUTES = (Route("/weigh", weigh), Route("/weigh/option", option))

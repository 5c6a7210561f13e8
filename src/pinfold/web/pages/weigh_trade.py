"""The trade-off, what a plan hangs on, and what if: pages beside the build-ups side by side."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.web.answering import desk_of, page

_LONGEST = 400


def trade_off(request: Request) -> Response:
    """Within limits what nothing betters, as a picture and in words; what cannot be read over the usual answer."""
    from pinfold.actions.weigh_trade import TradeAsked, trade_shown

    folder, asked = desk_of(request).folder, request.query_params
    wrong: tuple[str, ...] = ()
    limits = asked.get("limits", "")[:_LONGEST]
    keys = tuple(dict.fromkeys(each[:40] for each in (asked.get("across", ""), asked.get("up", "")) if each))
    keys += tuple(each[:40] for each in asked.getlist("on") if each and each not in keys)
    try:
        shown = trade_shown(folder, TradeAsked(limits=limits, criteria=keys))
    except InvalidPlan as refused:
        wrong = tuple(str(problem) for problem in refused.problems)
        shown = trade_shown(folder, TradeAsked())
    return page(
        request, "weigh_trade.html", status=400 if wrong else 200, title=shown.title, shown=shown, limits=limits,
        wrong=wrong,
    )  # fmt: skip


def drivers(request: Request) -> Response:
    """What the plan hangs on; plans are checked meanwhile, so the page says so and a script fetches the answer."""
    from pinfold.actions.weigh_drivers import drivers_title

    name = request.query_params.get("of", "")[:60]
    title, names = drivers_title(desk_of(request).folder, name)
    values: dict[str, Any] = {"title": title, "names": names, "name": name, "body": ""}
    if "part" in request.query_params or "now" in request.query_params:
        values["body"] = _drivers(request)
    template = "weigh_drivers_found.html" if "part" in request.query_params else "weigh_drivers.html"
    return page(request, template, **values)


def _drivers(request: Request) -> str:
    from pinfold.actions.answers import as_html
    from pinfold.actions.weigh_drivers import drivers_at

    name = request.query_params.get("of", "")[:60]
    return as_html(drivers_at(desk_of(request).folder, name=name), titled=False)


def what_if(request: Request) -> Response:
    """Before and after what is supposed; what cannot be read over the form."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.weigh_what_if import SHOWN, what_if, what_if_title

    folder, asked = desk_of(request).folder, request.query_params
    texts = tuple(each.strip()[:80] for each in asked.getlist("change") if each.strip())
    names = tuple(each[:60] for each in asked.getlist("of") if each)
    wrong: tuple[str, ...] = ()
    body = ""
    try:
        body = as_html(what_if(folder, texts, names), titled=False) if texts else ""
    except InvalidPlan as refused:
        wrong = tuple(str(problem) for problem in refused.problems)
    except NotFoundError as refused:
        wrong = (str(refused),)
    return page(
        request, "weigh_what_if.html", status=400 if wrong else 200, title=what_if_title(folder), body=body,
        wrong=wrong, texts=(*texts, *("",) * (SHOWN - len(texts)))[: max(SHOWN, len(texts))],
    )  # fmt: skip


ROUTES = (Route("/weigh/trade-off", trade_off), Route("/weigh/drivers", drivers), Route("/weigh/what-if", what_if))

"""The account for others: what is chosen, what of it they would see, and the files to hand on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan
from pinfold.web.answering import desk_of, page
from pinfold.web.files import HTML, PDF, to_save
from pinfold.web.waiting import awaited, working

if TYPE_CHECKING:
    from pinfold.actions.reckon_account import AccountShown
    from pinfold.studies.account.records import Wish

_CSS = "text/css; charset=utf-8"


def account(request: Request) -> Response:
    """The choices as a form and the account as others will see it; a wrong choice is told over the usual one."""
    from pinfold.actions import reckon_account as shared

    folder, wrong = desk_of(request).folder, ""
    try:
        wish = _wish(request.query_params)
        shown = awaited(request, lambda: shared.share_site(folder, wish))
    except InvalidPlan as refused:
        wrong, wish = "; ".join(str(problem) for problem in refused.problems), shared.wish_of(None, "", (), ())
        shown = shared.share_site(folder, wish)
    if shown is None:
        return working(request, "An account to share", "What the log and the plan tell is being put together.")
    query = "" if wrong else request.url.query
    return page(
        request, "reckon_account.html", status=400 if wrong else 200, title="An account to share", shown=shown,
        body=shown.body(), wish=wish, wrong=wrong, query=f"?{query}" if query else "", parts=shared.PARTS,
        whens=shared.WHENS, offers=shared.offers_of(folder),
    )  # fmt: skip


def account_html(request: Request) -> Response:
    """As one HTML file."""
    return to_save(_shown(desk_of(request).folder, request.query_params).html(), name="account.html", media=HTML)


def account_pdf(request: Request) -> Response:
    """As a PDF."""
    return to_save(_shown(desk_of(request).folder, request.query_params).pdf(), name="account.pdf", media=PDF)


def account_css(_: Request) -> Response:
    """The style that the account has in its file too."""
    from pinfold.actions.reckon_account import style

    return Response(style(), media_type=_CSS)


def _shown(folder: Path, typed: QueryParams) -> AccountShown:
    from pinfold.actions.reckon_account import share_site

    return share_site(folder, _wish(typed))


def _wish(typed: QueryParams) -> Wish:
    """What is ticked; before the form was sent once, what is usual."""
    from pinfold.actions.reckon_account import wish_of

    parts = typed.getlist("share") if "asked" in typed else None
    return wish_of(parts, typed.get("when", "")[:20], typed.getlist("photo"), typed.getlist("note"))


ROUTES = (
    Route("/reckon/account", account), Route("/reckon/account.html", account_html),
    Route("/reckon/account.pdf", account_pdf), Route("/reckon/account.css", account_css),
)  # fmt: skip

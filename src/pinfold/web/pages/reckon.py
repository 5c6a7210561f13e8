"""What it will cost, and what it took."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from pinfold.web.answering import desk_of, page
from pinfold.web.pages import reckon_account, reckon_actuals, reckon_ledger
from pinfold.web.pages.records import VerbPage, get_route


def reckon(request: Request) -> Response:
    """Planned cost, what was spent so far, and whatever else the action tells."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_ledger import page_patience
    from pinfold.actions.reckoning import reckon_site

    answer = reckon_site(desk_of(request).folder, patience_s=page_patience())
    return page(request, "reckon.html", title=answer.page.title, body=as_html(answer, titled=False))


PAGE = VerbPage(
    verb="reckon", path="/reckon", says="What will it cost, and what did it take?",
    routes=(get_route("/reckon", reckon), *reckon_ledger.ROUTES, *reckon_actuals.ROUTES, *reckon_account.ROUTES),
)  # fmt: skip

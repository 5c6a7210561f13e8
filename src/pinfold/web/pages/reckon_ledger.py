"""The ledger line by line, and as a file for a spreadsheet."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.files import CSV, to_save


def ledger(request: Request) -> Response:
    """What was bought, left over and worked."""
    from pinfold.actions.answers import as_folded
    from pinfold.actions.reckon_ledger import list_ledger, page_patience

    answer = list_ledger(desk_of(request).folder, patience_s=page_patience())
    return page(
        request, "reckon_ledger.html", title=answer.page.title, body=as_folded(answer, unfolded=("pointed out",))
    )


def ledger_csv(request: Request) -> Response:
    """The same as CSV, every line."""
    from pinfold.actions.reckon_csv import ledger_text

    return to_save(ledger_text(desk_of(request).folder), name="ledger.csv", media=CSV)


ROUTES = (Route("/reckon/ledger", ledger), Route("/reckon/ledger.csv", ledger_csv))

"""What to buy and bring in, with boxes to tick."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.files import CSV, to_save
from pinfold.web.pages.records import VerbPage


def gather(request: Request) -> Response:
    """The list, trips and water."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.gathering import gather_site

    answer = gather_site(desk_of(request).folder, None)
    return page(
        request, "ticked.html", title=answer.page.title, body=as_html(answer, boxes=True, titled=False), ticks="gather",
        file="/gather.csv", says="The list for the shop, as CSV",
    )  # fmt: skip


def gather_csv(request: Request) -> Response:
    """The same list for a spreadsheet."""
    from pinfold.actions.gathering import gather_list

    return to_save(gather_list(desk_of(request).folder), name="gather.csv", media=CSV)


PAGE = VerbPage(
    verb="gather", path="/gather", says="What to buy and bring in?",
    routes=(Route("/gather", gather), Route("/gather.csv", gather_csv)), group="work",
)  # fmt: skip

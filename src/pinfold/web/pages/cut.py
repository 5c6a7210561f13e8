"""What to cut, with boxes to tick."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages import cut_gate, cut_pieces
from pinfold.web.pages.records import VerbPage


def cut(request: Request) -> Response:
    """Every piece with its mark."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.cut_gate import gate_names
    from pinfold.actions.cutting import cut_site

    folder = desk_of(request).folder
    answer = cut_site(folder)
    return page(
        request,
        "cut.html",
        gates=gate_names(folder),
        title=answer.page.title,
        body=as_html(answer, boxes=True, titled=False),
        ticks="cut",
        file="",
        says="",
    )


PAGE = VerbPage(
    verb="cut", path="/cut", says="Which pieces to cut?", group="work",
    routes=(Route("/cut", cut), *cut_pieces.ROUTES, *cut_gate.ROUTES),
)  # fmt: skip

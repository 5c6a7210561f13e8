"""What the log taught."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def lessons(request: Request) -> Response:
    """Every figure that the log changed or speaks of, before beside now, and the entries that could not be used."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.learning import lessons_of

    answer = lessons_of(desk_of(request).folder)
    return page(request, "answer.html", title=answer.page.title, body=as_html(answer))


PAGE = VerbPage(
    verb="lessons", path="/lessons", says="What did the log teach?", routes=(Route("/lessons", lessons),),
    group="look up",
)  # fmt: skip

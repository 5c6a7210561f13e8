"""What the log taught, and lessons of other plots to carry here."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def lessons(request: Request) -> Response:
    """Every figure that the log changed or speaks of, what was most wrong, and what batch changes did."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_lessons import lessons_of

    answer = lessons_of(desk_of(request).folder, working=True)
    return page(request, "answer.html", title=answer.page.title, body=as_html(answer))


PAGE = VerbPage(
    verb="lessons", path="/reckon/lessons", says="What did the log teach?", routes=(Route("/reckon/lessons", lessons),),
    group="look up",
)  # fmt: skip

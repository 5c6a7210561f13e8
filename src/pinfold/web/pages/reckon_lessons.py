"""What the log taught, and the next wall weighed with it."""

from __future__ import annotations

from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.actions.days_lately import lately
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage


def lessons(request: Request) -> Response:
    """Every figure that the log changed or speaks of, what was most wrong, and what batch changes did."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_lessons import lessons_of

    answer = lessons_of(desk_of(request).folder, working=True)
    return page(request, "reckon_lessons.html", title=answer.page.title, body=as_html(answer))


def next_wall(request: Request) -> Response:
    """Build-ups weighed with shipped figures and with learned ones; the page stands there while it is done."""
    from pinfold.actions.reckon_next_wall import next_wall_title

    folder = desk_of(request).folder
    title, body, is_of_now = next_wall_title(folder), "", True
    wanted = {"part", "now"} & set(request.query_params)
    if wanted:
        body, is_of_now = lately(folder, "next wall", lambda: _next_wall(folder))
    template = "reckon_next_wall_found.html" if "part" in wanted else "reckon_next_wall.html"
    return page(request, template, title=title, body=body, older=not is_of_now)


def _next_wall(folder: Path) -> str:
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_next_wall import next_wall_of

    return as_html(next_wall_of(folder), titled=False)


PAGE = VerbPage(
    verb="lessons", path="/reckon/lessons", says="What did the log teach?", group="look up",
    routes=(Route("/reckon/lessons", lessons), Route("/reckon/next-wall", next_wall)),
)  # fmt: skip

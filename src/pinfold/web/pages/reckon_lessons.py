"""What the log taught, and the next wall weighed with it."""

from __future__ import annotations

from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.actions.days_lately import lately
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage

_AGAIN = "2"
"""Seconds after which a page that is not of now looks again."""


def lessons(request: Request) -> Response:
    """Every figure that the log changed or speaks of, what was most wrong, and what batch changes did."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_lessons import lessons_of

    answer = lessons_of(desk_of(request).folder, working=True)
    return page(request, "reckon_lessons.html", title=answer.page.title, body=as_html(answer))


def next_wall(request: Request) -> Response:
    """Build-ups weighed with shipped figures and with learned ones."""
    folder = desk_of(request).folder
    found = lately(folder, "next wall", lambda: _next_wall(folder))
    title, body = found.answer
    shown = page(request, "reckon_lessons.html", title=title, body=body, older=not found.is_of_now)
    if not found.is_of_now:
        shown.headers["Refresh"] = _AGAIN
    return shown


def _next_wall(folder: Path) -> tuple[str, str]:
    """Title and body."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.reckon_next_wall import next_wall_of

    answer = next_wall_of(folder)
    return answer.page.title, as_html(answer)


PAGE = VerbPage(
    verb="lessons", path="/reckon/lessons", says="What did the log teach?", group="look up",
    routes=(Route("/reckon/lessons", lessons), Route("/reckon/next-wall", next_wall)),
)  # fmt: skip

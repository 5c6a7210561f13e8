"""The job in days: in short, whole with its picture, a day on a sheet, as a calendar."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from pinfold.actions.days_lately import Lately, lately
from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.files import to_save

if TYPE_CHECKING:
    from pinfold.actions.answers import Answer
    from pinfold.actions.days_laid import JobAsked

_ICS = "text/calendar; charset=utf-8"
_KEYS = ("from", "people", "hours")
_AGAIN = "2"
"""Seconds after which a page that is not of now looks again."""


def days(request: Request) -> Response:
    """Today's work and tomorrow's, and the way to the rest."""
    from pinfold.actions.days_job import days_now

    folder = desk_of(request).folder
    return _shown(request, "days.html", lately(folder, "days", lambda: _Days.of(days_now(folder))))


class _Days(NamedTuple):
    """What a page of the days shows: its title, its body as HTML, and what else its template asks for."""

    title: str
    body: str
    more: Mapping[str, object]

    @classmethod
    def of(cls, answer: Answer, **more: object) -> _Days:
        from pinfold.actions.answers import as_html

        return cls(answer.page.title, as_html(answer, titled=False), more)


def _shown(request: Request, template: str, found: Lately[_Days], *, status: int = 200, **values: object) -> Response:
    """A page of the days; one that is not of now says so and looks again by itself."""
    days = found.answer
    shown = page(
        request, template, status=status, title=days.title, body=days.body, older=not found.is_of_now, **days.more,
        **values,
    )  # fmt: skip
    if not found.is_of_now:
        shown.headers["Refresh"] = _AGAIN
    return shown


def line(request: Request) -> Response:
    """Today's work in a line, for the first page."""
    from pinfold.actions.days_job import today_lines

    return PlainTextResponse(today_lines(desk_of(request).folder)[0], headers={"Cache-Control": "no-store"})


def job(request: Request) -> Response:
    """The whole job; what is asked for wrongly is told at the form, over the job as the plan says it."""
    from pinfold.actions.days_laid import JobAsked

    typed, wrong = _typed(request), ""
    try:
        asked = JobAsked(first=typed["from"], people=typed["people"], hours=typed["hours"])
        found = _job(desk_of(request).folder, asked)
    except InputError as refused:
        wrong, found = f"{refused.place}: {refused.message}", _job(desk_of(request).folder, JobAsked())
    return _shown(request, "days_job.html", found, status=400 if wrong else 200, typed=typed, wrong=wrong)


def _job(folder: Path, asked: JobAsked) -> Lately[_Days]:
    from pinfold.actions.days_job import job_in_days, job_picture

    def laid() -> _Days:
        return _Days.of(job_in_days(folder, asked), picture=job_picture(folder, asked))

    return lately(folder, asked, laid)


def _typed(request: Request) -> dict[str, str]:
    return {key: request.query_params.get(key, "").strip()[:20] for key in _KEYS}


def sheet(request: Request) -> Response:
    """A day on a page, to print."""
    from pinfold.actions.days_sheet import day_sheet, days_beside

    folder, day = desk_of(request).folder, request.path_params["day"][:20]

    def laid() -> _Days:
        answer = day_sheet(folder, day)
        before, after = days_beside(folder, answer)
        return _Days.of(answer, before=before, after=after)

    return _shown(request, "days_sheet.html", lately(folder, ("sheet", day), laid))


def today(_: Request) -> Response:
    """The sheet of today."""
    return RedirectResponse("/days/sheet/today", status_code=303)


def calendar(request: Request) -> Response:
    """The job for a calendar."""
    from pinfold.actions.days_job import job_calendar
    from pinfold.actions.days_laid import JobAsked

    typed = _typed(request)
    asked = JobAsked(first=typed["from"], people=typed["people"], hours=typed["hours"])
    return to_save(job_calendar(desk_of(request).folder, asked), name="pinfold-job.ics", media=_ICS)


ROUTES = (
    Route("/days", days), Route("/days/line", line), Route("/days/job", job), Route("/days/sheet", today),
    Route("/days/sheet/{day}", sheet), Route("/days/calendar.ics", calendar),
)  # fmt: skip

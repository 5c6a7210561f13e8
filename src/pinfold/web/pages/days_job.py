"""The job in days: in short, whole with its picture, a day on a sheet, as a calendar."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.files import to_save

_ICS = "text/calendar; charset=utf-8"
_KEYS = ("from", "people", "hours")


def days(request: Request) -> Response:
    """Today's work and tomorrow's, and the way to the rest."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_job import days_now

    answer = days_now(desk_of(request).folder)
    return page(request, "days.html", title=answer.page.title, body=as_html(answer, titled=False))


def line(request: Request) -> Response:
    """Today's work in a line, for the first page."""
    from pinfold.actions.days_job import today_lines

    return PlainTextResponse(today_lines(desk_of(request).folder)[0], headers={"Cache-Control": "no-store"})


def job(request: Request) -> Response:
    """The whole job; what is asked for wrongly is told at the form, over the job as the plan says it."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_job import job_in_days, job_picture
    from pinfold.actions.days_laid import JobAsked

    folder, typed, wrong = desk_of(request).folder, _typed(request), ""
    try:
        asked = JobAsked(first=typed["from"], people=typed["people"], hours=typed["hours"])
        answer = job_in_days(folder, asked)
    except InputError as refused:
        wrong, asked = f"{refused.place}: {refused.message}", JobAsked()
        answer = job_in_days(folder, asked)
    return page(
        request, "days_job.html", status=400 if wrong else 200, title=answer.page.title, typed=typed, wrong=wrong,
        picture=job_picture(folder, asked), body=as_html(answer, titled=False),
    )  # fmt: skip


def _typed(request: Request) -> dict[str, str]:
    return {key: request.query_params.get(key, "").strip()[:20] for key in _KEYS}


def sheet(request: Request) -> Response:
    """A day on a page, to print."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_sheet import day_sheet, days_beside

    answer = day_sheet(desk_of(request).folder, request.path_params["day"][:20])
    before, after = days_beside(desk_of(request).folder, answer)
    return page(
        request, "days_sheet.html", title=answer.page.title, body=as_html(answer, titled=False), before=before,
        after=after,
    )  # fmt: skip


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

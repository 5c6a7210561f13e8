"""The job in days: all of it, one day of it on a sheet, as a calendar, and in a line for the first page."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from zoneinfo import ZoneInfo

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_laid import JobAsked, Laid, Told, laid_out
from pinfold.actions.days_season import season_told
from pinfold.errors import NoSolutionError
from pinfold.figures import Figure
from pinfold.plan.people import HOUR, WEEKDAYS
from pinfold.reports.days_calendar import calendar_bytes
from pinfold.reports.days_job import NO_WEATHER, JobTold, WorkTold, day_line, job_page, known, short_lines
from pinfold.reports.days_picture import framed, picture
from pinfold.reports.days_season import season_brief
from pinfold.reports.pages import Block, Page, Paragraph
from pinfold.store.writing import write_bytes
from pinfold.studies.days.finishing import Finish
from pinfold.studies.days.pieces import Piece
from pinfold.studies.days.scheduling import Placed
from pinfold.tables.shelf import kind

_CALENDAR_MOST = 2000
"""Events in one file."""


def job_in_days(folder: Path, asked: JobAsked, *, now: datetime | None = None, told: Told | None = None) -> Answer:
    """The whole job in days, with when it will be done.

    Args:
        folder: of the site
        asked: who works and from when
        now: with its offset; the clock's where it is not given
        told: of the progress of doing the job over

    Raises:
        InputError: what is asked for cannot be read.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    laid = laid_out(folder, asked, now=now)
    record = job_told(laid, laid.finish(told))
    return answer_from(laid.days.site, record, _page(laid, record))


def job_picture(folder: Path, asked: JobAsked, *, now: datetime | None = None) -> str:
    """The picture of the job for the middle of a page; empty where there is nothing to do.

    Raises:
        As `job_in_days`.
    """
    laid = laid_out(folder, asked, now=now)
    return framed(picture(works_told(laid), hours=laid.people.hours / HOUR))


def job_calendar(folder: Path, asked: JobAsked, *, now: datetime | None = None) -> bytes:
    """The job as an iCalendar file.

    Raises:
        NoSolutionError: nobody works, so that nothing can be laid into days.
        And as `job_in_days`.
    """
    laid = laid_out(folder, asked, now=now)
    if laid.schedule is None:
        raise NoSolutionError(NOBODY)
    plan = laid.days.site.plan
    zone = ZoneInfo(plan.place.time_zone) if plan.place.time_zone is not None else None
    return calendar_bytes(plan.name, works_told(laid)[:_CALENDAR_MOST], now=laid.days.now, zone=zone)


def write_calendar(folder: Path, asked: JobAsked, file: Path, *, now: datetime | None = None) -> int:
    """Write the job to an iCalendar file.

    Returns:
        how many events stand in it

    Raises:
        StoreError: it cannot be written.
        And as `job_calendar`.
    """
    write_bytes(file, job_calendar(folder, asked, now=now))
    return len(works_told(laid_out(folder, asked, now=now))[:_CALENDAR_MOST])


def days_now(folder: Path, *, now: datetime | None = None) -> Answer:
    """Today's and tomorrow's work in short, and where to look further.

    Raises:
        As `job_in_days`.
    """
    laid = laid_out(folder, JobAsked(), now=now)
    today = laid.days.now.date()
    works = tuple(work for work in works_told(laid) if work.start.date() <= today + timedelta(days=1))
    told = replace(job_told(laid, None), works=works)
    lines = short_lines(told, today, today + timedelta(days=1)) if laid.schedule is not None else (NOBODY,)
    season = season_told(laid.days, today, 2).days
    page = Page(
        title=f"{laid.days.site.plan.name}: the days",
        blocks=(
            *(Paragraph(text=text) for text in (*lines, *told.weather)),
            *((season_brief(season, laid.days.site.plan.units),) if season else ()), Paragraph(text=_FURTHER),
        ),
    )  # fmt: skip
    return answer_from(laid.days.site, told, page)


_FURTHER = (
    "'pinfold days sheet' has all of today on a page, 'pinfold days job' the whole job, 'pinfold days calendar FILE' "
    "the same for a calendar, 'pinfold days season' what the season asks; 'pinfold days --help' lists the rest."
)


def today_lines(folder: Path, *, now: datetime | None = None) -> tuple[str, ...]:
    """Today's and tomorrow's work, a line each.

    Raises:
        As `job_in_days`.
    """
    laid = laid_out(folder, JobAsked(), now=now)
    if laid.schedule is None:
        return (NOBODY,)
    today = laid.days.now.date()
    works = works_told(laid)
    return tuple(day_line([work for work in works if work.start.date() == today + timedelta(days=step)])
                 for step in (0, 1))  # fmt: skip


NOBODY = (
    "Nobody works: people.count is 0, or there is no day under people.weekdays. Write them into the plan, or ask with "
    "--people 2."
)


@lru_cache(maxsize=6)  # each of the coming days' sheets asks for all of them
def works_told(laid: Laid) -> tuple[WorkTold, ...]:
    """Every piece of work in its place, with its reasons."""
    if laid.schedule is None:
        return ()
    return tuple(_work(laid, placed) for placed in laid.schedule.placed)


def _work(laid: Laid, placed: Placed) -> WorkTold:
    piece, zone = placed.piece, laid.days.zone
    task = piece.task
    explained = laid.teller.explain(placed)
    doses = task.doses
    pace = laid.job.paces[task.key]
    return WorkTold(
        key=task.key, work=task.work.value, says=_said(piece), place=task.place, face=task.face, part=piece.part,
        parts=piece.parts, start=placed.start.astimezone(zone), end=placed.end.astimezone(zone), people=piece.people,
        mixes=tuple(dict.fromkeys(dose.mix for dose in doses)),
        batches=known(math.fsum(dose.batches for dose in doses) * piece.share),
        water=known(math.fsum(dose.water for dose in doses) * piece.share), why=explained.why, steps=explained.do,
        not_shown=(*explained.not_shown, *(() if pace.is_known else ("its time is NOT SHOWN",))),
        estimated=not placed.foreseen, pace=pace.told,
    )  # fmt: skip


def _said(piece: Piece) -> str:
    """What is to be done; amounts in it are of the whole task, so the share of it is told beside them."""
    says = piece.task.says
    return says if piece.share > _WHOLE else f"{says} in all, {piece.share:.0%} of it now"


_WHOLE = 0.995


def job_told(laid: Laid, finish: Finish | None) -> JobTold:
    """All that is told of a job."""
    schedule, job = laid.schedule, laid.job
    left = math.fsum(
        pace.labor * laid.progress.left.get(key, 1.0) for key, pace in job.paces.items() if pace.is_known
    )  # fmt: skip
    ends = None if schedule is None or schedule.finish is None else schedule.finish.astimezone(laid.days.zone)
    return JobTold(
        people=laid.people.count, hours=laid.people.hours,
        weekdays=tuple(WEEKDAYS[day] for day in laid.people.weekdays), finish=ends,
        early=finish.early if finish else None, likely=finish.likely if finish else None,
        late=finish.late if finish else None, done=laid.progress.share(job), in_part=laid.progress.in_part, labor=left,
        gap=schedule.gap if schedule else math.nan, proven=schedule.proven if schedule else False,
        until=schedule.until.isoformat() if schedule else "",
        weather=((NO_WEATHER,) if laid.asked.outlook is None else ()) + laid.days.told, works=works_told(laid),
        missing=_missing(laid), notes=_notes(laid),
    )  # fmt: skip


def _missing(laid: Laid) -> tuple[str, ...]:
    lines = [f"not counted: {text}" for text in laid.job.missing]
    if laid.schedule is None:
        lines.append(NOBODY)
    else:
        lines += [f"no day found for {piece.name}: weather or waits keep it off" for piece in laid.schedule.unplaced]
        lines += [f"time of {key}, which is laid in as if it took a moment" for key in laid.schedule.unknown]
    lines += [f"in the log, laid to no task: {text}" for text in laid.progress.unplaced]
    return tuple(lines)


def _notes(laid: Laid) -> tuple[str, ...]:
    notes = []
    if laid.schedule is not None and laid.schedule.placed:
        schedule = laid.schedule
        if schedule.proven:
            notes.append(f"No better order was found to {schedule.until.isoformat()}, and none is by more than 0.5 %.")
        else:
            worse = f"{schedule.gap * 100:.1f} % worse than the best"
            notes.append(f"The order to {schedule.until.isoformat()} may be up to {worse}.")
    usual = laid.days.site.plan.people.usual
    if usual:
        notes.append(f"The plan says nothing under [people] of {', '.join(usual)}: the usual stands.")
    if laid.progress.by_order:
        names = laid.progress.by_order
        more = f" and {len(names) - 4} more" if len(names) > 4 else ""
        notes.append(f"Taken as done, for what comes after is in the log: {', '.join(names[:4])}{more}.")
    return tuple(notes)


def _page(laid: Laid, record: JobTold) -> Page:
    return job_page(laid.days.site.plan.name, record, laid.people, figures=_figures(laid))


def _figures(laid: Laid) -> tuple[tuple[str, Figure], ...]:
    """Paces and waits behind the days, each once."""
    found: dict[str, Figure] = {}
    for pace in laid.job.paces.values():
        found.update(pace.figures)
    rules = (("waits", kind("job_rules", "waits")), ("spread", kind("job_rules", "spread")))
    for shelf_name, row in rules:
        found.update({f"{shelf_name}: {name.replace('_', ' ')}": figure for name, figure in row.figures.items()})
    return tuple(found.items())


def job_part(folder: Path, *, now: datetime | None = None) -> tuple[tuple[Block, ...], str]:
    """For the binder: what is told of the job, and its picture.

    Raises:
        As `job_in_days`.
    """
    laid = laid_out(folder, JobAsked(), now=now)
    if laid.schedule is None:
        return (Paragraph(text=NOBODY),), ""
    record = job_told(laid, laid.finish(None))
    return _page(laid, record).blocks, picture(record.works, hours=laid.people.hours / HOUR)


def first_days(laid: Laid, count: int) -> tuple[date, ...]:
    """Days on which there is work, the first ones."""
    days = dict.fromkeys(work.start.date() for work in works_told(laid))
    return tuple(days)[:count]

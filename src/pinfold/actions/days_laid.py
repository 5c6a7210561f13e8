"""A site's job laid into days: tasks, paces, what the log says is done, weather, schedule; each found once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from functools import cached_property, lru_cache
from pathlib import Path

import numpy as np

from pinfold.actions.days_site import SiteDays, days_site
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site
from pinfold.errors import InputError
from pinfold.logbook.entries import Entry
from pinfold.plan.people import HOUR, People
from pinfold.store.log import open_log
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.explaining import Teller
from pinfold.studies.days.finishing import Finish, Scatter, finish_of
from pinfold.studies.days.limiting import Ripening
from pinfold.studies.days.outlook import Outlook
from pinfold.studies.days.progress import WORK_KINDS, Progress, progress_of
from pinfold.studies.days.records import Job
from pinfold.studies.days.scheduling import Asked, Schedule, scheduled
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.forecasting.attendance import Attendance, attendance
from pinfold.studies.forecasting.hands import elsewhere, hands_of
from pinfold.studies.forecasting.rest import Rest, at_own_pace, rest_of
from pinfold.studies.forecasting.timed import timed
from pinfold.studies.lessons.records import Topic
from pinfold.studies.ripening.wanting import Placing
from pinfold.studies.seasons.hours import season_hours
from pinfold.studies.seasons.people import heat_hours
from pinfold.studies.seasons.records import SeasonHours, SeasonWork
from pinfold.studies.seasons.works import season_works
from pinfold.studies.sun.positions import middles, standpoint, sun_at
from pinfold.studies.sun.records import Standpoint, Sun
from pinfold.studies.weather.records import Element, Weather
from pinfold.units import SECOND, read

_AHEAD = 400
"""Days of weather looked at."""
_BEFORE = timedelta(days=28)
"""Hours before the first day that are looked at too: what was placed in them hardens, and frost in them counts."""
Told = Callable[[int, int], None]


@dataclass(frozen=True, kw_only=True)
class JobAsked:
    """How the job is asked for; what is not given is as the plan says.

    Attributes:
        first: day to begin on, ISO; empty for now.
        people: how many work; empty for the plan's.
        hours: of a day, a plain number or with a unit; empty for the plan's.
    """

    first: str = ""
    people: str = ""
    hours: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Laid:
    """A job in days.

    Attributes:
        days: the site and its weather.
        people: who works.
        job: tasks and paces, the crew's own as far as the log tells.
        progress: how far it is.
        asked: what the schedule was asked for with.
        schedule: the job in days; None where nobody works.
        rest: what is left, at the norms' times and with what the log says of the hands.
        days_kept: planned days and what became of them.
        scatter: how pace and days worked may come otherwise.
    """

    days: SiteDays
    people: People
    job: Job
    progress: Progress
    asked: Asked
    schedule: Schedule | None
    rest: Rest
    days_kept: Attendance
    scatter: Scatter

    @cached_property
    def teller(self) -> Teller:
        """Tells why each piece lies where it lies."""
        assert self.schedule is not None
        return Teller(self.schedule, self.asked, system=self.days.site.plan.units)

    def finish(self, told: Told | None = None) -> Finish | None:
        """When it will be done, with a spread; None where it cannot be told."""
        return _finish(self, told) if self.schedule is not None and self.schedule.finish is not None else None


def laid_out(folder: Path, asked: JobAsked, *, now: datetime | None = None) -> Laid:
    """The job of a site folder in days.

    Args:
        folder: of the site
        asked: who works and from when
        now: with its offset; the clock's where it is not given

    Raises:
        InputError: what is asked for cannot be read.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    days = days_site(folder, now=now)
    people = _people(days.site.plan.people, asked)
    first = _first(asked.first, days)
    slot = int(days.now.timestamp() // (0.5 * HOUR))
    return _laid(days.site, days.weather.sources, first, people, slot)


def _first(text: str, days: SiteDays) -> date | None:
    """The day asked for; None for now. A day that is over cannot be worked in."""
    if not text:
        return None
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise InputError(f"{text[:20]!r} is no day; write it like 2026-05-03", place="from") from None
    if not timedelta(0) <= day - days.now.date() <= timedelta(days=365):
        raise InputError(f"{text} lies before today or over a year ahead", place="from")
    return day


def _people(plan: People, asked: JobAsked) -> People:
    count = plan.count
    if asked.people:
        if not asked.people.isdigit() or not 0 < int(asked.people) <= 100:
            raise InputError(f"{asked.people[:20]!r} found; a number from 1 to 100 is wanted", place="people")
        count = int(asked.people)
    hours = _hours(asked.hours) if asked.hours else plan.hours
    end = min(max(plan.end, plan.start + hours), 24 * HOUR)
    return replace(plan, count=count, hours=min(hours, end - plan.start), end=end)


def _hours(text: str) -> float:
    hours = read(f"{text} h" if text.replace(".", "", 1).isdigit() else text, like=SECOND, place="hours")
    if not 0.5 * HOUR <= hours <= 16 * HOUR:
        raise InputError(f"{text[:20]!r} found; from half an hour to 16 hours a day is wanted", place="hours")
    return hours


@lru_cache(maxsize=6)  # page, sheet, calendar and front page ask for the same
def _laid(site: Site, sources: object, first: date | None, people: People, slot: int) -> Laid:
    del sources  # the weather hangs on the folder; it is here so that other weather is another job
    days = days_site(site.folder, now=datetime.fromtimestamp(slot * 0.5 * HOUR, UTC))
    counted = reckon_all(site)
    missing = Counted(counted.quantities, counted.cards).missing
    norms = job_of(tasks_of(site.layout, counted.quantities, counted.cards), people, missing)
    logged = work_logged(site)
    progress = progress_of(norms, logged)
    found, practice = timed(norms, logged)
    hands = hands_of(found, elsewhere(norms, site.lessons.about(Topic.PACE)))
    rest = rest_of(norms, progress.left, hands, practice, days.now)
    job, paces = at_own_pace(rest)
    days_kept = attendance(logged, people.weekdays, logged)
    begin = days.now if first is None else datetime.combine(first, time(), days.zone)
    outlook, works = _outlook(replace(days, now=begin))
    asked = Asked(
        people=people, now=begin, zone=days.zone, left=progress.left, done=progress.done, outlook=outlook,
        ripening=None if outlook is None else _ripening(job, outlook, works, site),
    )  # fmt: skip
    return Laid(
        days=days, people=people, job=job, progress=progress, asked=asked, schedule=scheduled(job, asked), rest=rest,
        days_kept=days_kept, scatter=Scatter(paces=paces, kept=days_kept.kept),
    )  # fmt: skip


@lru_cache(maxsize=4)  # schedule, plan against actual and forecast ask for the same
def work_logged(site: Site) -> tuple[Entry, ...]:
    """All that the log tells of work done and of weather; nothing where it cannot be read, as the cautions tell."""
    if site.log_told:
        return ()
    with open_log(site.folder) as log:
        kinds = (*WORK_KINDS, "weather")
        return tuple(entry for kind in kinds for entry in log.entries(kind=kind, standing=True, limit=None))


@lru_cache(maxsize=4)
def _finish(laid: Laid, told: Told | None) -> Finish | None:
    assert laid.schedule is not None
    assert laid.schedule.finish is not None
    span = (laid.schedule.finish.astimezone(laid.days.zone).date() - laid.asked.first).days + 1
    return finish_of(laid.job, laid.asked, span, scatter=laid.scatter, tell=told)


def _outlook(days: SiteDays) -> tuple[Outlook | None, dict[tuple[str, str, str], SeasonWork]]:
    """What is known of the hours from some before the first day on; None without weather."""
    coming = days.over(days.today - _BEFORE, (_BEFORE.days + _AHEAD) * 24)
    works = {_key(work): work for work in season_works(days.site.layout, days.site.lessons)}
    if coming is None:
        return None, works
    family, lessons = days.site.plan.family, days.site.lessons
    seasons: dict[tuple[str, str, str], SeasonHours] = {
        key: season_hours(work, coming.weather, family=family, lessons=lessons, foreseen=coming.foreseen)
        for key, work in works.items()
    }
    sun = None
    if days.is_placed:
        sun = _sun(standpoint(days.site.plan.place, coming.weather), coming.weather)
    heat = heat_hours(coming.weather) if coming.weather.has(Element.HUMIDITY) else None
    return Outlook(
        weather=coming.weather, foreseen=np.asarray(coming.foreseen), seasons=seasons, heat=heat, sun=sun,
        light=days.light_in(coming.weather), drying=days.drying,
    ), works  # fmt: skip


@lru_cache(maxsize=4)  # an entry in the log does not have the sun looked at again
def _sun(place: Standpoint, weather: Weather) -> Sun:
    return sun_at(place, middles(weather))


def _key(work: SeasonWork) -> tuple[str, str, str]:
    placing = work.placing
    if placing is None:
        return work.layer, "", ""
    return work.layer, placing.mix.name, placing.coat.name if placing.coat is not None else ""


def _ripening(job: Job, outlook: Outlook, works: dict[tuple[str, str, str], SeasonWork], site: Site) -> Ripening:
    placings: dict[str, Placing] = {}
    for task in job.tasks:
        for dose in task.doses:
            work = works.get((dose.layer, dose.mix, task.coat))
            if work is not None and work.placing is not None:
                placings.setdefault(task.key, work.placing)
    return Ripening(outlook, {task.key: task for task in job.tasks}, placings, site.lessons)

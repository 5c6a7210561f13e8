"""One day of the job on a sheet: work, batches, water, rounds, covers, sun and heat."""

from __future__ import annotations

import math
from datetime import date, datetime, timedelta
from pathlib import Path

import numpy as np

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_job import NOBODY, first_days, works_told
from pinfold.actions.days_laid import JobAsked, Laid, laid_out
from pinfold.actions.days_site import days_site
from pinfold.errors import NoSolutionError, NotFoundError
from pinfold.plan.people import HOUR
from pinfold.reports.days_job import NO_WEATHER, WorkTold, known
from pinfold.reports.days_sheet import CoverTold, SheetTold, WetTold, sheet_page
from pinfold.reports.pages import Heading, Page
from pinfold.studies.days.caring import Finished, cautions_of, covers_on, finished_before, rounds_on
from pinfold.studies.days.slots import moment_of
from pinfold.studies.sun.positions import standpoint, sun_day
from pinfold.studies.weather.records import Element
from pinfold.tables.shelf import kind
from pinfold.units import CELSIUS, CUBIC_METER, METER_PER_SECOND, System, show


def day_sheet(folder: Path, day: str, asked: JobAsked | None = None, *, now: datetime | None = None) -> Answer:
    """The sheet of one day.

    Args:
        folder: of the site
        day: ISO, `today` or `tomorrow`
        asked: who works; as the plan says where not given
        now: with its offset; the clock's where it is not given

    Raises:
        InputError: it is no day.
        NotFoundError: it lies before today or past all work.
        NoSolutionError: nobody works.
        And as reading the site and its weather tells.
    """
    laid = laid_out(folder, asked or JobAsked(), now=now)
    if laid.schedule is None:
        raise NoSolutionError(NOBODY)
    found = laid.days.day_of(day)
    if found < laid.days.now.date():
        raise NotFoundError(f"{found.isoformat()} is over; what happened is in the log")
    if found > laid.days.now.date() + timedelta(days=1100):
        raise NotFoundError(f"{found.isoformat()} lies further ahead than is looked at")
    told = sheet_told(laid, found)
    return answer_from(laid.days.site, told, sheet_page(told, laid.days.site.plan.units))


def days_beside(folder: Path, answer: Answer, *, now: datetime | None = None) -> tuple[str, str]:
    """The days before and after that of a sheet, ISO; none before today.

    Raises:
        As `day_sheet`.
    """
    assert isinstance(answer.record, SheetTold)
    day = date.fromisoformat(answer.record.day)
    today = days_site(folder, now=now).now.date()
    return (day - timedelta(days=1)).isoformat() if day > today else "", (day + timedelta(days=1)).isoformat()


def first_sheets(folder: Path, count: int, *, now: datetime | None = None) -> tuple[Page, ...]:
    """For the binder: sheets of the first days with work; none where nobody works.

    Raises:
        As `day_sheet`.
    """
    laid = laid_out(folder, JobAsked(), now=now)
    system = laid.days.site.plan.units
    pages = (sheet_page(sheet_told(laid, day), system) for day in first_days(laid, count))
    return tuple(Page(title=page.title, blocks=(Heading(text=page.title), *page.blocks)) for page in pages)


def sheet_told(laid: Laid, day: date) -> SheetTold:
    """All of one day."""
    assert laid.schedule is not None
    zone, plan = laid.days.zone, laid.days.site.plan
    works = tuple(work for work in works_told(laid) if work.start.date() == day)
    done = [Finished(laid.job.task(key), at) for key, at in laid.progress.done.items()]
    fresh = finished_before(laid.schedule, done, day, zone)
    wet = tuple(
        WetTold(place=each.place, times=each.times, water=known(each.water), until=each.until.isoformat(),
                because=each.because)
        for each in rounds_on(day, fresh, laid.asked.outlook, zone=zone)
    )  # fmt: skip
    covers = tuple(
        CoverTold(place=each.place, by=each.by, because=each.because, lowest=known(each.lowest))
        for each in covers_on(day, fresh, laid.asked.outlook, zone=zone)
    )
    tasks = [laid.job.task(work.key) for work in works]
    cautions = cautions_of(tasks, has_lines=bool(plan.lines))
    heat = _heat(laid, day, works)
    return SheetTold(
        day=day.isoformat(), works=works, water=_water(works, wet), wet=wet, covers=covers, sun=_sun(laid, day),
        heat=heat, weather=_weather(laid, day), off=day.weekday() not in laid.people.weekdays,
        cautions=(*cautions, *((kind("cautions", "heat").says,) if heat else ())),
    )  # fmt: skip


def _water(works: tuple[WorkTold, ...], wet: tuple[WetTold, ...]) -> float | None:
    waters = [work.water for work in works if work.mixes] + [each.water for each in wet]
    return None if any(water is None for water in waters) else math.fsum(water for water in waters if water)


def _sun(laid: Laid, day: date) -> str:
    if not laid.days.is_placed:
        return ""
    sun = sun_day(standpoint(laid.days.site.plan.place, laid.days.hours), day, laid.days.zone)
    if sun.rise is None or sun.set is None:
        return f"The sun is {sun.always} all day." if sun.always else ""
    return f"Sun from {sun.rise:%H:%M} to {sun.set:%H:%M}."


def _hours(laid: Laid, day: date) -> list[int]:
    """Numbers of the hours between six and ten in the evening that the outlook knows."""
    outlook = laid.asked.outlook
    if outlook is None:
        return []
    begin = moment_of(day, 6 * HOUR, laid.days.zone).timestamp()
    return [hour for step in range(16) if (hour := outlook.hour(begin + step * HOUR)) >= 0]


def _weather(laid: Laid, day: date) -> tuple[str, ...]:
    outlook, hours, doubts = laid.asked.outlook, _hours(laid, day), laid.days.weather.chosen.doubts
    if outlook is None or not hours:
        return NO_WEATHER, *doubts
    system, weather = laid.days.site.plan.units, outlook.weather
    parts = []
    for element, unit, word in ((Element.TEMPERATURE, CELSIUS, "air"), (Element.WIND, METER_PER_SECOND, "wind")):
        values = weather.of(element)[hours] if weather.has(element) else np.array([np.nan])
        if np.isfinite(values).any():
            low, high = (show(float(end), unit, system, digits=2) for end in (np.nanmin(values), np.nanmax(values)))
            parts.append(f"{word} {low} to {high}")
        else:
            parts.append(f"{word} NOT SHOWN")
    foreseen = bool(outlook.foreseen[hours].all())
    if foreseen and weather.has(Element.RAIN_CHANCE):
        parts.append(f"chance of rain at most {np.nanmax(weather.of(Element.RAIN_CHANCE)[hours]) * 100:.0f} %")
    told = f"{', '.join(parts)}, from 6:00 to 22:00"
    return f"{told[:1].upper()}{told[1:]}{'.' if foreseen else ', by a usual year: estimated.'}", *doubts


def _heat(laid: Laid, day: date, works: tuple[WorkTold, ...]) -> str:
    """What the worst hour of the work asks: rest and water; empty where it asks nothing."""
    outlook = laid.asked.outlook
    if outlook is None or outlook.heat is None:
        return ""
    heat = outlook.heat
    spans = [(work.start.timestamp(), work.end.timestamp()) for work in works]
    start = outlook.weather.start.timestamp()
    hours = [
        hour for hour in _hours(laid, day)
        if any(first - HOUR < start + hour * HOUR < last for first, last in spans) and np.isfinite(heat.sun_c[hour])
    ]  # fmt: skip
    if not hours:
        return ""
    worst = max(hours, key=lambda hour: float(heat.sun_c[hour]))
    level, rest = heat.level(worst), HOUR - float(heat.work["heavy"][worst])
    if level is None or level.name == "lower":
        return ""
    system = laid.days.site.plan.units
    drink = show(float(heat.drink[worst]), CUBIC_METER, system, in_unit="qt" if system is System.US else "L", digits=2)
    rests = f" Heavy work rests {rest / 60:.0f} min in the worst hour." if rest >= 60 else ""
    return f"Heat: {level.says}.{rests} Drink {drink} an hour. Local rules and your own body go before this."

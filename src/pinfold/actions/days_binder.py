"""The days in the binder: sheets of the first days, the job, sun and wetting of the day; the season; the year's sun."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta

from pinfold.actions.binding_sun import sun_part
from pinfold.actions.clock import site_clock
from pinfold.actions.days_faces import day_of
from pinfold.actions.days_job import job_part
from pinfold.actions.days_season import season_sheet
from pinfold.actions.days_sheet import first_sheets
from pinfold.actions.days_site import SiteDays, days_site
from pinfold.actions.days_wet import wet_sheets
from pinfold.actions.sites import Site
from pinfold.reports.binder.records import BinderBlock, BinderPart, Card, Sheet
from pinfold.reports.days_faces import day_section
from pinfold.reports.faces_chart import faces_sheet
from pinfold.reports.pages import Block, Paragraph
from pinfold.tables.shelf import kind

TITLE = "The days"
SHEETS = 3
"""Days with work that get a sheet of their own; those after change with the forecast."""
_LOW = 0.5
"""Height of the picture of the job over its width."""
_INTRO = (
    "By the weather as it was known when this was printed: print the sheets anew when the forecast is, or look on the "
    "phone. What is estimated is marked ~."
)


def days_parts(site: Site, *, day: date, wide_mm: float) -> tuple[BinderPart, ...]:
    """The chapters that hang on weather, season and sun.

    Args:
        site: as read
        day: it is printed on; its work is that of the whole day
        wide_mm: width of a picture on paper
    """
    return (
        _days_part(site, days_site(site.folder, now=morning(site, day)), wide_mm),
        BinderPart(title="The season's rules", blocks=season_sheet(site), cautions=(kind("cautions", "heat").says,)),
        sun_part(site, year=day.year, wide_mm=wide_mm),
    )


def morning(site: Site, day: date) -> datetime:
    """When work begins on a day, by the clock of the place."""
    zone = site_clock(site.plan).zone or UTC
    return datetime.combine(day, time(), zone) + timedelta(seconds=site.plan.people.start)


def _days_part(site: Site, days: SiteDays, wide_mm: float) -> BinderPart:
    """The coming days; one line of what is missing where there is no weather."""
    if days.hours is None:
        return BinderPart(title=TITLE, blocks=tuple(Paragraph(text=text) for text in days.told))
    job, strokes = job_part(site.folder, now=days.now)
    sun, faces = _sun(days, wide_mm)
    wet, wetted = wet_sheets(days, wide_mm=wide_mm)
    blocks: tuple[BinderBlock, ...] = (*_cards(site, days.now), *job, *sun, *wet)
    pictures = [("The job in days", strokes, wide_mm * _LOW)] if strokes else []
    sheets = tuple(
        Sheet(title=title, svg=svg, width_mm=wide_mm, height_mm=high)
        for title, svg, high in (*pictures, *faces, *wetted)
    )
    return BinderPart(title=TITLE, intro=_INTRO, blocks=blocks, sheets=sheets)


def _cards(site: Site, now: datetime) -> Iterator[Card]:
    """Sheets to hang up, one a day."""
    for page in first_sheets(site.folder, SHEETS, now=now):
        yield Card(title=page.title, blocks=page.blocks[1:])


def _sun(days: SiteDays, wide_mm: float) -> tuple[tuple[Block, ...], tuple[tuple[str, str, float], ...]]:
    found = day_of(days, days.now.date())
    if found is None or not found.faces:
        return (), ()
    svg, high = faces_sheet(found, wide_mm=wide_mm)
    return day_section(found, days.site.plan.units), ((f"Sun on the faces, {found.day.isoformat()}", svg, high),)

"""The binder's chapter on sun and shade: three days of the year under a clear sky, with their pictures."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from pinfold.actions.sites import Site, as_drawn
from pinfold.errors import NotFoundError
from pinfold.reports.binder.records import BinderPart, Sheet
from pinfold.reports.days_faces import day_section
from pinfold.reports.faces_chart import LEGEND, faces_sheet
from pinfold.studies.sun.day import FacesDay, faces_day
from pinfold.studies.sun.faces import faces_of
from pinfold.studies.sun.light import cloudless, light_on, lighting_of
from pinfold.studies.sun.positions import standpoint
from pinfold.studies.sun.records import Standpoint

TITLE = "Sun and shade"
_DAYS = ((3, 20), (6, 21), (12, 21))
_INTRO = (
    "Three days under a clear sky, by the clock of the place: of spring and autumn, of midsummer, of midwinter. Coat a "
    f"face while it lies in shade. {LEGEND}"
)


def sun_part(site: Site, *, year: int, wide_mm: float) -> BinderPart:
    """The chapter; empty, and so left out, where nobody knows where on earth the plot is.

    Args:
        site: as read
        year: whose days they are
        wide_mm: width of a picture on paper
    """
    try:
        place = standpoint(site.plan.place)
    except NotFoundError:
        return BinderPart(title=TITLE)
    days = [_clear_day(site, place, date(year, *day)) for day in _DAYS]
    days = [day for day in days if day.faces]
    drawn = [(day, *faces_sheet(day, wide_mm=wide_mm)) for day in days]
    return BinderPart(
        title=TITLE, intro=_INTRO if days else "",
        blocks=tuple(block for day in days for block in day_section(day, site.plan.units)),
        sheets=tuple(Sheet(title=f"Sun and shade on {day.day.isoformat()}", svg=svg, width_mm=wide_mm, height_mm=high)
                     for day, svg, high in drawn),
    )  # fmt: skip


def _clear_day(site: Site, place: Standpoint, day: date) -> FacesDay:
    layout = as_drawn(site).layout
    zone = ZoneInfo(site.plan.place.time_zone or "UTC")
    start = datetime.combine(day, time(), zone).astimezone(UTC)
    hours = round(
        (datetime.combine(day + timedelta(days=1), time(), zone).astimezone(UTC) - start) / timedelta(hours=1)
    )
    weather = cloudless(start, hours, zone)
    return faces_day(layout, place, day, weather, light_on(layout, faces_of(layout), lighting_of(layout, weather)))

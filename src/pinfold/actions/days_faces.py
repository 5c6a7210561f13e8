"""Sun and shade on every face of a site through one day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.days_site import SiteDays, days_site
from pinfold.figures import Figure
from pinfold.reports.days_faces import bare_page, day_page
from pinfold.reports.faces_chart import faces_chart
from pinfold.studies.sun.day import FacesDay, faces_day
from pinfold.studies.sun.light import cloudless
from pinfold.studies.sun.positions import standpoint
from pinfold.studies.sun.records import Face
from pinfold.units import Radian, SquareMeter

_DAY = timedelta(days=1)


@dataclass(frozen=True, kw_only=True)
class FacePlain:
    """A face of which only the plan is known.

    Attributes:
        name: of the face.
        facing: way it looks, clockwise from true north.
        tilt: from lying face up.
        area: of it.
        shows: what the sun falls on.
        absorptance: share of the sun's heat that it takes up; None where it is not known.
    """

    name: str
    facing: Radian
    tilt: Radian
    area: SquareMeter
    shows: str
    absorptance: Figure | None


@dataclass(frozen=True, kw_only=True)
class FacesUnplaced:
    """The faces while nobody knows where on earth they stand.

    Attributes:
        notes: what is missing.
        faces: in order around the plot.
    """

    notes: tuple[str, ...]
    faces: tuple[FacePlain, ...]


def days_faces(folder: Path, day: str = "", *, now: datetime | None = None) -> Answer:
    """Sun and shade through a day.

    Args:
        folder: of the site
        day: such as `2026-06-21`, `today` or `tomorrow`; today when empty
        now: the moment it is asked, with its offset; the clock's where not given

    Raises:
        InputError: no such day.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    return _answer(days_site(folder, now=now), day)


def faces_as_html(folder: Path, day: str = "", *, now: datetime | None = None) -> tuple[str, date, str, str]:
    """The answer's title, its day, its picture and its text, for a page; no picture where nothing can be shown.

    Raises:
        InputError, NotFoundError, StoreError, NewerFileError, InvalidPlan: as `days_faces` tells.
    """
    days = days_site(folder, now=now)
    answer = _answer(days, day)
    found = answer.record
    picture = faces_chart(found, days.now) if isinstance(found, FacesDay) and found.faces else ""
    return answer.page.title, days.day_of(day), picture, as_html(answer, titled=False)


def _answer(days: SiteDays, day: str) -> Answer:
    system = days.site.plan.units
    found = day_of(days, days.day_of(day))
    if found is None:
        plain = FacesUnplaced(notes=days.told, faces=tuple(_plain(face) for face in days.faces))
        return answer_from(days.site, plain, bare_page(days.faces, days.told, system))
    return answer_from(days.site, found, day_page(found, days.told, system))


def _plain(face: Face) -> FacePlain:
    return FacePlain(name=face.name, facing=face.facing, tilt=face.tilt, area=face.area, shows=face.shows,
                     absorptance=face.absorptance)  # fmt: skip


def day_of(days: SiteDays, day: date) -> FacesDay | None:
    """Sun and shade through a day by the clock of the place; None where nobody knows where on earth the plot is."""
    start, end = (datetime.combine(each, time(), days.zone).astimezone(UTC) for each in (day, day + _DAY))
    count = round((end - start) / timedelta(hours=1))
    joined = days.over(start, count)
    weather = cloudless(start, count, days.zone) if joined is None else joined.weather
    light = days.light_in(weather)
    if light is None:
        return None
    return faces_day(days.layout, standpoint(days.site.plan.place, weather), day, weather, light)

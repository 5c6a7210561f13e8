"""What all verbs of the days ask of a site: its weather joined hour by hour, its faces, and the light on them.

Each is worked out once for as long as the files it hangs on stay what they are; the light hangs on plan and weather
alone, so that a new entry in the log does not have the sun looked at again.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import cached_property, lru_cache
from pathlib import Path

from pinfold.actions.clock import site_clock
from pinfold.actions.site_weather import SiteWeather, site_weather
from pinfold.actions.sites import Site, as_drawn, open_site
from pinfold.errors import InputError, NotFoundError
from pinfold.studies.drying.records import Drying
from pinfold.studies.drying.study import drying_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.sun.faces import faces_of
from pinfold.studies.sun.light import Lighting, cloudless, light_on, lighting_of
from pinfold.studies.sun.positions import standpoint
from pinfold.studies.sun.records import Face, Light
from pinfold.studies.weather.joining import Joined, joined
from pinfold.studies.weather.records import Weather

DAY = timedelta(days=1)
AHEAD = 8
"""Days, today among them, that are looked at unless others are asked for."""
_WORDS = {"": 0, "today": 0, "tomorrow": 1}
NO_WEATHER = (
    "No weather is known for these days: 'pinfold days weather FILE --take' puts a saved forecast, a typical year or "
    "twelve monthly normals into the folder 'weather'. What hangs on it is NOT SHOWN."
)
NO_PLACE = (
    "Sun and shade are NOT SHOWN: neither plan nor weather gives latitude and longitude; write them under [place] like "
    'latitude = "38.9 deg" and longitude = "-103.6 deg".'
)


@dataclass(frozen=True, kw_only=True, eq=False)
class SiteDays:
    """A site and its weather at one moment.

    Attributes:
        site: as read.
        now: the moment, by the clock of the place.
        weather: files of its folder, what was chosen of them, and why.
    """

    site: Site
    now: datetime
    weather: SiteWeather

    @property
    def zone(self) -> tzinfo:
        """Clock of the place."""
        assert self.now.tzinfo is not None, "now has its offset"
        return self.now.tzinfo

    @property
    def today(self) -> datetime:
        """The beginning of the day, by the clock of the place."""
        return datetime.combine(self.now.date(), time(), self.zone)

    def day_of(self, text: str) -> date:
        """A day as typed: `today`, `tomorrow` or such as `2026-06-21`; today when empty.

        Raises:
            InputError: it is none.
        """
        word = text.strip().lower()
        if word in _WORDS:
            return self.now.date() + _WORDS[word] * DAY
        try:
            return date.fromisoformat(word)
        except ValueError:
            told = f"{text[:40]!r} is no day; write it like 2026-06-21, or 'today' or 'tomorrow'"
            raise InputError(told, place="date") from None

    @property
    def layout(self) -> Layout:
        """The plan laid out as it is drawn; figures that the log taught are in `site.layout`."""
        return as_drawn(self.site).layout

    @cached_property
    def faces(self) -> tuple[Face, ...]:
        """All faces of the plan."""
        return faces_of(self.layout)

    @cached_property
    def coming(self) -> Joined | None:
        """Hours from the beginning of today on; None where no weather is known."""
        return self.over(self.today, AHEAD * 24)

    @property
    def hours(self) -> Weather | None:
        """The same without what of it is of these very days."""
        return None if self.coming is None else self.coming.weather

    @cached_property
    def light(self) -> Light | None:
        """Light on all faces in the hours of `coming`, of a clear sky without weather; None where no place is given."""
        clear = _cloudless(self.today.astimezone(UTC), self.zone)
        return self.light_in(clear if self.hours is None else self.hours)

    def over(self, start: datetime, count: int) -> Joined | None:
        """So many hours of weather from a moment on; None where none is known."""
        return _joined(self.weather.sources, self.weather.chosen.year, start.astimezone(UTC), count)

    def light_in(self, weather: Weather) -> Light | None:
        """Light on all faces in hours that `over` gave; None where nobody knows where on earth the plot is."""
        return None if (lighting := self.lighting_in(weather)) is None else _light(self.layout, weather, lighting)

    def lighting_in(self, weather: Weather) -> Lighting | None:
        """Sun and sky in such hours; None likewise."""
        return _lighting(self.layout, weather) if self.is_placed else None

    @cached_property
    def drying(self) -> Drying | None:
        """How each face dries in the hours of `coming`, in the usual wind and without a cover.

        None without weather or place; where the weather lacks something, the answer says what.
        """
        if self.hours is None or self.light is None or (lighting := self.lighting_in(self.hours)) is None:
            return None
        return _drying(self.light, lighting, self.hours)

    @property
    def is_placed(self) -> bool:
        """Whether plan or weather says where on earth the plot is."""
        try:
            standpoint(self.site.plan.place, self.hours)
        except NotFoundError:
            return False
        return True

    @cached_property
    def told(self) -> tuple[str, ...]:
        """What is to be known of the weather before any answer: which, why, how old, and what cannot be read."""
        lines = list(self.weather.chosen.notes)
        lines += [str(wrong) for wrong in self.weather.wrong]
        if self.hours is None:
            lines.append(NO_WEATHER)
        if not self.is_placed:
            lines.append(NO_PLACE)
        if self.site.plan.place.time_zone is None:
            lines.append(f"Hours go by the clock of {self.now:UTC%z}: the plan gives no time_zone under [place].")
        return tuple(lines)


def days_site(folder: Path, *, now: datetime | None = None) -> SiteDays:
    """A site folder and its weather.

    Args:
        folder: of the site
        now: the moment it is asked, with its offset; the clock's where not given

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    site = open_site(folder)
    moment = now or datetime.now(UTC)
    weather = site_weather(site, now=moment)
    return SiteDays(site=site, now=moment.astimezone(_zone(site, weather)), weather=weather)


def _zone(site: Site, weather: SiteWeather) -> tzinfo | None:
    """The place's clock, else that of the weather, else this computer's."""
    zone = site_clock(site.plan).zone
    chosen = weather.chosen.coming or weather.chosen.year
    return zone if zone is not None or chosen is None else chosen.zone


@lru_cache(maxsize=8)
def _joined(sources: tuple[Weather, ...], year: Weather | None, start: datetime, count: int) -> Joined | None:
    return joined(sources, year, start=start, count=count)


@lru_cache(maxsize=8)
def _lighting(layout: Layout, weather: Weather) -> Lighting:
    return lighting_of(layout, weather)


@lru_cache(maxsize=8)
def _light(layout: Layout, weather: Weather, lighting: Lighting) -> Light:
    return light_on(layout, faces_of(layout), lighting)


@lru_cache(maxsize=4)
def _drying(light: Light, lighting: Lighting, weather: Weather) -> Drying:
    return drying_of(light, lighting, weather)


@lru_cache(maxsize=2)
def _cloudless(start: datetime, zone: tzinfo) -> Weather:
    return cloudless(start, AHEAD * 24, zone)

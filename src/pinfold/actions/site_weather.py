"""The weather of a site: its files read, mended and chosen from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from pinfold.actions.sites import Site
from pinfold.errors import InvalidPlan
from pinfold.plan.place import Place
from pinfold.plan.weather_file import WeatherFile
from pinfold.store.weather.folder import weather_files
from pinfold.studies.weather.choosing import Chosen, chosen
from pinfold.studies.weather.records import Weather
from pinfold.studies.weather.taking import weather_of
from pinfold.units import System


@dataclass(frozen=True, kw_only=True)
class SiteWeather:
    """What a site has of weather.

    Attributes:
        chosen: what the days are reckoned with.
        sources: all files that could be taken.
        wrong: complaints about those that could not, each with its file's name.
    """

    chosen: Chosen
    sources: tuple[Weather, ...]
    wrong: tuple[InvalidPlan, ...]


def site_weather(site: Site, *, now: datetime) -> SiteWeather:
    """The weather out of a site's folder `weather`.

    Args:
        site: as read
        now: the moment it is asked, with its offset

    Raises:
        StoreError: the folder cannot be read.
    """
    sources, wrong = [], []
    for found in weather_files(site.folder):
        if found.wrong is not None:
            wrong.append(found.wrong)
        if found.file is None:
            continue
        try:
            sources.append(taken_from(site, found.file, now=now))
        except InvalidPlan as refused:
            wrong.append(refused)
    return SiteWeather(chosen=chosen(sources, now=now), sources=tuple(sources), wrong=tuple(wrong))


def taken_from(site: Site, file: WeatherFile, *, now: datetime) -> Weather:
    """Hours out of a file, for the place of a site.

    Args:
        site: as read
        file: as read
        now: with its offset

    Raises:
        InvalidPlan: nobody knows when its hours are, or nothing of it can be.
    """
    return _taken(file, site.plan.place, now.year, site.plan.units)


@lru_cache(maxsize=32)
def _taken(file: WeatherFile, place: Place, year: int, system: System) -> Weather:
    return weather_of(file, place, year=year, system=system)

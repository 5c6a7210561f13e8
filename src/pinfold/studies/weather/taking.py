"""From what a weather file says to hours that can be reckoned with: one clock, one set of units, every gap told."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from pinfold.plan.place import Place
from pinfold.plan.weather_file import DayFile, HourFile, MonthFile, Source, WeatherFile
from pinfold.studies.weather.clouds import as_worded, speaks_of_clouds, with_cover
from pinfold.studies.weather.days import hours_of_days
from pinfold.studies.weather.doubts import of_the_place, without_doubtful
from pinfold.studies.weather.gaps import without_gaps
from pinfold.studies.weather.gridding import on_hours
from pinfold.studies.weather.moistening import with_moisture, with_pressure
from pinfold.studies.weather.nearness import compared
from pinfold.studies.weather.possible import FIRST_SEED, possible_year
from pinfold.studies.weather.records import Weather
from pinfold.studies.weather.sunning import Spot, with_sky_heat, with_sun
from pinfold.units import System


def weather_of(
    file: WeatherFile, place: Place, *, year: int, seed: int = FIRST_SEED, system: System = System.METRIC
) -> Weather:
    """Hours of weather out of a file, with what is estimated in it marked and told.

    Args:
        file: as read
        place: of the plan
        year: that a typical year is told in: this one
        seed: which of the possible years of monthly normals
        system: units that notes are in

    Raises:
        InvalidPlan: nobody knows when its hours are, or they are spread over years.
    """
    zone = ZoneInfo(place.time_zone) if place.time_zone is not None else None
    spot = spot_of(place, file.source)
    if isinstance(file, MonthFile):
        taken = possible_year(file, zone, spot, year=year, seed=seed)
    elif isinstance(file, DayFile):
        taken = hours_of_days(file, zone, spot)
    else:
        taken = _hourly(file, zone, year)
    sound = of_the_place(without_doubtful(taken), place.elevation, system)
    whole = with_pressure(with_moisture(without_gaps(sound)), place.elevation, system)
    return compared(with_sky_heat(with_sun(whole, spot)), place, system)


def _hourly(file: HourFile, zone: ZoneInfo | None, year: int) -> Weather:
    if speaks_of_clouds(file):
        return as_worded(on_hours(with_cover(file), zone, year=year))
    return on_hours(file, zone, year=year)


def spot_of(place: Place, source: Source) -> Spot | None:
    """Where the sun is looked at from: the plot, else the place of the file; None where neither is known."""
    latitude, longitude, elevation = place.latitude, place.longitude, place.elevation
    if latitude is None or longitude is None:
        latitude, longitude, elevation = source.latitude, source.longitude, source.elevation
    if latitude is None or longitude is None:
        return None
    return Spot(latitude, longitude, 0.0 if elevation is None else elevation)

"""From what a weather file says to hours that can be reckoned with: one clock, one set of units, every gap told."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from pinfold.plan.place import Place
from pinfold.plan.weather_file import HourFile, WeatherFile
from pinfold.studies.weather.gaps import without_gaps
from pinfold.studies.weather.gridding import on_hours
from pinfold.studies.weather.moistening import with_moisture, with_pressure
from pinfold.studies.weather.records import Weather


def weather_of(file: WeatherFile, place: Place, *, year: int) -> Weather:
    """Hours of weather out of a file.

    Args:
        file: as read
        place: of the plan
        year: that a typical year is told in: this one

    Raises:
        InvalidPlan: nobody knows when its hours are.
    """
    zone = ZoneInfo(place.time_zone) if place.time_zone is not None else None
    assert isinstance(file, HourFile)
    taken = on_hours(file, zone, year=year)
    return with_pressure(with_moisture(without_gaps(taken)), place.elevation)

"""Where the sun stands, by pvlib: at the middle of each hour, and when it rises and sets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Any

import numpy as np

from pinfold.errors import NotFoundError
from pinfold.plan.place import Place
from pinfold.studies.sun.records import Standpoint, Sun, SunDay
from pinfold.studies.weather.records import Weather
from pinfold.units import Celsius, Pascal

HALF_AN_HOUR = timedelta(minutes=30)
_USUAL_AIR_C: Celsius = 12.0
"""Lifts the sun by a few hundredths of a degree at the horizon more or less; nothing hangs on it."""
_LEVEL = math.radians(-0.8333)
"""Altitude of the middle of the sun when its upper edge, lifted by the air, is on the level horizon."""


def standpoint(place: Place, weather: Weather | None = None) -> Standpoint:
    """Where the sun is seen from: the plan's place; the weather's own where the plan gives none.

    Raises:
        NotFoundError: neither gives latitude and longitude.
    """
    if place.latitude is not None and place.longitude is not None:
        notes = () if place.elevation is not None else ("the plan gives no elevation: the sea's is taken",)
        return Standpoint(
            latitude=place.latitude, longitude=place.longitude, elevation=place.elevation or 0.0, notes=notes
        )  # fmt: skip
    if weather is not None and weather.latitude is not None and weather.longitude is not None:
        told = "the plan gives no latitude and longitude under [place]: those of the weather file are taken"
        return Standpoint(
            latitude=weather.latitude, longitude=weather.longitude, elevation=weather.elevation or 0.0, notes=(told,)
        )  # fmt: skip
    raise NotFoundError(
        "where the sun stands is not known: the plan gives no latitude and longitude under [place]; write them like "
        'latitude = "38.9 deg" and longitude = "-103.6 deg"'
    )


def middles(weather: Weather) -> tuple[datetime, ...]:
    """The middle of each hour: a sum of the hour belongs to the sun there, not at its beginning or end."""
    return tuple(moment + HALF_AN_HOUR for moment in weather.times)


def sun_at(
    place: Standpoint, moments: Sequence[datetime], *, pressure: Pascal | None = None, air_c: Celsius = _USUAL_AIR_C
) -> Sun:
    """Where the sun stands at some moments.

    Args:
        place: seen from
        moments: in any zone
        pressure: of the air; the usual one at that elevation where not given
        air_c: warmth of the air; with the pressure it only lifts a sun near the horizon
    """
    from pvlib.irradiance import get_extra_radiation
    from pvlib.solarposition import get_solarposition

    index = _index(moments)
    found = get_solarposition(
        index, math.degrees(place.latitude), math.degrees(place.longitude), altitude=place.elevation,
        pressure=pressure, temperature=air_c,
    )  # fmt: skip
    return Sun(
        moments=tuple(moment.astimezone(UTC) for moment in moments),
        altitude=np.radians(found["apparent_elevation"].to_numpy()),
        azimuth=np.radians(found["azimuth"].to_numpy()),
        outside=get_extra_radiation(index.day_of_year.to_numpy()),
    )


def sun_day(place: Standpoint, day: date, zone: tzinfo) -> SunDay:
    """When the sun rises, stands highest and sets on a day by the clock of the place."""
    from pvlib.solarposition import sun_rise_set_transit_spa

    noon = datetime.combine(day, time(12), zone)
    days = [datetime.combine(day, time(), UTC) + timedelta(days=off) for off in (-1, 0, 1)]
    table = sun_rise_set_transit_spa(_index(days), math.degrees(place.latitude), math.degrees(place.longitude))
    moments = [[_moment(row[name], zone) for name in ("sunrise", "transit", "sunset")] for _, row in table.iterrows()]
    # pvlib counts days by the clock of Greenwich: the one meant has its noon on the day here
    rise, highest, down = next(
        (three for three in moments if three[1] is not None and three[1].date() == day), (None, noon, None)
    )  # fmt: skip
    if rise is not None and down is not None and highest is not None:
        return SunDay(rise=rise, noon=highest, set=down)
    always = "up" if sun_at(place, [noon]).altitude[0] > _LEVEL else "down"
    return SunDay(rise=None, noon=highest or noon, set=None, always=always)


def _index(moments: Sequence[datetime]) -> Any:
    import pandas as pd

    return pd.DatetimeIndex(pd.to_datetime(list(moments), utc=True))


def _moment(stamp: Any, zone: tzinfo) -> datetime | None:
    import pandas as pd

    return None if pd.isna(stamp) else stamp.floor("s").to_pydatetime().astimezone(zone)

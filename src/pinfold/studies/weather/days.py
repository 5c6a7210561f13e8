"""Hours out of the lowest and highest temperature of each day: a sine by day, an exponential by night, marked."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.errors import InputError, InvalidPlan
from pinfold.formulas.diurnal import MINIMUM_LAG, day_temperature_c, night_temperature_c
from pinfold.plan.weather_file import DayFile
from pinfold.studies.weather.clocks import HOUR
from pinfold.studies.weather.clouds import cover
from pinfold.studies.weather.gridding import MOST_HOURS, in_si
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.weather.sunning import Spot
from pinfold.studies.worlds.replay import on_arrays

SHAPED = (
    "Hours are shaped out of each day's low and high; a single hour may be 2 K off, on a day with a front far more."
)
HELD = "The dew point is held at each day's low: humidity by the hour is an estimate, too high in dry country."
STILL = "Wind is not given: 2.7 m/s at 10 m is taken, the mean of many stations."
BY_SIX = "The sun is taken to rise at 6 and set at 18, for nothing gives latitude and longitude."
POLAR = "On some of these days the sun hardly rises or sets, or not at all: it is taken to rise at 6 and set at 18."
_USUAL_WIND = 2.0 * math.log(67.8 * 10 - 5.42) / 4.87
_DAY, _LEAST = 24 * 3600.0, 3600.0
_SIX, _EIGHTEEN = 6 * 3600.0, 18 * 3600.0


class _Day(NamedTuple):
    begins: datetime
    sunrise: datetime
    sunset: datetime
    low: float
    high: float
    sunless: bool


def hours_of_days(file: DayFile, zone: tzinfo | None, spot: Spot | None) -> Weather:
    """Hours from the first midnight to the last; days that are left out are not a number.

    Args:
        file: days as typed
        zone: clock of the place
        spot: of the plot; None where the plan does not say

    Raises:
        InvalidPlan: the plan does not say which clock, or days are spread over years.
    """
    if zone is None:
        told = "days go by the clock of the place: add time_zone = 'America/Denver' or such under [place] of the plan"
        raise InvalidPlan(file.source.name, [InputError(told)])
    days = _days(file, zone, spot)
    first = min(days)
    start, count = days[first].begins, (_midnight(max(days) + timedelta(days=1), zone) - days[first].begins) // HOUR
    if count > MOST_HOURS:
        told = f"its days go from {first} to {max(days)}; two years are the most; look for a mistyped year"
        raise InvalidPlan(file.source.name, [InputError(told)])
    air = np.full(count, np.nan)
    low, cloud = air.copy(), air.copy()
    middles = start.timestamp() + (np.arange(count, dtype=float) + 0.5) * 3600.0
    words = dict(zip(file.days, file.sky, strict=True)) if file.sky else {}
    for name, day in days.items():
        end = _midnight(name + timedelta(days=1), zone)
        hours = slice((day.begins - start) // HOUR, (end - start) // HOUR)
        air[hours] = _shaped(days, name, middles[hours])
        low[hours], cloud[hours] = day.low, cover(words.get(name, ""))
    found = {
        Element.TEMPERATURE: air, Element.DEW_POINT: np.fmin(low, air), Element.CLOUD: cloud,
        Element.WIND: np.where(np.isnan(air), np.nan, _USUAL_WIND),
    }  # fmt: skip
    notes = (*file.source.notes, SHAPED, HELD, STILL, *_of_the_sun(days.values(), spot))
    return _weather(file, start, zone, found=found, notes=notes)


def _weather(
    file: DayFile, start: datetime, zone: tzinfo, *, found: dict[Element, Hours], notes: tuple[str, ...]
) -> Weather:
    series = {element: hours for element, hours in found.items() if np.isfinite(hours).any()}
    marks: dict[Element, NDArray[np.bool_]] = {element: np.isfinite(hours) for element, hours in series.items()}
    source = file.source
    return Weather(
        kind=source.kind, says=", ".join(filter(None, (source.name, source.says))), start=start, zone=zone,
        series=series, estimated=marks, latitude=source.latitude, longitude=source.longitude,
        elevation=source.elevation, written=source.written, notes=notes,
    )  # fmt: skip


def _days(file: DayFile, zone: tzinfo, spot: Spot | None) -> dict[date, _Day]:
    """Each day by its date; where one stands twice the later line counts."""
    lows, highs = (in_si(column, Element.TEMPERATURE) for column in (file.lows, file.highs))
    suns = _suns(file.days, zone, spot)
    return {
        day: _Day(_midnight(day, zone), *(sun or _by_six(day, zone)), float(low), float(high), sun is None)
        for day, sun, low, high in zip(file.days, suns, lows, highs, strict=True)
    }


def _of_the_sun(days: Iterable[_Day], spot: Spot | None) -> tuple[str, ...]:
    if spot is None:
        return (BY_SIX,)
    return (POLAR,) if any(day.sunless for day in days) else ()


def _midnight(day: date, zone: tzinfo) -> datetime:
    return datetime.combine(day, time(), tzinfo=zone).astimezone(UTC)


def _by_six(day: date, zone: tzinfo) -> tuple[datetime, datetime]:
    midnight = _midnight(day, zone)
    return midnight + timedelta(seconds=_SIX), midnight + timedelta(seconds=_EIGHTEEN)


def _suns(days: Sequence[date], zone: tzinfo, spot: Spot | None) -> list[tuple[datetime, datetime] | None]:
    """Sunrise and sunset; None on a day without one or with hardly any day or night, or without a place."""
    if spot is None:
        return [None] * len(days)
    import pandas
    from pvlib.solarposition import sun_rise_set_transit_spa

    noons = pandas.DatetimeIndex([datetime.combine(day, time(12)) for day in days]).tz_localize(zone)
    seen = sun_rise_set_transit_spa(noons, math.degrees(spot.latitude), math.degrees(spot.longitude))
    return [
        None if pandas.isna(rise) or pandas.isna(sets) or not _LEAST < (sets - rise).total_seconds() < _DAY - _LEAST
        else (rise.floor("s").to_pydatetime(), sets.floor("s").to_pydatetime())
        for rise, sets in zip(seen["sunrise"], seen["sunset"], strict=True)
    ]  # fmt: skip


def _shaped(days: dict[date, _Day], name: date, moments: Hours) -> Hours:
    """Temperatures of a day at moments of it, given in seconds since 1970."""
    day = days[name]
    before, after = (days.get(name + timedelta(days=step)) for step in (-1, 1))
    evening = before if before is not None else _moved(day, -1)
    morning = moments < day.sunrise.timestamp() + MINIMUM_LAG
    night = moments > day.sunset.timestamp()
    found = np.empty(len(moments))
    found[morning] = _by_night(evening, day.low, moments[morning])
    found[night] = _by_night(day, day.low if after is None else after.low, moments[night])
    light = ~(morning | night)
    found[light] = on_arrays(day_temperature_c)(
        after_sunrise=moments[light] - day.sunrise.timestamp(), day_length=_length(day), lowest_c=day.low,
        highest_c=day.high,
    )  # fmt: skip
    return found


def _moved(day: _Day, step: int) -> _Day:
    later = timedelta(days=step)
    return day._replace(begins=day.begins + later, sunrise=day.sunrise + later, sunset=day.sunset + later)


def _length(day: _Day) -> float:
    return (day.sunset - day.sunrise).total_seconds()


def _by_night(day: _Day, low: float, moments: Hours) -> Hours:
    """After a day's sunset, down to the low of the next morning: aimed so far below it that it is reached by then."""
    length = _length(day)
    at_sunset = day_temperature_c(after_sunrise=length, day_length=length, lowest_c=day.low, highest_c=day.high)
    night = (_DAY - length) + MINIMUM_LAG
    left = night_temperature_c(after_sunset=night, day_length=length, lowest_c=0.0, sunset_c=1.0)
    return on_arrays(night_temperature_c)(
        after_sunset=moments - day.sunset.timestamp(), day_length=length,
        lowest_c=(low - left * at_sunset) / (1.0 - left), sunset_c=at_sunset,
    )  # fmt: skip

"""Weather as the rules of the season see it: hours in a window, the mean of a day, what a surface loses."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.formulas.evaporation import evaporation_by_menzel
from pinfold.formulas.wind_profile import share_of_wind
from pinfold.studies.seasons.records import Marks
from pinfold.studies.weather.records import Element, Hours, Weather, WeatherKind

_AT, _TOLD_AT = 0.5, 10.0
"""Height that the rate of evaporation wants the wind at, and that it is told for, in meters."""
_HOUR = 3600.0
_YEAR = 365 * 24
_SAME = 1e-6
"""Values nearer than this are one: limits are printed in other units."""


Places = NDArray[np.int_]


class Seen(NamedTuple):
    """Whether something is so in each hour.

    Attributes:
        holds: it is known to be.
        known: it is known to be or not to be.
    """

    holds: Marks
    known: Marks


def element(weather: Weather, which: Element) -> Hours:
    """A series of the weather, not a number where it is not known at all."""
    return weather.of(which) if weather.has(which) else np.full(weather.count, np.nan)


def over(values: Hours, limit: float) -> Seen:
    """Whether values are over a limit."""
    return Seen(np.nan_to_num(values, nan=-np.inf) > limit, np.isfinite(values))


def under(values: Hours, limit: float, *, inclusive: bool) -> Seen:
    """Whether values are under a limit, or just that."""
    plain = np.nan_to_num(values, nan=np.inf)
    return Seen(plain <= limit + _SAME if inclusive else plain < limit - _SAME, np.isfinite(values))


def both(one: Seen, other: Seen) -> Seen:
    """Whether two things are so; known where one is known not to be."""
    not_so = (one.known & ~one.holds) | (other.known & ~other.holds)
    return Seen(one.holds & other.holds, not_so | (one.known & other.known))


def either(one: Seen, other: Seen) -> Seen:
    """Whether one of two things is so, as far as they are told: what is told of one is enough."""
    return Seen(one.holds | other.holds, one.known | other.known)


def around(seen: Seen, before: float, after: Hours | float, *, cyclic: bool) -> Seen:
    """Whether something is so in any hour of a window, from so many hours before to so many after, its own too.

    Args:
        seen: hour by hour
        before: hours
        after: hours, for all or for each; past the end of what is known where it is infinite
        cyclic: whether the last hour is followed by the first, as in a year that stands for any
    """
    count = len(seen.holds)
    first = np.arange(count) - int(np.ceil(before))
    last = np.arange(count) + np.ceil(np.minimum(after, count)).astype(int) + np.zeros(count, dtype=int)
    holds, missing = (_counted(marks, first, last, cyclic=cyclic) for marks in (seen.holds, ~seen.known))
    outside = np.zeros(count, dtype=bool) if cyclic else (first < 0) | (last >= count)
    return Seen(holds > 0, ~(outside | (missing > 0) | ~np.isfinite(after + np.zeros(count))))


def _counted(marks: Marks, first: Places, last: Places, *, cyclic: bool) -> Places:
    count = len(marks)
    summed = np.concatenate(([0], np.cumsum(np.tile(marks, 3))))
    if cyclic:
        return summed[np.minimum(last + 1 + count, 3 * count)] - summed[np.maximum(first + count, 0)]
    return summed[np.clip(last + 1, 0, count)] - summed[np.clip(first, 0, count)]


def is_cyclic(weather: Weather) -> bool:
    """Whether its hours are a whole year that stands for any."""
    return weather.kind in (WeatherKind.TYPICAL, WeatherKind.NORMALS) and weather.count >= _YEAR


def day_means(weather: Weather) -> Hours:
    """For each hour the mean of the highest and the lowest of its day, by the clock of the place."""
    air = element(weather, Element.TEMPERATURE)
    days = np.array([moment.astimezone(weather.zone).toordinal() for moment in weather.times])
    starts = np.flatnonzero(np.concatenate(([True], np.diff(days) != 0)))
    means = (np.maximum.reduceat(air, starts) + np.minimum.reduceat(air, starts)) / 2
    return np.repeat(means, np.diff(np.concatenate((starts, [len(air)]))))


def falls(weather: Weather) -> Seen:
    """Whether it gets colder in the next hour; of the last one the hour before says it."""
    steps = np.diff(element(weather, Element.TEMPERATURE))
    change = np.concatenate((steps, steps[-1:])) if len(steps) else np.full(weather.count, np.nan)
    return under(change, 0.0, inclusive=False)


def lost_in_hour(weather: Weather) -> Hours:
    """Water that a fresh level surface as warm as the air loses in each hour, in kg/m2."""
    air, wind, humidity = (
        element(weather, which) for which in (Element.TEMPERATURE, Element.WIND, Element.HUMIDITY)
    )  # fmt: skip
    known = np.isfinite(air) & np.isfinite(wind) & np.isfinite(humidity) & (air > -10) & (air < 80)
    lost = np.where(np.isfinite(air) & (air <= -10), 0.0, np.nan)
    near = wind * share_of_wind(height=_AT, told_at=_TOLD_AT)
    rate = evaporation_by_menzel(
        surface_c=air[known], air_c=air[known], humidity=humidity[known], wind=near[known]  # type: ignore[arg-type]
    )  # fmt: skip
    lost[known] = np.asarray(rate) * _HOUR
    return lost

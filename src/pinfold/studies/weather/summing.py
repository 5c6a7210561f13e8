"""A day of weather, or a month of it, in a few figures, each with whether it is estimated."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.units import Celsius, Meter, MeterPerSecond, Ratio, WattPerSquareMeter

MOST_DAYS = 31
"""More days than these are told by the month."""
FROST = 0.0


class Told(NamedTuple):
    """A figure of some hours.

    Attributes:
        value: not a number where nothing of it is known.
        estimated: whether any hour of it is.
        whole: whether all hours of it are known.
    """

    value: float
    estimated: bool
    whole: bool


@dataclass(frozen=True, kw_only=True)
class Spell:
    """A day, or a month, of weather. What is not a number is NOT SHOWN.

    Attributes:
        begins: its first day.
        days: how many.
        hours: how many of them the source has.
        lowest: air temperature.
        highest: likewise.
        dew_point: mean.
        humidity: mean.
        wind: mean, 10 m above open ground.
        strongest: hour's mean wind.
        sun: sun and sky on the level, what the hours give spread over whole days and nights.
        cloud: mean.
        rain: sum.
        rain_chance: of the likeliest hour.
        frost_days: days whose lowest is below freezing; None where nobody knows.
        estimated: names of the figures of which some hours are estimated.
        partly: names of those of which some hours are not known.
    """

    begins: date
    days: int
    hours: int
    lowest: Celsius
    highest: Celsius
    dew_point: Celsius
    humidity: Ratio
    wind: MeterPerSecond
    strongest: MeterPerSecond
    sun: WattPerSquareMeter
    cloud: Ratio
    rain: Meter
    rain_chance: Ratio
    frost_days: int | None
    estimated: tuple[str, ...]
    partly: tuple[str, ...]


_FIGURES: tuple[tuple[str, Element, Callable[[Hours], np.floating]], ...] = (
    ("lowest", Element.TEMPERATURE, np.nanmin), ("highest", Element.TEMPERATURE, np.nanmax),
    ("dew_point", Element.DEW_POINT, np.nanmean), ("humidity", Element.HUMIDITY, np.nanmean),
    ("wind", Element.WIND, np.nanmean), ("strongest", Element.WIND, np.nanmax),
    ("sun", Element.GLOBAL, np.nansum), ("cloud", Element.CLOUD, np.nanmean),
    ("rain", Element.RAIN, np.nansum), ("rain_chance", Element.RAIN_CHANCE, np.nanmax),
)  # fmt: skip


def spells(weather: Weather) -> tuple[Spell, ...]:
    """Day by day, of more than a month month by month, by the clock of the place."""
    dates = [moment.astimezone(weather.zone).date() for moment in weather.times]
    by_month = len(set(dates)) > MOST_DAYS
    keys = np.array([day.year * 12 + day.month if by_month else day.toordinal() for day in dates])
    return tuple(_spell(weather, dates, np.flatnonzero(keys == key)) for key in _in_order(keys))


def _in_order(keys: NDArray[np.int_]) -> Iterator[int]:
    return iter(dict.fromkeys(keys.tolist()))


def _spell(weather: Weather, dates: list[date], places: NDArray[np.int_]) -> Spell:
    told = {name: _told(weather, element, places, figure) for name, element, figure in _FIGURES}
    days = {dates[place] for place in places}
    values = {name: each.value for name, each in told.items()}
    values["sun"] /= 24 * len(days)
    short = len(places) < 23 * len(days)
    return Spell(
        begins=dates[places[0]], days=len(days), hours=len(places), frost_days=_frost_days(weather, dates, places),
        estimated=tuple(name for name, each in told.items() if each.estimated),
        partly=tuple(name for name, each in told.items() if (short or not each.whole) and np.isfinite(each.value)),
        **values,
    )  # fmt: skip


def _told(weather: Weather, element: Element, places: NDArray[np.int_], figure: Callable[[Hours], np.floating]) -> Told:
    if element not in weather.series:
        return Told(float("nan"), estimated=False, whole=False)
    hours = weather.of(element)[places]
    known = np.isfinite(hours)
    if not known.any():
        return Told(float("nan"), estimated=False, whole=False)
    return Told(float(figure(hours)), bool((weather.estimated[element][places] & known).any()), bool(known.all()))


def _frost_days(weather: Weather, dates: list[date], places: NDArray[np.int_]) -> int | None:
    air = weather.series.get(Element.TEMPERATURE, np.full(weather.count, np.nan))
    if not np.isfinite(air[places]).any():
        return None
    return len({dates[place] for place in places if air[place] < FROST})

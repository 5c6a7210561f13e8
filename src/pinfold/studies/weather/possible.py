"""Possible years out of twelve monthly normals: days drawn by chance around the normals, marked as estimated."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta, tzinfo
from typing import NamedTuple

import numpy as np

from pinfold.errors import InputError, InvalidPlan
from pinfold.formulas.weather_year import Departures, departures, rain_scale, rain_shape
from pinfold.plan.weather_file import Column, DayFile, MonthFile, Normal
from pinfold.studies.weather.days import hours_of_days
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.weather.sunning import Spot
from pinfold.units import UNIT_BY_SYMBOL

FIRST_SEED = 1
"""Of the possible year that stands for any year where there is nothing better."""
_WARM_UP = 60
_RAINS_FOR = 6
_FALLBACK = {Normal.HIGH_DEVIATION: 5.0, Normal.LOW_DEVIATION: 4.0}
"""How far single days scatter about their month, in K, where the normals do not say; common practice."""
_RAIN_SCATTERS = 1.2
"""Standard deviation of a wet day's rain over its mean, where the normals do not say; common practice."""
_DRY_COVER, _WET_COVER, _COVER_PER_DEPARTURE = 0.35, 0.9, 0.25
"""Clouds of dry and wet days, and what a sunnier day takes from them; common practice."""
_GENG_SHARE, _GENG_STEP = 0.75, 0.25
"""P(W|D) over the share of wet days, and P(W|W) less P(W|D): Geng and others 1986, from memory."""
DRAWN = "A possible year (number {seed}) of many that have these monthly normals: no day of it is a forecast."
SCATTER = "Single days are taken to scatter by 5 K (highs) and 4 K (lows) about their month: the normals do not say."
NO_RAIN = "Rain is NOT SHOWN: the normals give no wet days, or no rain."


class _Days(NamedTuple):
    highs: Hours
    lows: Hours
    sun: Hours
    wet: Hours
    rain: Hours


def possible_year(
    file: MonthFile, zone: tzinfo | None, spot: Spot | None, *, year: int, seed: int = FIRST_SEED
) -> Weather:
    """Hours of one possible year.

    Args:
        file: normals
        zone: clock of the place
        spot: of the plot
        year: that it is told in
        seed: which of the possible years; the same one always gives the same hours

    Raises:
        InvalidPlan: the plan does not say which clock.
    """
    if zone is None:
        told = "possible years go by the clock of the place: add time_zone = 'America/Denver' or such under [place]"
        raise InvalidPlan(file.source.name, [InputError(told)])
    dates = [date(year, 1, 1) + timedelta(days=step) for step in range((date(year + 1, 1, 1) - date(year, 1, 1)).days)]
    normals = {normal: _of_days(_in_si(normal, column), dates) for normal, column in file.normals.items()}
    days = _drawn(normals, len(dates), np.random.default_rng(seed))
    lines, units = tuple(range(1, len(dates) + 1)), ("°C",) * len(dates)
    notes = (*file.source.notes, DRAWN.format(seed=seed), *_lacking(file))
    shaped = hours_of_days(
        DayFile(
            source=replace(file.source, notes=notes), days=tuple(dates), lines=lines,
            lows=Column(values=tuple(days.lows.tolist()), units=units),
            highs=Column(values=tuple(days.highs.tolist()), units=units),
        ), zone, spot,
    )  # fmt: skip
    place = _day_of_hour(shaped, zone, dates[0])
    found = _elements(days, normals, place, np.random.default_rng([seed, 1]))
    if Element.DEW_POINT in found:
        found[Element.DEW_POINT] = np.minimum(found[Element.DEW_POINT], shaped.of(Element.TEMPERATURE))
    marks = {element: np.isfinite(hours) for element, hours in found.items()}
    return replace(shaped, series={**shaped.series, **found}, estimated={**shaped.estimated, **marks})


def _in_si(normal: Normal, column: Column) -> Hours:
    """Twelve values in SI; a difference of temperatures is scaled and not shifted."""
    units = [UNIT_BY_SYMBOL[symbol] for symbol in column.units]
    shifts = [0.0 if normal in _FALLBACK else unit.offset for unit in units]
    return np.array(
        [value * unit.factor + shift for value, unit, shift in zip(column.values, units, shifts, strict=True)]
    )


def _of_days(months: Hours, dates: list[date]) -> Hours:
    """A value for each day: straight from the middle of a month to that of the next."""
    middles = np.array([date(2001, month, 16).timetuple().tm_yday for month in range(1, 13)], dtype=float)
    days = np.array([each.timetuple().tm_yday for each in dates], dtype=float)
    found: Hours = np.interp(days, middles, months, period=365.0)
    return found


def _drawn(normals: dict[Normal, Hours], count: int, chance: np.random.Generator) -> _Days:
    drawn = chance.standard_normal((_WARM_UP + count, 3))
    state, found = Departures(high=0.0, low=0.0, sun=0.0), []
    for high, low, sun in drawn.tolist():
        state = departures(high_before=state.high, low_before=state.low, sun_before=state.sun, high_chance=high,
                           low_chance=low, sun_chance=sun)  # fmt: skip
        found.append((state.high, state.low, state.sun))
    off = np.array(found[_WARM_UP:]).T
    spread = {normal: normals.get(normal, np.full(count, usual)) for normal, usual in _FALLBACK.items()}
    highs = normals[Normal.HIGH] + spread[Normal.HIGH_DEVIATION] * off[0]
    lows = np.minimum(normals[Normal.LOW] + spread[Normal.LOW_DEVIATION] * off[1], highs - 1.0)
    wet, rain = _rain(normals, count, chance)
    return _Days(highs, lows, off[2], wet, rain)


def _rain(normals: dict[Normal, Hours], count: int, chance: np.random.Generator) -> tuple[Hours, Hours]:
    """Which days are wet, 1 or 0, and how much falls; not a number where the normals do not say."""
    chances = _chances(normals)
    unknown = np.full(count, np.nan)
    if chances is None:
        return unknown, unknown
    after_wet, after_dry = chances
    wet, was = np.zeros(count), False
    for day, draw in enumerate(chance.random(count)):
        was = bool(draw < (after_wet[day] if was else after_dry[day]))
        wet[day] = was
    mean = _rain_day(normals)
    if mean is None:
        return wet, unknown
    mean = np.maximum(mean, 1e-5)
    spread = np.maximum(normals.get(Normal.RAIN_DEVIATION, mean * _RAIN_SCATTERS), 1e-5)
    shape = [rain_shape(mean=float(m), deviation=float(s)) for m, s in zip(mean, spread, strict=True)]
    scale = [rain_scale(mean=float(m), deviation=float(s)) for m, s in zip(mean, spread, strict=True)]
    return wet, np.where(wet > 0, chance.gamma(shape, scale), 0.0)


def _chances(normals: dict[Normal, Hours]) -> tuple[Hours, Hours] | None:
    if Normal.WET_AFTER_WET in normals and Normal.WET_AFTER_DRY in normals:
        return normals[Normal.WET_AFTER_WET], normals[Normal.WET_AFTER_DRY]
    if Normal.WET_DAYS not in normals:
        return None
    after_dry = _GENG_SHARE * np.clip(normals[Normal.WET_DAYS] / 30.4, 0.0, 1.0)
    return after_dry + _GENG_STEP, after_dry


def _rain_day(normals: dict[Normal, Hours]) -> Hours | None:
    """Mean rain of a wet day."""
    if Normal.RAIN_DAY in normals:
        return normals[Normal.RAIN_DAY]
    if Normal.RAIN in normals and Normal.WET_DAYS in normals:
        days: Hours = normals[Normal.RAIN] / np.maximum(normals[Normal.WET_DAYS], 0.1)
        return days
    return None


def _day_of_hour(weather: Weather, zone: tzinfo, first: date) -> np.ndarray:
    """Place of the day that each hour belongs to."""
    return np.array([(moment.astimezone(zone).date() - first).days for moment in weather.times])


def _elements(
    days: _Days, normals: dict[Normal, Hours], place: np.ndarray, chance: np.random.Generator
) -> dict[Element, Hours]:
    wet = np.nan_to_num(days.wet)
    cover = np.clip(np.where(wet > 0, _WET_COVER, _DRY_COVER) - _COVER_PER_DEPARTURE * days.sun, 0.0, 1.0)
    found = {Element.CLOUD: cover[place]}
    if Normal.DEW_POINT in normals:
        dew = normals[Normal.DEW_POINT] + days.lows - normals[Normal.LOW]
        found[Element.DEW_POINT] = np.minimum(dew, days.lows)[place]
    if Normal.WIND in normals:
        found[Element.WIND] = normals[Normal.WIND][place]
    if np.isfinite(days.rain).all():
        found[Element.RAIN] = _by_hours(days.rain, place, chance)
    return found


def _by_hours(rain: Hours, place: np.ndarray, chance: np.random.Generator) -> Hours:
    """A day's rain in a few hours one after the other, beginning at any of them."""
    begins = chance.integers(0, 24 - _RAINS_FOR, len(rain), endpoint=True)
    hour_of_day = np.arange(len(place)) - np.searchsorted(place, place)
    raining = (hour_of_day >= begins[place]) & (hour_of_day < begins[place] + _RAINS_FOR)
    return np.where(raining, rain[place] / _RAINS_FOR, 0.0)


def _lacking(file: MonthFile) -> tuple[str, ...]:
    scatter = () if Normal.HIGH_DEVIATION in file.normals and Normal.LOW_DEVIATION in file.normals else (SCATTER,)
    chances = Normal.WET_DAYS in file.normals or {Normal.WET_AFTER_WET, Normal.WET_AFTER_DRY} <= set(file.normals)
    amount = Normal.RAIN_DAY in file.normals or {Normal.RAIN, Normal.WET_DAYS} <= set(file.normals)
    return (*scatter, *(() if chances and amount else (NO_RAIN,)))

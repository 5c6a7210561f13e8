"""What cannot be: seventy degrees in the shade, dew in air colder than itself, figures that contradict each other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.errors import InputError, InvalidPlan
from pinfold.formulas.moist_air import air_pressure, humidity_at
from pinfold.plan.weather_file import UNIT_OF
from pinfold.studies.weather.clocks import HOUR
from pinfold.studies.weather.records import Element, Hours, Weather, WeatherKind
from pinfold.studies.worlds.replay import on_arrays
from pinfold.units import METER, Meter, System, show


class _Limit(NamedTuple):
    low: float
    high: float
    in_unit: str
    why: str = ""


LIMITS: Mapping[Element, _Limit] = {
    Element.TEMPERATURE: _Limit(-70.0, 57.0, "°C", "no shade on earth was ever hotter or colder"),
    Element.DEW_POINT: _Limit(-80.0, 36.0, "°C", "no air on earth was ever moister or drier"),
    Element.HUMIDITY: _Limit(0.0, 1.1, "%"), Element.PRESSURE: _Limit(45e3, 109e3, "hPa"),
    Element.WIND: _Limit(0.0, 75.0, "km/h"), Element.GLOBAL: _Limit(-30.0, 1500.0, "W/m2"),
    Element.BEAM: _Limit(-30.0, 1400.0, "W/m2"), Element.DIFFUSE: _Limit(-30.0, 1200.0, "W/m2"),
    Element.SKY_HEAT: _Limit(50.0, 600.0, "W/m2"), Element.CLOUD: _Limit(0.0, 1.01, "%"),
    Element.RAIN: _Limit(0.0, 0.2, "mm"), Element.RAIN_CHANCE: _Limit(0.0, 1.01, "%"),
}  # fmt: skip
"""What an hour can be; broad, for a wrong unit lies far outside."""
_FEW = 0.03
"""Share of hours that may be outside as single slips; more is a wrong unit or column."""
_AT_MOST = {Element.HUMIDITY: 1.0, Element.CLOUD: 1.0, Element.RAIN_CHANCE: 1.0}
_LEAST = 0.0
_NOT_BELOW = frozenset({Element.GLOBAL, Element.BEAM, Element.DIFFUSE})
_DEW_SLACK, _HUMIDITY_SLACK = 0.3, 0.2
_JUMP = 15.0
_SHAPED = frozenset({WeatherKind.DAILY, WeatherKind.NORMALS})
_PRESSURE_SLACK = 0.04


def without_doubtful(weather: Weather) -> Weather:
    """The same without what cannot be, each told."""
    for check in (_within_limits, _dew_below_air, _agreeing):
        weather = check(weather)
    return weather.doubted(*_jumps(weather))


def left_out(weather: Weather, elements: Iterable[Element], note: str) -> Weather:
    """The same without some series.

    Raises:
        InvalidPlan: nothing is left.
    """
    gone = set(elements)
    if Element.TEMPERATURE in gone and weather.kind in _SHAPED:  # dew was held at the lows
        gone.add(Element.DEW_POINT)
    series = {each: hours for each, hours in weather.series.items() if each not in gone}
    if not series:
        raise InvalidPlan(weather.says, [InputError(note)])
    return replace(
        weather.doubted(note), series=series,
        estimated={each: marks for each, marks in weather.estimated.items() if each not in gone},
    )  # fmt: skip


def _within_limits(weather: Weather) -> Weather:
    for element, limit in LIMITS.items():
        if element not in weather.series:
            continue
        outside = (weather.of(element) < limit.low) | (weather.of(element) > limit.high)
        if outside.any():
            weather = _without_outside(weather, element, outside)
    series = {element: _held(element, hours) for element, hours in weather.series.items()}
    return replace(weather, series=series)


def _held(element: Element, hours: Hours) -> Hours:
    """Slips of instruments: a little more than all, a little less than nothing."""
    if element in _AT_MOST:
        return np.minimum(hours, _AT_MOST[element])
    return np.maximum(hours, _LEAST) if element in _NOT_BELOW else hours


def _without_outside(weather: Weather, element: Element, outside: NDArray[np.bool_]) -> Weather:
    hours, limit = weather.of(element), LIMITS[element]
    worst = hours[outside][np.argmax(np.abs(hours[outside]))]
    shown = show(float(worst), UNIT_OF[element], System.METRIC, in_unit=limit.in_unit)
    why = f"; {limit.why}" if limit.why else ", which cannot be"
    count = int(outside.sum())
    if count <= max(1, _FEW * np.isfinite(hours).sum()):
        mended = np.where(outside, np.nan, hours)
        note = f"{_name(element)}: {count} hour{'s' if count > 1 else ''} like {shown} left out{why}."
        return replace(weather, series={**weather.series, element: mended}, notes=(*weather.notes, note))
    hint = " Is it Fahrenheit marked Celsius? Mend the unit." if limit.in_unit == "°C" else " Look at its unit."
    return left_out(
        weather, [element], f"{_name(element)} is NOT SHOWN: it reaches {shown} in {count} hours{why}.{hint}"
    )


def _name(element: Element) -> str:
    return str(element).capitalize()


def _dew_below_air(weather: Weather) -> Weather:
    if not (weather.has(Element.TEMPERATURE) and weather.has(Element.DEW_POINT)):
        return weather
    air, dew = weather.of(Element.TEMPERATURE), weather.of(Element.DEW_POINT)
    above = dew > air + _DEW_SLACK
    count = int(above.sum())
    if count > max(1, _FEW * np.isfinite(dew).sum()):
        note = (
            f"Air temperature, dew point and humidity are NOT SHOWN: in {count} hours the dew point lies over the air, "
            f"by up to {float(np.nanmax(dew - air)):.0f} K, which cannot be. One of them is in a wrong unit: mend it."
        )
        return left_out(weather, (Element.TEMPERATURE, Element.DEW_POINT, Element.HUMIDITY), note)
    told = (f"Dew point: {count} hour{'s' if count > 1 else ''} above the air taken as the air's.",) if count else ()
    lowered = {**weather.series, Element.DEW_POINT: np.fmin(dew, np.where(np.isnan(air), dew, air))}
    return replace(weather, series=lowered, notes=(*weather.notes, *told))


def _agreeing(weather: Weather) -> Weather:
    """Humidity as given beside that which follows from air and dew point."""
    three = (Element.TEMPERATURE, Element.DEW_POINT, Element.HUMIDITY)
    if not all(weather.has(each) for each in three):
        return weather
    air, dew, given = (weather.of(each) for each in three)
    known = np.isfinite(air) & np.isfinite(dew) & np.isfinite(given)
    if not known.any():
        return weather
    follows = on_arrays(humidity_at)(temperature_c=air[known], dew_point_c=np.minimum(dew, air)[known])
    off = float(np.median(np.abs(follows - given[known])))
    if off <= _HUMIDITY_SLACK:
        return weather
    note = (
        f"Air temperature, dew point and humidity are NOT SHOWN: they contradict each other, by {off:.0%} of humidity "
        "in the middle. One of them is in a wrong unit, Fahrenheit marked Celsius for one: mend it."
    )
    return left_out(weather, three, note)


def _jumps(weather: Weather) -> tuple[str, ...]:
    if not weather.has(Element.TEMPERATURE):
        return ()
    steps = np.abs(np.diff(weather.of(Element.TEMPERATURE)))
    far = np.flatnonzero(np.nan_to_num(steps) > _JUMP)
    if not len(far):
        return ()
    first = (weather.start + int(far[0] + 1) * HOUR).astimezone(weather.zone)
    return (
        f"Air temperature jumps by up to {float(np.nanmax(steps)):.0f} K from one hour to the next, first at "
        f"{first:%Y-%m-%d %H:%M}: look whether that was so.",
    )


def of_the_place(weather: Weather, elevation: Meter | None, system: System) -> Weather:
    """The same without a pressure that is not of the plot's height, as one reduced to the sea is not.

    Args:
        weather: hours
        elevation: of the plot; the source's counts where the plan does not say
        system: units of the note
    """
    height = weather.elevation if elevation is None else elevation
    if height is None or not weather.has(Element.PRESSURE):
        return weather
    mean, standard = float(np.nanmean(weather.of(Element.PRESSURE))), air_pressure(elevation=height)
    if abs(mean / standard - 1) <= _PRESSURE_SLACK:
        return weather
    told = show(height, METER, system, in_unit="ft" if system is System.US else "m")
    usual = f"{standard / 100:.0f} hPa"
    note = f"Pressure of {mean / 100:.0f} hPa is left out: {told} above the sea it is some {usual}."
    return left_out(weather, [Element.PRESSURE], note)

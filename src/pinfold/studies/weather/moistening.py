"""Dew point and humidity out of each other, and pressure out of the height above the sea where nobody measured it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from pinfold.formulas.moist_air import air_pressure, dew_point_c, humidity_at
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.weather.sunning import known_hours
from pinfold.studies.worlds.replay import on_arrays
from pinfold.units import METER, Meter, System, show

_DRIEST = 0.005


def with_moisture(weather: Weather) -> Weather:
    """The same with dew point and humidity wherever air temperature and one of them are known."""
    if not weather.has(Element.TEMPERATURE):
        return weather
    air = weather.of(Element.TEMPERATURE)
    nothing = np.full(weather.count, np.nan)
    humidity = weather.series.get(Element.HUMIDITY, nothing).copy()
    dew = weather.series.get(Element.DEW_POINT, nothing).copy()
    from_dew = np.isnan(humidity) & np.isfinite(dew) & np.isfinite(air)
    from_humidity = np.isnan(dew) & np.isfinite(humidity) & np.isfinite(air)
    humidity[from_dew] = on_arrays(humidity_at)(temperature_c=air[from_dew], dew_point_c=np.minimum(dew, air)[from_dew])
    dew[from_humidity] = _dew(air[from_humidity], humidity[from_humidity])
    marks = dict(weather.estimated)
    follows = np.zeros(weather.count, dtype=bool)
    of_air = marks[Element.TEMPERATURE]
    marks[Element.HUMIDITY] = np.where(from_dew, of_air | marks.get(Element.DEW_POINT, follows),
                                       marks.get(Element.HUMIDITY, follows))  # fmt: skip
    marks[Element.DEW_POINT] = np.where(from_humidity, of_air | marks.get(Element.HUMIDITY, follows),
                                        marks.get(Element.DEW_POINT, follows))  # fmt: skip
    known = {each: hours for each, hours in ((Element.HUMIDITY, humidity), (Element.DEW_POINT, dew))
             if np.isfinite(hours).any()}  # fmt: skip
    series = {**weather.series, **known}
    return replace(weather, series=series, estimated={each: marks[each] for each in series})


def _dew(air: Hours, humidity: Hours) -> Hours:
    return on_arrays(dew_point_c)(temperature_c=air, humidity=np.clip(humidity, _DRIEST, 1.0))


def with_pressure(weather: Weather, elevation: Meter | None, system: System) -> Weather:
    """The same with the pressure of the standard atmosphere where none is known.

    Args:
        weather: hours
        elevation: of the plot; the source's counts where the plan does not say
        system: units of the note
    """
    height = weather.elevation if elevation is None else elevation
    known = weather.series.get(Element.PRESSURE, np.full(weather.count, np.nan))
    missing = np.isnan(known) & known_hours(weather)
    if height is None or not missing.any():
        return weather
    pressure = np.where(missing, air_pressure(elevation=height), known)
    marks = weather.estimated.get(Element.PRESSURE, np.zeros(weather.count, dtype=bool)) | missing
    told = show(height, METER, system, in_unit="ft" if system is System.US else "m")
    note = f"Pressure is that of the standard atmosphere {told} above the sea."
    return replace(
        weather, series={**weather.series, Element.PRESSURE: pressure},
        estimated={**weather.estimated, Element.PRESSURE: marks}, notes=(*weather.notes, note),
    )  # fmt: skip

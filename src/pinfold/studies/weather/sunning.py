"""Sun, sky and heat from the sky where a source does not give them: by a clear sky and its clouds, marked."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.formulas.sky import share_of_clear_sun, sky_emissivity, sky_heat
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.worlds.replay import on_arrays
from pinfold.units import Meter, Radian

if TYPE_CHECKING:
    from pandas import DatetimeIndex

_LIGHT = (Element.GLOBAL, Element.BEAM, Element.DIFFUSE)
_LOWEST_SUN = math.cos(math.radians(89.0))
CLOUDED = "Sun and sky are not given: they are those of a clear sky, less what the clouds take."
CLEAR = "Sun and sky are not given, nor clouds: they are those of a clear sky, the most there can be."
SPLIT = "Sun straight on and light of the sky are split out of both on the level."
NO_PLACE = "Sun and sky are NOT SHOWN: neither the file nor the plan gives latitude and longitude."
HEATED = "Heat from the sky is worked out from dew point and clouds."
HEATED_CLEAR = (
    "Heat from the sky is that of a clear sky at that dew point, the least there can be, for no clouds are given."
)


class Spot(NamedTuple):
    """Where the sun is looked at from.

    Attributes:
        latitude: north positive.
        longitude: east positive.
        elevation: above the sea.
    """

    latitude: Radian
    longitude: Radian
    elevation: Meter


def with_sun(weather: Weather, spot: Spot | None) -> Weather:
    """The same with sun, sky and both on the level wherever they are not given.

    Args:
        weather: hours, with clouds where they are known
        spot: of the plot, else of the source; None where neither is known
    """
    nothing = np.full(weather.count, np.nan)
    given = {each: weather.series.get(each, nothing) for each in _LIGHT}
    if all(np.isfinite(hours[known_hours(weather)]).all() for hours in given.values()):
        return weather
    if spot is None:
        return replace(weather, notes=(*weather.notes, NO_PLACE))
    middles = middles_of(weather)
    upright = cos_zenith(middles, spot)
    level, notes = _level(weather, given, (middles, spot, upright))
    beam, diffuse = _split(level, upright, middles)
    found = {
        Element.GLOBAL: level,
        Element.BEAM: np.where(np.isnan(given[Element.BEAM]), beam, given[Element.BEAM]),
        Element.DIFFUSE: np.where(np.isnan(given[Element.DIFFUSE]), diffuse, given[Element.DIFFUSE]),
    }
    if not notes and not weather.has(Element.BEAM):
        notes = (SPLIT,)
    return _filled(weather, found, notes)


def _level(
    weather: Weather, given: dict[Element, Hours], seen: tuple[DatetimeIndex, Spot, Hours]
) -> tuple[Hours, tuple[str, ...]]:
    """Sun and sky on the level: as given, else both parts together, else of a clear sky less the clouds."""
    middles, spot, upright = seen
    together = given[Element.DIFFUSE] + given[Element.BEAM] * np.maximum(upright, 0.0)
    level = np.where(np.isnan(given[Element.GLOBAL]), together, given[Element.GLOBAL])
    missing = np.isnan(level) & known_hours(weather)
    if not missing.any():
        return level, ()
    cloud = weather.series.get(Element.CLOUD, np.full(weather.count, np.nan))
    share = on_arrays(share_of_clear_sun)(cloud=np.nan_to_num(cloud))
    level = np.where(missing, _clear(middles, spot) * share, level)
    return level, (CLOUDED if np.isfinite(cloud[missing]).any() else CLEAR,)


def known_hours(weather: Weather) -> NDArray[np.bool_]:
    """Hours that the source tells of: where it does not know how warm it is in a gap, nothing else is drawn up."""
    if not weather.has(Element.TEMPERATURE):
        return np.ones(weather.count, dtype=bool)
    return np.isfinite(weather.of(Element.TEMPERATURE))


def middles_of(weather: Weather) -> DatetimeIndex:
    """The middle of each hour."""
    import pandas

    return pandas.date_range(weather.start + timedelta(minutes=30), periods=weather.count, freq="h")


def cos_zenith(middles: DatetimeIndex, spot: Spot) -> Hours:
    """How high the sun stands: 1 overhead, 0 on the horizon, below 0 by night."""
    from pvlib.solarposition import get_solarposition

    seen = get_solarposition(middles, math.degrees(spot.latitude), math.degrees(spot.longitude), spot.elevation)
    upright: Hours = np.cos(np.radians(seen["apparent_zenith"].to_numpy()))
    return upright


def _clear(middles: DatetimeIndex, spot: Spot) -> Hours:
    """Sun and sky on the level under a clear sky."""
    from pvlib.location import Location

    there = Location(math.degrees(spot.latitude), math.degrees(spot.longitude), altitude=spot.elevation)
    level: Hours = there.get_clearsky(middles)["ghi"].to_numpy()
    return level


def _split(level: Hours, upright: Hours, middles: DatetimeIndex) -> tuple[Hours, Hours]:
    """Sun straight on and light of the sky, that together are what falls on the level."""
    from pvlib.irradiance import erbs

    zenith = np.degrees(np.arccos(np.clip(upright, -1.0, 1.0)))
    parts = erbs(level, zenith, middles)
    diffuse = np.where(upright > _LOWEST_SUN, np.asarray(parts["dhi"]), level)
    beam = np.where(upright > _LOWEST_SUN, (level - diffuse) / np.maximum(upright, _LOWEST_SUN), 0.0)
    return np.maximum(beam, 0.0), diffuse


def with_sky_heat(weather: Weather) -> Weather:
    """The same with heat from the sky wherever it is not given and air and dew point are."""
    if not (weather.has(Element.TEMPERATURE) and weather.has(Element.DEW_POINT)):
        return weather
    known = weather.series.get(Element.SKY_HEAT, np.full(weather.count, np.nan))
    air, dew = weather.of(Element.TEMPERATURE), weather.of(Element.DEW_POINT)
    cloud = weather.series.get(Element.CLOUD, np.full(weather.count, np.nan))
    lacking = np.isnan(known) & np.isfinite(air) & np.isfinite(dew)
    if not lacking.any():
        return weather
    found = known.copy()
    blackness = on_arrays(sky_emissivity)(dew_point_c=np.clip(dew[lacking], -70.0, 40.0),
                                          cloud=np.nan_to_num(cloud[lacking]))  # fmt: skip
    found[lacking] = on_arrays(sky_heat)(temperature_c=air[lacking], emissivity=blackness)
    note = HEATED if np.isfinite(cloud[lacking]).any() else HEATED_CLEAR
    return _filled(weather, {Element.SKY_HEAT: found}, (note,))


def _filled(weather: Weather, found: dict[Element, Hours], notes: tuple[str, ...]) -> Weather:
    """With what was found, marked wherever it was not there before."""
    series, marks = dict(weather.series), dict(weather.estimated)
    for element, hours in found.items():
        before = series.get(element, np.full(weather.count, np.nan))
        was = marks.get(element, np.zeros(weather.count, dtype=bool))
        series[element], marks[element] = hours, was | (np.isnan(before) & np.isfinite(hours))
    return replace(weather, series=series, estimated=marks, notes=(*weather.notes, *notes))

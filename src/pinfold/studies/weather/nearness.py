"""Whether weather is that of the plot: how far off its place is, how much higher, and whether its clock is right."""

from __future__ import annotations

import math

import numpy as np

from pinfold.plan.place import Place
from pinfold.studies.weather.records import Element, Weather
from pinfold.studies.weather.sunning import Spot, cos_zenith, middles_of
from pinfold.units import METER, Meter, Radian, System, show

EARTH: Meter = 6_371_000.0
NEAR: Meter = 50_000.0
FAR: Meter = 300_000.0
HIGHER: Meter = 150.0
LAPSE = 0.0065
"""Kelvin that air is colder for each meter higher, in the standard atmosphere."""
_MOST_SHIFT, _CLEARLY = 8, 0.03


def distance(one: tuple[Radian, Radian], other: tuple[Radian, Radian]) -> Meter:
    """Along the ground between two places, each by latitude and longitude."""
    (latitude, longitude), (there, beyond) = one, other
    half = math.sin((there - latitude) / 2) ** 2
    half += math.cos(latitude) * math.cos(there) * math.sin((beyond - longitude) / 2) ** 2
    return 2 * EARTH * math.asin(min(1.0, math.sqrt(half)))


def compared(weather: Weather, place: Place, system: System) -> Weather:
    """The same with what is to be told of how far its place is from the plot and whether its sun keeps the clock."""
    return weather.doubted(*_apart(weather, place, system), *_higher(weather, place, system), *_off_clock(weather))


def _apart(weather: Weather, place: Place, system: System) -> tuple[str, ...]:
    if place.latitude is None or place.longitude is None:
        return ("Whether it is for the plot is NOT SHOWN: the plan gives no latitude and longitude.",)
    if weather.latitude is None or weather.longitude is None:
        return ()
    off = distance((place.latitude, place.longitude), (weather.latitude, weather.longitude))
    if off <= NEAR:
        return ()
    far = show(off, METER, system, in_unit="mi" if system is System.US else "km")
    if off > FAR:
        return (f"It is for another place, {far} from the plot: do not rely on it.",)
    return (f"It is for a place {far} from the plot.",)


def _higher(weather: Weather, place: Place, system: System) -> tuple[str, ...]:
    if place.elevation is None or weather.elevation is None:
        return ()
    up = place.elevation - weather.elevation
    if abs(up) <= HIGHER:
        return ()
    apart = show(abs(up), METER, system, in_unit="ft" if system is System.US else "m")
    word, feels = ("higher", "colder") if up > 0 else ("lower", "warmer")
    degrees = abs(up) * LAPSE
    told = f"{degrees * 1.8:.0f} °F" if system is System.US else f"{degrees:.0f} K"
    return (f"The plot lies {apart} {word} than its place: reckon with some {told} {feels}. Nothing is corrected.",)


def _off_clock(weather: Weather) -> tuple[str, ...]:
    """Whether its sun shines hours before or after the sun does there."""
    if weather.latitude is None or weather.longitude is None or not weather.has(Element.GLOBAL):
        return ()
    given = ~weather.estimated[Element.GLOBAL] & np.isfinite(weather.of(Element.GLOBAL))
    if given.sum() < 24:
        return ()
    spot = Spot(weather.latitude, weather.longitude, weather.elevation or 0.0)
    sun = np.maximum(cos_zenith(middles_of(weather), spot), 0.0)
    level = np.where(given, weather.of(Element.GLOBAL), 0.0)
    alike = {shift: _alike(np.roll(level, shift), sun) for shift in range(-_MOST_SHIFT, _MOST_SHIFT + 1)}
    best = max(alike, key=lambda shift: alike[shift])
    if best == 0 or alike[best] < alike[0] + _CLEARLY:
        return ()
    off = f"{abs(best)} hour{'s' if abs(best) > 1 else ''} too {'early' if best > 0 else 'late'}"
    return (
        f"Its sun comes {off} for its place: its clock or offset is wrong, and with it every hour. Mend it before you "
        "rely on it.",
    )


def _alike(one: np.ndarray, other: np.ndarray) -> float:
    if one.std() == 0 or other.std() == 0:
        return 0.0
    return float(np.corrcoef(one, other)[0, 1])

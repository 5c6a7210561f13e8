"""How fast water leaves a wet level: a fresh coat or slab, open water, wet grass; several published ways.

All are of horizontal wet surfaces. A wall is asked through `drying`, by heat and mass transfer.
"""

from __future__ import annotations

import numpy as np

from pinfold.formulas.moist_air import saturation_pressure, vapor_pressure
from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    KgPerSquareMeterSecond,
    MeterPerSecond,
    Pascal,
    Ratio,
    WattPerSquareMeter,
)

_HOUR = 3600.0
_KMH: MeterPerSecond = 1 / 3.6
_RATE = 0.315 / _HOUR / 1000.0
"""0.315 kg/(m2 h kPa) in kg/(m2 s Pa)."""
_POWER = 1e-6 * (0.45359237 / 0.3048**2) * 1.8**2.5 * 0.4 / 1.609344 / _HOUR
"""1e-6 lb/(ft2 h) with °F and mph turned into kg/(m2 s) with K and km/h."""
_STILL = 1.609344 / 0.4
"""Wind in km/h that still air counts as: 1 + 0.4 V of miles."""
_COLD, _HOT = -10.0, 80.0


def evaporation_by_menzel(
    *, surface_c: Celsius, air_c: Celsius, humidity: Ratio, wind: MeterPerSecond
) -> KgPerSquareMeterSecond:
    """Water leaving fresh concrete while it is wet, by vapor pressures: W = 0.315 (e0 − r ea) (0.253 + 0.060 V) kg/m2h.

    Args:
        surface_c: of the wet surface; e0 in kPa is the saturation pressure there [°C]
        air_c: of the air 1.2 to 1.8 m up, in shade, upwind; ea likewise [°C]
        humidity: r, of that air [-]
        wind: V, mean half a meter over the surface, in km/h in the equation [m/s]

    Returns:
        W, below 0 where dew falls [kg/(m2 s)]

    Raises:
        OutOfRangeError: a temperature outside −10 to 80 °C, r outside 0 to 1, wind below 0.

    Range:
        −10 to 80 °C, 0 ≤ r ≤ 1, wind ≥ 0, refused outside. The true rate may be 40 % off either way.

    Source:
        MENZEL-1954, as the chart of the trade has it (memory)
        HOVER-2006, origin and accuracy (read)

    Notes:
        Two pairs of constants go about, 0.315 with kPa and km/h, 0.44 with psi and mph; mixed, they are off by tens.
        Sun is not in it but through the temperature of the surface.

    Example:
        >>> evaporation_by_menzel(surface_c=31.0, air_c=27.0, humidity=0.5, wind=19 / 3.6)
        0.000331
    """
    _airs(surface_c, air_c, wind)
    air = vapor_pressure(temperature_c=air_c, humidity=humidity)
    lack = saturation_pressure(temperature_c=surface_c) - air
    return _RATE * lack * (0.253 + 0.060 * wind / _KMH)


def evaporation_by_power(
    *, surface_c: Celsius, air_c: Celsius, humidity: Ratio, wind: MeterPerSecond
) -> KgPerSquareMeterSecond:
    """Water leaving fresh concrete, as a power of degrees: E = (Tc^2.5 − r Ta^2.5) (1 + 0.4 V) 1e-6 lb/ft2h.

    Temperatures in °F, wind in mph. A fit to `evaporation_by_menzel`, kept as its rival.

    Args:
        surface_c: Tc, of the wet surface [°C]
        air_c: Ta, of the air 1.2 to 1.8 m up, in shade, upwind [°C]
        humidity: r, of that air [-]
        wind: V, mean half a meter over the surface [m/s]

    Returns:
        E, below 0 where dew falls [kg/(m2 s)]

    Raises:
        OutOfRangeError: a temperature outside −10 to 80 °C, r outside 0 to 1, wind below 0.

    Range:
        −10 to 80 °C, 0 ≤ r ≤ 1, wind ≥ 0, refused outside. Within some 15 % of the vapor pressures while the surface
        is no cooler than the air; far off where it is cooler.

    Source:
        ACI-EVAPORATION, equation and example (read)

    Example:
        >>> evaporation_by_power(surface_c=31.0, air_c=27.0, humidity=0.5, wind=19 / 3.6)
        0.000334
    """
    _airs(surface_c, air_c, wind)
    within(humidity, "humidity", low=0.0, high=1.0)
    warm = (surface_c + 160 / 9) ** 2.5 - humidity * (air_c + 160 / 9) ** 2.5
    rate: KgPerSquareMeterSecond = _POWER * warm * (wind / _KMH + _STILL)
    return rate


def evaporation_by_uno(
    *, surface_c: Celsius, air_c: Celsius, humidity: Ratio, wind: MeterPerSecond
) -> KgPerSquareMeterSecond:
    """Water leaving fresh concrete, the power rounded for SI: E = 5 ([Tc+18]^2.5 − r [Ta+18]^2.5) (V+4) 1e-6 kg/m2h.

    Args:
        surface_c: Tc, of the wet surface [°C]
        air_c: Ta, of the air 1.2 to 1.8 m up, in shade, upwind [°C]
        humidity: r, of that air [-]
        wind: V, mean half a meter over the surface, in km/h in the equation [m/s]

    Returns:
        E, below 0 where dew falls [kg/(m2 s)]

    Raises:
        OutOfRangeError: a temperature outside −10 to 80 °C, r outside 0 to 1, wind below 0.

    Range:
        −10 to 80 °C, 0 ≤ r ≤ 1, wind ≥ 0, refused outside; 3 to 5 % under the exact form.

    Source:
        UNO-1998, as restated (read)

    Example:
        >>> evaporation_by_uno(surface_c=31.0, air_c=27.0, humidity=0.5, wind=19 / 3.6)
        0.000320
    """
    _airs(surface_c, air_c, wind)
    within(humidity, "humidity", low=0.0, high=1.0)
    warm = (surface_c + 18.0) ** 2.5 - humidity * (air_c + 18.0) ** 2.5
    rate: KgPerSquareMeterSecond = 5e-6 / _HOUR * warm * (wind / _KMH + 4.0)
    return rate


def evaporation_from_open_water(
    *, surface_water: Ratio, air_water: Ratio, wind: MeterPerSecond
) -> KgPerSquareMeterSecond:
    """Water leaving a pool: g = (25 + 19 v) (xs − x) kg/m2h.

    Args:
        surface_water: xs, mass of vapor over that of dry air in air saturated at the water's temperature [-]
        air_water: x, the same of the air itself [-]
        wind: v, over the water [m/s]

    Returns:
        g, below 0 where dew falls [kg/(m2 s)]

    Raises:
        OutOfRangeError: a share below 0, or v below 0.

    Range:
        xs, x and v ≥ 0, refused below; for still rooms and light wind.

    Source:
        POOL-EVAPORATION, equation and example (read)

    Example:
        >>> evaporation_from_open_water(surface_water=0.02, air_water=0.01, wind=0.0)
        0.0000694
    """
    within(wind, "wind in m/s", low=0.0)
    lack = within(surface_water, "vapor in saturated air", low=0.0) - within(air_water, "vapor in the air", low=0.0)
    return (25.0 + 19.0 * wind) / _HOUR * lack


def evaporation_by_asce(
    *, net_radiation: WattPerSquareMeter, ground_heat: WattPerSquareMeter, air_c: Celsius, humidity: Ratio,
    pressure: Pascal, wind: MeterPerSecond, crop: Ratio, closing: Ratio,
) -> KgPerSquareMeterSecond:  # fmt: skip
    """Water leaving grass in an hour: ET = [0.408 Δ (Rn − G) + γ Cn u2 (es − ea) / (T + 273)] / [Δ + γ (1 + Cd u2)].

    With Cd = 0 nothing holds the vapor back: the rate of wet grass, after Penman.

    Args:
        net_radiation: Rn, sun and heat taken in less heat given off; in MJ/m2h in the equation [W/m2]
        ground_heat: G, going into the ground, likewise [W/m2]
        air_c: T, of the air [°C]
        humidity: of the air; ea is it times es [-]
        pressure: of the air, γ = 0.000665 of it in kPa/K [Pa]
        wind: u2, 2 m up [m/s]
        crop: Cn, 37 for short and 66 for tall crops by the hour [-]
        closing: Cd, by day 0.24 for short and 0.25 for tall crops; 0 for a wet surface [-]

    Returns:
        ET, in mm/h in the equation [kg/(m2 s)]

    Raises:
        OutOfRangeError: T outside −40 to 60 °C, humidity outside 0 to 1, wind below 0.

    Range:
        −40 ≤ T ≤ 60 °C, 0 ≤ humidity ≤ 1, u2 ≥ 0, refused outside; hours, not days.

    Source:
        ASCE-ET-2005, equations 1, 36, 35 and 37 (memory)
        ASCE-ET-2005, the hour at Fallon that it gives (read)

    Example:
        >>> evaporation_by_asce(net_radiation=484.0, ground_heat=48.4, air_c=33.2, humidity=0.235, pressure=87800.0,
        ...                     wind=1.37, crop=37.0, closing=0.24)
        0.000169
    """
    within(air_c, "temperature of the air in °C", low=-40.0, high=60.0)
    within(wind, "wind in m/s", low=0.0)
    lack = 1 - within(humidity, "humidity", low=0.0, high=1.0)
    rise = np.exp(17.27 * air_c / (air_c + 237.3))
    slope, psychrometer = 2503.0 * rise / (air_c + 237.3) ** 2, 0.000665 * pressure / 1000.0
    taken = (net_radiation - ground_heat) * _HOUR / 1e6
    over = 0.408 * slope * taken + psychrometer * crop / (air_c + 273.0) * wind * 0.6108 * rise * lack
    depth: KgPerSquareMeterSecond = over / (slope + psychrometer * (1.0 + closing * wind))
    return depth / _HOUR


def _airs(surface_c: Celsius, air_c: Celsius, wind: MeterPerSecond) -> None:
    within(surface_c, "temperature of the surface in °C", low=_COLD, high=_HOT)
    within(air_c, "temperature of the air in °C", low=_COLD, high=_HOT)
    within(wind, "wind in m/s", low=0.0)

"""How deep the ground freezes in a winter of a given hardness: the modified Berggren equation."""

from __future__ import annotations

from typing import Literal

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    JoulePerCubicMeter,
    JoulePerCubicMeterKelvin,
    KelvinSecond,
    KgPerCubicMeter,
    Meter,
    Ratio,
    Second,
    WattPerMeterKelvin,
)

Grain = Literal["coarse", "fine"]
_LATENT = 144 * 2326.0
"""Heat that freezes water, 144 BTU/lb in J/kg."""
_HEAT = 4186.8
"""Heat that warms water, 1 BTU/(lb °F) in J/(kg K)."""
_PCF: KgPerCubicMeter = 0.45359237 / 0.3048**3
_KERSTEN: WattPerMeterKelvin = 1055.05585262 / 3600 / 0.3048 / (5 / 9) / 12
"""One BTU in/(ft2 h °F)."""
_DRIEST, _WETTEST = 0.01, 1.0


def latent_heat(*, dry_density: KgPerCubicMeter, moisture: Ratio) -> JoulePerCubicMeter:
    """Heat that must leave the ground until its water is ice: L = 144 BTU/lb · γd w.

    Args:
        dry_density: γd, mass of the dry soil in a volume in place [kg/m3]
        moisture: w, mass of its water over that of the dry soil [-]

    Returns:
        L, per volume of ground [J/m3]

    Raises:
        OutOfRangeError: γd is not above 0, or w not above 0.

    Range:
        γd > 0, 0 < w ≤ 1; refused outside. All of the water freezes.

    Source:
        UFC-3-130-06, volumetric latent heat (read)

    Example:
        >>> latent_heat(dry_density=1600.0, moisture=0.1)
        53591040.0
    """
    within(dry_density, "density of the dry soil in kg/m3", above=0.0)
    return _LATENT * dry_density * _damp(moisture)


def heat_capacity(*, dry_density: KgPerCubicMeter, moisture: Ratio) -> JoulePerCubicMeterKelvin:
    """Heat that warms a volume of ground, half frozen: C = γd (0.17 + 0.75 w) BTU/(lb °F).

    Args:
        dry_density: γd, mass of the dry soil in a volume in place [kg/m3]
        moisture: w, mass of its water over that of the dry soil [-]

    Returns:
        C, mean of frozen and thawed ground [J/(m3 K)]

    Raises:
        OutOfRangeError: γd is not above 0, or w not above 0.

    Range:
        γd > 0, 0 < w ≤ 1; refused outside.

    Source:
        UFC-3-130-06, volumetric specific heat (read)

    Example:
        >>> heat_capacity(dry_density=1600.0, moisture=0.1)
        1641225.6
    """
    within(dry_density, "density of the dry soil in kg/m3", above=0.0)
    return _HEAT * dry_density * (0.17 + 0.75 * _damp(moisture))


def conductivity_by_kersten(*, dry_density: KgPerCubicMeter, moisture: Ratio, grain: Grain) -> WattPerMeterKelvin:
    """How well ground carries heat, the mean of frozen and thawed, by Kersten's lines through his tests.

    In BTU in/(ft2 h °F), γ in lb/ft3, w in percent. Coarse: thawed (0.7 log w + 0.4) 10^(0.01 γ), frozen
    0.076 · 10^(0.013 γ) + 0.032 · 10^(0.0146 γ) w. Fine: thawed (0.9 log w − 0.2) 10^(0.01 γ), frozen
    0.01 · 10^(0.022 γ) + 0.085 · 10^(0.008 γ) w.

    Args:
        dry_density: γ, mass of the dry soil in a volume in place [kg/m3]
        moisture: w, mass of its water over that of the dry soil [-]
        grain: `coarse` for sand and gravel, `fine` for silt and clay

    Returns:
        k, mean of frozen and thawed ground [W/(m K)]

    Raises:
        OutOfRangeError: w outside 1 to 100 % for coarse ground, 7 to 100 % for fine.

    Range:
        coarse w ≥ 1 %, fine w ≥ 7 %, refused outside; Kersten gives 25 % as the error of his lines.

    Source:
        KERSTEN, equations for sandy soils and for silt and clay (memory)

    Example:
        >>> conductivity_by_kersten(dry_density=1601.846, moisture=0.15, grain="fine")
        1.3135
    """
    frozen = frozen_by_kersten(dry_density=dry_density, moisture=moisture, grain=grain)
    return (frozen + _thawed(dry_density, moisture, grain)) / 2


def frozen_by_kersten(*, dry_density: KgPerCubicMeter, moisture: Ratio, grain: Grain) -> WattPerMeterKelvin:
    """How well frozen ground carries heat, by Kersten's lines; see `conductivity_by_kersten`.

    Args:
        dry_density: γ, mass of the dry soil in a volume in place [kg/m3]
        moisture: w, mass of its water over that of the dry soil [-]
        grain: `coarse` for sand and gravel, `fine` for silt and clay

    Returns:
        kf, of frozen ground [W/(m K)]

    Raises:
        OutOfRangeError: w outside 1 to 100 % for coarse ground, 7 to 100 % for fine.

    Range:
        coarse w ≥ 1 %, fine w ≥ 7 %, refused outside.

    Source:
        KERSTEN, equations for frozen soils (memory)

    Example:
        >>> frozen_by_kersten(dry_density=1601.846, moisture=0.15, grain="fine")
        1.389
    """
    pounds, percent = _dry(dry_density), _percent(moisture, grain)
    if grain == "coarse":
        lines = 0.076 * 10 ** (0.013 * pounds) + 0.032 * 10 ** (0.0146 * pounds) * percent
    else:
        lines = 0.01 * 10 ** (0.022 * pounds) + 0.085 * 10 ** (0.008 * pounds) * percent
    return lines * _KERSTEN


def _thawed(dry_density: KgPerCubicMeter, moisture: Ratio, grain: Grain) -> WattPerMeterKelvin:
    slope, rest = (0.7, 0.4) if grain == "coarse" else (0.9, -0.2)
    line: float = slope * np.log10(_percent(moisture, grain)) + rest
    return line * 10 ** (0.01 * _dry(dry_density)) * _KERSTEN


def berggren_coefficient(
    *,
    surface_index: KelvinSecond,
    duration: Second,
    mean_temperature: Celsius,
    capacity: JoulePerCubicMeterKelvin,
    latent_heat: JoulePerCubicMeter,
) -> Ratio:
    """What warm ground takes off the depth of frost: λ = 1 / √(1 + μ (α + 0.5)).

    α = v0 / vs, μ = vs C / L, vs = n F / t; v0 is the mean of the year above freezing.

    Args:
        surface_index: n F, freezing index of the surface [K s]
        duration: t, of the freezing [s]
        mean_temperature: of the year, in the ground [°C]
        capacity: C, heat capacity of the ground [J/(m3 K)]
        latent_heat: L, of its water [J/m3]

    Returns:
        λ, 1 for ground that holds no heat [-]

    Raises:
        OutOfRangeError: index, duration or latent heat not above 0, or the mean of the year below freezing.

    Range:
        all above 0, mean of the year ≥ 0 °C; refused outside: below lies ground that never thaws.

    Source:
        ALDRICH-PAYNTER, closed form of the chart (read)

    Notes:
        The chart itself gives some 4 % less depth in the one example remembered; the closed form is the careful one.

    Example:
        >>> berggren_coefficient(surface_index=1.2e8, duration=1.2e7, mean_temperature=5.0, capacity=2.0e6,
        ... latent_heat=8.0e7)
        0.8944
    """
    within(surface_index, "freezing index of the surface in K s", above=0.0)
    cold = surface_index / within(duration, "duration of the freezing in s", above=0.0)
    warm = within(mean_temperature, "mean temperature of the year in °C", low=0.0) / cold
    fusion = cold * within(capacity, "heat capacity", low=0.0) / within(latent_heat, "latent heat", above=0.0)
    share: Ratio = 1 / np.sqrt(1 + fusion * (warm + 0.5))
    return share


def frost_depth(
    *,
    coefficient: Ratio,
    conductivity: WattPerMeterKelvin,
    surface_index: KelvinSecond,
    latent_heat: JoulePerCubicMeter,
) -> Meter:
    """Depth to which the ground freezes: X = λ √(2 k n F / L).

    Args:
        coefficient: λ, what warm ground takes off; 1 gives Stefan's depth [-]
        conductivity: k, of the ground, mean of frozen and thawed [W/(m K)]
        surface_index: n F, freezing index of the surface [K s]
        latent_heat: L, of the ground's water [J/m3]

    Returns:
        X, depth below the surface [m]

    Raises:
        OutOfRangeError: λ outside 0 to 1, k or n F below 0, or L not above 0.

    Range:
        0 ≤ λ ≤ 1, k, n F ≥ 0, L > 0; refused outside. One soil all the way down, no snow but in n.

    Source:
        UFC-3-130-06, modified Berggren equation (read)

    Example:
        >>> frost_depth(coefficient=1.0, conductivity=2.0, surface_index=5.0e7, latent_heat=5.0e7)
        2.0
    """
    within(coefficient, "coefficient of the frost", low=0.0, high=1.0)
    within(conductivity, "heat conductivity in W/(m K)", low=0.0)
    within(surface_index, "freezing index of the surface in K s", low=0.0)
    deep: Meter = coefficient * np.sqrt(
        2 * conductivity * surface_index / within(latent_heat, "latent heat in J/m3", above=0.0)
    )
    return deep


def surface_index(*, air_index: KelvinSecond, factor: Ratio) -> KelvinSecond:
    """Freezing index of the ground's surface: n times that of the air.

    Args:
        air_index: F, freezing index of the air [K s]
        factor: n, by what lies on the ground [-]

    Returns:
        n F, of the surface [K s]

    Raises:
        OutOfRangeError: the index is below 0, or the factor outside 0 to 1.

    Range:
        F ≥ 0, 0 ≤ n ≤ 1; refused outside.

    Source:
        UFC-3-130-04, table 4-1 (read)

    Example:
        >>> surface_index(air_index=5.0e7, factor=0.5)
        25000000.0
    """
    within(air_index, "freezing index of the air in K s", low=0.0)
    return air_index * within(factor, "factor of the surface", low=0.0, high=1.0)


def _damp(moisture: Ratio) -> Ratio:
    return within(moisture, "moisture of the soil", above=0.0, high=_WETTEST)


def _dry(density: KgPerCubicMeter) -> float:
    return within(density, "density of the dry soil in kg/m3", above=0.0) / _PCF


def _percent(moisture: Ratio, grain: Grain) -> float:
    least = _DRIEST if grain == "coarse" else 0.07
    return 100 * within(moisture, "moisture of the soil", low=least, high=_WETTEST)

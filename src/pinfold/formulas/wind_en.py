"""Wind on free-standing walls after EN 1991-1-4."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.tables import wind as tables
from pinfold.units import KgPerCubicMeter, Meter, MeterPerSecond, Pascal, Ratio

Terrain = Literal["0", "I", "II", "III", "IV"]
Zone = Literal["A", "B", "C", "D"]

REFERENCE_ROUGHNESS: Meter = 0.05
"""Roughness length of terrain II, to which the terrain factor is tied."""

HIGHEST: Meter = 200.0
"""Height up to which the wind profile holds."""


def return_period_factor(*, return_period: Ratio) -> Ratio:
    """Wind speed of another return period: cprob = √((1 − 0.2 ln(−ln(1 − 1/T))) / (1 − 0.2 ln(−ln 0.98))).

    Args:
        return_period: T, return period in years, a plain number [-]

    Returns:
        factor on the 50-year wind speed, 1 at T = 50 [-]

    Raises:
        OutOfRangeError: T is not above 1 year.

    Range:
        T > 1, refused otherwise; a number or an array. Very near 1, where the law has no speed any more, 0 is held.
        Shape 0.2 and power 0.5 are the recommended values; a national annex may have others.

    Source:
        EN1991-1-4, eq. 4.2 (read)

    Example:
        >>> return_period_factor(return_period=5.0)
        0.8545
    """
    within(return_period, "return period in years", above=1.0)
    asked = 1 - 0.2 * np.log(-np.log1p(-1 / return_period))
    factor: Ratio = np.sqrt(np.maximum(asked, 0.0) / (1 - 0.2 * math.log(-math.log(0.98))))
    return factor


def terrain_factor(*, terrain: Terrain) -> Ratio:
    """How rough ground slows the wind: kr = 0.19 (z0 / 0.05 m)^0.07.

    Args:
        terrain: 0 sea, I bare, II open, III suburbs and woods, IV towns

    Returns:
        kr, terrain factor [-]

    Raises:
        NotFoundError: no such terrain.

    Range:
        the five terrains of the table.

    Source:
        EN1991-1-4, eq. 4.5 (read)
        EN1991-1-4, table 4.1, terrains 0 and IV (memory)

    Example:
        >>> terrain_factor(terrain="II")
        0.19
    """
    ground = tables.terrain(terrain)
    return 0.19 * math.pow(ground.roughness_length / REFERENCE_ROUGHNESS, 0.07)


def roughness_factor(*, height: Meter, terrain: Terrain) -> Ratio:
    """Mean wind speed at a height, as a share of the basic one: cr = kr ln(max(z, zmin) / z0).

    Args:
        height: z, height above ground [m]
        terrain: 0, I, II, III or IV

    Returns:
        cr, roughness factor [-]

    Raises:
        OutOfRangeError: below ground or above 200 m.

    Range:
        0 ≤ z ≤ 200 m; below zmin the value at zmin holds.

    Source:
        EN1991-1-4, eq. 4.4 (read)
        EN1991-1-4, table 4.1, terrains 0 and IV and zmin of II (memory)

    Example:
        >>> roughness_factor(height=10.0, terrain="II")
        1.007
    """
    return terrain_factor(terrain=terrain) * _log_height(height, terrain)


def mean_speed(*, basic_speed: MeterPerSecond, roughness_factor: Ratio, orography_factor: Ratio) -> MeterPerSecond:
    """Mean wind speed at the height of the wall: vm = cr co vb.

    Args:
        basic_speed: vb, ten-minute mean at 10 m in open country, times cprob where another period is meant [m/s]
        roughness_factor: cr [-]
        orography_factor: co, 1 on level ground [-]

    Returns:
        vm, mean wind speed [m/s]

    Raises:
        OutOfRangeError: a negative argument.

    Range:
        all ≥ 0.

    Source:
        EN1991-1-4, eq. 4.3 (read)

    Notes:
        A ten-minute mean is not a gust: an ASCE 7 speed put in here counts the gust twice.

    Example:
        >>> mean_speed(basic_speed=25.0, roughness_factor=0.8, orography_factor=1.0)
        20.0
    """
    within(basic_speed, "basic wind speed in m/s", low=0.0)
    return basic_speed * within(roughness_factor, "cr", low=0.0) * within(orography_factor, "co", low=0.0)


def turbulence_intensity(*, height: Meter, terrain: Terrain, orography_factor: Ratio) -> Ratio:
    """How gusty the wind is at a height: Iv = 1 / (co ln(max(z, zmin) / z0)).

    Args:
        height: z, height above ground [m]
        terrain: 0, I, II, III or IV
        orography_factor: co, 1 on level ground [-]

    Returns:
        Iv, turbulence intensity [-]

    Raises:
        OutOfRangeError: below ground, above 200 m, or co not above 0.

    Range:
        0 ≤ z ≤ 200 m; turbulence factor 1, the recommended value.

    Source:
        EN1991-1-4, eq. 4.7 (read)
        EN1991-1-4, table 4.1, terrains 0 and IV and zmin of II (memory)

    Example:
        >>> turbulence_intensity(height=10.0, terrain="II", orography_factor=1.0)
        0.1887
    """
    return 1 / (within(orography_factor, "co", above=0.0) * _log_height(height, terrain))


def peak_pressure(*, mean_speed: MeterPerSecond, turbulence: Ratio, air_density: KgPerCubicMeter) -> Pascal:
    """Velocity pressure with gusts in it: qp = (1 + 7 Iv) ρ/2 vm².

    Args:
        mean_speed: vm, mean wind speed at the height of the wall [m/s]
        turbulence: Iv [-]
        air_density: ρ, 1.25 recommended [kg/m3]

    Returns:
        qp, peak velocity pressure [Pa]

    Raises:
        OutOfRangeError: a negative argument.

    Range:
        all ≥ 0.

    Source:
        EN1991-1-4, eq. 4.8 (read)

    Notes:
        vm goes in squared; one sheet in circulation takes cr once only.

    Example:
        >>> peak_pressure(mean_speed=20.0, turbulence=0.2, air_density=1.25)
        600.0
    """
    within(mean_speed, "mean wind speed in m/s", low=0.0)
    within(turbulence, "turbulence intensity", low=0.0)
    return (1 + 7 * turbulence) * within(air_density, "density of air in kg/m3", low=0.0) / 2 * mean_speed**2


def net_pressure_coefficient(
    *, zone: Zone, length: Meter, height: Meter, return_length: Meter, solidity: Ratio
) -> Ratio:
    """Net pressure coefficient of a free-standing wall by zone: cp,net by l/h, return corner and solidity.

    Args:
        zone: A to 0.3 h from the free end, B to 2 h, C to 4 h, D beyond
        length: l, length of the wall [m]
        height: h, height of the wall [m]
        return_length: length of the return at that end, 0 for none [m]
        solidity: φ, solid area over gross area [-]

    Returns:
        cp,net on the gross area [-]

    Raises:
        OutOfRangeError: φ below 0.8: that is a lattice, for which this table does not hold.

    Range:
        0.8 ≤ φ ≤ 1. Straight in l/h between 3, 5 and 10 and in φ; edge values beyond in l/h.

    Source:
        EN1991-1-4, table 7.9 (read)
        EN1991-1-4, straight between no return and a return of length h (memory)

    Notes:
        A return shorter than the wall is high counts in proportion; leaving it out, or giving such a wall 1.2
        throughout, is the mistake to avoid. Shelter by walls upwind (fig. 7.20) is left out.

    Example:
        >>> net_pressure_coefficient(zone="A", length=20.0, height=2.0, return_length=1.0, solidity=1.0)
        2.75
    """
    table = tables.free_standing()
    within(height, "height of the wall in m", above=0.0)
    free = table.free[zone].read(within(length, "length of the wall in m", above=0.0) / height)
    share = min(within(return_length, "length of the return in m", low=0.0) / height, 1.0)
    solid = free + share * (table.corner[zone] - free)
    within(solidity, "solidity", low=table.perforated_solidity, high=1.0)
    closed = (solidity - table.perforated_solidity) / (1 - table.perforated_solidity)
    return table.perforated + closed * (solid - table.perforated)


def net_pressure_coefficient_at(
    *, distance: Meter, length: Meter, height: Meter, return_length: Meter, solidity: Ratio
) -> Ratio:
    """Net pressure coefficient of a free-standing wall at a distance from its free end: cp,net of zone A, B, C or D.

    Args:
        distance: level distance from the free end; on the border of two zones the nearer one counts [m]
        length: l, length of the wall [m]
        height: h, height of the wall [m]
        return_length: length of the return at that end, 0 for none [m]
        solidity: φ, solid area over gross area [-]

    Returns:
        cp,net on the gross area [-]

    Raises:
        OutOfRangeError: distance outside the wall, or as net_pressure_coefficient.

    Range:
        0 ≤ distance ≤ length; 0.8 ≤ φ ≤ 1.

    Source:
        EN1991-1-4, fig. 7.19 and table 7.9 (read)

    Example:
        >>> net_pressure_coefficient_at(distance=3.0, length=20.0, height=2.0, return_length=0.0, solidity=1.0)
        2.1
    """
    within(height, "height of the wall in m", above=0.0)
    place = within(distance, "distance from the free end in m", low=0.0, high=length) / height
    ends = tables.free_standing().zone_ends
    zones: tuple[Zone, ...] = ("A", "B", "C", "D")
    zone = zones[sum(place > end for end in ends)]
    return net_pressure_coefficient(
        zone=zone, length=length, height=height, return_length=return_length, solidity=solidity
    )


def net_pressure(*, peak_pressure: Pascal, pressure_coefficient: Ratio, structural_factor: Ratio) -> Pascal:
    """Wind pressure on the gross area of a wall: w = cscd qp cp,net.

    Args:
        peak_pressure: qp at the top of the wall [Pa]
        pressure_coefficient: cp,net [-]
        structural_factor: cscd, 1 for low walls [-]

    Returns:
        w, characteristic wind pressure [Pa]

    Raises:
        OutOfRangeError: a negative argument.

    Range:
        all ≥ 0. Characteristic: partial factors are not in it.

    Source:
        EN1991-1-4, eq. 5.3 (memory)

    Example:
        >>> net_pressure(peak_pressure=600.0, pressure_coefficient=2.1, structural_factor=1.0)
        1260.0
    """
    within(peak_pressure, "peak velocity pressure in Pa", low=0.0)
    within(structural_factor, "structural factor", low=0.0)
    return structural_factor * peak_pressure * within(pressure_coefficient, "pressure coefficient", low=0.0)


def _log_height(height: Meter, terrain: Terrain) -> float:
    ground = tables.terrain(terrain)
    z = max(within(height, "height above ground in m", low=0.0, high=HIGHEST), ground.minimum_height)
    return math.log(z / ground.roughness_length)

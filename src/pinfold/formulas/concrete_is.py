"""Choosing a concrete by IS 10262: strength to aim for on cubes, water, stone and sand by shares of the aggregate."""

from __future__ import annotations

from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.units import KgPerCubicMeter, Meter, Pascal, Ratio

Shape = Literal["angular", "rounded"]

_MPA = 1e6
_MARGINS = ((15.0, 3.5, 5.0), (25.0, 4.0, 5.5), (60.0, 5.0, 6.5), (100.0, 6.0, 8.0))
"""Up to this characteristic strength: standard deviation under good control and least margin, all in MPa."""
_FIRST_SLUMP: Meter = 0.050
_STEP: Meter = 0.025
_ROUNDED: KgPerCubicMeter = 20.0


def target_strength_by_is10262(*, characteristic: Pascal) -> Pascal:
    """Mean cube strength to aim for where there are no records: f_t = max(f_ck + 1.65 S, f_ck + X).

    Args:
        characteristic: f_ck, strength that 1 cube in 20 may miss [Pa]

    Returns:
        f_t, mean strength of cubes to choose the mix by [Pa]

    Raises:
        OutOfRangeError: the strength is not from 10 to 100 MPa.

    Range:
        10 to 100 MPa, refused outside. S and X go by grade: to 15 MPa 3.5 and 5.0, to 25 MPa 4.0 and 5.5, to 60 MPa 5.0
        and 6.5, above 6.0 and 8.0, all under good control.

    Source:
        IS-10262, section 4.2 with tables 1 and 2 (read)

    Example:
        >>> target_strength_by_is10262(characteristic=40e6)
        48.25e6
    """
    within(characteristic, "characteristic strength in Pa", low=10 * _MPA, high=100 * _MPA)
    grade = characteristic / _MPA
    _, deviation, least = next(row for row in _MARGINS if grade <= row[0] + 1e-9)
    return characteristic + max(1.65 * deviation, least) * _MPA


def water_cement_by_is10262(*, strength: Pascal) -> Ratio:
    """Water over cement by mass for a mean cube strength with cement of 43 MPa, on straight lines between readings.

    Args:
        strength: f_t, mean strength of cubes at 28 days [Pa]

    Returns:
        w/c, mass of water over mass of cement [-]

    Raises:
        OutOfRangeError: the strength lies outside the curve.

    Range:
        23.0 to 58.25 MPa, refused outside. Curve 2 of figure 1 as it is read off in worked mixes; only the reading at
        38.25 MPa was read by us.

    Source:
        IS-10262, figure 1, curve 2, readings (memory)

    Example:
        >>> water_cement_by_is10262(strength=48.25e6)
        0.36
    """
    return grid("is-ratio").at(strength)


def mixing_water_by_is10262(*, slump: Meter, size: Meter, shape: Shape) -> KgPerCubicMeter:
    """Water per volume of concrete: W = W_50 (1 + 0.03 (s − 50 mm) / 25 mm), 20 kg/m3 less for rounded gravel.

    Args:
        slump: s, how far the fresh concrete sinks out of its cone [m]
        size: largest nominal stone [m]
        shape: angular or rounded

    Returns:
        W, mass of water per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: slump or size lies outside the table.

    Range:
        Slump 0 to 200 mm, stone 9.5 to 40 mm on straight lines between 10, 20 and 40 mm; refused outside. Below 50 mm
        of slump the water of 50 mm is kept. The cut for rounded gravel is from memory.

    Source:
        IS-10262, table 4, 186 kg at 20 mm, 3 % per 25 mm of slump (read)
        IS-10262, table 4, the cut for rounded gravel (memory)

    Example:
        >>> mixing_water_by_is10262(slump=0.100, size=0.020, shape="angular")
        197.16
    """
    within(slump, "slump in m", low=0.0, high=0.200)
    steps = max(slump - _FIRST_SLUMP, 0.0) / _STEP
    return (grid("is-water").at(_sold(size)) - (_ROUNDED if shape == "rounded" else 0.0)) * (1 + 0.03 * steps)


def air_by_is10262(*, size: Meter) -> Ratio:
    """Air trapped in concrete without entrained air, by stone size.

    Args:
        size: largest nominal stone [m]

    Returns:
        a, share of the finished volume [-]

    Raises:
        OutOfRangeError: the size lies outside the table.

    Range:
        Stone 9.5 to 40 mm, on straight lines between 10, 20 and 40 mm; refused outside.

    Source:
        IS-10262, table 3 (read)

    Example:
        >>> air_by_is10262(size=0.020)
        0.010
    """
    return grid("is-air").at(_sold(size))


def coarse_share_by_is10262(*, size: Meter, water_cement: Ratio) -> Ratio:
    """Stone as a share of the absolute volume of all aggregate, sand of zone II: p = p_0 + 0.01 (0.50 − w/c) / 0.05.

    Args:
        size: largest nominal stone [m]
        water_cement: w/c, mass of water over mass of cement [-]

    Returns:
        p, share of the aggregate's absolute volume [-]

    Raises:
        OutOfRangeError: the size lies outside the table, or the ratio is not from 0.25 to 0.8.

    Range:
        Stone 9.5 to 40 mm, on straight lines between 10, 20 and 40 mm; 0.25 ≤ w/c ≤ 0.8; refused outside. Sand of
        zone II is that of an ordinary fineness modulus (about 2.1 to 3.2, from memory).

    Source:
        IS-10262, table 5 and its note (read)

    Example:
        >>> coarse_share_by_is10262(size=0.020, water_cement=0.45)
        0.63
    """
    within(water_cement, "water over cement", low=0.25, high=0.8)
    return grid("is-coarse-share").at(_sold(size)) + 0.01 * (0.50 - water_cement) / 0.05


def share_mass(*, aggregate: Ratio, share: Ratio, density: KgPerCubicMeter) -> KgPerCubicMeter:
    """Stone or sand per volume of concrete by its share of the aggregate: m = v p ρ.

    Args:
        aggregate: v, absolute volume of all aggregate per volume of concrete [-]
        share: p, of the one sought in it [-]
        density: ρ, density of its grains, saturated but surface dry [kg/m3]

    Returns:
        m, mass per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: a share is not from 0 to 1, or the density not above 0.

    Range:
        0 ≤ v ≤ 1, 0 ≤ p ≤ 1, ρ > 0; refused outside.

    Source:
        IS-10262, annex A (read)

    Example:
        >>> share_mass(aggregate=0.7, share=0.62, density=2700.0)
        1171.8
    """
    within(aggregate, "volume of aggregate", low=0.0, high=1.0)
    within(share, "share of the aggregate", low=0.0, high=1.0)
    return aggregate * share * within(density, "density of grains in kg/m3", above=0.0)


def _sold(size: Meter) -> Meter:
    """Stone of 9.5 mm is sold as 10 mm."""
    return max(size, 0.010) if size >= 0.0094 else size

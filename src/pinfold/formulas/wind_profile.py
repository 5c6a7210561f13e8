"""Wind by height over open ground: from the height it is told for to the height of the work."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterPerSecond, Ratio

GRASS: Meter = 0.03
"""Roughness of open country with short grass."""


def wind_at_two_meters(*, speed: MeterPerSecond, height: Meter) -> MeterPerSecond:
    """Wind 2 m above short grass: u2 = uz 4.87 / ln(67.8 z − 5.42), z in m.

    Args:
        speed: uz, as measured or told [m/s]
        height: z, that it was measured at or is told for [m]

    Returns:
        u2, at 2 m [m/s]

    Raises:
        OutOfRangeError: uz below 0, or z outside 0.5 to 200 m.

    Range:
        uz ≥ 0, 0.5 ≤ z ≤ 200 m, refused outside; over short grass, not between walls.

    Source:
        FAO-56, equation 47, example 14 (read)

    Example:
        >>> wind_at_two_meters(speed=3.2, height=10.0)
        2.4
    """
    within(speed, "wind in m/s", low=0.0)
    within(height, "height above the ground in m", low=0.5, high=200.0)
    return speed * 4.87 / math.log(67.8 * height - 5.42)


def share_of_wind(*, height: Meter, told_at: Meter, roughness: Meter = GRASS) -> Ratio:
    """Wind at one height over that at another: uz/ur = ln(z/z0) / ln(r/z0).

    Args:
        height: z, of the work above the ground [m]
        told_at: r, height that the wind is told for [m]
        roughness: z0, of the ground upwind: 0.03 m in open country with short grass [m]

    Returns:
        uz/ur, as a share [-]

    Raises:
        OutOfRangeError: z0 not above 0, or a height not above twice z0.

    Range:
        z0 > 0, z ≥ 2 z0, r ≥ 2 z0, refused outside; it does not hold within a wall's height of the wall.

    Source:
        WIND-PROFILE, example from 10 to 80 m (read)

    Example:
        >>> share_of_wind(height=0.5, told_at=10.0, roughness=0.03)
        0.484
    """
    within(roughness, "roughness of the ground in m", above=0.0)
    within(height, "height above the ground in m", low=2 * roughness)
    within(told_at, "height that the wind is told for in m", low=2 * roughness)
    return math.log(height / roughness) / math.log(told_at / roughness)

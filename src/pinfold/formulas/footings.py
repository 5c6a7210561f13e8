"""Strips of concrete under walls: how thick they must be, and how far they may step down a slope."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, NewtonMeterPerMeter, Pascal, Ratio

_PSI: Pascal = 4.4482216152605 / 0.0254**2
_INCH: Meter = 0.0254
LEAST_RUN: Meter = 24 * _INCH
"""Shortest level part between two steps."""


def projection_moment(*, pressure: Pascal, projection: Meter) -> NewtonMeterPerMeter:
    """Moment that the ground bends a ledge of the footing with: M = p a² / 2.

    The greatest pressure is taken over the whole ledge, and neither its own weight nor the soil on it against it.

    Args:
        pressure: p, of the ground under the edge [Pa]
        projection: a, from the section that bends to the edge: the face of a concrete wall, halfway between the middle
            and the face of a masonry wall [m]

    Returns:
        M, per length of footing [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        p, a ≥ 0; refused below.

    Source:
        CIVIL-FORMULAS, p (L − a)² / 8 of the two ledges together, and where masonry bends it (read)

    Example:
        >>> projection_moment(pressure=100000.0, projection=0.2)
        2000.0
    """
    return within(pressure, "pressure in Pa", low=0.0) * within(projection, "projection in m", low=0.0) ** 2 / 2


def plain_tension(*, concrete_strength: Pascal, factor: Ratio) -> Pascal:
    """Tension that plain concrete of a footing may carry: f = φ 5 √f'c, both in psi.

    Args:
        concrete_strength: f'c, cylinder strength [Pa]
        factor: φ, of strength, 0.60 for plain concrete [-]

    Returns:
        f, at the level of loads with their factors [Pa]

    Raises:
        OutOfRangeError: the strength is below 0, or the factor outside 0 to 1.

    Range:
        f'c ≥ 0, 0 ≤ φ ≤ 1; refused outside. Concrete of usual weight.

    Source:
        CIVIL-FORMULAS, 5 φ √f'c (read)
        ACI-318, φ of 0.60 (memory)

    Example:
        >>> plain_tension(concrete_strength=6894757.29, factor=0.6)
        654094.1
    """
    held = within(factor, "factor of strength", low=0.0, high=1.0)
    root: Ratio = np.sqrt(within(concrete_strength, "strength of the concrete in Pa", low=0.0) / _PSI)
    return 5 * held * root * _PSI


def thickness_by_bending(*, moment: NewtonMeterPerMeter, tension: Pascal) -> Meter:
    """Thickness of a plain strip that just carries a moment: t = √(6 M / f).

    Args:
        moment: M, per length, with its load factor [N m/m]
        tension: f, that the concrete may carry [Pa]

    Returns:
        t, thickness that works; concrete cast on the ground is made 2 in thicker [m]

    Raises:
        OutOfRangeError: M is below 0 or f not above 0.

    Range:
        M ≥ 0, f > 0; refused outside.

    Source:
        CIVIL-FORMULAS, 6 M / t² (read)

    Example:
        >>> thickness_by_bending(moment=6000.0, tension=1000000.0)
        0.1897
    """
    bent = 6 * within(moment, "moment in N m/m", low=0.0) / within(tension, "tension in Pa", above=0.0)
    thick: Meter = np.sqrt(bent)
    return thick


def thickness_by_en1992(*, pressure: Pascal, projection: Meter, tension: Pascal) -> Meter:
    """Thickness of a plain strip by the European rule: h = a √(9 σ / f) / 0.85.

    Args:
        pressure: σ, of the ground, with its load factor [Pa]
        projection: a, from the face of the wall to the edge [m]
        tension: f, design tension of the concrete [Pa]

    Returns:
        h, least thickness [m]

    Raises:
        OutOfRangeError: σ or a is below 0, or f not above 0.

    Range:
        σ, a ≥ 0, f > 0; refused outside.

    Source:
        EN-1992-12, 12.9.3 (read)

    Example:
        >>> thickness_by_en1992(pressure=100000.0, projection=0.17, tension=900000.0)
        0.2
    """
    share = 9 * within(pressure, "pressure in Pa", low=0.0) / within(tension, "tension in Pa", above=0.0)
    thick: Meter = within(projection, "projection in m", low=0.0) * np.sqrt(share) / 0.85
    return thick


def thickness_by_rule(*, projection: Meter) -> Meter:
    """Thickness of a plain strip by the rule of 45 degrees: no less than its ledge, and 6 in.

    Args:
        projection: a, from the face of the wall to the edge [m]

    Returns:
        t, least thickness [m]

    Raises:
        OutOfRangeError: the projection is below 0.

    Range:
        a ≥ 0, refused below.

    Source:
        IRC-R403, R403.1.1: projection no more than the thickness, thickness no less than 6 in (read)

    Example:
        >>> thickness_by_rule(projection=0.2)
        0.2
    """
    thick: Meter = np.maximum(within(projection, "projection in m", low=0.0), 6 * _INCH)
    return thick


def step_overlap(*, rise: Meter, thickness: Meter) -> Meter:
    """How far the upper strip must lie over the lower one at a step: max(2 S, min(T, 500 mm), 300 mm).

    Args:
        rise: S, of the step [m]
        thickness: T, of the footing [m]

    Returns:
        length of the lap along the wall [m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        S, T ≥ 0; refused below. A step no higher than the footing is thick; higher ones want an engineer.

    Source:
        NHBC-4-3, table 3, strip foundations (read)

    Example:
        >>> step_overlap(rise=0.2, thickness=0.3)
        0.4
    """
    thick = np.minimum(within(thickness, "thickness in m", low=0.0), 0.5)
    lap: Meter = np.maximum(np.maximum(2 * within(rise, "rise in m", low=0.0), thick), 0.3)
    return lap


def largest_rise(*, run: Meter) -> Meter:
    """Highest step of a footing that the American rule allows after a level length: three quarters of it.

    Args:
        run: level length between steps, no less than 2 ft [m]

    Returns:
        rise of the step [m]

    Raises:
        OutOfRangeError: the run is shorter than 2 ft.

    Range:
        run ≥ 2 ft, refused below.

    Source:
        IRC-R403, R403.1.5: rise no more than 3/4 of the run, run no less than 2 ft (read)

    Example:
        >>> largest_rise(run=1.2)
        0.9
    """
    return 0.75 * within(run, "level length between two steps in m", low=LEAST_RUN * (1 - 1e-9))


def least_width(*, thickness: Meter) -> Meter:
    """Width of a strip by rule: the wall and 2 in on each side, and no less than 12 in.

    Args:
        thickness: of the wall at its foot [m]

    Returns:
        least width [m]

    Raises:
        OutOfRangeError: the thickness is not above 0.

    Range:
        thickness > 0, refused otherwise. What the ground bears may ask for more.

    Source:
        IRC-R403, R403.1.1 and table R403.1 (read)

    Example:
        >>> least_width(thickness=0.3)
        0.4016
    """
    wide: Meter = np.maximum(within(thickness, "thickness of the wall in m", above=0.0) + 4 * _INCH, 12 * _INCH)
    return wide

"""Wood under load for years: creep, the slip of its joints, and what it swells and shrinks with the seasons."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import KgPerCubicMeter, Meter, Newton, NewtonPerMeter, Pascal, Ratio, SquareMeter

GREEN = 0.30
"""Moisture from which on wood swells no more."""


def crept(*, at_once: Meter, creep: Ratio) -> Meter:
    """Movement after years of steady load: u = u₀ (1 + k).

    Args:
        at_once: u₀, movement as soon as the load is on [m]
        creep: k, 0.6 indoors, 0.8 under a roof, 2.0 in the weather for solid wood; twice that for its joints [-]

    Returns:
        u, movement in the end [m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        u₀, k ≥ 0; refused below.

    Source:
        EN-1995-1-1, 2.2.3 (memory)
        CREEP-PAGE, the same k for solid wood (read)

    Example:
        >>> crept(at_once=0.002, creep=2.0)
        0.006
    """
    return within(at_once, "movement in m", low=0.0) * (1 + within(creep, "creep factor", low=0.0))


def slip_modulus(*, density: KgPerCubicMeter, diameter: Meter) -> NewtonPerMeter:
    """Load per slip of one screw or bolt across one joint: K = ρ^1.5 d / 23, in kg/m³, mm and N/mm.

    Args:
        density: ρ, mean density of the wood [kg/m3]
        diameter: d, of the screw or bolt [m]

    Returns:
        K; twice it where the other side is steel [N/m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        ρ, d > 0; refused otherwise. The play of a bolt in its hole comes to the slip.

    Source:
        EN-1995-1-1, table 7.1 (memory)

    Example:
        >>> slip_modulus(density=420.0, diameter=0.008)
        2993892
    """
    dense = math.pow(within(density, "density in kg/m3", above=0.0), 1.5)
    return dense * within(diameter, "diameter in m", above=0.0) * 1000 / 23 * 1000


def shortened(*, force: Newton, length: Meter, area: SquareMeter, modulus: Pascal) -> Meter:
    """How much a straight bar gives along its length: u = N L / (E A).

    Args:
        force: N, pressure or pull along it [N]
        length: L, of the bar [m]
        area: A, of its section [m2]
        modulus: E, modulus of elasticity [Pa]

    Returns:
        u, shorter when pressed, longer when pulled [m]

    Raises:
        OutOfRangeError: the force is below 0, or another argument not above 0.

    Range:
        N ≥ 0, L, A, E > 0; refused outside.

    Source:
        STATICS, Hooke (derived)

    Example:
        >>> shortened(force=1000.0, length=2.0, area=0.001, modulus=2e11)
        0.00001
    """
    stiff = within(area, "area in m2", above=0.0) * within(modulus, "modulus in Pa", above=0.0)
    return within(force, "force in N", low=0.0) * within(length, "length in m", above=0.0) / stiff


def swollen(*, width: Meter, coefficient: Ratio, wet: Ratio, dry: Ratio) -> Meter:
    """How much wider wood gets across the grain from dry to wet: ΔD = D C (M₁ − M₀).

    Args:
        width: D, across the grain [m]
        coefficient: C, change of width per change of moisture; 100 times that of the tables, which go by percent [-]
        wet: M₁, moisture of the wood when wettest, of its dry mass [-]
        dry: M₀, likewise when driest [-]

    Returns:
        ΔD [m]

    Raises:
        OutOfRangeError: the width or the coefficient is below 0, or the moistures not 0 ≤ M₀ ≤ M₁ ≤ 30 %.

    Range:
        D, C ≥ 0, 0 ≤ M₀ ≤ M₁ ≤ 0.30; refused outside. The tables hold from 6 to 14 %; beyond it is an estimate.

    Source:
        WOOD-HANDBOOK, equation 13-2 and table 13-5 (read)

    Example:
        >>> swollen(width=0.127, coefficient=0.129, wet=0.09, dry=0.06)
        0.000491
    """
    low = within(dry, "moisture when dry", low=0.0, high=GREEN)
    rise = within(wet, "moisture when wet", low=low, high=GREEN) - low
    return within(width, "width in m", low=0.0) * within(coefficient, "coefficient", low=0.0) * rise

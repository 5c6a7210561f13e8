"""Screws in thin steel: pulled out, sheet pulled over the head, and pushed sideways."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, Pascal, Ratio

WIDEST_HEAD: Meter = 0.75 * 0.0254
"""No more of a washer counts."""


def pull_out(*, thickness: Meter, diameter: Meter, strength: Pascal) -> Newton:
    """Pull at which a screw comes out of thin steel: P = 0.85 t d Fu.

    Args:
        thickness: t, of the steel that the thread holds in, no more than the thread reaches [m]
        diameter: d, of the screw [m]
        strength: Fu, tensile strength of that steel [Pa]

    Returns:
        P, nominal; a third of it is allowed [N]

    Raises:
        OutOfRangeError: an argument is not above 0, or the screw thinner than 0.08 in or stouter than 1/4 in.

    Range:
        t, Fu > 0, 0.08 in ≤ d ≤ 0.25 in; refused outside. Editions from 2016 on read it so; a study of 2019 asked for
        another equation.

    Source:
        AISI-S100, E4.4.1 (memory)
        ESR-STEEL-SCREWS, a third of it at 45 ksi, table 2 (read)

    Example:
        >>> pull_out(thickness=0.0012192, diameter=0.004826, strength=310264078.0)
        1552
    """
    return 0.85 * within(thickness, "thickness in m", above=0.0) * _screw(diameter) * _strength(strength)


def pull_over(*, thickness: Meter, head: Meter, strength: Pascal) -> Newton:
    """Pull at which a sheet tears over the head of a screw: P = 1.5 t d' Fu.

    Args:
        thickness: t, of the sheet under the head [m]
        head: d', diameter of head or washer; no more than 3/4 in of it counts [m]
        strength: Fu, tensile strength of the sheet [Pa]

    Returns:
        P, nominal; a third of it is allowed, half of that where the head is pulled aslant [N]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        t, d', Fu > 0; refused outside.

    Source:
        AISI-S100, E4.4.2 (memory)
        STEEL-SCREW-TABLE, a third of it at 33 ksi (read)

    Example:
        >>> pull_over(thickness=0.00047752, head=0.0069088, strength=227526990.0)
        1126
    """
    across = min(within(head, "head in m", above=0.0), WIDEST_HEAD)
    return 1.5 * within(thickness, "thickness in m", above=0.0) * across * _strength(strength)


def sheet_shear(
    *, head_thickness: Meter, point_thickness: Meter, diameter: Meter, head_strength: Pascal, point_strength: Pascal
) -> Newton:
    """Side load at which a screw tilts out of two sheets or tears one of them.

    Up to t2 / t1 = 1 the least of 4.2 √(t2³ d) Fu2, 2.7 t1 d Fu1 and 2.7 t2 d Fu2; from 2.5 on the least of the last
    two; between them in proportion, from what two sheets of t1 would carry.

    Args:
        head_thickness: t1, of the sheet under the head [m]
        point_thickness: t2, of the steel behind it [m]
        diameter: d, of the screw [m]
        head_strength: Fu1, tensile strength of the sheet under the head [Pa]
        point_strength: Fu2, likewise of the steel behind it [Pa]

    Returns:
        P, nominal; a third of it is allowed, and the screw itself must carry it [N]

    Raises:
        OutOfRangeError: an argument is not above 0, or the screw thinner than 0.08 in or stouter than 1/4 in.

    Range:
        t1, t2, Fu1, Fu2 > 0, 0.08 in ≤ d ≤ 0.25 in; refused outside. Screws three diameters apart and one and a half
        from the edge.

    Source:
        AISI-S100, E4.3.1 (memory)
        ESR-STEEL-SCREWS, a third of it at 45 ksi, table 4; between 1 and 2.5 this stays under its cells (read)

    Example:
        >>> sheet_shear(
        ...     head_thickness=0.0009144, point_thickness=0.0012192, diameter=0.004826, head_strength=310264078.0,
        ...     point_strength=310264078.0,
        ... )
        2768
    """
    thin, behind = within(head_thickness, "sheet in m", above=0.0), within(point_thickness, "steel in m", above=0.0)
    d, first, second = _screw(diameter), _strength(head_strength), _strength(point_strength)
    torn = min(2.7 * thin * d * first, 2.7 * behind * d * second)
    tilted = min(4.2 * math.sqrt(min(thin, behind) ** 3 * d) * second, torn)
    share = min(max((behind / thin - 1) / 1.5, 0.0), 1.0)
    return tilted + share * (torn - tilted)


def shear_and_pull_over(*, push: Newton, pull: Newton, torn: Newton, pulled_over: Newton) -> Ratio:
    """Share used of a sheet pushed and pulled at a screw: u = (V / P + 0.71 T / N) / (1.10 / 2.35).

    Args:
        push: V, side load [N]
        pull: T, along the screw [N]
        torn: P, nominal side load that tears the sheet under the head, 2.7 t1 d Fu1 [N]
        pulled_over: N, nominal pull over the head [N]

    Returns:
        u, 1 where it is used up [-]

    Raises:
        OutOfRangeError: a load is below 0, or what the sheet carries not above 0.

    Range:
        V, T ≥ 0, P, N > 0; refused outside.

    Source:
        AISI-S100, E4.5.1 (memory)
        SCREW-FORM-PAGE, the same (read)

    Example:
        >>> shear_and_pull_over(push=300.0, pull=200.0, torn=1400.0, pulled_over=1100.0)
        0.734
    """
    share = within(push, "side load in N", low=0.0) / within(torn, "tearing load in N", above=0.0)
    over = 0.71 * within(pull, "pull in N", low=0.0) / within(pulled_over, "pull over the head in N", above=0.0)
    return (share + over) * 2.35 / 1.10


def _screw(diameter: Meter) -> Meter:
    return within(diameter, "diameter of the screw in m", low=0.08 * 0.0254, high=0.25 * 0.0254 + 1e-9)


def _strength(strength: Pascal) -> Pascal:
    return within(strength, "tensile strength in Pa", above=0.0)

"""A panel of wall at a bonded corner: what it hands around the corner by twisting, and how the wall there holds it.

The panel is a plate held at its foot and at the corner, free at its top and at the joint at its other end. A pressure p
that goes to the corner by twisting alone, mxz = (a − x) Q(z) / 2 with Q the pressure above the level z, and no bending
either way, is in balance all over: every strip hands its wind to the corner at its own level and takes it back at its
foot. So the corner gets a couple and no force. Any share of the wind may go this way and the rest down to the foot.
"""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import (
    CubicMeterPerMeter,
    Meter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
    Pascal,
    Ratio,
)


def bending_held(*, tension: Pascal, pressure: Pascal, modulus: CubicMeterPerMeter) -> NewtonMeterPerMeter:
    """Moment that a wall resists until its pulled face has all the tension it may: M = (f + σ) Z.

    Args:
        tension: f, allowable or design tension, across the beds or along them [Pa]
        pressure: σ, of the weight above, factored down; 0 along the beds [Pa]
        modulus: Z, section modulus of the wall [m3/m]

    Returns:
        M [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        f, σ, Z ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> bending_held(tension=60000.0, pressure=10000.0, modulus=0.006)
        420.0
    """
    stress = within(tension, "tension in Pa", low=0.0) + within(pressure, "pressure in Pa", low=0.0)
    return stress * within(modulus, "section modulus in m3/m", low=0.0)


def corner_twist(*, force: NewtonPerMeter, length: Meter) -> NewtonMeterPerMeter:
    """Twisting moment at the foot of a corner where all wind on a panel goes around it: mt = F a / 2.

    Args:
        force: F, wind on the panel per length [N/m]
        length: a, from the corner to the first joint [m]

    Returns:
        mt, per height of wall, the greatest anywhere in the panel [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        F, a ≥ 0; refused below. The corner turns freely: no moment goes around it about the upright.

    Source:
        STATICS, a plate held at two edges that meet, by twisting alone (derived)

    Example:
        >>> corner_twist(force=1000.0, length=1.2)
        600.0
    """
    return within(force, "wind in N/m", low=0.0) * within(length, "length of the panel in m", low=0.0) / 2


def share_by_shear(*, shear: Pascal, modulus: CubicMeterPerMeter, twist: NewtonMeterPerMeter) -> Ratio:
    """Share of the wind that may go around a corner by the shear of its bond: s = v Z / mt, not over 1.

    Args:
        shear: v, shear that the bond stands at the faces [Pa]
        modulus: Z, section modulus of the wall [m3/m]
        twist: mt, from corner_twist [N m/m]

    Returns:
        s [-]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        v, Z, mt ≥ 0; refused below. The mean shear where the panel meets the corner is less wherever the wall is
        higher than a third of its thickness.

    Source:
        STATICS, twisting of a plate (derived)

    Example:
        >>> share_by_shear(shear=60000.0, modulus=0.006, twist=720.0)
        0.5
    """
    most = within(shear, "shear in Pa", low=0.0) * within(modulus, "section modulus in m3/m", low=0.0)
    return 1.0 if within(twist, "twisting moment in N m/m", low=0.0) <= most else most / twist


def share_around_corner(
    *, along: NewtonMeterPerMeter, across: NewtonMeterPerMeter, bent: NewtonMeterPerMeter,
    blown: NewtonMeterPerMeter, twist: NewtonMeterPerMeter, most: Ratio,
) -> Ratio:  # fmt: skip
    """Greatest share of its wind that a panel hands around a corner: (s mt)² ≤ ml (mc − M + s Mw), s not over s1.

    What is left bends the foot of the panel; both together must keep within what masonry bears on any plane.

    Args:
        along: ml, moment the wall resists along its beds [N m/m]
        across: mc, moment its lowest bed resists, weight counted [N m/m]
        bent: M, moment of all that acts about the lowest bed [N m/m]
        blown: Mw, of it, that of the wind on the wall itself [N m/m]
        twist: mt, from corner_twist [N m/m]
        most: s1, share allowed by other limits [-]

    Returns:
        s; 0 where the panel cannot bear what acts with any share [-]

    Raises:
        OutOfRangeError: a moment below 0, a twist not above 0, more wind than acts, or s1 over 1.

    Range:
        ml, mc ≥ 0; 0 ≤ Mw ≤ M; mt > 0; 0 ≤ s1 ≤ 1; refused outside.

    Source:
        STATICS, balance and Johansen's criterion for strengths that differ both ways; a safe bound (derived)

    Example:
        >>> share_around_corner(along=360.0, across=400.0, bent=600.0, blown=600.0, twist=400.0, most=1.0)
        0.75
    """
    within(across, "moment across the beds in N m/m", low=0.0)
    within(blown, "moment of the wind in N m/m", low=0.0, high=bent)
    middle = (
        within(along, "moment along the beds in N m/m", low=0.0) * blown / (2 * within(twist, "twist", above=0.0) ** 2)
    )
    under_root = middle**2 - along * (bent - across) / twist**2
    if under_root < 0:
        return 0.0
    share = min(within(most, "share allowed", low=0.0, high=1.0), middle + math.sqrt(under_root))
    return share if share >= middle - math.sqrt(under_root) else 0.0


def moment_around(*, share: Ratio, blown: NewtonMeterPerMeter) -> NewtonMeterPerMeter:
    """Moment that a panel hands around a corner: M = s Mw.

    Args:
        share: s, of the wind on it [-]
        blown: Mw, moment of the wind on the wall about the level of interest [N m/m]

    Returns:
        M, per length of the panel [N m/m]

    Raises:
        OutOfRangeError: s is no share, or the moment is below 0.

    Range:
        0 ≤ s ≤ 1, Mw ≥ 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> moment_around(share=0.5, blown=600.0)
        300.0
    """
    return within(share, "share", low=0.0, high=1.0) * within(blown, "moment of the wind in N m/m", low=0.0)


def moment_with_corner(
    *, along: NewtonMeterPerMeter, across: NewtonMeterPerMeter, blown: NewtonMeterPerMeter,
    twist: NewtonMeterPerMeter, most: Ratio,
) -> NewtonMeterPerMeter:  # fmt: skip
    """Moment about its lowest bed that a panel at a corner bears: M = mc + s Mw − (s mt)² / ml at the best share s.

    Args:
        along: ml, moment the wall resists along its beds [N m/m]
        across: mc, moment its lowest bed resists, weight counted [N m/m]
        blown: Mw, moment of the wind on the wall itself about that bed [N m/m]
        twist: mt, from corner_twist [N m/m]
        most: s1, share allowed by other limits [-]

    Returns:
        M, with the best s up to s1; mc alone where the wall resists nothing along its beds [N m/m]

    Raises:
        OutOfRangeError: a moment below 0, a twist not above 0, or s1 over 1.

    Range:
        ml, mc, Mw ≥ 0; mt > 0; 0 ≤ s1 ≤ 1; refused outside.

    Source:
        STATICS, as share_around_corner (derived)

    Example:
        >>> moment_with_corner(along=800.0, across=400.0, blown=500.0, twist=400.0, most=1.0)
        700.0
    """
    within(across, "moment across the beds in N m/m", low=0.0)
    if within(along, "moment along the beds in N m/m", low=0.0) <= 0:
        return across
    best = along * within(blown, "moment of the wind in N m/m", low=0.0) / (2 * within(twist, "twist", above=0.0) ** 2)
    share = min(best, within(most, "share allowed", low=0.0, high=1.0))
    return across + share * blown - (share * twist) ** 2 / along


def return_moment(*, load: NewtonPerMeter, reach: Meter, length: Meter) -> NewtonMeterPerMeter:
    """Moment by which the wall around a corner holds a panel: M = W b² / (2 a), per length of the panel.

    Its weight stands half its length from the corner, and from its own far end: whichever way the panel is pushed.

    Args:
        load: W, weight of the wall around the corner per length [N/m]
        reach: b, length of it that counts [m]
        length: a, length of the panel [m]

    Returns:
        M [N m/m]

    Raises:
        OutOfRangeError: load or reach is below 0, or the panel has no length.

    Range:
        W, b ≥ 0, a > 0; refused outside. A corner about square; its own width is not counted.

    Source:
        STATICS, moments of a stiff body about its edge (derived)

    Example:
        >>> return_moment(load=4000.0, reach=1.0, length=2.0)
        1000.0
    """
    weight = within(load, "weight in N/m", low=0.0) * within(reach, "length of the return in m", low=0.0)
    return weight * reach / (2 * within(length, "length of the panel in m", above=0.0))


def return_reach(*, load: NewtonPerMeter, tension: Pascal, shear: Pascal, thickness: Meter, height: Meter) -> Meter:
    """Length of wall that a corner can lift with it: b = least of h, h √(f t / 3 W) and 2 v t h / (3 W).

    A wall that hangs from the corner pulls along its beds at its top, W b² / 2 over t h² / 6, and shears beside the
    corner.

    Args:
        load: W, weight that hangs, footing and soil on it in it [N/m]
        tension: f, along the beds [Pa]
        shear: v, that the bond stands [Pa]
        thickness: t, of the wall that works [m]
        height: h, of the wall [m]

    Returns:
        b, no longer than the wall is high [m]

    Raises:
        OutOfRangeError: load, thickness or height not above 0, or tension or shear below 0.

    Range:
        W, t, h > 0; f, v ≥ 0; refused outside. No longer than high: pinfold's own bound for a stiff body.

    Source:
        STATICS, a beam held at one end (derived)

    Example:
        >>> return_reach(load=5000.0, tension=75000.0, shear=50000.0, thickness=0.2, height=0.8)
        0.8
    """
    within(load, "weight in N/m", above=0.0)
    area = within(thickness, "thickness in m", above=0.0) * within(height, "height in m", above=0.0)
    pulled = math.sqrt(within(tension, "tension in Pa", low=0.0) * area * height / (3 * load))
    return min(height, pulled, 2 * within(shear, "shear in Pa", low=0.0) * area / (3 * load))

"""A free-standing wall as a cantilever: wind, weight, overturning and sliding, all per length of wall."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import (
    CubicMeterPerMeter,
    FourthMeterPerMeter,
    KgPerCubicMeter,
    Meter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
    Pascal,
    Ratio,
)

GRAVITY = 9.80665
"""Standard gravity, m/s2."""


def wind_force(*, pressure: Pascal, height: Meter) -> NewtonPerMeter:
    """Force of an even wind on a length of wall: F = p h.

    Args:
        pressure: p, net wind pressure on the face, force coefficient included [Pa]
        height: h, height of the face [m]

    Returns:
        F, force per length of wall [N/m]

    Raises:
        OutOfRangeError: pressure or height is below 0.

    Range:
        p ≥ 0, h ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> wind_force(pressure=600.0, height=1.2)
        720.0
    """
    return within(pressure, "wind pressure in Pa", low=0.0) * within(height, "height in m", low=0.0)


def wind_moment(*, pressure: Pascal, height: Meter, arm_share: Ratio, below: Meter) -> NewtonMeterPerMeter:
    """Moment of an even wind on a wall about a level at or under its foot: M = p h (a h + z).

    Args:
        pressure: p, net wind pressure on the face, force coefficient included [Pa]
        height: h, height of the face above ground [m]
        arm_share: a, height of the resultant as a share of h [-]
        below: z, depth of the level of interest under the foot of the face, 0 for the foot itself [m]

    Returns:
        M, moment per length of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0, or the resultant lies above the top.

    Range:
        p, h, z ≥ 0; 0 ≤ a ≤ 1; refused outside.

    Source:
        STATICS (derived)

    Notes:
        0.5 is an even pressure. The American wind standard puts the resultant of a wall that stands on the ground at
        0.55 h (mid-height and another 0.05 h); the European one says 0.5.

    Example:
        >>> wind_moment(pressure=1000.0, height=1.2, arm_share=0.55, below=0.0)
        792.0
    """
    force = wind_force(pressure=pressure, height=height)
    share = within(arm_share, "height of the resultant as a share of the wall", low=0.0, high=1.0)
    return force * (share * height + within(below, "depth under the foot in m", low=0.0))


def line_load_moment(*, line_load: NewtonPerMeter, height: Meter, below: Meter) -> NewtonMeterPerMeter:
    """Moment of a level load along the wall, such as the pull of mesh above it: M = q (y + z).

    Args:
        line_load: q, level load per length of wall [N/m]
        height: y, height at which it acts, above the foot of the wall [m]
        below: z, depth of the level of interest under the foot, 0 for the foot itself [m]

    Returns:
        M, moment per length of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        q, y, z ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> line_load_moment(line_load=100.0, height=1.5, below=0.3)
        180.0
    """
    arm = within(height, "height in m", low=0.0) + within(below, "depth under the foot in m", low=0.0)
    return within(line_load, "load in N/m", low=0.0) * arm


def panel_load(*, load: NewtonPerMeter, shares: Meter, length: Meter) -> NewtonPerMeter:
    """Level load that posts bring to the panel of wall they stand in, spread along it: q = f Σs / L.

    Args:
        load: f, wind on a length of the fence above [N/m]
        shares: Σs, widths of fence that hang on the posts of the panel, together [m]
        length: L, of the panel, from joint to joint [m]

    Returns:
        q, load per length of the panel [N/m]

    Raises:
        OutOfRangeError: load or shares are below 0, or the length is not above 0.

    Range:
        f, Σs ≥ 0, L > 0; refused outside. The panel is taken as stiff along its length.

    Source:
        STATICS (derived)

    Example:
        >>> panel_load(load=200.0, shares=2.4, length=1.6)
        300.0
    """
    brought = within(load, "load in N/m", low=0.0) * within(shares, "shares of the posts in m", low=0.0)
    return brought / within(length, "length of the panel in m", above=0.0)


def layer_weight(*, density: KgPerCubicMeter, thickness: Meter, height: Meter) -> NewtonPerMeter:
    """Weight of one layer of a wall per length: W = ρ g t h.

    Args:
        density: ρ, density of the layer as built [kg/m3]
        thickness: t, thickness across the wall; for hollow units the equivalent thickness [m]
        height: h, height of the layer [m]

    Returns:
        W, weight per length of wall [N/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        STATICS, standard gravity 9.80665 m/s2 (derived)

    Example:
        >>> layer_weight(density=2000.0, thickness=0.2, height=1.0)
        3922.66
    """
    within(density, "density in kg/m3", low=0.0)
    return density * GRAVITY * within(thickness, "thickness in m", low=0.0) * within(height, "height in m", low=0.0)


def solid_inertia(*, thickness: Meter) -> FourthMeterPerMeter:
    """Second moment of area of a solid wall, bent out of its plane: I = t³ / 12.

    Args:
        thickness: t, thickness of the wall [m]

    Returns:
        I, per length of wall [m4/m]

    Raises:
        OutOfRangeError: the thickness is not above 0.

    Range:
        t > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> solid_inertia(thickness=0.3)
        0.00225
    """
    return within(thickness, "thickness in m", above=0.0) ** 3 / 12


def solid_modulus(*, thickness: Meter) -> CubicMeterPerMeter:
    """Section modulus of a solid wall, bent out of its plane: S = t² / 6.

    Args:
        thickness: t, thickness of the wall [m]

    Returns:
        S, per length of wall [m3/m]

    Raises:
        OutOfRangeError: the thickness is not above 0.

    Range:
        t > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> solid_modulus(thickness=0.3)
        0.015
    """
    return within(thickness, "thickness in m", above=0.0) ** 2 / 6


def slenderness(*, height: Meter, thickness: Meter) -> Ratio:
    """Height of a wall over its thickness: h / t.

    Args:
        height: h, height above the level where it is held [m]
        thickness: t, thickness of the wall [m]

    Returns:
        slenderness [-]

    Raises:
        OutOfRangeError: the height is below 0 or the thickness not above 0.

    Range:
        h ≥ 0, t > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> slenderness(height=1.2, thickness=0.2)
        6.0
    """
    return within(height, "height in m", low=0.0) / within(thickness, "thickness in m", above=0.0)


def resisting_moment(*, weight: NewtonPerMeter, arm: Meter) -> NewtonMeterPerMeter:
    """Moment of weight that holds a wall down, about the toe: M = W a.

    Args:
        weight: W, downward weight per length of wall [N/m]
        arm: a, level distance from the toe to the line of the weight, half the base where it stands central [m]

    Returns:
        M, per length of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        W ≥ 0, a ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> resisting_moment(weight=8000.0, arm=0.25)
        2000.0
    """
    return within(weight, "weight in N/m", low=0.0) * within(arm, "arm of the weight in m", low=0.0)


def overturning_factor(*, resisting: NewtonMeterPerMeter, overturning: NewtonMeterPerMeter) -> Ratio:
    """Safety against tipping over the toe: FS = Mr / Mo.

    Args:
        resisting: Mr, moment of all weights about the toe [N m/m]
        overturning: Mo, moment of all level loads about the toe [N m/m]

    Returns:
        FS, factor of safety, commonly wanted at 1.5 or more [-]

    Raises:
        OutOfRangeError: Mr is below 0, or nothing overturns.

    Range:
        Mr ≥ 0, Mo > 0; refused outside. Ground that yields under the toe lowers it: check the pressure as well.

    Source:
        STATICS (derived)
        IBC-1806, the factor 1.5 of retaining walls, for free-standing ones by habit (practice)

    Example:
        >>> overturning_factor(resisting=2000.0, overturning=800.0)
        2.5
    """
    within(resisting, "resisting moment in N m/m", low=0.0)
    return resisting / within(overturning, "overturning moment in N m/m", above=0.0)


def sliding_resistance(*, load: NewtonPerMeter, friction: Ratio, cohesion: Pascal, width: Meter) -> NewtonPerMeter:
    """What the ground under a base holds against sliding: R = μ N + min(c B, N / 2).

    Args:
        load: N, downward load per length, the least that can act [N/m]
        friction: μ, friction between base and ground, 0 for clay [-]
        cohesion: c, cling of clay to the base, 0 for sand and gravel [Pa]
        width: B, width of the base [m]

    Returns:
        R, resistance per length of wall [N/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below. Earth in front of the base is not counted.

    Source:
        IBC-1806, friction and cohesion of table 1806.2 (read)
        IBC-1806, cling of no more than half the dead load, 1806.3.2 (memory)

    Example:
        >>> sliding_resistance(load=8000.0, friction=0.25, cohesion=0.0, width=0.5)
        2000.0
    """
    within(load, "downward load in N/m", low=0.0)
    cling = within(cohesion, "cohesion in Pa", low=0.0) * within(width, "width of the base in m", low=0.0)
    return within(friction, "friction", low=0.0) * load + min(cling, load / 2)


def sliding_factor(*, resistance: NewtonPerMeter, force: NewtonPerMeter) -> Ratio:
    """Safety against sliding: FS = R / F.

    Args:
        resistance: R, what friction and cling hold [N/m]
        force: F, all level force per length of wall [N/m]

    Returns:
        FS, factor of safety, commonly wanted at 1.5 or more [-]

    Raises:
        OutOfRangeError: R is below 0, or nothing pushes.

    Range:
        R ≥ 0, F > 0; refused outside.

    Source:
        STATICS (derived)
        IBC-1806, the factor 1.5 of retaining walls, for free-standing ones by habit (practice)

    Example:
        >>> sliding_factor(resistance=2000.0, force=800.0)
        2.5
    """
    return within(resistance, "sliding resistance in N/m", low=0.0) / within(force, "level force in N/m", above=0.0)


def equilibrium_use(
    *,
    overturning: NewtonMeterPerMeter,
    resisting: NewtonMeterPerMeter,
    load_factor: Ratio,
    weight_factor: Ratio,
) -> Ratio:
    """Use of a wall's balance with factors on both sides: u = γQ Mo / (γG Mr).

    Args:
        overturning: Mo, moment of the wind about the toe, without factor [N m/m]
        resisting: Mr, moment of the weights about the toe, without factor [N m/m]
        load_factor: γQ, factor on the wind, 1.5 in the European set for balance [-]
        weight_factor: γG, factor on weight that helps, 0.9 in the same set [-]

    Returns:
        u, balanced while it is 1 or less [-]

    Raises:
        OutOfRangeError: Mo is below 0, or Mr or a factor is not above 0.

    Range:
        Mo ≥ 0; Mr, γQ, γG > 0; refused outside.

    Source:
        EN-1990, 1.5 on the wind and 0.9 on the weight (memory)
        STATICS (derived)

    Example:
        >>> equilibrium_use(overturning=600.0, resisting=2000.0, load_factor=1.5, weight_factor=0.9)
        0.5
    """
    held = within(weight_factor, "factor on weight", above=0.0) * within(resisting, "moment in N m/m", above=0.0)
    pushed = within(load_factor, "factor on wind", above=0.0) * within(overturning, "moment in N m/m", low=0.0)
    return pushed / held

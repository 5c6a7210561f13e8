"""Posts and rails that bend: how far their tops move, how rails between posts bend and sag, and the shear in them."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import (
    CubicMeter,
    Meter,
    MeterToFourth,
    Newton,
    NewtonMeter,
    NewtonPerMeter,
    Pascal,
    Ratio,
    SquareMeter,
)


def second_moment(*, modulus: CubicMeter, edge: Meter) -> MeterToFourth:
    """Second moment of area out of a section modulus: I = S c.

    Args:
        modulus: S, section modulus [m3]
        edge: c, from the axis to the edge S belongs to, half the width of a round or square post [m]

    Returns:
        I, second moment of area [m4]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        S, c > 0; refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> second_moment(modulus=8e-6, edge=0.03)
        2.4e-07
    """
    return within(modulus, "section modulus in m3", above=0.0) * within(edge, "edge in m", above=0.0)


def tip_deflection(
    *, force: Newton, height: Meter, length: Meter, modulus: Pascal, second_moment: MeterToFourth
) -> Meter:
    """How far the top of a post moves under a level force on it: y = P a² (3 L − a) / (6 E I).

    Args:
        force: P, level force [N]
        height: a, of the force above the level where the post is held [m]
        length: L, of the post above that level [m]
        modulus: E, modulus of elasticity [Pa]
        second_moment: I, of the post's section [m4]

    Returns:
        y, level movement of the top [m]

    Raises:
        OutOfRangeError: the force is below 0, its height outside the post, or E or I not above 0.

    Range:
        P ≥ 0, 0 ≤ a ≤ L, E, I > 0; refused outside. Held fast at its foot: what the ground gives comes on top.

    Source:
        STATICS, cantilever (derived)

    Example:
        >>> tip_deflection(force=600.0, height=1.0, length=1.0, modulus=200e9, second_moment=2.5e-7)
        0.004
    """
    tall = within(length, "length of the post in m", above=0.0)
    arm = within(height, "height of the force in m", low=0.0, high=tall)
    stiff = within(modulus, "modulus in Pa", above=0.0) * within(second_moment, "second moment in m4", above=0.0)
    return within(force, "force in N", low=0.0) * arm**2 * (3 * tall - arm) / (6 * stiff)


def ground_lean(*, give: Meter, depth: Meter, length: Meter, share: Ratio = 0.7) -> Meter:
    """How far the top of a post moves where the ground at its foot gives way: y = g (1 + L / (k d)).

    Args:
        give: g, movement of the post at the ground [m]
        depth: d, of the post in the ground [m]
        length: L, of the post above the ground [m]
        share: k, of the depth at which the post turns [-]

    Returns:
        y, level movement of the top by this alone [m]

    Raises:
        OutOfRangeError: give or length is below 0, depth not above 0, or the share outside 0 to 1.

    Range:
        g, L ≥ 0, d > 0, 0 < k ≤ 1; refused outside. Stiff post that turns about one level.

    Source:
        STATICS (derived)
        PRACTICE, the level of turning at about 0.7 of the depth (practice)

    Example:
        >>> ground_lean(give=0.01, depth=1.0, length=1.4)
        0.03
    """
    turn = within(share, "share", above=0.0, high=1.0) * within(depth, "depth in m", above=0.0)
    return within(give, "give in m", low=0.0) * (1 + within(length, "length of the post in m", low=0.0) / turn)


def span_moment(*, load: NewtonPerMeter, span: Meter) -> NewtonMeter:
    """Greatest moment in a rail between two posts: M = w L² / 8.

    Args:
        load: w, spread along the rail [N/m]
        span: L, between posts [m]

    Returns:
        M, at the middle of the span [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        w, L ≥ 0; refused below. Jointed on the posts: a rail that runs through over many posts bends no more.

    Source:
        STATICS (derived)

    Example:
        >>> span_moment(load=100.0, span=2.0)
        50.0
    """
    return within(load, "load in N/m", low=0.0) * within(span, "span in m", low=0.0) ** 2 / 8


def span_sag(*, load: NewtonPerMeter, span: Meter, modulus: Pascal, second_moment: MeterToFourth) -> Meter:
    """How far a rail bends between two posts: y = 5 w L⁴ / (384 E I).

    Args:
        load: w, spread along the rail [N/m]
        span: L, between posts [m]
        modulus: E, modulus of elasticity [Pa]
        second_moment: I, of the rail's section [m4]

    Returns:
        y, at the middle of the span [m]

    Raises:
        OutOfRangeError: load or span is below 0, or E or I not above 0.

    Range:
        w, L ≥ 0, E, I > 0; refused outside. Jointed on the posts.

    Source:
        STATICS (derived)

    Example:
        >>> span_sag(load=384.0, span=2.0, modulus=200e9, second_moment=1e-7)
        0.004
    """
    stiff = within(modulus, "modulus in Pa", above=0.0) * within(second_moment, "second moment in m4", above=0.0)
    return 5 * within(load, "load in N/m", low=0.0) * within(span, "span in m", low=0.0) ** 4 / (384 * stiff)


def shear_stress(*, force: Newton, area: SquareMeter, peak: Ratio) -> Pascal:
    """Greatest shear stress in a bent post or rail: v = k V / A.

    Args:
        force: V, force across it [N]
        area: A, of its section [m2]
        peak: k, 3/2 for a rectangle, 4/3 for a full round, 2 for a thin pipe [-]

    Returns:
        v [Pa]

    Raises:
        OutOfRangeError: the force is below 0, the area not above 0, or k under 1.

    Range:
        V ≥ 0, A > 0, k ≥ 1; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> shear_stress(force=1000.0, area=0.01, peak=1.5)
        150000.0
    """
    mean = within(force, "force in N", low=0.0) / within(area, "area in m2", above=0.0)
    return within(peak, "k", low=1.0) * mean

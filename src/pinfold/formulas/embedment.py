"""Posts in the ground: how deep they must stand, free at the ground or held there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Pascal, PascalPerMeter, Ratio

TWELVE_FEET = 12 * 0.3048
"""Depth up to which the building code lets the ground's side pressure grow, m."""


@dataclass(frozen=True, kw_only=True)
class Embedment:
    """Depth that a post needs in the ground, and whether it is past the depth where side pressure stops growing.

    Attributes:
        depth: depth below the ground.
        capped: true where the side pressure was held at its deepest counted value.
    """

    depth: Meter
    capped: bool


def square_diagonal(*, side: Meter) -> Meter:
    """Width that the building code counts for a square post or footing: b = √2 a.

    Args:
        side: a, side of the square [m]

    Returns:
        b, its diagonal [m]

    Raises:
        OutOfRangeError: the side is not above 0.

    Range:
        a > 0, refused otherwise. A round post counts with its diameter.

    Source:
        IBC-1807, b in equation 18-1 (read)

    Example:
        >>> square_diagonal(side=0.6)
        0.849
    """
    return math.sqrt(2) * within(side, "side in m", above=0.0)


def lateral_rate(*, tabulated: PascalPerMeter, isolated: bool) -> PascalPerMeter:
    """Side pressure of the ground per depth that a post may use: r, or 2 r for an isolated post.

    Args:
        tabulated: r, value of the table for the kind of ground [Pa/m]
        isolated: a post that stands alone and may move 1/2 in at the ground without harm

    Returns:
        pressure per depth to design with [Pa/m]

    Raises:
        OutOfRangeError: the value is below 0.

    Range:
        r ≥ 0, refused below.

    Source:
        IBC-1806, table 1806.2 (read)
        ISOLATED-POST-SHEET, doubling by 1806.3.4 (read)
        IBC-1806, the 1/2 in of movement (memory)

    Example:
        >>> lateral_rate(tabulated=23500.0, isolated=True)
        47000.0
    """
    return within(tabulated, "side pressure per depth in Pa/m", low=0.0) * (2 if isolated else 1)


def lateral_bearing(*, rate: PascalPerMeter, depth: Meter, share: Ratio, deepest: Meter = TWELVE_FEET) -> Pascal:
    """Side pressure the ground may take at a share of a post's depth: S = r k min(d, 12 ft).

    Args:
        rate: r, pressure per depth [Pa/m]
        depth: d, depth of the post in the ground [m]
        share: k, 1/3 for a post free at the ground, 1 for one held there [-]
        deepest: depth up to which the pressure grows, 12 ft in the building code [m]

    Returns:
        S1 or S3 [Pa]

    Raises:
        OutOfRangeError: an argument is out of its range.

    Range:
        r, d ≥ 0, 0 ≤ k ≤ 1, deepest > 0; refused outside.

    Source:
        IBC-1807, S1, S3 and the 12 ft; the cap is on d, not on d/3: both readings circulate (read)

    Example:
        >>> lateral_bearing(rate=30000.0, depth=1.5, share=1/3)
        15000.0
    """
    within(deepest, "deepest counted depth in m", above=0.0)
    counted = min(within(depth, "depth in m", low=0.0), deepest)
    return within(rate, "side pressure per depth in Pa/m", low=0.0) * within(share, "k", low=0.0, high=1.0) * counted


def embedment_length(*, force: Newton, pressure: Pascal, width: Meter) -> Meter:
    """Length A of the post equation: A = 2.34 P / (S1 b).

    Args:
        force: P, level force on the post [N]
        pressure: S1, side pressure at a third of the depth [Pa]
        width: b, diameter of a round post, diagonal of a square one [m]

    Returns:
        A [m]

    Raises:
        OutOfRangeError: the force is below 0, or pressure or width not above 0.

    Range:
        P ≥ 0; S1, b > 0; refused outside.

    Source:
        IBC-1807, 1807.3.2.1 (read)

    Example:
        >>> embedment_length(force=1000.0, pressure=10000.0, width=0.3)
        0.78
    """
    grip = within(pressure, "side pressure in Pa", above=0.0) * within(width, "width in m", above=0.0)
    return 2.34 * within(force, "force in N", low=0.0) / grip


def depth_nonconstrained_once(*, force: Newton, height: Meter, width: Meter, pressure: Pascal) -> Meter:
    """One pass of the depth of a post free at the ground: d = 0.5 A [1 + √(1 + 4.36 h / A)].

    The pressure S1 depends on the depth, so the answer of one pass is a trial and no depth to dig:
    use depth_nonconstrained.

    Args:
        force: P, level force on the post [N]
        height: h, height of the force above the ground [m]
        width: b, diameter of a round post, diagonal of a square one [m]
        pressure: S1, side pressure at a third of a trial depth [Pa]

    Returns:
        d, the depth this trial leads to [m]

    Raises:
        OutOfRangeError: the height is below 0, or another argument not above 0.

    Range:
        P, b, S1 > 0, h ≥ 0; refused outside.

    Source:
        IBC-1807, equation 18-1 (read)

    Example:
        >>> depth_nonconstrained_once(force=1330.0, height=8.0, width=0.8485, pressure=16223.0)
        1.5217
    """
    within(force, "force in N", above=0.0)
    a = embedment_length(force=force, pressure=pressure, width=width)
    return 0.5 * a * (1 + math.sqrt(1 + 4.36 * within(height, "height in m", low=0.0) / a))


def depth_nonconstrained(
    *, force: Newton, height: Meter, width: Meter, rate: PascalPerMeter, deepest: Meter = TWELVE_FEET
) -> Embedment:
    """Depth of a post free at the ground, trial and answer the same: d³ = a (d + 1.09 h), a = 7.02 P / (r b).

    The published equation with S1 = r d / 3 put in is this cubic. Past the deepest counted depth S1 stays where it is
    and the published equation answers at once.

    Args:
        force: P, level force on the post [N]
        height: h, height of the force above the ground [m]
        width: b, diameter of a round post, diagonal of a square one [m]
        rate: r, side pressure per depth, from lateral_rate [Pa/m]
        deepest: depth up to which the pressure grows, 12 ft in the building code [m]

    Returns:
        depth, and whether it is past the deepest counted depth (see Embedment)

    Raises:
        OutOfRangeError: the height is below 0, or another argument not above 0.

    Range:
        P, b, r > 0, h ≥ 0; refused outside. Nothing holds the post at the ground.

    Source:
        IBC-1807, equation 18-1 (read)
        STATICS, the cubic (derived)

    Example:
        >>> depth_nonconstrained(force=1330.0, height=8.0, width=0.8485, rate=31400.0)
        Embedment(depth=1.532, capped=False)
    """
    at_cap = lateral_bearing(rate=rate, depth=deepest, share=1 / 3, deepest=deepest)
    depth = depth_nonconstrained_once(force=force, height=height, width=width, pressure=at_cap)
    if depth > deepest:
        return Embedment(depth=depth, capped=True)
    a = 7.02 * force / (rate * width)
    return Embedment(depth=_root_of_cubic(a, 1.09 * height), capped=False)


def _root_of_cubic(a: float, arm: float) -> float:
    """The positive root of d³ = a (d + arm), from above, where Newton's steps only fall until they meet it."""
    depth = math.sqrt(2 * a) + math.pow(2 * a * arm, 1 / 3)
    lower = depth - (depth**3 - a * (depth + arm)) / (3 * depth**2 - a)
    while lower < depth * (1 - 1e-15):
        depth = lower
        lower = depth - (depth**3 - a * (depth + arm)) / (3 * depth**2 - a)
    return depth


def force_held_nonconstrained(
    *, depth: Meter, height: Meter, width: Meter, rate: PascalPerMeter, deepest: Meter = TWELVE_FEET
) -> Newton:
    """Level force a post free at the ground may take: P = S1 b d² / (2.34 (d + 1.09 h)).

    The published equation of the depth, solved for the force.

    Args:
        depth: d, depth of the post in the ground [m]
        height: h, height of the force above the ground [m]
        width: b, diameter of a round post, diagonal of a square one [m]
        rate: r, side pressure per depth, from lateral_rate [Pa/m]
        deepest: depth up to which the pressure grows, 12 ft in the building code [m]

    Returns:
        P, level force [N]

    Raises:
        OutOfRangeError: the height is below 0, or another argument not above 0.

    Range:
        d, b, r > 0, h ≥ 0; refused outside.

    Source:
        IBC-1807, equation 18-1 (read)
        STATICS, solved for P (derived)

    Example:
        >>> force_held_nonconstrained(depth=1.532, height=8.0, width=0.8485, rate=31400.0)
        1331
    """
    within(depth, "depth in m", above=0.0)
    pressure = lateral_bearing(rate=rate, depth=depth, share=1 / 3, deepest=deepest)
    lever = 2.34 * (depth + 1.09 * within(height, "height in m", low=0.0))
    return pressure * within(width, "width in m", above=0.0) * depth**2 / lever


def depth_constrained_once(*, moment: NewtonMeter, width: Meter, pressure: Pascal) -> Meter:
    """One pass of the depth of a post held at the ground by paving or a slab: d = √(4.25 Mg / (S3 b)).

    The pressure S3 depends on the depth, so the answer of one pass is a trial: use depth_constrained.

    Args:
        moment: Mg, moment of the post at the ground [N m]
        width: b, diameter of a round post, diagonal of a square one [m]
        pressure: S3, side pressure at a trial depth [Pa]

    Returns:
        d, the depth this trial leads to [m]

    Raises:
        OutOfRangeError: the moment is below 0, or pressure or width not above 0.

    Range:
        Mg ≥ 0; S3, b > 0; refused outside.

    Source:
        IBC-1807, equation 18-3 (read)

    Example:
        >>> depth_constrained_once(moment=2000.0, width=0.3, pressure=25000.0)
        1.065
    """
    grip = within(pressure, "side pressure in Pa", above=0.0) * within(width, "width in m", above=0.0)
    return math.sqrt(4.25 * within(moment, "moment at the ground in N m", low=0.0) / grip)


def depth_constrained(
    *, moment: NewtonMeter, width: Meter, rate: PascalPerMeter, deepest: Meter = TWELVE_FEET
) -> Embedment:
    """Depth of a post held at the ground, trial and answer the same: d = (4.25 Mg / (r b))^(1/3).

    Past the deepest counted depth S3 stays where it is and d = √(4.25 Mg / (S3 b)).

    Args:
        moment: Mg, moment of the post at the ground [N m]
        width: b, diameter of a round post, diagonal of a square one [m]
        rate: r, side pressure per depth, from lateral_rate [Pa/m]
        deepest: depth up to which the pressure grows, 12 ft in the building code [m]

    Returns:
        depth, and whether it is past the deepest counted depth (see Embedment)

    Raises:
        OutOfRangeError: the moment is below 0, or another argument not above 0.

    Range:
        Mg ≥ 0; b, r > 0; refused outside. Needs a stiff collar at the ground that cannot move.

    Source:
        IBC-1807, equation 18-3 (read)
        STATICS, the cube root (derived)

    Example:
        >>> depth_constrained(moment=2000.0, width=0.3, rate=25000.0)
        Embedment(depth=1.0427, capped=False)
    """
    at_cap = lateral_bearing(rate=rate, depth=deepest, share=1.0, deepest=deepest)
    depth = depth_constrained_once(moment=moment, width=width, pressure=at_cap)
    if depth > deepest:
        return Embedment(depth=depth, capped=True)
    return Embedment(depth=(4.25 * moment / (rate * width)) ** (1 / 3), capped=False)


def moment_held_constrained(
    *, depth: Meter, width: Meter, rate: PascalPerMeter, deepest: Meter = TWELVE_FEET
) -> NewtonMeter:
    """Moment at the ground that a post held there may take: Mg = S3 b d² / 4.25.

    Args:
        depth: d, depth of the post in the ground [m]
        width: b, diameter of a round post, diagonal of a square one [m]
        rate: r, side pressure per depth, from lateral_rate [Pa/m]
        deepest: depth up to which the pressure grows, 12 ft in the building code [m]

    Returns:
        Mg, moment at the ground [N m]

    Raises:
        OutOfRangeError: an argument is out of its range.

    Range:
        d, r ≥ 0, b > 0; refused outside.

    Source:
        IBC-1807, equation 18-3 (read)
        STATICS, solved for Mg (derived)

    Example:
        >>> moment_held_constrained(depth=1.0, width=0.34, rate=25000.0)
        2000.0
    """
    pressure = lateral_bearing(rate=rate, depth=depth, share=1.0, deepest=deepest)
    return pressure * within(width, "width in m", above=0.0) * depth**2 / 4.25

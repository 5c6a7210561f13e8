"""Posts in the ground: wind on them, how deep they must stand, their bending; wires, corner braces and pads."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import (
    CubicMeter,
    Meter,
    MeterToFourth,
    Newton,
    NewtonMeter,
    NewtonPerMeter,
    Pascal,
    PascalPerMeter,
    Radian,
    Ratio,
    SquareMeter,
)

TWELVE_FEET = 12 * 0.3048
"""Depth up to which the building code lets the ground's side pressure grow, m."""

_STEEPEST_SAG = 0.05


@dataclass(frozen=True, kw_only=True)
class Embedment:
    """Depth that a post needs in the ground, and whether it is past the depth where side pressure stops growing.

    Attributes:
        depth: depth below the ground.
        capped: true where the side pressure was held at its deepest counted value.
    """

    depth: Meter
    capped: bool


@dataclass(frozen=True, kw_only=True)
class TeeSection:
    """Section of a tee, bent about the axis level with its flange.

    Attributes:
        area: of flange and stem.
        centroid: distance of the axis from the outer face of the flange.
        inertia: second moment of area about the axis.
        modulus_flange: section modulus to the outer face of the flange.
        modulus_stem: section modulus to the tip of the stem, the smaller one.
    """

    area: SquareMeter
    centroid: Meter
    inertia: MeterToFourth
    modulus_flange: CubicMeter
    modulus_stem: CubicMeter


@dataclass(frozen=True, kw_only=True)
class BraceForces:
    """Forces in a corner brace: pressure in the rail, pull in the diagonal wire, lift of the corner post."""

    rail: Newton
    diagonal: Newton
    uplift: Newton


def mesh_force(*, pressure: Pascal, spacing: Meter, bottom: Meter, top: Meter) -> Newton:
    """Wind that mesh brings to one post: F = p s (z2 − z1).

    Args:
        pressure: p, wind force per area of mesh, solidity and force coefficient included [Pa]
        spacing: s, length of mesh that hangs on the post [m]
        bottom: z1, lower edge of the mesh above the ground [m]
        top: z2, upper edge [m]

    Returns:
        F, level force on the post, acting at (z1 + z2) / 2 [N]

    Raises:
        OutOfRangeError: an argument is below 0 or the top lies under the bottom.

    Range:
        p, s, z1 ≥ 0, z2 ≥ z1; refused outside. Inner posts only when the mesh is even on both sides.

    Source:
        STATICS (derived)

    Example:
        >>> mesh_force(pressure=50.0, spacing=3.0, bottom=0.5, top=1.5)
        150.0
    """
    foot = within(bottom, "lower edge of the mesh in m", low=0.0)
    area = within(spacing, "spacing in m", low=0.0) * (within(top, "upper edge of the mesh in m", low=foot) - foot)
    return within(pressure, "pressure in Pa", low=0.0) * area


def mesh_moment(*, pressure: Pascal, spacing: Meter, bottom: Meter, top: Meter) -> NewtonMeter:
    """Moment at the ground of the wind that mesh brings to one post: M = p s (z2² − z1²) / 2.

    Args:
        pressure: p, wind force per area of mesh, solidity and force coefficient included [Pa]
        spacing: s, length of mesh that hangs on the post [m]
        bottom: z1, lower edge of the mesh above the ground [m]
        top: z2, upper edge [m]

    Returns:
        M, moment at the ground [N m]

    Raises:
        OutOfRangeError: an argument is below 0 or the top lies under the bottom.

    Range:
        p, s, z1 ≥ 0, z2 ≥ z1; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> mesh_moment(pressure=50.0, spacing=3.0, bottom=0.5, top=1.5)
        150.0
    """
    return mesh_force(pressure=pressure, spacing=spacing, bottom=bottom, top=top) * (bottom + top) / 2


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


def round_modulus(*, diameter: Meter) -> CubicMeter:
    """Section modulus of a round post: S = π d³ / 32.

    Args:
        diameter: d, diameter where it bends most, at the ground [m]

    Returns:
        S [m3]

    Raises:
        OutOfRangeError: the diameter is not above 0.

    Range:
        d > 0, refused otherwise. Sound wood only: leave off what has rotted.

    Source:
        STATICS (derived)

    Example:
        >>> round_modulus(diameter=0.1)
        0.00009817
    """
    return math.pi * within(diameter, "diameter in m", above=0.0) ** 3 / 32


def rectangle_modulus(*, width: Meter, depth: Meter) -> CubicMeter:
    """Section modulus of a square or rectangular post: S = b d² / 6.

    Args:
        width: b, side along the fence [m]
        depth: d, side along the wind [m]

    Returns:
        S [m3]

    Raises:
        OutOfRangeError: a side is not above 0.

    Range:
        b, d > 0; refused otherwise. Actual, not nominal, sizes.

    Source:
        STATICS (derived)

    Example:
        >>> rectangle_modulus(width=0.09, depth=0.1)
        0.00015
    """
    return within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0) ** 2 / 6


def pipe_modulus(*, outside: Meter, wall: Meter) -> CubicMeter:
    """Section modulus of a pipe: S = π (D⁴ − d⁴) / (32 D), d = D − 2 t.

    Args:
        outside: D, outside diameter [m]
        wall: t, thickness of its wall [m]

    Returns:
        S [m3]

    Raises:
        OutOfRangeError: D is not above 0 or t is over D/2.

    Range:
        D > 0, 0 ≤ t ≤ D/2; refused outside. Elastic; rust takes from t.

    Source:
        STATICS (derived)

    Example:
        >>> pipe_modulus(outside=0.06, wall=0.004)
        0.000009242
    """
    within(outside, "outside diameter in m", above=0.0)
    within(wall, "wall of the pipe in m", low=0.0, high=outside / 2)
    return math.pi * (outside**4 - (outside - 2 * wall) ** 4) / (32 * outside)


def tee_section(
    *, flange_width: Meter, flange_thickness: Meter, stem_depth: Meter, stem_thickness: Meter
) -> TeeSection:
    """Section of a tee from its measured sizes, two rectangles about their common axis: I = Σ (I0 + A y²).

    Args:
        flange_width: width of the flange [m]
        flange_thickness: thickness of the flange [m]
        stem_depth: length of the stem under the flange [m]
        stem_thickness: thickness of the stem [m]

    Returns:
        area, axis, second moment and section moduli (see TeeSection)

    Raises:
        OutOfRangeError: a size is not above 0.

    Range:
        all > 0, refused otherwise. Studs and rounded corners are left out. Measure the post: no table was found.

    Source:
        STATICS (derived)

    Example:
        >>> tee_section(flange_width=0.04, flange_thickness=0.004, stem_depth=0.036, stem_thickness=0.004)
        TeeSection(area=0.000304, centroid=0.011474, inertia=4.6081e-08, modulus_flange=4.0162e-06,
        ... modulus_stem=1.6154e-06)
    """
    flange = within(flange_width, "flange width in m", above=0.0) * within(
        flange_thickness, "flange thickness in m", above=0.0
    )
    stem = within(stem_depth, "stem depth in m", above=0.0) * within(stem_thickness, "stem thickness in m", above=0.0)
    area, mid = flange + stem, flange_thickness + stem_depth / 2
    axis = (flange * flange_thickness / 2 + stem * mid) / area
    own = (flange * flange_thickness**2 + stem * stem_depth**2) / 12
    inertia = own + flange * (axis - flange_thickness / 2) ** 2 + stem * (mid - axis) ** 2
    tip = flange_thickness + stem_depth - axis
    return TeeSection(
        area=area, centroid=axis, inertia=inertia, modulus_flange=inertia / axis, modulus_stem=inertia / tip
    )


def bending_stress(*, moment: NewtonMeter, modulus: CubicMeter) -> Pascal:
    """Stress at the edge of a bent post: f = M / S.

    Args:
        moment: M, moment at the section, greatest at the ground or a little under it [N m]
        modulus: S, section modulus [m3]

    Returns:
        f, stress at the edge [Pa]

    Raises:
        OutOfRangeError: the moment is below 0 or the modulus not above 0.

    Range:
        M ≥ 0, S > 0; refused outside. Elastic.

    Source:
        STATICS (derived)

    Example:
        >>> bending_stress(moment=900.0, modulus=0.0001)
        9000000
    """
    return within(moment, "moment in N m", low=0.0) / within(modulus, "section modulus in m3", above=0.0)


def wire_moment(*, tension: Newton, height: Meter) -> NewtonMeter:
    """Moment of a strained wire on the post where it ends: M = T h.

    Args:
        tension: T, pull of the wire [N]
        height: h, height of the wire above the level where the post is held [m]

    Returns:
        M, moment on the post, along the fence [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        T, h ≥ 0; refused below. A brace to the next post takes most of it; none is counted.

    Source:
        STATICS (derived)

    Example:
        >>> wire_moment(tension=200.0, height=1.5)
        300.0
    """
    return within(tension, "pull of the wire in N", low=0.0) * within(height, "height of the wire in m", low=0.0)


def force_together(*, first: Newton, second: Newton, angle: Radian) -> Newton:
    """Two level forces on one post, added as arrows: F = √(A² + B² + 2 A B cos θ).

    Args:
        first: A [N]
        second: B [N]
        angle: θ, between the ways they pull: 0 the same way, a quarter turn square to each other [rad]

    Returns:
        F [N]

    Raises:
        OutOfRangeError: a force is below 0.

    Range:
        A, B ≥ 0; refused below.

    Source:
        STATICS, law of cosines (derived)

    Example:
        >>> force_together(first=300.0, second=400.0, angle=1.5707963)
        500.0
    """
    return _together(within(first, "force in N", low=0.0), within(second, "force in N", low=0.0), angle)


def moment_together(*, first: NewtonMeter, second: NewtonMeter, angle: Radian) -> NewtonMeter:
    """Moments of two level pulls on one post, added as arrows: M = √(A² + B² + 2 A B cos θ).

    Args:
        first: A [N m]
        second: B [N m]
        angle: θ, between the ways they pull: 0 the same way, a quarter turn square to each other [rad]

    Returns:
        M [N m]

    Raises:
        OutOfRangeError: a moment is below 0.

    Range:
        A, B ≥ 0; refused below.

    Source:
        STATICS, law of cosines (derived)

    Example:
        >>> moment_together(first=300.0, second=400.0, angle=0.0)
        700.0
    """
    return _together(within(first, "moment in N m", low=0.0), within(second, "moment in N m", low=0.0), angle)


def _together(first: float, second: float, angle: Radian) -> float:
    """By half the angle, so that opposite ones take each other away without rounding under a root."""
    return math.hypot((first + second) * math.cos(angle / 2), (first - second) * math.sin(angle / 2))


def wire_sag(*, weight: NewtonPerMeter, span: Meter, tension: Newton) -> Meter:
    """Sag of a tight wire between supports of one height: f = w L² / (8 T).

    Args:
        weight: w, weight of the wire per length, with ice where it may come [N/m]
        span: L, distance between supports [m]
        tension: T, level pull of the wire [N]

    Returns:
        f, sag at mid-span [m]

    Raises:
        OutOfRangeError: an argument is out of its range, or the sag passes 5 % of the span.

    Range:
        w ≥ 0, L, T > 0, f ≤ 0.05 L; refused outside.

    Source:
        SAG-PAGE (read)
        STATICS, a parabola for the catenary (derived)

    Example:
        >>> wire_sag(weight=0.4, span=10.0, tension=500.0)
        0.01
    """
    reach = within(span, "span in m", above=0.0)
    sag = within(weight, "weight in N/m", low=0.0) * reach**2 / (8 * within(tension, "tension in N", above=0.0))
    if sag > _STEEPEST_SAG * reach:
        raise OutOfRangeError(
            f"a sag of {sag:.3g} m is over 5 % of the {reach:.3g} m span: the wire is no longer tight"
        )
    return sag


def corner_brace(*, pull: Newton, pull_height: Meter, rail_height: Meter, rail_length: Meter) -> BraceForces:
    """Forces in a corner brace of two posts, rail and diagonal wire: C = T a / b, N = C √(L² + b²) / L, U = C b / L.

    Args:
        pull: T, pull of all wires together [N]
        pull_height: a, height of their resultant above the ground [m]
        rail_height: b, height of the rail above the ground [m]
        rail_length: L, length of the rail from post to post [m]

    Returns:
        pressure in the rail, pull in the diagonal wire, lift of the corner post (see BraceForces)

    Raises:
        OutOfRangeError: pull or its height is below 0, or rail height or length not above 0.

    Range:
        T, a ≥ 0; b, L > 0; refused outside. The corner post turns about the ground: its own hold there is not counted.

    Source:
        STATICS (derived)

    Notes:
        A longer rail lowers the lift; 2 to 2.5 times the height is usual.

    Example:
        >>> corner_brace(pull=4000.0, pull_height=0.6, rail_height=0.9, rail_length=2.4)
        BraceForces(rail=2666.7, diagonal=2848.0, uplift=1000.0)
    """
    held = within(rail_height, "rail height in m", above=0.0)
    length = within(rail_length, "rail length in m", above=0.0)
    rail = within(pull, "pull in N", low=0.0) * within(pull_height, "height of the pull in m", low=0.0) / held
    return BraceForces(rail=rail, diagonal=rail * math.hypot(length, held) / length, uplift=rail * held / length)


def pad_area(*, load: Newton, bearing: Pascal, smallest: SquareMeter) -> SquareMeter:
    """Area of a pad under a post or pier: A = max(P / q, Amin).

    Args:
        load: P, downward load, the pad's own weight included [N]
        bearing: q, allowable pressure on the ground [Pa]
        smallest: Amin, least area, 1 ft2 in the rule read [m2]

    Returns:
        A [m2]

    Raises:
        OutOfRangeError: the load or Amin is below 0, or q not above 0.

    Range:
        P, Amin ≥ 0, q > 0; refused outside. Load in the middle of a stiff pad.

    Source:
        IL-870, table B (read)

    Example:
        >>> pad_area(load=15000.0, bearing=75000.0, smallest=0.093)
        0.2
    """
    wanted = within(load, "load in N", low=0.0) / within(bearing, "allowable pressure in Pa", above=0.0)
    return max(wanted, within(smallest, "least area in m2", low=0.0))

"""Sections of posts and rails, and the stress in them when they bend."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, Meter, MeterToFourth, NewtonMeter, Pascal, SquareMeter


@dataclass(frozen=True, kw_only=True)
class TeeSection:
    """Section of a tee, bent about the axis level with its flange.

    Attributes:
        area: of flange and stem.
        centroid: distance of the axis from the outer face of the flange.
        inertia: second moment of area about the axis.
        modulus_flange: section modulus to the outer face of the flange.
        modulus_stem: section modulus to the tip of the stem, the smaller one.
        inertia_side: second moment about the axis along the stem.
        modulus_side: section modulus sideways, to the edge of the flange or of a stem that is thicker than it is wide.
    """

    area: SquareMeter
    centroid: Meter
    inertia: MeterToFourth
    modulus_flange: CubicMeter
    modulus_stem: CubicMeter
    inertia_side: MeterToFourth
    modulus_side: CubicMeter


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
        ... modulus_stem=1.6154e-06, inertia_side=2.1525e-08, modulus_side=1.0763e-06)
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
    side = (flange * flange_width**2 + stem * stem_thickness**2) / 12
    return TeeSection(
        area=area, centroid=axis, inertia=inertia, modulus_flange=inertia / axis, modulus_stem=inertia / tip,
        inertia_side=side, modulus_side=side / (max(flange_width, stem_thickness) / 2),
    )  # fmt: skip


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

"""Walls with piers: how much wall works with a pier, and the section of both."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, Meter, Ratio, SquareMeter

FLANGE = 6.0
"""Thicknesses of wall on either side of a pier that work with it."""


@dataclass(frozen=True, kw_only=True)
class PierSection:
    """Section of a pier and the wall that works with it, bent across the wall.

    Attributes:
        area: of both.
        middle: of its area, from the face that the pier stands out of most.
        modulus: for the face that is the farther from its middle, the lesser of the two.
    """

    area: SquareMeter
    middle: Meter
    modulus: CubicMeter


def working_length(*, spacing: Meter, width: Meter, thickness: Meter) -> Meter:
    """Length of wall that works with a pier: B = min(s, b + 12 t).

    Args:
        spacing: s, from pier to pier [m]
        width: b, of the pier along the wall [m]
        thickness: t, of the wall [m]

    Returns:
        B, the pier in it [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        s, b, t > 0; refused otherwise. Six thicknesses on either side.

    Source:
        TMS-402-13, effective flange of six thicknesses (memory)

    Example:
        >>> working_length(spacing=3.0, width=0.4, thickness=0.1)
        1.6
    """
    reach = within(width, "width of the pier in m", above=0.0) + 2 * FLANGE * within(thickness, "thickness", above=0.0)
    return min(within(spacing, "spacing of piers in m", above=0.0), reach)


def pier_section(*, length: Meter, thickness: Meter, width: Meter, depth: Meter, inset: Ratio) -> PierSection:
    """Section of a pier with the wall that works with it: A = b D + (B − b) t, Z = I / farther face.

    Args:
        length: B, of wall that works with the pier, the pier in it [m]
        thickness: t, of the wall [m]
        width: b, of the pier along the wall [m]
        depth: D, of the pier across the wall, the wall in it [m]
        inset: share of what the pier stands out that lies before one face; ½ where it stands out evenly, 0 where the
            wall is flush with one of its faces [-]

    Returns:
        area, middle and modulus (see PierSection)

    Raises:
        OutOfRangeError: an argument not above 0, a pier longer than B or thinner than the wall, or an inset over 1.

    Range:
        B ≥ b > 0, D ≥ t > 0, 0 ≤ inset ≤ 1; refused outside. Not cracked.

    Source:
        STATICS, two rectangles about their common middle (derived)
        BS-5628-1, 36.5.3, piers count in the section modulus (read)

    Example:
        >>> pier_section(length=0.4, thickness=0.2, width=0.4, depth=0.3, inset=0.5)
        PierSection(area=0.12, middle=0.15, modulus=0.006)
    """
    within(thickness, "thickness in m", above=0.0)
    wings = within(length - within(width, "width of the pier in m", above=0.0), "wall beside the pier in m", low=0.0)
    stands_out = within(depth - thickness, "what the pier stands out in m", low=0.0)
    wall_middle = within(inset, "share before one face", low=0.0, high=1.0) * stands_out + thickness / 2
    pier, wall = width * depth, wings * thickness
    middle = (pier * depth / 2 + wall * wall_middle) / (pier + wall)
    inertia = pier * (depth**2 / 12 + (depth / 2 - middle) ** 2) + wall * (
        thickness**2 / 12 + (wall_middle - middle) ** 2
    )
    return PierSection(area=pier + wall, middle=middle, modulus=inertia / max(middle, depth - middle))

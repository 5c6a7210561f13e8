"""Leveling: heights off a line of sight, how much a reading stands out, how a floor falls and twists."""

from __future__ import annotations

import math

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Radian, Ratio

FULL_TURN = 2 * math.pi


def sight_height(*, known: Meter, reading: Meter) -> Meter:
    """Height of the line of sight, of the water or the string over a known mark: H = z + r.

    Args:
        known: z, height of the mark [m]
        reading: r, from the mark up to the line [m]

    Returns:
        H [m]

    Raises:
        OutOfRangeError: a number is none.

    Range:
        any; below zero where the line runs under the mark.

    Source:
        HI-LESSON, height of the instrument (read)

    Example:
        >>> sight_height(known=10.0, reading=1.25)
        11.25
    """
    return within(known, "height in m") + within(reading, "reading in m")


def mark_height(*, sight: Meter, reading: Meter) -> Meter:
    """Height of a mark under a line of sight, water or string: z = H − r.

    Args:
        sight: H, height of the line [m]
        reading: r, from the mark up to it [m]

    Returns:
        z [m]

    Raises:
        OutOfRangeError: a number is none.

    Range:
        any; a reading below zero where the line runs under the mark.

    Source:
        HI-LESSON, height of the turning point (read)

    Example:
        >>> mark_height(sight=11.25, reading=0.75)
        10.5
    """
    return within(sight, "height of the line in m") - within(reading, "reading in m")


def standardized_residual(*, residual: Meter, spread: Meter, share: Ratio) -> Ratio:
    """How many of its own spreads a reading stands off what all readings say together: w = |v| / (σ √r).

    Args:
        residual: v, reading less what the adjustment gives for it [m]
        spread: σ, standard deviation of the reading [m]
        share: r, its redundancy: how much of an error in it shows in its own residual; 0 none, 1 all [-]

    Returns:
        w, about normal where nothing is wrong [-]

    Raises:
        OutOfRangeError: the spread or the share is not above 0, or the share is above 1.

    Range:
        σ > 0, 0 < r ≤ 1; refused outside: a reading that nothing checks cannot stand out.

    Source:
        LEVEL-NET-LESSON, statistic of the normal distribution (read)

    Example:
        >>> standardized_residual(residual=-0.006, spread=0.002, share=0.25)
        6.0
    """
    known = within(spread, "spread in m", above=0.0) * np.sqrt(within(share, "share", above=0.0, high=1.0))
    found: Ratio = np.abs(within(residual, "residual in m")) / known
    return found


def water_level_shift(*, column: Meter, warmer: Ratio, expansion: Ratio) -> Meter:
    """How much too high the water stands in the warmer leg of a water level: Δ = h β ΔT.

    One leg in the sun and one in shade do not stand level: the water in the warm one is lighter.

    Args:
        column: h, upright length of hose that is warmer [m]
        warmer: ΔT, number of degrees it is warmer than the other leg [-]
        expansion: β, share that water grows by for each degree [-]

    Returns:
        Δ [m]

    Raises:
        OutOfRangeError: the length or the expansion is below 0.

    Range:
        h, β ≥ 0; refused below. Water above 4 °C, one warmth in each leg.

    Source:
        STATICS, equal pressure at the lowest place of the hose (derived)

    Example:
        >>> water_level_shift(column=2.0, warmer=10.0, expansion=0.0002)
        0.004
    """
    tall = within(column, "length of hose in m", low=0.0)
    return tall * within(expansion, "expansion", low=0.0) * within(warmer, "degrees warmer")


def steepest_fall(*, slope_x: Ratio, slope_y: Ratio) -> Ratio:
    """Fall of a plane in its steepest direction: s = √(b² + c²).

    Args:
        slope_x: b, rise for each length along x [-]
        slope_y: c, likewise along y [-]

    Returns:
        s [-]

    Raises:
        OutOfRangeError: a number is none.

    Range:
        any.

    Source:
        STATICS (derived)

    Example:
        >>> steepest_fall(slope_x=0.003, slope_y=-0.004)
        0.005
    """
    found: Ratio = np.hypot(within(slope_x, "slope along x"), within(slope_y, "slope along y"))
    return found


def fall_azimuth(*, slope_x: Ratio, slope_y: Ratio, north: Radian) -> Radian:
    """Compass direction that a plane falls to: α = atan2(−b, −c) − N, from 0 to a full turn.

    Args:
        slope_x: b, rise for each length along x, to the right on the plan [-]
        slope_y: c, rise for each length along y, upward on the plan [-]
        north: N, angle of true north clockwise of y [rad]

    Returns:
        α, clockwise from true north [rad]

    Raises:
        OutOfRangeError: a number is none, or the plane is level.

    Range:
        any but b = c = 0, which falls nowhere; refused.

    Source:
        STATICS (derived)

    Example:
        >>> fall_azimuth(slope_x=-0.01, slope_y=0.0, north=0.0)
        1.5708
    """
    within(steepest_fall(slope_x=slope_x, slope_y=slope_y), "fall", above=0.0)
    return (math.atan2(-slope_x, -slope_y) - within(north, "north in rad")) % FULL_TURN


def corner_out_of_plane(*, corner: Meter, beside: Meter, across: Meter, other: Meter) -> Meter:
    """How far one corner of a rectangle stands off the plane of the other three: e = z1 − (z2 + z4 − z3).

    Of the plane that fits all four best each corner stands off by a fourth of it, up and down by turns.

    Args:
        corner: z1, height of the corner [m]
        beside: z2, of the next one [m]
        across: z3, of the one across the diagonal [m]
        other: z4, of the last one [m]

    Returns:
        e, above zero where the corner stands high [m]

    Raises:
        OutOfRangeError: a number is none.

    Range:
        any; four corners of a rectangle in order around it.

    Source:
        STATICS (derived)

    Example:
        >>> corner_out_of_plane(corner=0.03, beside=0.01, across=0.0, other=0.01)
        0.01
    """
    plane = within(beside, "height in m") + within(other, "height in m") - within(across, "height in m")
    return within(corner, "height in m") - plane


def diagonal_difference(*, width: Meter, height: Meter, racking: Radian) -> Meter:
    """Longer less shorter diagonal of a frame that has racked: Δd = √((w + γh)² + h²) − √((w − γh)² + h²).

    Args:
        width: w, of the opening [m]
        height: h, of the opening [m]
        racking: γ, angle by which its corners are no longer square [rad]

    Returns:
        Δd [m]

    Raises:
        OutOfRangeError: a side is not above 0, or the angle is not from 0 to 0.2.

    Range:
        w, h > 0, 0 ≤ γ ≤ 0.2; refused outside. Small angles: the sides keep their length.

    Source:
        STATICS (derived)

    Example:
        >>> diagonal_difference(width=1.0, height=2.0, racking=0.005)
        0.00894
    """
    wide, tall = within(width, "width in m", above=0.0), within(height, "height in m", above=0.0)
    out = within(racking, "racking in rad", low=0.0, high=0.2) * tall
    found: Meter = np.hypot(wide + out, tall) - np.hypot(wide - out, tall)
    return found


def racking_by_diagonals(*, width: Meter, height: Meter, difference: Meter) -> Radian:
    """How far the corners of a frame are out of square by its diagonals: γ = Δd √(w² + h²) / (2 w h).

    Args:
        width: w, of the opening [m]
        height: h, of the opening [m]
        difference: Δd, longer less shorter diagonal [m]

    Returns:
        γ [rad]

    Raises:
        OutOfRangeError: a side is not above 0, or the difference is below 0 or more than a tenth of the diagonal.

    Range:
        w, h > 0, 0 ≤ Δd ≤ 0.1 √(w² + h²); refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> racking_by_diagonals(width=3.0, height=4.0, difference=0.012)
        0.0025
    """
    wide, tall = within(width, "width in m", above=0.0), within(height, "height in m", above=0.0)
    diagonal = float(np.hypot(wide, tall))
    longer = within(difference, "difference of diagonals in m", low=0.0, high=0.1 * diagonal)
    return longer * diagonal / (2 * wide * tall)


def gap_closed(*, width: Meter, racking: Radian) -> Meter:
    """How much of the gap of a leaf goes where its frame has racked and the leaf has not: g = w γ.

    Args:
        width: w, of the leaf from hinge to latch [m]
        racking: γ, angle by which the frame is out of square [rad]

    Returns:
        g, at head or sill on the latch side [m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        w, γ ≥ 0; refused below. A leaf that stays square; hinges that keep to their jamb.

    Source:
        STATICS (derived)

    Example:
        >>> gap_closed(width=0.8, racking=0.005)
        0.004
    """
    return within(width, "width in m", low=0.0) * within(racking, "racking in rad", low=0.0)

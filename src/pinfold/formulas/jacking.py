"""Jacking a structure up: what each support carries, what a jack must be made for, and the crib beside it."""

from __future__ import annotations

import math

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, Pascal, Ratio, SquareMeter


def stiff_share(
    *, load: Newton, count: Ratio, off_x: Meter, off_y: Meter, out_x: Meter, out_y: Meter, sum_x2: SquareMeter,
    sum_y2: SquareMeter,
) -> Newton:  # fmt: skip
    """Load of one support under a stiff body on alike supports: P = W (1/n + ex x / Σx² + ey y / Σy²).

    Args:
        load: W, of the body [N]
        count: n, of the supports [-]
        off_x: ex, of the load from the middle of the supports, along x [m]
        off_y: ey, likewise along y [m]
        out_x: x, of the support from the middle of all, along x [m]
        out_y: y, likewise along y [m]
        sum_x2: Σx², over all supports [m2]
        sum_y2: Σy², likewise [m2]

    Returns:
        P; below zero where the support would have to hold it down [N]

    Raises:
        OutOfRangeError: the load is below 0, fewer than three supports, or they stand in a line.

    Range:
        W ≥ 0, n ≥ 3, Σx² > 0, Σy² > 0; refused outside. Axes along which Σxy = 0.

    Source:
        FOUR-PIERS, the second way (read)

    Example:
        >>> stiff_share(load=1200.0, count=4.0, off_x=0.5, off_y=0.0, out_x=2.0, out_y=1.0, sum_x2=16.0, sum_y2=4.0)
        375.0
    """
    parts = 1 / within(count, "number of supports", low=3.0)
    parts = parts + within(off_x, "distance in m") * within(out_x, "distance in m") / within(sum_x2, "Σx²", above=0.0)
    parts = parts + within(off_y, "distance in m") * within(out_y, "distance in m") / within(sum_y2, "Σy²", above=0.0)
    return within(load, "load in N", low=0.0) * parts


def jack_rating(*, load: Newton, margin: Ratio) -> Newton:
    """Rated load that a jack is to have: R = f P.

    Args:
        load: P, that it lifts [N]
        margin: f, how many times that [-]

    Returns:
        R [N]

    Raises:
        OutOfRangeError: the load is below 0, or the margin below 1.

    Range:
        P ≥ 0, f ≥ 1; refused below.

    Source:
        PRACTICE (practice)
        OSHA-1926-305, the rated load is not to be passed (read)

    Example:
        >>> jack_rating(load=10000.0, margin=1.5)
        15000.0
    """
    return within(load, "load in N", low=0.0) * within(margin, "margin", low=1.0)


def crib_load(*, pieces: Ratio, side: Meter, stress: Pascal) -> Newton:
    """Load that a crib of crossed wood carries: P = n² a² f.

    Every piece of a layer crosses every piece of the next, and wood crushes across the grain where they cross.

    Args:
        pieces: n, in a layer [-]
        side: a, of the square section of a piece [m]
        stress: f, allowed across the grain [Pa]

    Returns:
        P, spread over all crossings [N]

    Raises:
        OutOfRangeError: fewer than two pieces, or side or stress not above 0.

    Range:
        n ≥ 2, a, f > 0; refused outside. Sound dry wood, every crossing bears.

    Source:
        RESCUE-SYSTEMS, chapter 30: 24,000 and 55,000 lb of 4 x 4 (read)
        CRIB-EXAM, stress across the grain (read)

    Example:
        >>> crib_load(pieces=2.0, side=0.1, stress=3.0e6)
        120000.0
    """
    wide = within(side, "side in m", above=0.0)
    crossings = within(pieces, "pieces in a layer", low=2.0) ** 2
    return crossings * wide * wide * within(stress, "stress in Pa", above=0.0)


def crib_height(*, length: Meter, side: Meter, times: Ratio, most: Meter) -> Meter:
    """Greatest height of a crib: H = min(k (l − 2a), Hmax).

    Ends stand out by about their own width, so that the crib is as wide as a piece is long less two sides.

    Args:
        length: l, of its pieces [m]
        side: a, of their section [m]
        times: k, height over width [-]
        most: Hmax, whatever its width [m]

    Returns:
        H [m]

    Raises:
        OutOfRangeError: the pieces are not longer than two sides, or a number is not above 0.

    Range:
        l > 2a, a, k, Hmax > 0; refused outside.

    Source:
        CRIB-ARTICLE, no higher than three times the width, ends no longer than the wood is thick (read)

    Example:
        >>> crib_height(length=0.6, side=0.1, times=3.0, most=2.0)
        1.2
    """
    wide = within(length - 2 * within(side, "side in m", above=0.0), "width of the crib in m", above=0.0)
    found: Meter = np.minimum(within(times, "times", above=0.0) * wide, within(most, "greatest height", above=0.0))
    return found


def crib_layers(*, height: Meter, side: Meter) -> Ratio:
    """Whole layers that fit under a height: m = ⌊H / a⌋; shims and boards fill the rest.

    Args:
        height: H, from the ground plate to the beam [m]
        side: a, of the section of a piece [m]

    Returns:
        m [-]

    Raises:
        OutOfRangeError: the height is below 0, or the side not above 0.

    Range:
        H ≥ 0, a > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> crib_layers(height=0.35, side=0.1)
        3.0
    """
    return float(math.floor(within(height, "height in m", low=0.0) / within(side, "side in m", above=0.0) + 1e-9))

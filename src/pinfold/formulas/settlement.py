"""Settlement: how unevenly supports went down, and how it goes on with time."""

from __future__ import annotations

import math

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterPerSecond, Ratio, Second


def angular_distortion(*, difference: Meter, distance: Meter) -> Ratio:
    """How unevenly two supports went down: β = |Δs| / L.

    Args:
        difference: Δs, of their settlements [m]
        distance: L, between them [m]

    Returns:
        β [-]

    Raises:
        OutOfRangeError: the distance is not above 0.

    Range:
        L > 0; refused otherwise. A tilt of the whole is in it.

    Source:
        SETTLEMENT-NOTES, angular distortion (read)

    Example:
        >>> angular_distortion(difference=-0.006, distance=2.0)
        0.003
    """
    found: Ratio = np.abs(within(difference, "difference in m")) / within(distance, "distance in m", above=0.0)
    return found


def settled_by_log_time(*, per_tenfold: Meter, start: Second, end: Second) -> Meter:
    """Settlement between two ages, the same for every tenfold of age: s = C log10(t2 / t1).

    Args:
        per_tenfold: C, settlement for each tenfold of age [m]
        start: t1, the earlier age [s]
        end: t2, the later age [s]

    Returns:
        s [m]

    Raises:
        OutOfRangeError: the earlier age is not above 0, or the later one is earlier.

    Range:
        0 < t1 ≤ t2; refused outside. Ground under an even load, without frost and without a change of its water.

    Source:
        NAVFAC-SECONDARY, settlement from secondary compression (read)

    Example:
        >>> settled_by_log_time(per_tenfold=0.004, start=86400.0, end=8640000.0)
        0.008
    """
    first = within(start, "earlier age in s", above=0.0)
    return within(per_tenfold, "settlement in m") * math.log10(within(end, "later age in s", low=first) / first)


def time_to_move(*, allowed: Meter, rate: MeterPerSecond, longest: Second) -> Second:
    """How long something may go on before it has moved too far: t = min(a / |v|, tmax).

    Args:
        allowed: a, movement that is left [m]
        rate: v, that it moves at, or may move at [m/s]
        longest: tmax, the longest to wait whatever the rate [s]

    Returns:
        t [s]

    Raises:
        OutOfRangeError: the movement left or the longest time is below 0.

    Range:
        a, tmax ≥ 0; refused below. A rate of 0 gives tmax.

    Source:
        STATICS (derived)

    Example:
        >>> time_to_move(allowed=0.006, rate=-0.000001, longest=100000.0)
        6000.0
    """
    left, most = within(allowed, "movement left in m", low=0.0), within(longest, "longest time in s", low=0.0)
    speed = abs(within(rate, "rate in m/s"))
    return min(left / speed, most) if speed > 0 else most

"""Earthquakes: the level share of its weight that a wall by itself must bear."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import NewtonPerMeter, Ratio

LEAST: Ratio = 0.3
"""Least share of SDS Ip Wp."""
MOST: Ratio = 1.6
"""Greatest share of SDS Ip Wp."""


def component_force(
    *, weight: NewtonPerMeter, spectral_acceleration: Ratio, importance: Ratio, amplification: Ratio, response: Ratio,
    height_share: Ratio,
) -> NewtonPerMeter:  # fmt: skip
    """Level force of an earthquake on a wall or parapet: Fp = 0.4 ap SDS Wp (1 + 2 z/h) Ip / Rp, 0.3 to 1.6 SDS Ip Wp.

    A fence wall that stands as a cantilever counts with ap = Rp = 2.5 and z/h = 1: Fp = 1.2 SDS Ip Wp.

    Args:
        weight: Wp, of the wall per length [N/m]
        spectral_acceleration: SDS, design acceleration of short periods as a share of gravity [-]
        importance: Ip, 1 where nobody's life hangs on it after the quake [-]
        amplification: ap, how much a limber thing swings up [-]
        response: Rp, how much it may yield [-]
        height_share: z/h, height of its footing in what it stands on over the height of that [-]

    Returns:
        Fp, at the middle of the weight, at strength level: allowable-stress checks take 0.7 of it [N/m]

    Raises:
        OutOfRangeError: an argument is below 0, Rp or Ip not above 0, or z/h above 1.

    Range:
        Wp, SDS, ap ≥ 0; Rp, Ip > 0; 0 ≤ z/h ≤ 1; refused outside.

    Source:
        ASCE7-05, eq. 13.3-1 to 13.3-3 (read)
        via REINFORCED-MASONRY-BOOK, eq. 6.7 to 6.9 and 6.28

    Notes:
        ASCE 7-16 15.6.8 treats walls on the ground of 6 ft and more as structures with R = 1.25: 0.8 SDS Ie Wp. The
        older 1.2 is on the safe side of it.

    Example:
        >>> component_force(weight=1000.0, spectral_acceleration=0.5, importance=1.0, amplification=2.5, response=2.5,
        ... height_share=1.0)
        600.0
    """
    within(importance, "importance factor", above=0.0)
    share = within(amplification, "amplification", low=0.0) / within(response, "response factor", above=0.0)
    swing = 0.4 * share * (1 + 2 * within(height_share, "height of the footing over the whole", low=0.0, high=1.0))
    bounded: Ratio = np.minimum(np.maximum(swing, LEAST), MOST)
    shaken = within(spectral_acceleration, "design acceleration over gravity", low=0.0) * importance
    return bounded * shaken * within(weight, "weight in N/m", low=0.0)


def component_force_en(
    *, weight: NewtonPerMeter, ground_acceleration: Ratio, importance: Ratio, behavior: Ratio, height_share: Ratio,
    period_share: Ratio,
) -> NewtonPerMeter:  # fmt: skip
    """Level force on a wall by Eurocode 8: Fa = Sa Wa γa / qa, Sa = αS (3 (1 + z/H) / (1 + (1 − Ta/T1)²) − 0.5) ≥ αS.

    A stiff wall on the ground (z = 0, Ta = 0) shakes as the ground does: Sa = αS. One that swings in time with what it
    stands on shakes two and a half times as hard.

    Args:
        weight: Wa, of the wall per length [N/m]
        ground_acceleration: αS, peak of the ground as a share of gravity, its soil factor in it [-]
        importance: γa, 1 where nobody's life hangs on it after the quake [-]
        behavior: qa, how much it may yield; 1 of things that stand out by themselves [-]
        height_share: z/H, height of its foot in what it stands on over the height of that [-]
        period_share: Ta/T1, time it swings in over that of what it stands on [-]

    Returns:
        Fa, at the middle of the weight, a design force that takes no further factor [N/m]

    Raises:
        OutOfRangeError: an argument is below 0, γa or qa not above 0, or z/H above 1.

    Range:
        Wa, αS, Ta/T1 ≥ 0; γa, qa > 0; 0 ≤ z/H ≤ 1; refused outside.

    Source:
        EN-1998-1, eq. 4.24 and 4.25 (memory)

    Example:
        >>> component_force_en(weight=1000.0, ground_acceleration=0.2, importance=1.0, behavior=1.0, height_share=0.0,
        ... period_share=0.0)
        200.0
    """
    higher = 1 + within(height_share, "height of the foot over the whole", low=0.0, high=1.0)
    apart = 1 - within(period_share, "period over that of what it stands on", low=0.0)
    swing: Ratio = np.maximum(3 * higher / (1 + apart**2) - 0.5, 1.0)
    ground = within(ground_acceleration, "ground acceleration over gravity", low=0.0)
    share = within(importance, "importance factor", above=0.0) / within(behavior, "behavior factor", above=0.0)
    return swing * ground * share * within(weight, "weight in N/m", low=0.0)


def weight_share(*, weight_factor: Ratio, load_factor: Ratio, spectral_acceleration: Ratio) -> Ratio:
    """Share of the weight that helps while the ground also heaves and drops: γG − 0.2 γE SDS.

    Args:
        weight_factor: γG, on weight that helps, 0.6 beside allowable stresses [-]
        load_factor: γE, on the earthquake, 0.7 beside allowable stresses [-]
        spectral_acceleration: SDS, design acceleration of short periods as a share of gravity [-]

    Returns:
        share of the weight, not below 0 [-]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below; held at 0 where nothing is left.

    Source:
        ASCE7-16, eq. 12.4-4a and section 2.4.5 (memory)

    Example:
        >>> weight_share(weight_factor=0.6, load_factor=0.7, spectral_acceleration=1.0)
        0.46
    """
    lifted = 0.2 * within(load_factor, "factor on the earthquake", low=0.0)
    lifted *= within(spectral_acceleration, "design acceleration over gravity", low=0.0)
    left: Ratio = np.maximum(within(weight_factor, "factor on weight", low=0.0) - lifted, 0.0)
    return left

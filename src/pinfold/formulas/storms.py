"""Wind of every year and what is left to chance: highest gusts by return period, walls that lean, odds of a margin."""

from __future__ import annotations

import math

import numpy as np
from scipy.special import ndtr

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterPerSecond, NewtonMeterPerMeter, NewtonPerMeter, Radian, Ratio

_FIRST: Ratio = 0.36
_SLOPE: Ratio = 0.1
_A_YEAR: Ratio = 12.0


def gust_factor_by_asce7(*, chance: Ratio) -> Ratio:
    """Yearly highest gust beside the 50-year one: V/V50 = 0.36 + 0.1 (ln 12 − ln(−ln(1 − p))).

    For inland winds of the United States, not for hurricanes. At small p it is the 0.36 + 0.1 ln(12 T) of the
    standard's commentary with T = 1/p.

    Args:
        chance: p, chance that a year has a higher gust [-]

    Returns:
        factor on the 50-year gust [-]

    Raises:
        OutOfRangeError: p is not between 0 and 1.

    Range:
        0 < p < 1, refused outside; a number or an array. Speeds below a quarter of the 50-year gust are held there.

    Source:
        ASCE7-05, commentary to chapter 6, other mean recurrence intervals (memory)

    Notes:
        With −ln(1 − p) in place of 1/T the law is that of the year's highest gust; at T ≥ 10 both differ by less than
        half a percent.

    Example:
        >>> gust_factor_by_asce7(chance=0.02)
        0.9987
    """
    within(chance, "chance of a higher gust in a year", above=0.0, high=1.0 - 1e-12)
    factor: Ratio = np.maximum(_FIRST + _SLOPE * (math.log(_A_YEAR) - np.log(-np.log1p(-chance))), 0.25)
    return factor


def gust_at(*, basic_speed: MeterPerSecond, basic_factor: Ratio, factor: Ratio) -> MeterPerSecond:
    """Wind of another return period than the basic one: V = Vb f / fb.

    Args:
        basic_speed: Vb, basic speed of the standard [m/s]
        basic_factor: fb, factor of the basic return period on the 50-year wind [-]
        factor: f, factor of the wanted one [-]

    Returns:
        V, wind speed [m/s]

    Raises:
        OutOfRangeError: a speed or factor is not above 0, the wanted factor is below 0.

    Range:
        Vb, fb > 0, f ≥ 0; refused outside; numbers or arrays.

    Source:
        STATICS, rule of three (derived)

    Example:
        >>> gust_at(basic_speed=45.0, basic_factor=1.18, factor=0.8)
        30.51
    """
    within(basic_speed, "basic wind speed in m/s", above=0.0)
    within(basic_factor, "factor of the basic return period", above=0.0)
    return basic_speed * within(factor, "factor of the wanted return period", low=0.0) / basic_factor


def leaning_moment(*, weight: NewtonPerMeter, height: Meter, lean: Radian) -> NewtonMeterPerMeter:
    """Moment of a wall's own weight about its foot where it leans: M = W h φ / 2.

    Args:
        weight: W, weight of the wall per length [N/m]
        height: h, its height [m]
        lean: φ, how far it is out of plumb, as a slope; either way [rad]

    Returns:
        M, moment per length towards the side it leans to [N m/m]

    Raises:
        OutOfRangeError: weight or height is below 0, or the lean is more than 0.2.

    Range:
        W, h ≥ 0; −0.2 ≤ φ ≤ 0.2 (small slopes); refused outside; numbers or arrays.

    Source:
        STATICS (derived)

    Example:
        >>> leaning_moment(weight=4000.0, height=1.2, lean=0.01)
        24.0
    """
    within(weight, "weight in N/m", low=0.0)
    within(height, "height in m", low=0.0)
    return weight * height * within(lean, "lean as a slope", low=-0.2, high=0.2) / 2


def chance_of_failure(
    *, resistance: Ratio, resistance_spread: Ratio, load: Ratio, load_spread: Ratio
) -> Ratio:  # fmt: skip
    """Chance that a load passes a resistance, both normal: p = Φ(−β), β = (R − S) / √(σR² + σS²).

    Args:
        resistance: R, mean of what resists, in any unit [-]
        resistance_spread: σR, its standard deviation, same unit [-]
        load: S, mean of what acts, same unit [-]
        load_spread: σS, its standard deviation, same unit [-]

    Returns:
        p, chance that it fails [-]

    Raises:
        OutOfRangeError: a spread is below 0, or both are 0.

    Range:
        σR, σS ≥ 0 and not both 0; refused outside; numbers or arrays. R and S independent and normal.

    Source:
        RELIABILITY-INDEX, two independent normal variables (derived)

    Example:
        >>> chance_of_failure(resistance=3.0, resistance_spread=0.6, load=1.0, load_spread=0.8)
        0.02275
    """
    within(resistance_spread, "spread of what resists", low=0.0)
    within(load_spread, "spread of what acts", low=0.0)
    spread = within(np.hypot(resistance_spread, load_spread), "spread of both together", above=0.0)
    chance: Ratio = ndtr(-(resistance - load) / spread)
    return chance

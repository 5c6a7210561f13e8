"""Many possible years of days out of twelve monthly normals: how highs, lows and sun go together, and when it rains."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Ratio

_A = ((0.567, 0.086, -0.002), (0.253, 0.504, -0.050), (-0.006, -0.039, 0.244))
"""What of yesterday's departures is left today."""
_B = ((0.781, 0.0, 0.0), (0.328, 0.637, 0.0), (0.238, -0.341, 0.873))
"""What chance adds."""


@dataclass(frozen=True, kw_only=True)
class Departures:
    """How far a day is off the mean of its season, in standard deviations.

    Attributes:
        high: of its highest temperature.
        low: of its lowest.
        sun: of its sun and sky on the level.
    """

    high: Ratio
    low: Ratio
    sun: Ratio


def departures(
    *, high_before: Ratio, low_before: Ratio, sun_before: Ratio, high_chance: Ratio, low_chance: Ratio,
    sun_chance: Ratio,
) -> Departures:  # fmt: skip
    """How far a day is off the mean, after the day before: χ = A χ' + B ε.

    Args:
        high_before: χ'1, of yesterday's highest temperature [-]
        low_before: χ'2, of its lowest [-]
        sun_before: χ'3, of its sun [-]
        high_chance: ε1, drawn from the standard normal distribution [-]
        low_chance: ε2, likewise, by itself [-]
        sun_chance: ε3, likewise, by itself [-]

    Returns:
        χ, each of variance 1 in the long run

    Raises:
        OutOfRangeError: a number of it is none.

    Range:
        any finite number.

    Source:
        WGEN, matrices A and B, for the whole of the United States (read)

    Notes:
        Misprints in circulation: B11 .718, B32 −.314, A32 +.039; with the first two the variances are 0.85, 0.97 and
        0.98 instead of 1. One copy has B11 .782. Order: highest, lowest, sun.

    Example:
        >>> departures(high_before=1.0, low_before=0.0, sun_before=0.0, high_chance=1.0, low_chance=0.0, sun_chance=0.0)
        Departures(high=1.348, low=0.581, sun=0.232)
    """
    before, chance = (high_before, low_before, sun_before), (high_chance, low_chance, sun_chance)
    for each in (*before, *chance):
        within(each, "departure in standard deviations", low=-1e6, high=1e6)
    high, low, sun = (
        sum(left * was for left, was in zip(_A[row], before, strict=True))
        + sum(adds * drawn for adds, drawn in zip(_B[row], chance, strict=True))
        for row in range(3)
    )
    return Departures(high=high, low=low, sun=sun)


def share_of_wet_days(*, wet_after_wet: Ratio, wet_after_dry: Ratio) -> Ratio:
    """Share of days with rain in the long run: π = P(W|D) / [1 + P(W|D) − P(W|W)].

    Args:
        wet_after_wet: P(W|W), chance of rain on the day after a wet one [-]
        wet_after_dry: P(W|D), on the day after a dry one [-]

    Returns:
        π, of all days [-]

    Raises:
        OutOfRangeError: a chance outside 0 to 1, or a chain that never leaves where it is.

    Range:
        0 ≤ P ≤ 1 each, 1 + P(W|D) − P(W|W) > 0; refused outside.

    Source:
        MARKOV-RAIN, two states (derived)

    Example:
        >>> share_of_wet_days(wet_after_wet=0.673, wet_after_dry=0.244)
        0.427
    """
    within(wet_after_wet, "chance of rain after a wet day", low=0.0, high=1.0)
    within(wet_after_dry, "chance of rain after a dry day", low=0.0, high=1.0)
    leaves = within(1.0 + wet_after_dry - wet_after_wet, "chance to leave wet or dry", above=0.0)
    return wet_after_dry / leaves


def rain_shape(*, mean: Meter, deviation: Meter) -> Ratio:
    """Shape of the gamma distribution of rain on a wet day: α = (m/s)².

    Args:
        mean: m, rain of a wet day [m]
        deviation: s, its standard deviation [m]

    Returns:
        α, below 1 where small rains are the most frequent [-]

    Raises:
        OutOfRangeError: m or s not above 0.

    Range:
        m > 0, s > 0; refused outside.

    Source:
        MARKOV-RAIN, method of moments (derived)

    Example:
        >>> rain_shape(mean=0.004, deviation=0.005)
        0.64
    """
    within(mean, "rain of a wet day in m", above=0.0)
    within(deviation, "standard deviation of rain in m", above=0.0)
    return (mean / deviation) ** 2


def rain_scale(*, mean: Meter, deviation: Meter) -> Meter:
    """Scale of the gamma distribution of rain on a wet day: β = s²/m.

    Args:
        mean: m, rain of a wet day [m]
        deviation: s, its standard deviation [m]

    Returns:
        β, so that α β = m [m]

    Raises:
        OutOfRangeError: m or s not above 0.

    Range:
        m > 0, s > 0; refused outside.

    Source:
        MARKOV-RAIN, method of moments (derived)

    Example:
        >>> rain_scale(mean=0.004, deviation=0.005)
        0.00625
    """
    within(mean, "rain of a wet day in m", above=0.0)
    within(deviation, "standard deviation of rain in m", above=0.0)
    return deviation**2 / mean

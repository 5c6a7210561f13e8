"""How strength grows with age, as a share of that at 28 days, and the age at which a share is reached."""

from __future__ import annotations

import math

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import Pascal, Ratio, Second

_DAY = 86400.0
_28_DAYS = 28 * _DAY


def share_by_aci209(*, age: Second, pace: Second, slope: Ratio) -> Ratio:
    """Share of the 28-day strength that is there at an age: f/f_28 = t / (a + b t).

    Args:
        age: t, time since casting, kept damp and near 20 °C [s]
        pace: a, 4.0 days for usual cement kept damp, 2.3 days for quick cement [s]
        slope: b, 0.85 for usual cement kept damp, 0.92 for quick cement [-]

    Returns:
        f/f_28, strength over strength at 28 days; 1/b in the end [-]

    Raises:
        OutOfRangeError: the age is negative, the pace negative or the slope not above 0.

    Range:
        t ≥ 0, a ≥ 0, b > 0; refused outside. Below a day nothing is published; the curve starts at 0.

    Source:
        ACI-209, strength with age (memory)

    Notes:
        Usual cement reaches 1.007 at 28 days, for its two numbers are rounded.

    Example:
        >>> share_by_aci209(age=604800.0, pace=345600.0, slope=0.85)
        0.704
    """
    within(age, "age in s", low=0.0)
    if age == 0:
        return 0.0
    return age / (within(pace, "pace in s", low=0.0) + within(slope, "slope", above=0.0) * age)


def age_by_aci209(*, share: Ratio, pace: Second, slope: Ratio) -> Second:
    """Age at which a share of the 28-day strength is there: t = a s / (1 − b s).

    Args:
        share: s, strength over strength at 28 days [-]
        pace: a, as for the share [s]
        slope: b, as for the share [-]

    Returns:
        t, time since casting [s]

    Raises:
        OutOfRangeError: the share is negative or never reached.

    Range:
        0 ≤ s < 1/b, refused outside.

    Source:
        ACI-209, strength with age, turned round (derived)
        ACI-209, strength with age (memory)

    Example:
        >>> age_by_aci209(share=0.5, pace=345600.0, slope=0.85)
        300521.739
    """
    left = 1 - within(slope, "slope", above=0.0) * within(share, "share of the 28-day strength", low=0.0)
    if left <= 0:
        raise OutOfRangeError(f"a share of {share:.3g} is never reached; the method goes up to {1 / slope:.3g}")
    return within(pace, "pace in s", low=0.0) * share / left


def share_by_en1992(*, age: Second, slowness: Ratio) -> Ratio:
    """Share of the 28-day strength that is there at an age: β = exp(s (1 − √(28/t))).

    Args:
        age: t, time since casting, kept at 20 °C [s]
        slowness: s, 0.20 for quick cement (class R), 0.25 for usual (N), 0.38 for slow (S) [-]

    Returns:
        β, strength over strength at 28 days [-]

    Raises:
        OutOfRangeError: age or slowness is not above 0.

    Range:
        t > 0, s > 0; refused outside. The standard speaks for 3 days and more.

    Source:
        EN-1992-STRENGTH, 3.1.2 (6), equation 3.2 (memory)
        EN-1992-STRENGTH, 3.1.2 (6), the three values of s (read)

    Example:
        >>> share_by_en1992(age=604800.0, slowness=0.25)
        0.779
    """
    within(age, "age in s", above=0.0)
    return math.exp(within(slowness, "slowness of the cement", above=0.0) * (1 - math.sqrt(_28_DAYS / age)))


def age_by_en1992(*, share: Ratio, slowness: Ratio) -> Second:
    """Age at which a share of the 28-day strength is there: t = 28 / (1 − ln β / s)².

    Args:
        share: β, strength over strength at 28 days [-]
        slowness: s, as for the share [-]

    Returns:
        t, time since casting [s]

    Raises:
        OutOfRangeError: the share is not above 0 or never reached.

    Range:
        0 < β < e^s, refused outside.

    Source:
        EN-1992-STRENGTH, 3.1.2 (6), equation 3.2, turned round (derived)
        EN-1992-STRENGTH, 3.1.2 (6), equation 3.2 (memory)

    Example:
        >>> age_by_en1992(share=1.0, slowness=0.25)
        2419200
    """
    within(slowness, "slowness of the cement", above=0.0)
    left = 1 - math.log(within(share, "share of the 28-day strength", above=0.0)) / slowness
    if left <= 0:
        raise OutOfRangeError(
            f"a share of {share:.3g} is never reached; the method goes up to {math.exp(slowness):.3g}"
        )
    return _28_DAYS / left**2


def strength_at_other_age(*, strength: Pascal, known_share: Ratio, share: Ratio) -> Pascal:
    """Strength at one age by that at another: f = f_1 s / s_1.

    Args:
        strength: f_1, at the age it is known for [Pa]
        known_share: s_1, share of the 28-day strength that is there at that age [-]
        share: s, share that is there at the age asked [-]

    Returns:
        f, strength at the age asked [Pa]

    Raises:
        OutOfRangeError: strength or share is negative, or the known share not above 0.

    Range:
        f_1 ≥ 0, s_1 > 0, s ≥ 0; refused outside.

    Source:
        STATICS, a ratio (derived)

    Example:
        >>> strength_at_other_age(strength=14e6, known_share=0.7, share=1.0)
        2.0e7
    """
    within(strength, "strength in Pa", low=0.0)
    within(share, "share of the 28-day strength", low=0.0)
    return strength * share / within(known_share, "share at the age it is known for", above=0.0)

"""Learning curves: work that is done again and again takes less time, by the same share each time it doubles."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Ratio, Second


def learning_exponent(*, rate: Ratio) -> Ratio:
    """Exponent of a learning curve: b = log_2 r.

    Args:
        rate: r, time after doubling over time before; 1 where nothing is learned [-]

    Returns:
        b, below 0 where it is learned [-]

    Raises:
        OutOfRangeError: the rate is not above 1/2 or over 1.

    Range:
        1/2 < r ≤ 1, refused outside.

    Source:
        WRIGHT-CURVES, natural slope of a learning rate (read)

    Example:
        >>> learning_exponent(rate=0.8)
        -0.3219
    """
    found: Ratio = np.log2(within(rate, "learning rate", above=0.5, high=1.0))
    return found


def time_of_unit(*, first: Second, number: Ratio, rate: Ratio) -> Second:
    """Time that one piece takes by the unit curve: y_n = t_1 n^b, b = log_2 r.

    Args:
        first: t_1, time of the first [s]
        number: n, which one it is, from 1 [-]
        rate: r, time after doubling over time before [-]

    Returns:
        y_n, time of the n-th [s]

    Raises:
        OutOfRangeError: the time is not above 0, the number below 1, or the rate outside 1/2 to 1.

    Range:
        t_1 > 0, n ≥ 1, 1/2 < r ≤ 1; refused outside.

    Source:
        WRIGHT-CURVES, unit model (read)

    Example:
        >>> time_of_unit(first=36000.0, number=4.0, rate=0.7)
        17640.0
    """
    exponent = learning_exponent(rate=rate)
    share: Ratio = within(number, "number", low=1.0) ** exponent
    return within(first, "time of the first in s", above=0.0) * share


def wright_time(*, first: Second, before: Ratio, until: Ratio, rate: Ratio) -> Second:
    """Time from one amount to another where the average falls by the same share with each doubling:
    T = t_1 (n^(1+b) − m^(1+b)), b = log_2 r.

    Args:
        first: t_1, time of the first [s]
        before: m, amount that was done before [-]
        until: n, amount that is done afterwards [-]
        rate: r, average after doubling over average before [-]

    Returns:
        T, time for what lies between [s]

    Raises:
        OutOfRangeError: the time is not above 0, an amount negative, the second less than the first, or the rate
            outside 1/2 to 1.

    Range:
        t_1 > 0, 0 ≤ m ≤ n, 1/2 < r ≤ 1; refused outside.

    Source:
        WRIGHT-CURVES, cumulative average model, block of units (read)

    Example:
        >>> wright_time(first=75.0, before=200.0, until=250.0, rate=0.85)
        806.772
    """
    power = 1.0 + learning_exponent(rate=rate)
    done = within(before, "amount before", low=0.0)
    last = within(until, "amount afterwards", low=done)
    units: Ratio = last**power - done**power
    return within(first, "time of the first in s", above=0.0) * units


def slower_than_average(*, share: Ratio, rate: Ratio) -> Ratio:
    """How much more time the first share of a job takes than the same amount takes on average over all of it: f = s^b.

    Args:
        share: s, how much of the job is done [-]
        rate: r, average after doubling over average before [-]

    Returns:
        f, time over the average of the whole job; 1 at the end [-]

    Raises:
        OutOfRangeError: the share is not above 0 or over 1, or the rate outside 1/2 to 1.

    Range:
        0 < s ≤ 1, 1/2 < r ≤ 1; refused outside.

    Source:
        WRIGHT-CURVES, cumulative average model over the whole job (derived)

    Example:
        >>> slower_than_average(share=0.25, rate=0.9)
        1.2346
    """
    exponent = learning_exponent(rate=rate)
    slower: Ratio = within(share, "share done", above=0.0, high=1.0) ** exponent
    return slower

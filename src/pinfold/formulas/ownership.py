"""What owning a thing costs over the years: money later beside money now, and the yearly cost of a fence.

All amounts are in one and the same coin; a rate is the share that money grows by in a year beyond rising prices.
"""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import Ratio

_NONE = 1e-9
"""A rate below this is none."""


def present_worth(*, amount: Ratio, rate: Ratio, years: Ratio) -> Ratio:
    """What money to be paid in some years is worth now: P = F (1 + i)^−n.

    Args:
        amount: F, paid then [-]
        rate: i, of interest for a year [-]
        years: n, until then [-]

    Returns:
        P, set aside now [-]

    Raises:
        OutOfRangeError: a value is negative, or the rate is over 1.

    Range:
        F ≥ 0, 0 ≤ i ≤ 1, n ≥ 0; refused outside.

    Source:
        STATICS, money set aside that grows by its interest (derived)

    Example:
        >>> present_worth(amount=100.0, rate=0.25, years=1.0)
        80.0
    """
    whole = within(amount, "amount", low=0.0)
    growth = 1 + within(rate, "rate of a year", low=0.0, high=1.0)
    return float(whole * growth ** -within(years, "years", low=0.0))


def present_worth_of_yearly(*, amount: Ratio, rate: Ratio, years: Ratio) -> Ratio:
    """What a payment at the end of every year is worth now: P = A (1 − (1 + i)^−n) / i, A n without interest.

    Args:
        amount: A, paid every year [-]
        rate: i, of interest for a year [-]
        years: n, how many payments [-]

    Returns:
        P, set aside now [-]

    Raises:
        OutOfRangeError: a value is negative, or the rate is over 1.

    Range:
        A ≥ 0, 0 ≤ i ≤ 1, n ≥ 0; refused outside.

    Source:
        STATICS, the sum of a geometric row (derived)

    Example:
        >>> present_worth_of_yearly(amount=10.0, rate=0.0, years=20.0)
        200.0
    """
    yearly, count = within(amount, "amount", low=0.0), within(years, "years", low=0.0)
    interest = within(rate, "rate of a year", low=0.0, high=1.0)
    return yearly * (count if interest < _NONE else (1 - (1 + interest) ** -count) / interest)


def yearly_equivalent(*, amount: Ratio, rate: Ratio, years: Ratio) -> Ratio:
    """The payment at the end of every year that pays an amount off: A = P i / (1 − (1 + i)^−n), P / n without interest.

    Args:
        amount: P, paid now [-]
        rate: i, of interest for a year [-]
        years: n, how many payments [-]

    Returns:
        A, every year [-]

    Raises:
        OutOfRangeError: a value is negative, the rate is over 1, or there is no year.

    Range:
        P ≥ 0, 0 ≤ i ≤ 1, n > 0; refused outside.

    Source:
        CAPITAL-RECOVERY, the reciprocal of the present worth of equal payments (read)

    Example:
        >>> yearly_equivalent(amount=200.0, rate=0.0, years=20.0)
        10.0
    """
    count = within(years, "years", above=0.0)
    return within(amount, "amount", low=0.0) / present_worth_of_yearly(amount=1.0, rate=rate, years=count)


def ownership_cost(*, first: Ratio, life: Ratio, rate: Ratio, upkeep: Ratio) -> Ratio:
    """Yearly cost of owning a fence: wear over its life, interest on half of it, upkeep: A = C (1/n + i/2 + u).

    Args:
        first: C, what it cost to build [-]
        life: n, years that it lasts [-]
        rate: i, of interest for a year [-]
        upkeep: u, cost of upkeep in a year beside the first cost [-]

    Returns:
        A, in a year [-]

    Raises:
        OutOfRangeError: a value is negative, or there is no life.

    Range:
        C ≥ 0, n > 0, 0 ≤ i ≤ 1, u ≥ 0; refused outside. Nothing is left of it in the end.

    Source:
        FENCE-OWNERSHIP, table 6 (read)

    Example:
        >>> ownership_cost(first=1000.0, life=20.0, rate=0.08, upkeep=0.05)
        140.0
    """
    cost = within(first, "first cost", low=0.0)
    interest = within(rate, "rate of a year", low=0.0, high=1.0)
    return cost / within(life, "years", above=0.0) + cost * interest / 2 + cost * within(upkeep, "upkeep", low=0.0)

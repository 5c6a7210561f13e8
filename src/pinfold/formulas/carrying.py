"""What a number learned at one place says of the same thing at another, and shares learned by counting.

A number at a place lies off what was thought by a part that is the same everywhere, such as the hand and the cement,
and by a part that the place has of its own. How much of the variance is shared is told by one share: 1 for the very
same place, 0 for places that have nothing to do with each other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy import special

from pinfold.formulas.ranges import within
from pinfold.units import Ratio


@dataclass(frozen=True, kw_only=True)
class Counted:
    """A share as it is believed after counting.

    Attributes:
        mean: of what is believed.
        spread: one standard deviation of it.
    """

    mean: Ratio
    spread: Ratio


def part_shared(*, spread: Ratio, alike: Ratio) -> Ratio:
    """Spread of the part of a number that all places share: τ_s = τ √ρ.

    Args:
        spread: τ, how unsure the number is at any place, in its own unit [-]
        alike: ρ, share of the variance that places have in common [-]

    Returns:
        τ_s, in the unit of the number [-]

    Raises:
        OutOfRangeError: the spread is not above 0, or the share is not from 0 to 1.

    Range:
        τ > 0, 0 ≤ ρ ≤ 1; refused outside.

    Source:
        STATISTICS, variances of independent parts add (derived)

    Example:
        >>> part_shared(spread=0.1, alike=0.64)
        0.08
    """
    return within(spread, "spread", above=0.0) * math.sqrt(within(alike, "share alike", low=0.0, high=1.0))


def part_of_its_own(*, spread: Ratio, alike: Ratio) -> Ratio:
    """Spread of the part of a number that each place has of its own: τ_o = τ √(1 − ρ).

    Args:
        spread: τ, how unsure the number is at any place, in its own unit [-]
        alike: ρ, share of the variance that places have in common [-]

    Returns:
        τ_o, in the unit of the number [-]

    Raises:
        OutOfRangeError: the spread is not above 0, or the share is not from 0 to 1.

    Range:
        τ > 0, 0 ≤ ρ ≤ 1; refused outside.

    Source:
        STATISTICS, variances of independent parts add (derived)

    Example:
        >>> part_of_its_own(spread=0.1, alike=0.64)
        0.06
    """
    return within(spread, "spread", above=0.0) * math.sqrt(1 - within(alike, "share alike", low=0.0, high=1.0))


def places_apart(*, within_one: Ratio, alike: Ratio) -> Ratio:
    """How far places lie apart in a number of which nothing was thought: τ_o = σ √((1 − ρ) / ρ).

    Where half is alike places differ as much as single readings at one place do.

    Args:
        within_one: σ, scatter of one reading at one place, in the number's own unit [-]
        alike: ρ, share of the variance that places have in common [-]

    Returns:
        τ_o, in the unit of the number [-]

    Raises:
        OutOfRangeError: the scatter is not above 0, or the share is not above 0 and up to 1.

    Range:
        σ > 0, 0 < ρ ≤ 1; refused outside.

    Source:
        PRACTICE, no source says how far places lie apart; the scatter of days at one place is the yardstick (practice)

    Example:
        >>> places_apart(within_one=0.3, alike=0.5)
        0.3
    """
    share = within(alike, "share alike", above=0.0, high=1.0)
    return within(within_one, "scatter of one reading", above=0.0) * math.sqrt((1 - share) / share)


def share_by_counting(*, before_yes: Ratio, before_no: Ratio, yes: Ratio, no: Ratio) -> Counted:
    """A share after counting how often: m = a / (a + b), s² = a b / ((a + b)² (a + b + 1)), a = a_0 + y, b = b_0 + n.

    What was thought before stands for so many that were and were not counted already; one of each for nothing thought.

    Args:
        before_yes: a_0, what was thought before, as so many that were so [-]
        before_no: b_0, likewise not so [-]
        yes: y, how many were so [-]
        no: n, how many were not [-]

    Returns:
        mean and spread of the share (see Counted)

    Raises:
        OutOfRangeError: a count before is not above 0 or one after is negative.

    Range:
        a_0 > 0, b_0 > 0, y ≥ 0, n ≥ 0; refused outside.

    Source:
        BAYES-RULES, beta-binomial model (memory)

    Example:
        >>> share_by_counting(before_yes=1.0, before_no=1.0, yes=3.0, no=1.0)
        Counted(mean=0.6667, spread=0.1782)
    """
    a = within(before_yes, "so before", above=0.0) + within(yes, "were so", low=0.0)
    b = within(before_no, "not so before", above=0.0) + within(no, "were not", low=0.0)
    whole = a + b
    return Counted(mean=a / whole, spread=math.sqrt(a * b / (whole + 1)) / whole)


def chance_of_mostly(*, yes: Ratio, no: Ratio) -> Ratio:
    """How surely something goes one way more often than the other: P = I_½(n + 1, y + 1).

    Nothing is thought before: every share from none to all is as likely.

    Args:
        yes: y, how often it went that way [-]
        no: n, how often the other [-]

    Returns:
        P, from 0 to 1; a half where both were as often [-]

    Raises:
        OutOfRangeError: a count is negative.

    Range:
        y ≥ 0, n ≥ 0; refused outside.

    Source:
        BAYES-RULES, beta-binomial model, above one half (derived)

    Example:
        >>> chance_of_mostly(yes=4.0, no=0.0)
        0.96875
    """
    so, other = within(yes, "went that way", low=0.0), within(no, "went the other way", low=0.0)
    return float(special.betainc(other + 1, so + 1, 0.5))

"""Earned value: what was planned, what is done and what it took, held against each other, and where that leads.

All amounts are in one and the same unit, coins or hours: planned is what should be done by now, earned is what is done,
at planned cost; spent is what it took; budget is the plan for all of it.
"""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import Ratio


def cost_difference(*, earned: Ratio, spent: Ratio) -> Ratio:
    """How much less was spent than planned for what is done: CV = EV − AC.

    Args:
        earned: EV, planned cost of what is done [-]
        spent: AC, what it took [-]

    Returns:
        CV, below 0 where more was spent [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        EV ≥ 0, AC ≥ 0; refused outside.

    Source:
        EARNED-VALUE, cost variance (read)

    Example:
        >>> cost_difference(earned=400.0, spent=380.0)
        20.0
    """
    return within(earned, "earned", low=0.0) - within(spent, "spent", low=0.0)


def schedule_difference(*, earned: Ratio, planned: Ratio) -> Ratio:
    """How much more is done than planned by now: SV = EV − PV.

    Args:
        earned: EV, planned cost of what is done [-]
        planned: PV, planned cost of what should be done by now [-]

    Returns:
        SV, below 0 where less is done [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        EV ≥ 0, PV ≥ 0; refused outside.

    Source:
        EARNED-VALUE, schedule variance (read)

    Example:
        >>> schedule_difference(earned=20000.0, planned=23000.0)
        -3000.0
    """
    return within(earned, "earned", low=0.0) - within(planned, "planned by now", low=0.0)


def cost_index(*, earned: Ratio, spent: Ratio) -> Ratio:
    """Planned cost of what is done for each one spent: CPI = EV / AC.

    Args:
        earned: EV, planned cost of what is done [-]
        spent: AC, what it took [-]

    Returns:
        CPI, below 1 where it takes more than planned [-]

    Raises:
        OutOfRangeError: earned is negative or nothing was spent.

    Range:
        EV ≥ 0, AC > 0; refused outside.

    Source:
        EARNED-VALUE, cost performance index (read)

    Example:
        >>> cost_index(earned=20000.0, spent=25000.0)
        0.8
    """
    return within(earned, "earned", low=0.0) / within(spent, "spent", above=0.0)


def schedule_index(*, earned: Ratio, planned: Ratio) -> Ratio:
    """What is done for each one that should be done by now: SPI = EV / PV.

    Args:
        earned: EV, planned cost of what is done [-]
        planned: PV, planned cost of what should be done by now [-]

    Returns:
        SPI, below 1 where less is done than planned [-]

    Raises:
        OutOfRangeError: earned is negative or nothing was planned by now.

    Range:
        EV ≥ 0, PV > 0; refused outside.

    Source:
        EARNED-VALUE, schedule performance index (read)

    Example:
        >>> schedule_index(earned=20000.0, planned=23000.0)
        0.8696
    """
    return within(earned, "earned", low=0.0) / within(planned, "planned by now", above=0.0)


def at_completion(*, budget: Ratio, cost_index: Ratio) -> Ratio:
    """What all of it takes if the rest goes as what is done did: EAC = BAC / CPI.

    Args:
        budget: BAC, plan for all of it [-]
        cost_index: CPI, planned cost of what is done for each one spent [-]

    Returns:
        EAC, in all [-]

    Raises:
        OutOfRangeError: the budget is negative or the index not above 0.

    Range:
        BAC ≥ 0, CPI > 0; refused outside.

    Source:
        EARNED-VALUE, estimate at completion (read)

    Example:
        >>> at_completion(budget=120000.0, cost_index=0.8)
        150000.0
    """
    return within(budget, "budget", low=0.0) / within(cost_index, "cost index", above=0.0)


def at_completion_as_planned(*, budget: Ratio, earned: Ratio, spent: Ratio) -> Ratio:
    """What all of it takes if the rest goes as planned: EAC = AC + BAC − EV.

    Args:
        budget: BAC, plan for all of it [-]
        earned: EV, planned cost of what is done [-]
        spent: AC, what it took [-]

    Returns:
        EAC, in all [-]

    Raises:
        OutOfRangeError: a value is negative, or more is earned than the budget.

    Range:
        AC ≥ 0, 0 ≤ EV ≤ BAC; refused outside.

    Source:
        EARNED-VALUE, estimate at completion, the rest at its budget (read)

    Example:
        >>> at_completion_as_planned(budget=100000.0, earned=35000.0, spent=63000.0)
        128000.0
    """
    left = within(budget, "budget", low=0.0) - within(earned, "earned", low=0.0, high=budget)
    return within(spent, "spent", low=0.0) + left


def at_completion_by_both(
    *, budget: Ratio, earned: Ratio, spent: Ratio, cost_index: Ratio, schedule_index: Ratio
) -> Ratio:  # fmt: skip
    """What all of it takes if the rest is both as dear and as late: EAC = AC + (BAC − EV) / (CPI SPI).

    Args:
        budget: BAC, plan for all of it [-]
        earned: EV, planned cost of what is done [-]
        spent: AC, what it took [-]
        cost_index: CPI, planned cost of what is done for each one spent [-]
        schedule_index: SPI, what is done for each one that should be done by now [-]

    Returns:
        EAC, in all [-]

    Raises:
        OutOfRangeError: a value is negative, more is earned than the budget, or an index is not above 0.

    Range:
        AC ≥ 0, 0 ≤ EV ≤ BAC, CPI > 0, SPI > 0; refused outside.

    Source:
        EARNED-VALUE, estimate at completion by both indices (read)

    Example:
        >>> at_completion_by_both(budget=120.0, earned=20.0, spent=25.0, cost_index=0.8, schedule_index=0.5)
        275.0
    """
    left = within(budget, "budget", low=0.0) - within(earned, "earned", low=0.0, high=budget)
    both = within(cost_index, "cost index", above=0.0) * within(schedule_index, "schedule index", above=0.0)
    return within(spent, "spent", low=0.0) + left / both


def to_complete(*, at_completion: Ratio, spent: Ratio) -> Ratio:
    """What it still takes: ETC = EAC − AC.

    Args:
        at_completion: EAC, what all of it takes [-]
        spent: AC, what it took so far [-]

    Returns:
        ETC, still to come [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        EAC ≥ 0, AC ≥ 0; refused outside.

    Source:
        EARNED-VALUE, estimate to complete (read)

    Example:
        >>> to_complete(at_completion=150000.0, spent=25000.0)
        125000.0
    """
    return within(at_completion, "in all", low=0.0) - within(spent, "spent", low=0.0)


def difference_at_completion(*, budget: Ratio, at_completion: Ratio) -> Ratio:
    """How much less all of it takes than planned: VAC = BAC − EAC.

    Args:
        budget: BAC, plan for all of it [-]
        at_completion: EAC, what all of it takes [-]

    Returns:
        VAC, below 0 where it takes more [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        BAC ≥ 0, EAC ≥ 0; refused outside.

    Source:
        EARNED-VALUE, variance at completion (read)

    Example:
        >>> difference_at_completion(budget=120000.0, at_completion=150000.0)
        -30000.0
    """
    return within(budget, "budget", low=0.0) - within(at_completion, "in all", low=0.0)


def index_to_complete(*, budget: Ratio, earned: Ratio, spent: Ratio, goal: Ratio) -> Ratio:
    """How thrifty the rest must be to end at a goal: TCPI = (BAC − EV) / (G − AC).

    Args:
        budget: BAC, plan for all of it [-]
        earned: EV, planned cost of what is done [-]
        spent: AC, what it took [-]
        goal: G, what all of it may take: the budget itself or what is now foreseen [-]

    Returns:
        TCPI, above 1 where the rest must go better than planned [-]

    Raises:
        OutOfRangeError: more is earned than the budget, or the goal is spent already.

    Range:
        0 ≤ EV ≤ BAC, AC ≥ 0, G > AC; refused outside.

    Source:
        EARNED-VALUE, to-complete performance index (read)

    Example:
        >>> index_to_complete(budget=100000.0, earned=35000.0, spent=63000.0, goal=100000.0)
        1.757
    """
    left = within(budget, "budget", low=0.0) - within(earned, "earned", low=0.0, high=budget)
    return left / within(goal - within(spent, "spent", low=0.0), "goal less what is spent", above=0.0)

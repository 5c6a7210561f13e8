"""What is given up for what between two options: every criterion that differs enough to be told."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.studies.weighing.records import Better, Criterion, Score, Shown, Weighed

SAME = {Shown.SHARE: 0.01, Shown.COUNT: 0.5, Shown.DAYS: 0.5, Shown.YEARS: 0.5}
"""Differences below this tell nothing."""
SAME_SHARE = 0.01
"""Likewise of money, amounts and hours, as a share."""
TOLD = ("cash_now", "hours", "days", "trips", "water", "hauled", "carbon", "margin", "cracking", "falling", "frost",
        "wet", "tightness", "skills", "tools", "cash_later", "upkeep", "life", "reclaimable")  # fmt: skip
"""Criteria in the order they are told; cost per length says the same as cash, cement the same as weight hauled."""


class Difference(NamedTuple):
    """One criterion on which an option differs from another.

    Attributes:
        criterion: which.
        before: number of the one, in SI, money in the smallest coin.
        after: of the other.
        is_better: whether the other is better.
        is_sure: whether their spreads keep apart; False where one has none.
    """

    criterion: Criterion
    before: float
    after: float
    is_better: bool
    is_sure: bool


def differences(one: Weighed, other: Weighed, criteria: tuple[Criterion, ...]) -> tuple[Difference, ...]:
    """Where another option differs from one, criterion by criterion.

    Args:
        one: that it is held against
        other: the other
        criteria: to look at, in order
    """
    found = (_difference(each, one.scores.get(each.key), other.scores.get(each.key)) for each in criteria)
    return tuple(each for each in found if each is not None)


def _difference(criterion: Criterion, one: Score | None, other: Score | None) -> Difference | None:
    if one is None or other is None or one.value is None or other.value is None:
        return None
    before, after = one.value, other.value
    least = SAME.get(criterion.shown, SAME_SHARE * max(abs(before), abs(after)))
    if abs(after - before) < least or before == after:
        return None
    better = after < before if criterion.better is Better.LESS else after > before
    return Difference(criterion, before, after, better, _apart(one, other))


def _apart(one: Score, other: Score) -> bool:
    if one.low is None or one.high is None or other.low is None or other.high is None:
        return False
    return one.high < other.low or other.high < one.low

"""Trying changes of a plan: each laid out, assessed and priced once, and judged by what it does to the findings."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import Enum
from functools import cache, cached_property

from pinfold.findings import Finding, Verdict
from pinfold.plan.changes import Change
from pinfold.studies.costing import Costs
from pinfold.studies.mending.records import Tried
from pinfold.studies.mending.weak import Key, worst_by_owner


class Trials:
    """A plan with all changes tried on it so far; each is tried once.

    Args:
        trial: puts a change into the plan, lays it out and assesses it; None where it makes no plan
        priced: what the plan costs with a change
    """

    def __init__(self, trial: Callable[[Change], Tried | None], priced: Callable[[Change], Costs]) -> None:
        self.of = cache(trial)
        self.cost = cache(priced)
        self.worst = cache(self._worst)

    @cached_property
    def before(self) -> Mapping[Key, Finding]:
        """The worst finding of every check of every build-up and gate, as the plan stands."""
        found = self.worst(())
        assert found is not None
        return found

    def _worst(self, change: Change) -> Mapping[Key, Finding] | None:
        tried = self.of(change)
        return None if tried is None else worst_by_owner(tried.findings, tried.layout)

    def extra(self, change: Change) -> tuple[int | None, tuple[str, ...]]:
        """What a change costs more, in the smallest coin, None when not known; and what it needs that has no
        price, by name."""
        before, after = self.cost(()), self.cost(change)
        unpriced = tuple(item for item in after.unpriced if item not in before.unpriced)
        return (None if unpriced or after.total <= 0 else after.total - before.total), unpriced


class Reach(Enum):
    """How far a change goes."""

    SHORT = "short"  # the check does not hold yet
    GOOD = "good"
    SPOILS = "spoils"  # the check holds, but something else does not any more


Judge = Callable[[Change], Reach]


def spoiled(after: Finding, earlier: Finding | None) -> bool:
    """Whether a finding held, or was not there, and does not hold any more."""
    held = earlier is None or earlier.verdict is Verdict.HOLDS
    return held and after.verdict is not Verdict.HOLDS


def least(steps: Sequence[Change], judge: Judge) -> Change | None:
    """The first step that is good, sought in doubling strides and then halved back; None where none of them is.

    Args:
        steps: from the least change on
        judge: SHORT up to some step, and not after it
    """
    low, high = -1, 0
    while high < len(steps) and judge(steps[high]) is Reach.SHORT:
        low, high = high, min(2 * high + 1, len(steps) - 1) if high < len(steps) - 1 else len(steps)
    while high - low > 1 and high < len(steps):
        middle = (low + high) // 2
        low, high = (middle, high) if judge(steps[middle]) is Reach.SHORT else (low, middle)
    return next((step for step in steps[high:] if judge(step) is Reach.GOOD), None)

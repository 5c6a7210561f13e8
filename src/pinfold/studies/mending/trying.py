"""Trying changes of a plan: each laid out once, asked as little as will do, and priced where it is told."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache, cached_property
from typing import NamedTuple

from pinfold.findings import Finding, Verdict
from pinfold.plan.changes import Change
from pinfold.studies.costing import Costs
from pinfold.studies.mending.records import Weak
from pinfold.studies.mending.weak import Key, worst_by_owner
from pinfold.studies.stability.inquiry import TOPICS, Inquiry, Topic
from pinfold.studies.stability.subjects import Owner


class Trials:
    """A plan with all changes tried on it so far; each is tried once.

    Args:
        trial: puts a change into the plan and lays it out; None where it makes no plan
        priced: what the plan costs with a change
    """

    def __init__(self, trial: Callable[[Change], Inquiry | None], priced: Callable[[Change], Costs]) -> None:
        self.of = cache(trial)
        self.cost = cache(priced)
        self.worst = cache(self._worst)
        self.on = cache(self._on)

    @cached_property
    def before(self) -> Mapping[Key, Finding]:
        """The worst finding of every check of every build-up and gate, as the plan stands."""
        return self.worst(())

    def _worst(self, change: Change) -> Mapping[Key, Finding]:
        """The same under a change; nothing where it makes no plan."""
        tried = self.of(change)
        return {} if tried is None else worst_by_owner(tried.findings, tried.layout)

    def _on(self, change: Change, topic: Topic) -> Mapping[Key, Finding]:
        """The same of one topic alone."""
        tried = self.of(change)
        return {} if tried is None else worst_by_owner(tried.on(topic), tried.layout)

    def topic_of(self, change: Change, key: Key) -> Topic:
        """The topic that a check belongs to, which is found under a change."""
        return next(topic for topic in TOPICS if key in self.on(change, topic))

    def spoils(self, change: Change, *, but: Owner | None = None) -> bool:
        """Whether something that held, or was not there, does not hold any more; `but` what is one owner's."""
        return any(
            spoiled(finding, self.before.get(key)) for topic in TOPICS
            for key, finding in self.on(change, topic).items() if key[2] != but
        )  # fmt: skip

    def extra(self, change: Change) -> tuple[int | None, tuple[str, ...]]:
        """What a change costs more, in the smallest coin, None when not known; and what it needs that has no
        price, by name."""
        before, after = self.cost(()), self.cost(change)
        unpriced = tuple(item for item in after.unpriced if item not in before.unpriced)
        return (None if unpriced or after.total <= 0 else after.total - before.total), unpriced


class Judge(NamedTuple):
    """What is asked of a change.

    Attributes:
        short: whether it does not go far enough: a look at one check alone.
        good: whether it does, and spoils nothing: a look at everything.
    """

    short: Callable[[Change], bool]
    good: Callable[[Change], bool]


def judging(weak: Weak, trials: Trials, *, under: Change = (), most: float = 1.0, but: Owner | None = None) -> Judge:
    """Whether a change makes a weak check hold and spoils nothing.

    Args:
        weak: the check
        trials: of changes of the plan
        under: the change under which it was found weak
        most: share of its strength that it may use
        but: whose other checks do not matter
    """
    topic = trials.topic_of(under, weak.key)

    def short(change: Change) -> bool:
        found = trials.on(change, topic).get(weak.key)
        return found is not None and (found.verdict is not Verdict.HOLDS or (most < 1.0 and (found.use or 0.0) > most))

    def good(change: Change) -> bool:
        return trials.of(change) is not None and not short(change) and not trials.spoils(change, but=but)

    return Judge(short, good)


def spoiled(after: Finding, earlier: Finding | None) -> bool:
    """Whether a finding held, or was not there, and does not hold any more."""
    held = earlier is None or earlier.verdict is Verdict.HOLDS
    return held and after.verdict is not Verdict.HOLDS


def least(steps: Sequence[Change], judge: Judge) -> Change | None:
    """The first step that is good, sought in doubling strides and then halved back; None where none of them is.

    Args:
        steps: from the least change on
        judge: finds them short up to some step, and not after it
    """
    low, high = -1, 0
    while high < len(steps) and judge.short(steps[high]):
        low, high = high, min(2 * high + 1, len(steps) - 1) if high < len(steps) - 1 else len(steps)
    while high - low > 1 and high < len(steps):
        middle = (low + high) // 2
        low, high = (middle, high) if judge.short(steps[middle]) else (low, middle)
    return next((step for step in steps[high:] if judge.good(step)), None)

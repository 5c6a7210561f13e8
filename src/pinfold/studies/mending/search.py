"""The least change of each kind that mends a weak check, found by changing the plan and assessing it again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from pinfold.findings import Verdict
from pinfold.plan.changes import Change, Put
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.mending.levers import levers_for
from pinfold.studies.mending.records import Lever, Mend, Mended, Weak
from pinfold.studies.mending.trying import Judge, Trials, judging, least
from pinfold.studies.mending.weak import NEAR

MOST = 3
"""Mends told of one check."""
PAIRS = 2
"""Pairs of changes told where no single one mends."""


def mended(plan: Enclosure, weak: Iterable[Weak], trials: Trials) -> Iterator[Mended]:
    """For each weak check the changes that mend it, one after the other as they are found.

    A change mends when the check holds after it (with a tenth to spare where it held before, only barely) and nothing
    that held stops holding. Where no single change does, two together are tried.

    Args:
        plan: as it stands
        weak: checks to mend
        trials: of changes of the plan
    """
    for each in weak:
        levers = levers_for(plan, each)
        if not levers and each.verdict is not Verdict.FAILS:
            continue  # as near its limit as it ever is: a set-out that is kept
        judge = judging(each, trials, most=1.0 if each.verdict is Verdict.FAILS else NEAR)
        found = [change for change in (least(lever.steps, judge) for lever in levers) if change is not None]
        if not found:
            found = list(islice(_pairs(levers, judge), PAIRS))
        mends = [_mend(each, change, levers, trials) for change in found]
        mends.sort(key=lambda mend: (mend.cost is None, mend.cost or 0))
        yield Mended(weak=each, mends=tuple(mends[:MOST]), tried=tuple(lever.says for lever in levers))


def _pairs(levers: Sequence[Lever], judge: Judge) -> Iterator[Change]:
    """Two levers together: the second as far as it goes, the first as little as will do, then the second likewise."""
    for number, one in enumerate(levers):
        for other in levers[number + 1 :]:
            if _meet(one, other):
                continue
            far = other.steps[-1]
            first = least([(*step, *far) for step in one.steps], judge)
            if first is None:
                continue
            kept = first[: len(first) - len(far)]
            yield least([(*kept, *step) for step in other.steps], judge) or first


def _meet(one: Lever, other: Lever) -> bool:
    """Whether two levers write the same key."""
    keys = {put.path for put in one.steps[0]}
    return any(put.path in keys for put in other.steps[0])


def _mend(weak: Weak, change: Change, levers: Iterable[Lever], trials: Trials) -> Mend:
    found = trials.on(change, trials.topic_of((), weak.key)).get(weak.key)
    cost, unpriced = trials.extra(change)
    return Mend(
        says=said(change, levers), puts=change, use=found.use if found is not None else None, cost=cost,
        unpriced=unpriced,
    )  # fmt: skip


def said(change: tuple[Put, ...], levers: Iterable[Lever]) -> str:
    """The words of the levers that a change is made of."""
    paths = {put.path for put in change}
    return " and ".join(lever.says for lever in levers if {put.path for put in lever.steps[0]} <= paths)

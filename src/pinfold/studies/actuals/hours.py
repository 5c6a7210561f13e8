"""Hours against the plan: by sort of work and run, with what was done again and what the start of a work costs."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from pinfold.formulas.learning_curves import learning_exponent
from pinfold.logbook.entries import Entry
from pinfold.logbook.works import Work, named_works
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.ladder import Rung, reasons
from pinfold.studies.actuals.records import UNEXPLAINED, HoursAgainst
from pinfold.studies.days.records import Task
from pinfold.studies.forecasting.hands import Hands
from pinfold.studies.forecasting.timed import Timed, crew_time
from pinfold.units import Ratio, Second

START = "for want of practice"
UNSAID = "the log does not say what was done in them"
LATE = "with practice"
"""By the learning curve: what the work takes now beside its average over the whole job."""
_TOLD_FROM = 3
"""From so many entries on the log tells how a sort of work is learned."""
Group = tuple[Work, str]


class _Took:
    """Time by group and by what it was done again for; empty for the first time."""

    def __init__(self, done: Done) -> None:
        self.done = done
        self.by_group: dict[Group, dict[str, float]] = defaultdict(lambda: defaultdict(float))
        self.unplaced = 0.0

    def take(self, entry: Entry) -> None:
        """One entry of hours, shared out over the groups it may be of by what is due there."""
        groups = self._groups(entry.text("layer"), entry.text("place"))
        if not groups:
            self.unplaced += crew_time(entry)
            return
        weights = self._weights(groups)
        for group, weight in zip(groups, weights, strict=True):
            self.by_group[group][entry.text("again")] += crew_time(entry) * weight / math.fsum(weights)

    def _groups(self, layer: str, place: str) -> tuple[Group, ...]:
        works, runs = named_works(layer), self.done.runs_at(place) if place else ()
        known = [group for group in self.done.by_group if group[0] in works]
        return tuple(group for group in known if group[1] in runs) or tuple(known)

    def _weights(self, groups: Sequence[Group]) -> list[float]:
        due = [math.fsum(_due(self.done, task) for task in self.done.by_group[group]) for group in groups]
        whole = [math.fsum(self.done.labor(task) for task in self.done.by_group[group]) for group in groups]
        found = next((each for each in (due, whole) if math.fsum(each) > 0), None)
        return found or [1.0] * len(groups)


def _due(done: Done, task: Task) -> Second:
    return done.labor(task) * done.share(task)


def hours_against(
    done: Done, entries: Iterable[Entry], timed: Iterable[Timed], hands: Hands
) -> tuple[tuple[HoursAgainst, ...], Second]:
    """Hours of each sort of work in each run beside the plan, and hours that belong to no task.

    Args:
        done: the job by the norms and how far it is
        entries: of the log, those that stand
        timed: those of hours beside the norms
        hands: what they say of the crew
    """
    took = _Took(done)
    for entry in entries:
        if entry.kind == "hours":
            took.take(entry)
    bends = _bends(done, timed, hands)
    return tuple(_row(done, group, took.by_group, bends) for group in done.by_group), took.unplaced


def _row(
    done: Done, group: Group, took: Mapping[Group, Mapping[str, Second]], bends: Mapping[Group, Ratio]
) -> HoursAgainst:
    tasks = done.by_group[group]
    planned = math.fsum(done.labor(task) for task in tasks)
    due = math.fsum(_due(done, task) for task in tasks)
    found = took.get(group)
    whole = None if found is None else math.fsum(found.values())
    rungs = [] if found is None else _rungs(due, found, bends.get(group, 1.0))
    return HoursAgainst(
        work=group[0].value, run=group[1], planned=planned, done=due / planned if planned > 0 else 0.0, due=due,
        took=whole, reasons=reasons(due, rungs),
    )  # fmt: skip


def _rungs(due: Second, found: Mapping[str, Second], bend: Ratio) -> list[Rung]:
    level, rungs = due, list[Rung]()
    for cause, time in found.items():
        if cause:
            level += time
            rungs.append(Rung(f"done again, because of {cause}", level))
    if bend != 1.0 and due > 0:
        level += due * (bend - 1.0)
        rungs.append(Rung(START if bend > 1.0 else LATE, level))
    return [*rungs, Rung(UNEXPLAINED if due > 0 else UNSAID, math.fsum(found.values()))]


def _bends(done: Done, timed: Iterable[Timed], hands: Hands) -> dict[Group, Ratio]:
    """How much slower than over the whole job each group went for want of practice, where the log tells the curve."""
    sums: dict[Group, list[float]] = defaultdict(lambda: [0.0, 0.0])
    for each in timed:
        if hands.counts.get(each.work, 0) >= _TOLD_FROM:
            exponent = learning_exponent(rate=hands.rate(each.work)[0])
            for run in done.runs_at(each.place):
                both = sums[each.work, run]
                both[0] += float(each.due * (1 + exponent) * each.practice**exponent)
                both[1] += each.due
    return {group: slower / due for group, (slower, due) in sums.items() if due > 0}

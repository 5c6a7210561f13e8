"""How much of each layer of each run is done, by the tasks that make it."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from pinfold.logbook.works import Work
from pinfold.studies.costing import SHARED
from pinfold.studies.days.records import Job, Task
from pinfold.units import Ratio, Second

_MADE_BY: Mapping[str, Work] = {
    "trench": Work.DIG, "footing": Work.FOOTING, "membrane": Work.FOOTING, "wall": Work.LAY, "mortar": Work.LAY,
    "bars": Work.LAY, "grout": Work.GROUT, "coping": Work.COPING, "coat": Work.COAT, "posts": Work.POSTS,
    "collars": Work.POSTS, "anchors": Work.POSTS, "braces": Work.BRACES, "rails": Work.RAILS, "mesh": Work.MESH,
    "apron": Work.APRON, "ties": Work.MESH, "gate": Work.GATE,
}  # fmt: skip
"""The work that brings a layer into the wall."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Done:
    """A job by the norms and how far it is, run by run.

    Attributes:
        job: tasks with the norms' times.
        left: share of each task still to be done, by key.
        runs: the run of every stretch, post and gate.
        by_order: keys of tasks that count as done because what waits for them is begun.
    """

    job: Job
    left: Mapping[str, Ratio]
    runs: Mapping[str, str]
    by_order: Collection[str] = ()

    def run(self, place: str) -> str:
        """The run that a place lies in; shared for what belongs to no one run."""
        return self.runs.get(place, SHARED)

    def share(self, task: Task) -> Ratio:
        """Of a task that is done."""
        return 1.0 - self.left.get(task.key, 1.0)

    def labor(self, task: Task) -> Second:
        """Time of a task by the norms; nothing where it is not known."""
        pace = self.job.paces[task.key]
        return pace.labor if pace.is_known else 0.0

    def runs_at(self, place: str) -> frozenset[str]:
        """The runs that a place means: its own, or all of a side."""
        side = {run for run in self.runs.values() if run.rpartition("/")[0] == place}
        return frozenset({self.runs[place]} if place in self.runs else side or {SHARED})

    @cached_property
    def by_group(self) -> Mapping[tuple[Work, str], tuple[Task, ...]]:
        """Tasks by sort of work and run."""
        found: dict[tuple[Work, str], list[Task]] = defaultdict(list)
        for task in self.job.tasks:
            found[task.work, self.run(task.place)].append(task)
        return {group: tuple(tasks) for group, tasks in found.items()}

    @cached_property
    def implied(self) -> tuple[str, ...]:
        """Work and run of what counts as done by what was begun after it."""
        told = (
            f"{task.work} {self.runs.get(task.place, '')}".rstrip()
            for task in self.job.tasks
            if task.key in self.by_order
        )
        return tuple(dict.fromkeys(told))

    def of_layer(self, layer: str, run: str) -> Ratio:
        """Share of a layer of a run that is done; that of the sort of work everywhere where the run has none."""
        work = _MADE_BY.get(layer)
        if work is None:
            return 0.0
        own = self.by_group.get((work, run), ())
        return self._share(own or [task for task in self.job.tasks if task.work is work])

    def _share(self, tasks: Sequence[Task]) -> Ratio:
        whole = math.fsum(self.labor(task) for task in tasks)
        return math.fsum(self.labor(task) * self.share(task) for task in tasks) / whole if whole > 0 else 0.0

"""How long each task takes by norms of the trade."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.figures import Figure
from pinfold.plan.people import People
from pinfold.sources import Standing, weakest
from pinfold.studies.days.records import Job, Pace, Task
from pinfold.tables.shelf import kind
from pinfold.units import Second


def job_of(tasks: Iterable[Task], people: People, missing: Iterable[str] = ()) -> Job:
    """Tasks with how long each takes by norms of the trade; what the log's hours say goes over it afterwards.

    Args:
        tasks: of the plan
        people: who builds; their slowness goes over the norms
        missing: what could not be counted
    """
    found = tuple(tasks)
    return Job(tasks=found, paces={task.key: pace_of(task, people) for task in found}, missing=tuple(missing))


def pace_of(task: Task, people: People) -> Pace:
    """How long one task takes by norms of the trade."""
    rows = [kind("labor", row) for row, _ in task.norms]
    times = [row.value("time") * amount.by(row.word("per")) for row, (_, amount) in zip(rows, task.norms, strict=True)]
    figures = tuple((f"time to {row.says}, for 1 {row.word('per')}", row.figure("time")) for row in rows)
    return Pace(
        labor=math.fsum(times) * people.slowness, most=_most(rows), spread=_norm_spread(),
        told=f"norms of the trade, times {people.slowness:g}", standing=_standing(figures), figures=figures,
    )  # fmt: skip


def _most(rows: list) -> int:  # type: ignore[type-arg]
    return max((int(row.words["most"]) for row in rows), default=1)


def _norm_spread() -> float:
    return kind("job_rules", "spread").value("job")


def _standing(figures: tuple[tuple[str, Figure], ...]) -> Standing:
    return weakest([Standing.PRACTICE, *(figure.standing for _, figure in figures)])


def working_time(pace: Pace, people: int) -> Second:
    """How long so many people take; not a number where no time is known or nobody works."""
    crew = min(people, pace.most)
    return pace.labor / crew if crew > 0 else math.nan

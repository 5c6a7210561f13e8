"""Entries of hours held against the norms: how long each took over what the same amount should take."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import datetime
from functools import cache, partial
from typing import NamedTuple

from pinfold.formulas import learning
from pinfold.logbook.entries import Entry
from pinfold.logbook.works import PER, Work
from pinfold.studies.days.progress import tasks_named
from pinfold.studies.days.records import Job, Task
from pinfold.tables.shelf import kind
from pinfold.units import Ratio, Second

_LEAST = 0.005
"""Share of a job's sort of work below which practice is not told apart."""


class Timed(NamedTuple):
    """One entry of hours beside the norms.

    Attributes:
        when: it happened.
        work: what sort.
        place: where, as written; empty where not told.
        took: time of all people together.
        due: what the norms say for as much.
        practice: how much of that sort of work the hands had done by the middle of it, as a share of the whole job's.
    """

    when: datetime
    work: Work
    place: str
    took: Second
    due: Second
    practice: Ratio


def crew_time(entry: Entry) -> Second:
    """Time of all people together that an entry of hours tells."""
    return (entry.number("time") or 0.0) * (entry.number("people") or 1.0)


class Practice:
    """How much of each sort of work the hands have done, less what a break took."""

    def __init__(self, whole: dict[Work, Second]) -> None:
        self.whole = whole
        self.share: dict[Work, float] = {}
        self.last: dict[Work, datetime] = {}

    def at(self, work: Work, when: datetime) -> Ratio:
        """Share of the whole job's work of a sort that still counts."""
        if work not in self.share:
            return 0.0
        gap = max(0.0, (when - self.last[work]).total_seconds())
        return self.share[work] * learning.forgetting(age=gap, half_life=kind("job_rules", "hand").value("forgets"))

    def add(self, work: Work, due: Second, when: datetime) -> Ratio:
        """Some more of it; gives the practice in the middle of it."""
        before, part = self.at(work, when), due / self.whole[work]
        self.share[work] = before + part
        self.last[work] = max(when, self.last.get(work, when))
        return before + part / 2


def timed(job: Job, entries: Iterable[Entry]) -> tuple[tuple[Timed, ...], Practice]:
    """All entries of hours that say what was done, in order of time, and the practice there is at their end.

    Args:
        job: tasks with the norms' times
        entries: of the log, those that stand
    """
    practice, norm = Practice(norm_by_work(job)), cache(partial(norm_of, job))
    found = []
    for entry in sorted((each for each in entries if each.kind == "hours"), key=lambda each: each.when):
        for field, per in PER:
            each = norm(entry.text("layer"), entry.text("place"), per) if entry.number(field) else None
            if each is None or each[1] <= 0 or crew_time(entry) <= 0:
                continue
            due = each[1] * (entry.number(field) or 0.0)
            seen = practice.add(each[0], due, entry.when)
            found.append(Timed(entry.when, each[0], entry.text("place"), crew_time(entry), due, max(seen, _LEAST)))
            break
    return tuple(found), practice


def norm_by_work(job: Job) -> dict[Work, Second]:
    """Time of one person for all of each sort of work, as far as it is known."""
    found: dict[Work, float] = {}
    for task in job.tasks:
        if job.paces[task.key].is_known:
            found[task.work] = found.get(task.work, 0.0) + job.paces[task.key].labor
    return found


def norm_of(job: Job, layer: str, place: str, per: str) -> tuple[Work, Second] | None:
    """The sort of work that a word means, and the norms' time for one of it where it was done."""
    there, anywhere = ([task for task in tasks_named(job, layer, where) if _counts(job, task, per)]
                       for where in (place, ""))  # fmt: skip
    tasks = there or anywhere
    if not tasks:
        return None
    labor = math.fsum(job.paces[task.key].labor for task in tasks)
    return tasks[0].work, labor / math.fsum(task.measures.by(per) for task in tasks)


def _counts(job: Job, task: Task, per: str) -> bool:
    return task.measures.by(per) > 0 and job.paces[task.key].is_known

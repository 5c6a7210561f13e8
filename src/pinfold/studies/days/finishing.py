"""When it will be done, with a spread: the job done many times over at paces and in weather that may come."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from pinfold.studies.days.limiting import limits_of
from pinfold.studies.days.listing import listed
from pinfold.studies.days.outlook import Limits
from pinfold.studies.days.pieces import pieces_of
from pinfold.studies.days.problem import NOT_YET
from pinfold.studies.days.records import Job, Work
from pinfold.studies.days.scheduling import Asked, Tell, laid_over
from pinfold.tables.shelf import kind

TIMES = 60
_SEED = 20_260_601
_MOST_SHIFT = 15
"""Days by which the weather of a usual year comes sooner or later than it stands there."""


@dataclass(frozen=True, kw_only=True)
class Finish:
    """When the job will be done.

    Attributes:
        early: 10 of 100 times it is done by then.
        likely: half the time.
        late: 90 of 100 times.
        times: how often it was done over.
        in_weather: whether weather was among what scatters.
    """

    early: datetime
    likely: datetime
    late: datetime
    times: int
    in_weather: bool


def finish_of(job: Job, asked: Asked, days: int, *, times: int = TIMES, tell: Tell | None = None) -> Finish | None:
    """Early, likely and late finish; None where there is nothing to do or it finds no room.

    One pace scatters for all work of a sort, another for each task; past the days that are foreseen the weather is
    that of a usual year some days sooner or later. The same plan gives the same answer.

    Args:
        job: tasks and paces
        asked: for the schedule
        days: that it takes at the usual pace
        times: how often
        tell: told how far it is
    """
    chance = np.random.default_rng(_SEED)
    limits = limits_of(job.tasks, asked.outlook)
    ends = []
    for number in range(times):
        if tell is not None:
            tell(number, times)
        later = int(chance.integers(-_MOST_SHIFT, _MOST_SHIFT + 1))
        ends.append(_end(_paced(job, chance), asked, limits, span=days + days // 2 + 60, later=later))
    early, likely, late = (float(np.quantile(ends, share, method="higher")) for share in (0.1, 0.5, 0.9))
    if not math.isfinite(late) or late <= 0:
        return None
    return Finish(
        early=datetime.fromtimestamp(early, asked.zone), likely=datetime.fromtimestamp(likely, asked.zone),
        late=datetime.fromtimestamp(late, asked.zone), times=times, in_weather=asked.outlook is not None,
    )  # fmt: skip


def _end(job: Job, asked: Asked, limits: Mapping[str, Limits], *, span: int, later: int) -> float:
    """When it is done, since 1970; infinite where it finds no room, 0 where there is nothing to do."""
    pieces = pieces_of(job, asked.people, asked.left)
    problem = laid_over(pieces, asked, limits, span, later, risks=False)
    starts = listed(problem)
    if NOT_YET in starts:
        return math.inf
    ends = [problem.slots.end_of(start, piece.slots) for start, piece in zip(starts, pieces, strict=True)]
    return max((end.timestamp() for end in ends), default=0.0)


def _paced(job: Job, chance: np.random.Generator) -> Job:
    """The job at one pace: half of the factors lie above 1."""
    common = {work: float(chance.standard_normal()) for work in Work}
    own = kind("job_rules", "spread").value("task")
    paces = {}
    for task in job.tasks:
        pace = job.paces[task.key]
        factor = math.exp(math.log1p(pace.spread) * common[task.work] + own * float(chance.standard_normal()))
        paces[task.key] = replace(pace, labor=pace.labor * factor)
    return replace(job, paces=paces)

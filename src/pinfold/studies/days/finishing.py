"""When it will be done, with a spread: the job done over at paces, in weather, with days off that may come."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from pinfold.logbook.works import Work
from pinfold.studies.days.days_off import with_days_off
from pinfold.studies.days.limiting import limits_of
from pinfold.studies.days.listing import listed
from pinfold.studies.days.outlook import Limits
from pinfold.studies.days.pieces import pieces_of
from pinfold.studies.days.problem import NOT_YET
from pinfold.studies.days.records import Job, Kept
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


Paces = Sequence[Mapping[Work, float]]
"""For each time that the job is done over: logarithm of the time over what the pace says, by sort of work."""


@dataclass(frozen=True, kw_only=True)
class Scatter:
    """What may come otherwise than the schedule has it.

    Attributes:
        paces: of all work of a sort, a time each; where it is empty each sort scatters by its own spread.
        kept: of the planned days, how many are worked; None for all of them.
        times: how often the job is done over where `paces` does not say.
    """

    paces: Paces = ()
    kept: Kept | None = None
    times: int = TIMES


def finish_of(
    job: Job, asked: Asked, days: int, *, scatter: Scatter = Scatter(), tell: Tell | None = None
) -> Finish | None:  # fmt: skip
    """Early, likely and late finish; None where there is nothing to do or it finds no room.

    One pace scatters for all work of a sort, another for each task; past the days that are foreseen the weather is
    that of a usual year some days sooner or later; some of the planned days are not worked. The same plan gives the
    same answer.

    Args:
        job: tasks and paces
        asked: for the schedule
        days: that it takes at the usual pace
        scatter: of pace and of days worked
        tell: told how far it is
    """
    ends = _ends(job, asked, days, scatter, tell)
    times = len(ends)
    if scatter.kept is not None:
        ends = with_days_off(ends, scatter.kept, asked.people, asked.first, asked.zone)
    early, likely, late = (float(np.quantile(ends, share, method="higher")) for share in (0.1, 0.5, 0.9))
    if not math.isfinite(late) or late <= 0:
        return None
    return Finish(
        early=datetime.fromtimestamp(early, asked.zone), likely=datetime.fromtimestamp(likely, asked.zone),
        late=datetime.fromtimestamp(late, asked.zone), times=times, in_weather=asked.outlook is not None,
    )  # fmt: skip


def _ends(job: Job, asked: Asked, days: int, scatter: Scatter, tell: Tell | None) -> list[float]:
    chance = np.random.default_rng(_SEED)
    limits = limits_of(job.tasks, asked.outlook)
    times = len(scatter.paces) or scatter.times
    ends = []
    for number in range(times):
        if tell is not None:
            tell(number, times)
        later = int(chance.integers(-_MOST_SHIFT, _MOST_SHIFT + 1))
        common = {work: float(chance.standard_normal()) for work in Work}
        longer = scatter.paces[number] if scatter.paces else None
        paced = _paced(job, common, longer, chance)
        ends.append(_end(paced, asked, limits, span=days + days // 2 + 60, later=later))
    return ends


def _end(job: Job, asked: Asked, limits: Mapping[str, Limits], *, span: int, later: int) -> float:
    """When it is done, since 1970; infinite where it finds no room, 0 where there is nothing to do."""
    pieces = pieces_of(job, asked.people, asked.left)
    problem = laid_over(pieces, asked, limits, span, later, risks=False)
    starts = listed(problem)
    if NOT_YET in starts:
        return math.inf
    ends = [problem.slots.end_of(start, piece.slots) for start, piece in zip(starts, pieces, strict=True)]
    return max((end.timestamp() for end in ends), default=0.0)


def _paced(
    job: Job, common: Mapping[Work, float], longer: Mapping[Work, float] | None, chance: np.random.Generator
) -> Job:  # fmt: skip
    """The job at one pace: half of the factors lie above 1."""
    own = kind("job_rules", "spread").value("task")
    paces = {}
    for task in job.tasks:
        pace = job.paces[task.key]
        shared = math.log1p(pace.spread) * common[task.work] if longer is None else longer.get(task.work, 0.0)
        factor = math.exp(shared + own * float(chance.standard_normal()))
        paces[task.key] = replace(pace, labor=pace.labor * factor)
    return replace(job, paces=paces)

"""What is left, at the crew's own pace: time to come by sort of work, and paces to lay the job into days by."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property

import numpy as np

from pinfold.logbook.works import Work
from pinfold.sources import Standing
from pinfold.studies.days.finishing import TIMES, Paces
from pinfold.studies.days.records import Job, Pace
from pinfold.studies.forecasting.hands import Floats, Hands, factors_of
from pinfold.studies.forecasting.records import Spread
from pinfold.studies.forecasting.timed import Practice, norm_by_work
from pinfold.units import Ratio, Second, percent

DRAWS = 2000
"""How often the crew's pace is drawn."""
_LEAST = 1e-6


@dataclass(frozen=True, kw_only=True, eq=False)
class Rest:
    """What is left of a job, and how the crew goes about it.

    Attributes:
        norms: the job at the norms' times.
        left: share of each task still to be done, by key.
        hands: the crew's pace.
        practice: share of each sort of work that the hands have done; what was never timed counts as far as it is done.
    """

    norms: Job
    left: Mapping[str, Ratio]
    hands: Hands
    practice: Mapping[Work, Ratio]

    @cached_property
    def due(self) -> dict[Work, Second]:
        """The norms' time for what is left of each sort of work, as far as it is known."""
        found: dict[Work, float] = {}
        for task in self.norms.tasks:
            pace = self.norms.paces[task.key]
            if pace.is_known:
                found[task.work] = found.get(task.work, 0.0) + pace.labor * self.left.get(task.key, 1.0)
        return found

    @cached_property
    def shares(self) -> dict[Work, Ratio]:
        """Share of each sort of work that is left, by the norms' time."""
        whole = norm_by_work(self.norms)
        return {work: due / whole[work] if whole[work] > 0 else 0.0 for work, due in self.due.items()}

    def factors(self, times: int) -> dict[Work, Floats]:
        """Time over the norms' for what is left of each sort of work, as it may come."""
        drawn = self.hands.drawn(times)
        return {
            work: factors_of(drawn, work, before=self.practice.get(work, 1.0 - share), share=max(share, _LEAST))
            for work, share in self.shares.items()
        }  # fmt: skip

    @cached_property
    def times(self) -> dict[Work, Floats]:
        """Time to come of each sort of work, as it may come."""
        return {work: self.due[work] * factor for work, factor in self.factors(DRAWS).items()}

    @property
    def whole(self) -> Floats:
        """Time to come of all of it, as it may come."""
        found: Floats = np.sum([*self.times.values(), np.zeros(DRAWS)], axis=0)
        return found


def rest_of(norms: Job, left: Mapping[str, Ratio], hands: Hands, practice: Practice, now: datetime) -> Rest:
    """What is left of a job.

    Args:
        norms: the job at the norms' times
        left: share of each task still to be done
        hands: the crew's pace
        practice: of the hands
        now: when it goes on
    """
    return Rest(norms=norms, left=left, hands=hands, practice={work: practice.at(work, now) for work in practice.share})


def spread_of(values: Floats) -> Spread:
    """Of numbers as they may come."""
    low, likely, high = (float(found) for found in np.quantile(values, (0.1, 0.5, 0.9)))
    return Spread(low, likely, high)


def at_own_pace(rest: Rest) -> tuple[Job, Paces]:
    """The job at the crew's own pace for what is left, and how all of it scatters together, a time each.

    A job of which no hours were timed and nothing was carried here stays at the norms' times.
    """
    factors = rest.factors(TIMES)
    likely = {work: math.exp(float(np.mean(np.log(factor)))) for work, factor in factors.items()}
    paces = {task.key: _paced(rest, task.work, rest.norms.paces[task.key], likely) for task in rest.norms.tasks}
    scatter = [{work: float(np.log(factors[work][number] / likely[work])) for work in factors}
               for number in range(TIMES)]  # fmt: skip
    return replace(rest.norms, paces=paces), scatter


def _paced(rest: Rest, work: Work, norm: Pace, likely: Mapping[Work, float]) -> Pace:
    if work not in likely:
        return norm
    factor, count = likely[work], rest.hands.counts.get(work, 0)
    over, spread = rest.hands.over_norm(work)
    if not rest.hands.counts and over == 1.0:
        return replace(norm, labor=norm.labor * factor)
    entries = "1 entry" if count == 1 else f"{count} entries"
    own = f"by {entries} of {work.value}" if count else f"by other work or another plot, no {work.value} was timed here"
    return replace(
        norm, labor=norm.labor * factor, spread=spread, standing=Standing.LEARNED if count else norm.standing,
        told=f"your own pace, {percent(factor)} of {norm.told}, {own}",
    )  # fmt: skip

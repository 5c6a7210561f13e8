"""Planned days that are not worked: how much later a job ends when only a share of its days is kept."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, datetime, timedelta, tzinfo

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv, nbdtrik  # two functions, where scipy.stats would cost half a second

from pinfold.plan.people import People
from pinfold.studies.days.records import Kept

OFTEN = 25
"""How often the days off are drawn anew for each end."""


def with_days_off(
    ends: Sequence[float], kept: Kept, people: People, first: date, zone: tzinfo
) -> list[float]:  # fmt: skip
    """Each end as often as days off are drawn: moved past the planned days that are missed before it.

    The share that is kept scatters as it is believed; with it the days missed before so many were worked follow the
    negative binomial distribution. The same chance each time, so that ends move only with what is known.

    Args:
        ends: moments since 1970 at which the job ends where every planned day is worked; 0 or infinite as they are
        kept: share of planned days that are worked
        people: their week
        first: the first day that may be worked
        zone: clock of the place
    """
    real = [end for end in ends if math.isfinite(end) and end > 0]
    found = [end for end in ends for _ in range(OFTEN) if not (math.isfinite(end) and end > 0)]
    if not real or not people.weekdays:
        return found or list(ends)
    clocks = [datetime.fromtimestamp(end, zone) for end in real]
    days = np.array([days_of_week(first, clock.date(), people.weekdays) for clock in clocks])
    missed = _missed(days, kept)
    return found + [
        _moved(clock, int(more), people.weekdays).timestamp()
        for clock, row in zip(clocks, missed, strict=True) for more in row
    ]  # fmt: skip


def _missed(days: NDArray[np.int64], kept: Kept) -> NDArray[np.float64]:
    """(ends, draws): planned days missed before so many were worked."""
    levels = (np.arange(OFTEN) + 0.5) / OFTEN
    falls = (np.arange(OFTEN) * 7 % OFTEN + 0.5) / OFTEN  # every share with another fall of the days, spread evenly
    return days_missed(falls, np.maximum(days, 1)[:, None], betaincinv(kept.yes, kept.no, levels)[None, :])


def days_missed(
    falls: NDArray[np.float64], worked: NDArray[np.int64], share: NDArray[np.float64]
) -> NDArray[np.float64]:  # fmt: skip
    """Days missed before so many were worked: the fewest that such a part of all falls does not pass.

    Args:
        falls: parts of all, between 0 and 1
        worked: days, at least 1
        share: of the planned days that is kept, above 0
    """
    found: NDArray[np.float64] = np.where(share < 1.0, np.ceil(nbdtrik(falls, worked, share)), 0.0)
    return found


def days_of_week(first: date, last: date, weekdays: Sequence[int]) -> int:
    """Days of the week that are worked from one day to another, both counted."""
    whole, rest = divmod((last - first).days + 1, 7)
    return whole * len(weekdays) + sum((first + timedelta(days=day)).weekday() in weekdays for day in range(rest))


def _moved(clock: datetime, days: int, weekdays: Sequence[int]) -> datetime:
    """So many working days later, at the same time by the clock."""
    whole, rest = divmod(days, len(weekdays))
    later = clock + timedelta(weeks=whole)
    while rest > 0:
        later += timedelta(days=1)
        rest -= later.weekday() in weekdays
    return later

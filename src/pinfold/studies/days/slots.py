"""The time there is to work in: half hours of the working days of a place, by its own clock."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from pinfold.plan.people import HOUR, People
from pinfold.units import Second

SLOT: Second = 0.5 * HOUR
Whole = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, eq=False)
class Slots:
    """Half hours that may be worked in, one after the other, nights and days off left out.

    Attributes:
        starts: beginning of each, in UTC.
        days: for each, the number of its day among `dates`.
        dates: days worked on, by the clock of the place.
        zone: that clock.
    """

    starts: tuple[datetime, ...]
    days: Whole
    dates: tuple[date, ...]
    zone: tzinfo

    @property
    def count(self) -> int:
        """How many."""
        return len(self.starts)

    @cached_property
    def seconds(self) -> NDArray[np.float64]:
        """Beginning of each, since 1970 in UTC."""
        return np.array([start.timestamp() for start in self.starts])

    def first_from(self, moment: float) -> int:
        """The first that begins at a moment, in seconds since 1970, or later; their count where there is none."""
        return bisect_left(self._moments, moment - 1.0)

    def moment(self, slot: int) -> float:
        """Beginning of one, since 1970 in UTC."""
        return self._moments[slot]

    @cached_property
    def _moments(self) -> list[float]:
        """`seconds` for looking up one at a time."""
        listed: list[float] = self.seconds.tolist()
        return listed

    def end_of(self, slot: int, length: int = 1) -> datetime:
        """When work ends that begins in a slot and takes so many."""
        return self.starts[slot] + timedelta(seconds=length * SLOT)

    def fits(self, length: int) -> NDArray[np.bool_]:
        """In which slots work of so many may begin so that it ends on the same day, without a gap."""
        return _fitting(self, length)


@lru_cache(maxsize=512)
def _fitting(slots: Slots, length: int) -> NDArray[np.bool_]:
    last = np.arange(slots.count) + length - 1
    inside = last < slots.count
    last = np.minimum(last, slots.count - 1)
    whole = np.abs(slots.seconds[last] - slots.seconds - (length - 1) * SLOT) < 1.0
    fitting: NDArray[np.bool_] = inside & (slots.days[last] == slots.days) & whole
    return fitting


@lru_cache(maxsize=8)  # the finish asks for the same again and again
def slots_of(
    people: People, *, first: date, days: int, zone: tzinfo, now: datetime | None = None,
    opens: Callable[[date], Second] | None = None,
) -> Slots:  # fmt: skip
    """The slots of some days.

    Args:
        people: who works and when
        first: the first day, by the clock of the place
        days: how many days are looked at, days off too
        zone: that clock
        now: no slot begins before it; None for all
        opens: time after midnight at which each day begins; as the people begin where None
    """
    starts: list[datetime] = []
    dates: list[date] = []
    numbers: list[int] = []
    for number in range(days):
        day = first + timedelta(days=number)
        if day.weekday() not in people.weekdays:
            continue
        begin = people.start if opens is None else opens(day)
        found = [start for start in _of_day(begin, people.end, day, zone) if now is None or start >= now]
        if found:
            numbers += [len(dates)] * len(found)
            dates.append(day)
            starts += found
    return Slots(starts=tuple(starts), days=np.array(numbers, dtype=np.int64), dates=tuple(dates), zone=zone)


def _of_day(opens: Second, closes: Second, day: date, zone: tzinfo) -> list[datetime]:
    begin, end = moment_of(day, opens, zone), moment_of(day, closes, zone)
    count = int((end - begin).total_seconds() / SLOT + 1e-6)
    return [begin + timedelta(seconds=number * SLOT) for number in range(count)]


def moment_of(day: date, after_midnight: Second, zone: tzinfo) -> datetime:
    """A time that the clock on the wall shows on a day, in UTC; midnight after it for 24 hours."""
    whole = datetime(day.year, day.month, day.day) + timedelta(seconds=after_midnight)  # noqa: DTZ001 - zone follows
    return whole.replace(tzinfo=zone).astimezone(UTC)

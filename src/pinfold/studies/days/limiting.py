"""Where each piece may begin and what that costs, by the outlook; how long it waits for what hardens, by its warmth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.people import HOUR, People
from pinfold.studies.days.outlook import Limits, Outlook
from pinfold.studies.days.pieces import Piece
from pinfold.studies.days.problem import Problem, Ready
from pinfold.studies.days.records import Link, Task
from pinfold.studies.days.slots import SLOT, Slots, Whole
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.ripening.hours import ripe_hours
from pinfold.studies.ripening.wanting import Placing, wanted
from pinfold.studies.weather.records import Element, Hours
from pinfold.units import Second


def limits_of(tasks: Iterable[Task], outlook: Outlook | None) -> Mapping[str, Limits]:
    """Limits of every task by its key; nothing where nothing is known of the weather."""
    return {} if outlook is None else {task.key: outlook.limits_for(task) for task in tasks}


def problem_of(
    pieces: Sequence[Piece], slots: Slots, people: People, *, limits: Mapping[str, Limits], hours: Whole, waits: Ready
) -> Problem:  # fmt: skip
    """Pieces and slots as the solver takes them.

    Args:
        pieces: to be laid into the slots
        slots: there are
        people: who works
        limits: by key of the task; a task without is free
        hours: number of the hour of the limits that each slot lies in, below 0 where it lies in none
        waits: how long things harden
    """
    allowed = np.array([slots.fits(piece.slots) for piece in pieces], dtype=bool).reshape(len(pieces), slots.count)
    risk = np.zeros((len(pieces), slots.count))
    sums: dict[str, Summed] = {}
    for number, piece in enumerate(pieces):
        key = piece.task.key
        if key in limits:
            if key not in sums:
                sums[key] = summed(limits[key], hours)
            no, risk[number] = over_slots(sums[key], piece.slots)
            allowed[number] &= ~no
    return Problem(
        slots=slots, pieces=tuple(pieces), allowed=allowed, risk=risk, crew=people.count,
        day_most=int(people.count * people.hours / SLOT + 1e-6), ready=waits,
    )  # fmt: skip


@lru_cache(maxsize=8)
def hours_of(slots: Slots, outlook: Outlook | None) -> Whole:
    """Number of the hour that each slot lies in; -1 where nothing is known of it."""
    if outlook is None:
        return np.full(slots.count, -1, dtype=np.int64)
    return np.array([outlook.hour(moment) for moment in slots.seconds], dtype=np.int64)


class Summed(NamedTuple):
    """Limits of a task summed up slot by slot, one sum more than there are slots.

    Attributes:
        no: slots forbidden before each.
        risk: risk before each.
    """

    no: Hours
    risk: Hours


def summed(limits: Limits, hours: Whole) -> Summed:
    """Limits over slots that lie in some hours; past the hours nothing is forbidden and nothing at risk."""
    seen, places = hours >= 0, np.maximum(hours, 0)
    each = (seen & limits.no[places], np.where(seen, limits.risk[places], 0.0))
    return Summed(*(np.concatenate([[0.0], np.cumsum(values)]) for values in each))


def over_slots(sums: Summed, length: int) -> tuple[NDArray[np.bool_], Hours]:
    """Whether any slot of work that begins in each is forbidden, and its mean risk."""
    count = len(sums.no) - 1
    ends = np.minimum(np.arange(count) + length, count)
    forbidden: NDArray[np.bool_] = sums.no[ends] > sums.no[:-1]
    mean: Hours = (sums.risk[ends] - sums.risk[:-1]) / length
    return forbidden, mean


class Ripening:
    """How long a link waits for what was placed, by the warmth of the hours after it."""

    def __init__(
        self, outlook: Outlook, tasks: Mapping[str, Task], placings: Mapping[str, Placing], lessons: Lessons | None
    ) -> None:
        self.outlook, self.tasks, self.placings, self.lessons = outlook, tasks, placings, lessons
        self._hours: dict[tuple[str, str], Hours | None] = {}

    @cached_property
    def _known(self) -> tuple[int, int]:
        """The first run of hours with a temperature: its beginning and the end."""
        known = np.isfinite(self.outlook.weather.of(Element.TEMPERATURE))
        begin = int(known.argmax())
        missing = np.flatnonzero(~known[begin:])
        return begin, begin + int(missing[0]) if missing.size else self.outlook.count

    def __call__(self, link: Link, ends: datetime) -> Second:
        """The time by the clock or until the weak end of batches is there, the longer one.

        What is not hard when the last known hour ends is waited for until then at the least.
        """
        if not link.target:
            return link.wait
        hours = self._until(link)
        number = self.outlook.hour(ends.timestamp())
        if hours is None or not self._known[0] <= number < self._known[1]:
            return link.wait
        begin, end = self._known
        found = float(hours[number - begin])
        return max(link.wait, (found if np.isfinite(found) else end - number) * HOUR)

    def _until(self, link: Link) -> Hours | None:
        """Hours from each known one on; None where no law speaks of it."""
        key = link.key, link.target
        if key not in self._hours:
            self._hours[key] = self._reckoned(link)
        return self._hours[key]

    def _reckoned(self, link: Link) -> Hours | None:
        placing = self.placings.get(link.key)
        if placing is None or not self.outlook.weather.has(Element.TEMPERATURE):
            return None
        try:
            asked = wanted(link.target, placing, self.lessons)
        except (NotFoundError, OutOfRangeError):
            return None
        air = self.outlook.weather.of(Element.TEMPERATURE)[slice(*self._known)]
        return ripe_hours(asked, air, np.arange(len(air), dtype=float)).latest

"""Where each piece may begin and what that costs, by the outlook; how long it waits for what hardens, by its warmth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from functools import cached_property

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

_LONG: Second = 14 * 24 * HOUR
"""Hours known for so long after it was placed: what is not hard by then is truly not hard."""


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
    for number, piece in enumerate(pieces):
        if piece.task.key in limits:
            no, risk[number] = over_slots(limits[piece.task.key], hours, piece.slots)
            allowed[number] &= ~no
    return Problem(
        slots=slots, pieces=tuple(pieces), allowed=allowed, risk=risk, crew=people.count,
        day_most=int(people.count * people.hours / SLOT + 1e-6), ready=waits,
    )  # fmt: skip


def hours_of(slots: Slots, outlook: Outlook | None) -> Whole:
    """Number of the hour that each slot lies in; -1 where nothing is known of it."""
    if outlook is None:
        return np.full(slots.count, -1, dtype=np.int64)
    return np.array([outlook.hour(moment) for moment in slots.seconds], dtype=np.int64)


def over_slots(limits: Limits, hours: NDArray[np.int64], length: int) -> tuple[NDArray[np.bool_], Hours]:
    """Whether any slot of work that begins in each is forbidden, and its mean risk; past the hours nothing is."""
    seen = hours >= 0
    no = seen & limits.no[np.maximum(hours, 0)]
    risk = np.where(seen, limits.risk[np.maximum(hours, 0)], 0.0)
    ends = np.minimum(np.arange(len(hours)) + length, len(hours))
    begins = np.arange(len(hours))
    no_sum, risk_sum = (np.concatenate([[0.0], np.cumsum(each)]) for each in (no, risk))
    mean: Hours = (risk_sum[ends] - risk_sum[begins]) / length
    forbidden: NDArray[np.bool_] = no_sum[ends] - no_sum[begins] > 0
    return forbidden, mean


class Ripening:
    """How long a link waits for what was placed, by the warmth of the hours after it."""

    def __init__(
        self, outlook: Outlook, tasks: Mapping[str, Task], placings: Mapping[str, Placing], lessons: Lessons | None
    ) -> None:
        self.outlook, self.tasks, self.placings, self.lessons = outlook, tasks, placings, lessons
        self._hours: dict[tuple[str, str], Hours | None] = {}

    @cached_property
    def _known(self) -> int:
        """Hours from the first on with a temperature."""
        missing = np.flatnonzero(~np.isfinite(self.outlook.weather.of(Element.TEMPERATURE)))
        return int(missing[0]) if missing.size else self.outlook.count

    def __call__(self, link: Link, ends: datetime) -> Second:
        """The time by the clock or until the weak end of batches is there, the longer one."""
        if not link.target:
            return link.wait
        hours = self._until(link)
        number = self.outlook.hour(ends.timestamp())
        if hours is None or number < 0:
            return link.wait
        found = float(hours[min(number, len(hours) - 1)])
        if np.isfinite(found):
            return max(link.wait, found * HOUR)
        left = (self._known - number) * HOUR
        return max(link.wait, left) if left > _LONG else link.wait

    def _until(self, link: Link) -> Hours | None:
        """Hours from each one on; None where no law speaks of it."""
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
        air = self.outlook.weather.of(Element.TEMPERATURE)
        return ripe_hours(asked, air, np.arange(len(air), dtype=float)).latest

"""Where each piece may begin and what that costs, by the outlook; how long it waits for what hardens, by its warmth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
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
    """Limits of every task by its key, one and the same for tasks that are bound alike; nothing without weather."""
    if outlook is None:
        return {}
    found: dict[str, Limits] = {}
    alike: dict[bytes, Limits] = {}
    for task in tasks:
        if task.key not in found:
            limits = outlook.limits_for(task)
            found[task.key] = alike.setdefault(b"".join(each.tobytes() for each in limits), limits)
    return found


def problem_of(
    pieces: Sequence[Piece], slots: Slots, people: People, *, limits: Mapping[str, Limits], hours: Whole,
    waits: Ready, risks: bool = True,
) -> Problem:  # fmt: skip
    """Pieces and slots as the solver takes them.

    Args:
        pieces: to be laid into the slots
        slots: there are
        people: who works
        limits: by key of the task; a task without is free
        hours: number of the hour of the limits that each slot lies in, below 0 where it lies in none
        waits: how long things harden
        risks: whether it counts what a beginning risks
    """
    allowed = np.empty((len(pieces), slots.count), dtype=bool)
    risk = np.zeros((len(pieces), slots.count))
    over = _Over(slots, hours)
    for number, piece in enumerate(pieces):
        if (bound := limits.get(piece.task.key)) is None:
            allowed[number] = slots.fits(piece.slots)
            continue
        allowed[number] = over.allowed(bound, piece.slots)
        if risks:
            risk[number] = over.risk(bound, piece.slots)
    return Problem(
        slots=slots, pieces=tuple(pieces), allowed=allowed, risk=risk, crew=people.count,
        day_most=int(people.count * people.hours / SLOT + 1e-6), ready=waits,
    )  # fmt: skip


class _Over:
    """Limits over slots; many pieces are bound alike and take alike long, so each answer is found once."""

    def __init__(self, slots: Slots, hours: Whole) -> None:
        self._slots, self._hours = slots, hours
        self._sums: dict[int, Summed] = {}
        self._allowed: dict[tuple[int, int], NDArray[np.bool_]] = {}

    def allowed(self, limits: Limits, length: int) -> NDArray[np.bool_]:
        """Slots in which work of so many may begin."""
        key = id(limits), length
        if key not in self._allowed:
            self._allowed[key] = self._slots.fits(length) & ~forbidden(self._summed(limits), length)
        return self._allowed[key]

    def risk(self, limits: Limits, length: int) -> Hours:
        """Its mean risk by the slot it begins in."""
        return mean_risk(self._summed(limits), length)

    def _summed(self, limits: Limits) -> Summed:
        if id(limits) not in self._sums:
            self._sums[id(limits)] = summed(limits, self._hours)
        return self._sums[id(limits)]


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


def forbidden(sums: Summed, length: int) -> NDArray[np.bool_]:
    """Whether any slot of work that begins in each is forbidden."""
    found: NDArray[np.bool_] = sums.no[_ends(sums, length)] > sums.no[:-1]
    return found


def mean_risk(sums: Summed, length: int) -> Hours:
    """Mean risk of work that begins in each slot."""
    found: Hours = (sums.risk[_ends(sums, length)] - sums.risk[:-1]) / length
    return found


def _ends(sums: Summed, length: int) -> Whole:
    count = len(sums.no) - 1
    return np.minimum(np.arange(count) + length, count)


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

    def __call__(self, link: Link, ends: float) -> Second:
        """The time by the clock or until the weak end of batches is there, the longer one.

        What is not hard when the last known hour ends is waited for until then at the least.
        """
        if not link.target:
            return link.wait
        hours = self._until(link)
        number = self.outlook.hour(ends)
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

"""The job laid into days: the coming ones by the solver, hour by hour; those after by the quick schedule."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta, tzinfo
from functools import cached_property
from typing import NamedTuple

import numpy as np

from pinfold.plan.people import People
from pinfold.studies.days.limiting import Ripening, hours_of, limits_of, problem_of
from pinfold.studies.days.listing import listed
from pinfold.studies.days.opening import Opens, opening
from pinfold.studies.days.outlook import Limits, Outlook
from pinfold.studies.days.pieces import Piece, pieces_of
from pinfold.studies.days.problem import NOT_YET, Problem, Starts, by_the_clock
from pinfold.studies.days.records import Job
from pinfold.studies.days.slots import Slots, slots_of
from pinfold.studies.days.solving import Solved, solved
from pinfold.units import Ratio, Second

AHEAD = 7
"""Days that the solver lays out hour by hour."""
_ROOM = 1.5
"""What begins so many times further ahead by the quick schedule may come into the solver's days."""
_MOST = 24
"""Pieces that the solver takes at once; more do not come out in time (measured)."""
_HORIZON, _LONGEST = 180, 1100
"""Days looked at first, and at most."""
Tell = Callable[[int, int], None]
"""Told how much of the work of laying out is done, of how much."""


class Placed(NamedTuple):
    """A piece in its place in time.

    Attributes:
        piece: of work.
        start: when it begins, in UTC.
        end: when it ends.
        slot: it begins in.
        foreseen: whether it lies in the days the solver looked at; those after are estimated.
    """

    piece: Piece
    start: datetime
    end: datetime
    slot: int
    foreseen: bool


@dataclass(frozen=True, kw_only=True, eq=False)
class Asked:
    """What a schedule is asked for with.

    Attributes:
        people: who works.
        now: no work begins before it, with its offset.
        zone: clock of the place.
        left: share of each task still to be done, by key; what is not named is all to be done.
        done: when what is done was done, by key of the task.
        outlook: weather and sun; None where nothing is known.
        ripening: how long things harden; None for the times of the table.
        time: for the solver to look for a better one.
    """

    people: People
    now: datetime
    zone: tzinfo
    left: Mapping[str, Ratio] = field(default_factory=dict)
    done: Mapping[str, datetime] = field(default_factory=dict)
    outlook: Outlook | None = None
    ripening: Ripening | None = None
    time: Second = 3.0

    @property
    def first(self) -> date:
        """The first day."""
        return self.now.astimezone(self.zone).date()

    @cached_property
    def opens(self) -> Opens:
        """When each day's work may begin."""
        return opening(self.people, self.outlook, self.zone)


@dataclass(frozen=True, kw_only=True, eq=False)
class Schedule:
    """The job in days.

    Attributes:
        placed: pieces in the order they begin.
        unplaced: what found no room in the days looked at.
        problem: what was solved.
        gap: by what share a better schedule of the coming days could cost less at most.
        proven: whether none is better by more than a half of a hundredth.
        until: last of the days that the solver looked at.
        unknown: keys of tasks whose time is not known: they are laid in as if they took a moment.
    """

    placed: tuple[Placed, ...]
    unplaced: tuple[Piece, ...]
    problem: Problem
    gap: Ratio
    proven: bool
    until: date
    unknown: tuple[str, ...] = ()

    @property
    def finish(self) -> datetime | None:
        """When all of it is done; None where something found no room."""
        if self.unplaced:
            return None
        return max((placed.end for placed in self.placed), default=None)

    def on(self, day: date, zone: tzinfo) -> tuple[Placed, ...]:
        """What is done on a day, by the clock of the place."""
        return tuple(placed for placed in self.placed if placed.start.astimezone(zone).date() == day)


def scheduled(job: Job, asked: Asked) -> Schedule | None:
    """The whole job laid into days; None where nobody works.

    Args:
        job: tasks and paces
        asked: who, from when, what is left, in which weather
    """
    if asked.people.count == 0 or not asked.people.weekdays:
        return None
    pieces = pieces_of(job, asked.people, asked.left)
    limits = limits_of((piece.task for piece in pieces), asked.outlook)
    problem, quick = _whole(pieces, asked, limits)
    until = asked.first + timedelta(days=AHEAD)
    slots = int(np.searchsorted(problem.slots.days, sum(day < until for day in problem.slots.dates)))
    best, starts = _near(problem, quick, slots, asked.time)
    whole = _rest(problem, starts, slots)
    return _schedule(problem, whole, slots, best=best, until=until - timedelta(days=1), job=job)


def _whole(pieces: tuple[Piece, ...], asked: Asked, limits: Mapping[str, Limits]) -> tuple[Problem, Starts]:
    """The quick schedule over as many days as it takes."""
    days = _HORIZON
    while True:
        problem = laid_over(pieces, asked, limits, days)
        quick = listed(problem)
        if NOT_YET not in quick or days >= _LONGEST:
            return problem, quick
        days = min(days * 2, _LONGEST)


def laid_over(
    pieces: tuple[Piece, ...], asked: Asked, limits: Mapping[str, Limits], days: int, later: int = 0,
    *, risks: bool = True,
) -> Problem:  # fmt: skip
    """Pieces over so many days, with all that binds them.

    Args:
        pieces: of what is left
        asked: for the schedule
        limits: of each task, by key
        days: to lay them over
        later: days by which the hours that are not of these very days come sooner than they stand
        risks: whether it counts what a beginning risks
    """
    slots = slots_of(
        asked.people, first=asked.first, days=days, zone=asked.zone, now=asked.now, opens=asked.opens
    )  # fmt: skip
    hours = hours_of(slots, asked.outlook)
    if later and asked.outlook is not None:
        known = int(np.flatnonzero(asked.outlook.foreseen).max(initial=-1)) + 1
        moved = np.clip(hours + 24 * later, known, asked.outlook.count - 1)
        hours = np.where(hours >= known, moved, hours)
    waits = asked.ripening or by_the_clock
    problem = problem_of(pieces, slots, asked.people, limits=limits, hours=hours, waits=waits, risks=risks)
    return replace(problem, allowed=problem.allowed & _after_done(pieces, slots, asked)) if asked.done else problem


def _after_done(pieces: tuple[Piece, ...], slots: Slots, asked: Asked) -> np.ndarray:
    """(pieces, slots) whether what was done before has hardened."""
    ready = asked.ripening or by_the_clock
    free = np.zeros((len(pieces), 1))
    for number, piece in enumerate(pieces):
        for link in piece.task.after:
            if link.key in asked.done:
                ends = asked.done[link.key].timestamp()
                free[number] = max(free[number, 0], ends + ready(link, ends))
    found: np.ndarray = slots.seconds[None, :] >= free - 1.0
    return found


def _near(problem: Problem, quick: Starts, slots: int, time: Second) -> tuple[Solved, dict[int, int]]:
    """The best that is found for the first slots, and what begins in them."""
    soon = sorted((start, number) for number, start in enumerate(quick) if 0 <= start < slots * _ROOM)
    chosen = sorted(number for _, number in soon[: max(_MOST, sum(start < slots for start, _ in soon))])
    part = _part(problem, chosen, slots)
    best = solved(part, time=time)
    return best, {number: start for number, start in zip(chosen, best.starts, strict=True) if start != NOT_YET}


def _part(problem: Problem, chosen: list[int], slots: int) -> Problem:
    """Some pieces in the first slots; what they wait for is among them."""
    places = {number: place for place, number in enumerate(chosen)}
    pieces = tuple(
        problem.pieces[number]._replace(
            after=tuple(wait._replace(piece=places[wait.piece]) for wait in problem.pieces[number].after)
        )
        for number in chosen
    )
    first = _first(problem.slots, slots)
    rows = problem.allowed[chosen, :slots] if chosen else np.zeros((0, slots), dtype=bool)
    risk = problem.risk[chosen, :slots] if chosen else np.zeros((0, slots))
    return replace(problem, slots=first, pieces=pieces, allowed=rows, risk=risk)


def _first(slots: Slots, count: int) -> Slots:
    days = slots.days[:count]
    return Slots(
        starts=slots.starts[:count], days=days, dates=slots.dates[: int(days.max(initial=-1)) + 1], zone=slots.zone
    )


def _rest(problem: Problem, begun: Mapping[int, int], slots: int) -> Starts:
    """The quick schedule of what does not begin in the first slots, around what does."""
    allowed = problem.allowed.copy()
    allowed[:, :slots] = False
    for number, start in begun.items():
        allowed[number] = False
        allowed[number, start] = True
    return listed(replace(problem, allowed=allowed))


def _schedule(
    problem: Problem, starts: Starts, slots: int, *, best: Solved, until: date, job: Job
) -> Schedule:  # fmt: skip
    placed = [
        Placed(
            piece, problem.slots.starts[start], problem.slots.end_of(start, piece.slots), start, foreseen=start < slots
        )
        for piece, start in zip(problem.pieces, starts, strict=True)
        if start != NOT_YET
    ]
    placed.sort(key=lambda each: (each.start, each.piece.name))
    return Schedule(
        placed=tuple(placed),
        unplaced=tuple(piece for piece, start in zip(problem.pieces, starts, strict=True) if start == NOT_YET),
        problem=problem, gap=best.gap, proven=best.proven, until=until,
        unknown=tuple(key for key, pace in job.paces.items() if not pace.is_known),
    )  # fmt: skip

"""Tasks cut into pieces that fit into a day, for whoever lays them into the days."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from pinfold.logbook.works import Work
from pinfold.plan.people import People
from pinfold.studies.days.durations import working_time
from pinfold.studies.days.records import IN_ONE_GO, Job, Link, Task
from pinfold.studies.days.slots import SLOT
from pinfold.units import Ratio, Second

_HALF_DAY = 0.5
_SMALL: frozenset[Work] = frozenset({Work.DIG, Work.BLOCKS, Work.BACKFILL})
"""May be left and taken up again at any place: cut smaller, so that it fills what is left of a day."""


class Wait(NamedTuple):
    """What a piece waits for among other pieces.

    Attributes:
        piece: number of the other one.
        link: with its time and reason.
    """

    piece: int
    link: Link


class Piece(NamedTuple):
    """A task, or a part of it, done in one go.

    Attributes:
        task: that it is of.
        part: from 1; 0 where it is the whole task.
        parts: how many there are of that task.
        slots: how many slots it takes.
        people: how many are at it.
        labor: time of all people together.
        after: what it waits for.
        tail: time from its end to the end of all that waits for it, with nothing in the way.
        share: of the task that it is.
    """

    task: Task
    part: int
    parts: int
    slots: int
    people: int
    labor: Second
    after: tuple[Wait, ...]
    tail: Second
    share: Ratio

    @property
    def name(self) -> str:
        """Key of the task, with the part where there are several."""
        return f"{self.task.key} #{self.part}" if self.part else self.task.key


def pieces_of(job: Job, people: People, left: Mapping[str, Ratio]) -> tuple[Piece, ...]:
    """Pieces of what is left, in an order in which each comes after what it waits for.

    Args:
        job: tasks and paces
        people: who builds; at least one
        left: share of each task that is still to be done, by its key; what is not named is all to be done
    """
    assert people.count > 0, "somebody works"
    found: list[Piece] = []
    last: dict[str, int] = {}
    for task in job.tasks:
        share = left.get(task.key, 1.0)
        if share <= 0:
            continue
        pace = job.paces[task.key]
        time = working_time(pace, people.count) * share if pace.is_known else 0.0
        parts = _parts(task, time, people)
        waits = tuple(Wait(last[link.key], link) for link in task.after if link.key in last)
        for part in range(1, parts + 1):
            found.append(Piece(
                task=task, part=part if parts > 1 else 0, parts=parts, slots=max(round(time / parts / SLOT), 1),
                people=min(people.count, pace.most), labor=pace.labor * share / parts if pace.is_known else math.nan,
                after=waits, tail=0.0, share=share / parts,
            ))  # fmt: skip
            last[task.key] = len(found) - 1
            waits = (Wait(len(found) - 1, Link(task.key)),)
    return _with_tails(found)


def _parts(task: Task, time: Second, people: People) -> int:
    """A coat or a pour takes up to a day in one go; what may be left at any place half a day."""
    day = min(people.hours, people.end - people.start)
    if task.work in _SMALL:
        most = day * _HALF_DAY
    elif task.work in IN_ONE_GO or time <= day:
        most = day
    else:
        most = day * _HALF_DAY
    most = max(math.floor(most / SLOT + 1e-6), 1) * SLOT
    return max(math.ceil(time / (most + 0.5 * SLOT) - 1e-6), 1)


def _with_tails(pieces: list[Piece]) -> tuple[Piece, ...]:
    tails = [0.0] * len(pieces)
    for number in range(len(pieces) - 1, -1, -1):
        behind = tails[number] + pieces[number].slots * SLOT
        for wait in pieces[number].after:
            tails[wait.piece] = max(tails[wait.piece], wait.link.wait + behind)
    return tuple(piece._replace(tail=tail) for piece, tail in zip(pieces, tails, strict=True))

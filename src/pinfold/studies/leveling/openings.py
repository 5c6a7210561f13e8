"""Doors: how a sill that no longer lies as the whole does racks a frame, and what that does to diagonals and gaps."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pinfold.findings import Step, work
from pinfold.formulas import leveling as formulas
from pinfold.plan.supports import DoorOpening
from pinfold.studies.leveling.lying import Lie
from pinfold.units import Meter, Radian

_BESIDE: Meter = 0.6
"""So far off the wall of a door a support still carries that wall."""


@dataclass(frozen=True, kw_only=True)
class RackedDoor:
    """What the lie of the supports does to one door.

    Attributes:
        name: of it.
        racking: angle by which its frame is out of square.
        diagonals: longer less shorter one.
        longer: from which jamb's foot the longer diagonal rises: start or end.
        closed: how much of the gap goes at one corner.
        left: of the gap there; below zero where the leaf binds.
        by: marks of the supports under its wall.
        steps: lines of working.
    """

    name: str
    racking: Radian
    diagonals: Meter
    longer: str
    closed: Meter
    left: Meter
    by: tuple[str, ...]
    steps: tuple[Step, ...]


def racked(door: DoorOpening, lie: Lie) -> RackedDoor | None:
    """What parts the sill, which bends with the supports under its wall, from the jambs, which lean as the whole does.

    None where no two supports under its wall reach past its middle on both sides: then nothing is shown.
    """
    found = _sill_slope(door, lie)
    if found is None:
        return None
    sill, by = found
    angle = sill - _plane_slope(door, lie)
    width = math.dist(door.start, door.end)
    out = work(
        formulas.diagonal_difference, why=f"diagonals of {door.name}", width=width, height=door.height,
        racking=abs(angle),
    )  # fmt: skip
    gap = work(formulas.gap_closed, why="where the leaf stays square", width=width, racking=abs(angle))
    return RackedDoor(
        name=door.name, racking=abs(angle), diagonals=out.number, longer="start" if angle > 0 else "end",
        closed=gap.number, left=door.gap - gap.number, by=by, steps=(out, gap),
    )  # fmt: skip


def _plane_slope(door: DoorOpening, lie: Lie) -> float:
    return (lie.plane_at(*door.end) - lie.plane_at(*door.start)) / math.dist(door.start, door.end)


def _sill_slope(door: DoorOpening, lie: Lie) -> tuple[float, tuple[str, ...]] | None:
    """Rise of the sill from start to end for each length, by straight lines between the supports under its wall."""
    width = math.dist(door.start, door.end)
    ux, uy = (door.end[0] - door.start[0]) / width, (door.end[1] - door.start[1]) / width
    under = []
    for each in lie.supports:
        dx, dy = each.x - door.start[0], each.y - door.start[1]
        if abs(ux * dy - uy * dx) <= _BESIDE:
            under.append((ux * dx + uy * dy, each.height, each.mark))
    under.sort()
    if len(under) < 2 or under[0][0] > 0.5 * width or under[-1][0] < 0.5 * width:
        return None
    places, heights = [place for place, _, _ in under], [height for _, height, _ in under]
    ends = np.interp([0.0, width], places, heights)
    reach = min(width, places[-1]) - max(0.0, places[0])
    return float(ends[1] - ends[0]) / reach, tuple(mark for _, _, mark in under)

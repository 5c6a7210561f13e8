"""The plot in plan: corners, sides and their runs, gates' openings, neighbors, buried lines, surveyed ground."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.plan.grounds import Blocks
from pinfold.units import Meter

Point = tuple[Meter, Meter]


class Follow(StrEnum):
    """How a run follows sloping ground."""

    STEP = "step"  # level lengths, stepped by whole courses
    RAKE = "rake"  # top parallel to the ground


@dataclass(frozen=True, kw_only=True)
class Corner:
    """A corner of the plot, on the center line of the wall."""

    name: str
    at: Point


class Run(NamedTuple):
    """A stretch of a side built alike, or stood for by a neighbor.

    Attributes:
        name: `side/number`, counted from 1.
        start: where it starts, measured along the side from its first corner.
        end: where it ends.
        buildup: name of its build-up; None where a neighbor stands for it.
        neighbor: name of the neighbor that stands for it; None where it is built.
    """

    name: str
    start: Meter
    end: Meter
    buildup: str | None
    neighbor: str | None


@dataclass(frozen=True, kw_only=True)
class Side:
    """From one corner to the next; seen from outside, the first is on the left when the plot lies left of the way.

    Attributes:
        name: the builder's word for it.
        start: name of its first corner.
        end: name of its last corner.
        follow: how its runs follow the ground.
        runs: in order from the first corner, without gaps.
    """

    name: str
    start: str
    end: str
    follow: Follow
    runs: tuple[Run, ...]


@dataclass(frozen=True, kw_only=True)
class Neighbor:
    """An existing structure that stands for part of a side, shades it, or is leveled beside it.

    Attributes:
        name: the builder's word for it.
        says: a line about it.
        height: above the ground.
        footprint: its outline in plan.
        blocks: what it stands on, where it stands on blocks; None where it is founded.
    """

    name: str
    says: str
    height: Meter
    footprint: tuple[Point, ...]
    blocks: Blocks | None = None


@dataclass(frozen=True, kw_only=True)
class BuriedLine:
    """A buried pipe or cable.

    Attributes:
        name: the builder's word for it.
        carries: water, power, gas, signal or drain.
        depth: from the ground down to its middle.
        clearance: distance to keep from it in every direction.
        located: whether it was found on the ground (dug, traced or marked), not only remembered.
        path: its run in plan.
    """

    name: str
    carries: str
    depth: Meter
    clearance: Meter
    located: bool
    path: tuple[Point, ...]


class SurveyPoint(NamedTuple):
    """One surveyed height of the ground."""

    x: Meter
    y: Meter
    z: Meter

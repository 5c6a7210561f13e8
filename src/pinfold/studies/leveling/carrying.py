"""What each support carries, and what a jack beside it lifts, under a structure whose own stiffness nobody knows.

Two ways bound it: a stiff body on alike supports, and a limp one of which each support carries what lies nearest. While
a jack lifts, its two nearest neighbors may hang free: then the limp share is taken as if they were not there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import jacking
from pinfold.geometry.outlines import contains
from pinfold.plan.supports import Support
from pinfold.studies.leveling.solving import Numbers
from pinfold.units import Meter, Newton

_GRID = 40
"""Cells along each side of the box around a footprint, whose middles share out its load."""
_UNLOADED = 2


@dataclass(frozen=True, kw_only=True)
class Carried:
    """Load of one support.

    Attributes:
        mark: of it.
        stiff: share under a stiff body; below zero where it would lift off.
        limp: share of what lies nearest.
        standing: the larger of both.
        jacking: what a jack beside it may have to lift.
        step: the line of working.
    """

    mark: str
    stiff: Newton
    limp: Newton
    standing: Newton
    jacking: Newton
    step: Step


def carried(
    supports: Sequence[Support], footprint: Sequence[tuple[Meter, Meter]], *, load: Newton
) -> tuple[Carried, ...]:  # fmt: skip
    """Loads of all supports, of a load spread evenly over the footprint.

    Raises:
        OutOfRangeError: fewer than three supports, or they stand in a line.
    """
    places = np.array([support.at for support in supports]).reshape(-1, 2)
    if len(places) < 3:
        raise OutOfRangeError(f"{len(places)} supports carry nothing steadily; at least three are wanted")
    spots = _spots(footprint)
    steps = _stiff(places, spots.mean(axis=0), load)
    limp = _nearest(places, spots) * load
    found = []
    for number, (support, step) in enumerate(zip(supports, steps, strict=True)):
        standing = max(step.number, float(limp[number]))
        found.append(Carried(
            mark=support.mark, stiff=step.number, limp=float(limp[number]), standing=standing, step=step,
            jacking=max(standing, _alone(places, spots, number) * load),
        ))  # fmt: skip
    return tuple(found)


def _spots(footprint: Sequence[tuple[Meter, Meter]]) -> Numbers:
    """Middles of the cells inside a footprint."""
    low, high = np.min(footprint, axis=0), np.max(footprint, axis=0)
    cells = [low + (np.array([i, j]) + 0.5) / _GRID * (high - low) for i in range(_GRID) for j in range(_GRID)]
    outline = tuple(footprint)
    return np.array([cell for cell in cells if contains(outline, (float(cell[0]), float(cell[1])))])


def _stiff(places: Numbers, load_at: Numbers, load: Newton) -> list[Step]:
    out = places - places.mean(axis=0)
    _, ways = np.linalg.eigh(out.T @ out)
    along, off = out @ ways, (load_at - places.mean(axis=0)) @ ways
    sums = np.sum(along**2, axis=0)
    return [
        work(
            jacking.stiff_share, why="stiff body on alike supports", load=load, count=float(len(places)),
            off_x=round(float(off[0]), 6), off_y=round(float(off[1]), 6), out_x=float(x), out_y=float(y),
            sum_x2=float(sums[0]), sum_y2=float(sums[1]),
        )
        for x, y in along
    ]  # fmt: skip


def _nearest(places: Numbers, spots: Numbers) -> Numbers:
    """Share of the spots that lies nearest to each place."""
    far = np.linalg.norm(spots[:, None, :] - places[None, :, :], axis=2)
    ties = far <= far.min(axis=1, keepdims=True) + 1e-9
    return np.asarray((ties / ties.sum(axis=1, keepdims=True)).mean(axis=0))


def _alone(places: Numbers, spots: Numbers, number: int) -> float:
    """Share of one place while its nearest neighbors carry nothing."""
    order = np.argsort(np.linalg.norm(places - places[number], axis=1), kind="stable")
    gone = set(order[1 : 1 + _UNLOADED].tolist()) if len(places) > _UNLOADED + 1 else set()
    kept = [place for place in range(len(places)) if place not in gone]
    return float(_nearest(places[kept], spots)[kept.index(number)])

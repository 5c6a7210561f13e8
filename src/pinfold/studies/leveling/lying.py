"""How a structure lies: the plane that fits its supports best, how far each stands off it, how it is twisted."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import leveling as formulas
from pinfold.plan.supports import Support
from pinfold.studies.leveling.solving import Numbers, solved
from pinfold.units import Meter, Radian, Ratio

_IN_LINE: Meter = 0.10
"""How far supports are to stand off one line before a plane through them tells anything."""
_LEVEL: Ratio = 1e-6
_FAR: Meter = 0.04
_SINGLE = 0.05


@dataclass(frozen=True, kw_only=True)
class Standing:
    """One support as it stands.

    Attributes:
        mark: of it.
        x: place in plan.
        y: likewise.
        height: over the datum.
        spread: standard deviation of it.
        off: height over the best plane.
        low: how far it stands below the highest support.
    """

    mark: str
    x: Meter
    y: Meter
    height: Meter
    spread: Meter
    off: Meter
    low: Meter


@dataclass(frozen=True, kw_only=True)
class Fall:
    """How much the plane falls along one side of the structure.

    Attributes:
        along: direction of the side in plan, as x and y of a step of length 1, to where it falls.
        length: of the structure that way.
        fall: over that length.
    """

    along: tuple[float, float]
    length: Meter
    fall: Meter


@dataclass(frozen=True, kw_only=True)
class Lie:
    """How a structure lies.

    Attributes:
        supports: in the order of the plan.
        slope_x: rise of the best plane for each length along x.
        slope_y: likewise along y.
        slope_spread: standard deviation of the steepest fall.
        steepest: fall for each length in the steepest direction.
        toward: compass direction it falls to; None where it is level.
        falls: along its long and its short side.
        range: highest less lowest support.
        twist: how far one corner of its box stands off the plane of the other three; None where nothing tells.
        twist_spread: standard deviation of it.
        middle: of the supports, in plan.
        missing: supports without a height.
        steps: lines of working.
    """

    supports: tuple[Standing, ...]
    slope_x: Ratio
    slope_y: Ratio
    slope_spread: Ratio
    steepest: Ratio
    toward: Radian | None
    falls: tuple[Fall, ...]
    range: Meter
    twist: Meter | None
    twist_spread: Meter | None
    middle: tuple[Meter, Meter]
    missing: tuple[str, ...]
    steps: tuple[Step, ...]

    def plane_at(self, x: Meter, y: Meter) -> Meter:
        """Height of the best plane at a place, over its own height in the middle of the supports."""
        return self.slope_x * (x - self.middle[0]) + self.slope_y * (y - self.middle[1])


def long_side(footprint: Sequence[tuple[Meter, Meter]]) -> tuple[float, float]:
    """Direction of the longest edge of a footprint, of length 1."""
    ends = zip(footprint, (*footprint[1:], footprint[0]), strict=True)
    (x, y), (far_x, far_y) = max(ends, key=lambda edge: math.dist(*edge))
    length = math.dist((x, y), (far_x, far_y))
    return (far_x - x) / length, (far_y - y) / length


def standing_out(lie: Lie) -> tuple[tuple[str, Meter], ...]:
    """Supports far off the plane of all others, and by how much: each is worth a second reading before it is moved."""
    if len(lie.supports) < 5:
        return ()
    places = np.array([(each.x, each.y) for each in lie.supports]) - np.array(lie.middle)
    design = np.column_stack([np.ones(len(places)), places])
    shares = 1 - np.diag(design @ np.linalg.pinv(design))
    off = [each.off / share if share > _SINGLE else 0.0 for each, share in zip(lie.supports, shares, strict=True)]
    limits = [max(_FAR, 5 * each.spread) for each in lie.supports]
    worst = max(range(len(off)), key=lambda place: abs(off[place]) / limits[place])
    return ((lie.supports[worst].mark, float(off[worst])),) if abs(off[worst]) > limits[worst] else ()


def lie_of(
    supports: Sequence[Support], heights: Mapping[str, tuple[Meter, Meter]], *, axis: tuple[float, float], north: Radian
) -> Lie:  # fmt: skip
    """The best plane through the supports that have a height, each counted alike, and what is left of it.

    Args:
        supports: of the plan
        heights: height and its spread by mark
        axis: direction of the long side in plan, of length 1
        north: of true north, clockwise of y

    Raises:
        OutOfRangeError: fewer than three supports have a height, or they stand in a line.
    """
    known = [support for support in supports if support.mark in heights]
    places = np.array([support.at for support in known]).reshape(-1, 2)
    _spread_out(known, places, of=len(supports))
    middle = places.mean(axis=0)
    z = np.array([heights[support.mark][0] for support in known])
    spreads = np.array([max(heights[support.mark][1], 1e-4) for support in known])
    out = places - middle
    plane = solved(np.column_stack([np.ones(len(z)), out]), z, np.full(len(z), float(np.median(spreads))))
    slope_x, slope_y = float(plane.numbers[1]), float(plane.numbers[2])
    steep = work(formulas.steepest_fall, why="of the best plane", slope_x=slope_x, slope_y=slope_y)
    level = steep.number < _LEVEL
    toward = None if level else work(
        formulas.fall_azimuth, why="where it falls to", slope_x=slope_x, slope_y=slope_y, north=north
    )  # fmt: skip
    twist, spread, steps = _twist(out, z, spreads, axis)
    return Lie(
        supports=tuple(
            Standing(mark=support.mark, x=support.at[0], y=support.at[1], height=float(height), spread=float(own),
                     off=float(off), low=float(z.max() - height))
            for support, height, own, off in zip(known, z, spreads, plane.residuals, strict=True)
        ),
        slope_x=slope_x, slope_y=slope_y, slope_spread=float(np.sqrt(plane.covariance[1:, 1:].trace() / 2)),
        steepest=steep.number, toward=None if toward is None else toward.number, falls=_falls(out, plane.numbers, axis),
        range=float(np.ptp(z)), twist=twist, twist_spread=spread, middle=(float(middle[0]), float(middle[1])),
        missing=tuple(support.mark for support in supports if support.mark not in heights),
        steps=(steep, *((toward,) if toward is not None else ()), *steps),
    )  # fmt: skip


def _spread_out(known: Sequence[Support], places: Numbers, *, of: int) -> None:
    if len(known) < 3:
        raise OutOfRangeError(
            f"{len(known)} of {of} supports have a height; at least three that stand in no line are wanted: "
            "give their places as [[neighbor.blocks.support]] and read each of them"
        )
    off_line = float(np.linalg.svd(places - places.mean(axis=0), compute_uv=False)[-1])
    if off_line < _IN_LINE:
        marks = ", ".join(support.mark for support in known)
        raise OutOfRangeError(
            f"{marks} stand in one line, so that nothing tells how it lies across it: "
            "read a support in a second row too"
        )


def _falls(out: Numbers, plane: Numbers, axis: tuple[float, float]) -> tuple[Fall, ...]:
    found = []
    for way in (axis, (-axis[1], axis[0])):
        length = float(np.ptp(out @ np.array(way)))
        rise = float(plane[1] * way[0] + plane[2] * way[1]) * length
        sign = -1.0 if rise > 0 else 1.0
        found.append(Fall(along=(sign * way[0], sign * way[1]), length=length, fall=abs(rise)))
    return tuple(found)


def _twist(
    out: Numbers, z: Numbers, spreads: Numbers, axis: tuple[float, float]
) -> tuple[Meter | None, Meter | None, tuple[Step, ...]]:  # fmt: skip
    """Warp of the surface a + b u + c v + d u v, as the corners of the box of supports show it."""
    ways = np.array([axis, (-axis[1], axis[0])])
    along = out @ ways.T
    half = np.ptp(along, axis=0) / 2
    u, v = ((along - (along.max(axis=0) + along.min(axis=0)) / 2) / half).T
    design = np.column_stack([np.ones(len(z)), u, v, u * v])
    if len(z) < 4 or np.linalg.matrix_rank(design, tol=1e-3) < 4:
        return None, None, ()
    found = solved(design, z, np.full(len(z), float(np.median(spreads))))
    corners = [float(found.numbers @ np.array([1.0, a, b, a * b])) for a, b in ((1, 1), (1, -1), (-1, -1), (-1, 1))]
    step = work(
        formulas.corner_out_of_plane, why="corners of the warped surface through all supports", corner=corners[0],
        beside=corners[1], across=corners[2], other=corners[3],
    )  # fmt: skip
    return step.number, 4 * math.sqrt(float(found.covariance[3, 3])), (step,)

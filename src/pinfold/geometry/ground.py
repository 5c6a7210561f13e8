"""Heights on surveyed ground: at a point, along a segment or path, and how steep it is.

Inside the triangles the height is interpolated on their planes. Outside it is the height of the nearest place on the
rim, and every answer says that it lies outside. With one point the ground is level; with two, or more on one line, it
slopes along that line between the points, is the same straight across it, and level beyond its ends.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from pinfold.geometry.intervals import Interval, merged
from pinfold.geometry.profiles import Profile, joined, leaned
from pinfold.geometry.segments import (
    SAME_PLACE,
    Path,
    Point,
    Segment,
    between,
    checked_path,
    direction,
)
from pinfold.geometry.triangulation import Corners, Ground, SpotHeight, Surface, surface
from pinfold.units import Meter, Ratio

_EDGE = 1e-9


class Height(NamedTuple):
    """The height of the ground at a place.

    Attributes:
        z: in meters, from the survey's zero.
        inside: whether the place is within the surveyed triangles (or on the line or point surveyed); if not, z is
            that of the nearest surveyed place.
    """

    z: Meter
    inside: bool


@dataclass(frozen=True, kw_only=True)
class GroundProfile:
    """The ground along a line.

    Attributes:
        points: (distance, z) at the ends and wherever the slope changes.
        outside: stretches of the line beyond the survey, where z is that of the nearest surveyed place.
    """

    points: Profile
    outside: tuple[Interval, ...]


@dataclass(frozen=True, kw_only=True)
class Slope:
    """How steep the ground is at a place.

    Attributes:
        grade: fall over run straight downhill, 0 or more.
        downhill: unit vector downhill in plan; absent on level ground.
    """

    grade: Ratio
    downhill: Point | None


def height_at(surface: Surface, point: Point) -> Height:
    """The height of the ground at a place, and whether the survey reaches there."""
    corners = _triangle_at(surface, point)
    if corners is not None:
        return Height(z=_interpolated(surface.points, corners, point), inside=True)
    return _on_rim(surface, point)


@lru_cache(maxsize=1024)
def profile(surface: Surface, start: Point, end: Point) -> GroundProfile:
    """The ground from start to end: heights at both and wherever the slope changes; kept for the same way.

    Raises:
        InputError: start and end are one place.
    """
    direction(start, end)
    whole = math.dist(start, end)
    shares = _breaks(surface, (start, end), SAME_PLACE / whole)
    heights = [height_at(surface, between(start, end, share)) for share in shares]
    outside = merged(
        (first * whole, second * whole)
        for first, second in pairwise(shares)
        if not height_at(surface, between(start, end, (first + second) / 2)).inside
    )
    pairs = tuple((share * whole, height.z) for share, height in zip(shares, heights, strict=True))
    return GroundProfile(points=leaned(pairs), outside=outside)


def profile_along(surface: Surface, path: Path) -> GroundProfile:
    """The ground along a path, distances counted along it; corners of the path are always among the pairs.

    Raises:
        InputError: fewer than two points, or two neighbors in one place.
    """
    pieces = [profile(surface, *segment) for segment in pairwise(checked_path(path))]
    run = 0.0
    outside: list[Interval] = []
    for piece in pieces:
        outside.extend((run + start, run + end) for start, end in piece.outside)
        run += piece.points[-1][0]
    return GroundProfile(points=joined(piece.points for piece in pieces), outside=merged(outside))


def slope_at(surface: Surface, point: Point) -> Slope | None:
    """How steep the ground is at a place; nothing outside the surveyed triangles. On an edge, that of one side."""
    corners = _triangle_at(surface, point)
    if corners is None:
        return None
    a, b, c = (surface.points[number] for number in corners)
    twice = _twice_area(a, b, c)
    rise_x = ((b[2] - a[2]) * (c[1] - a[1]) - (c[2] - a[2]) * (b[1] - a[1])) / twice
    rise_y = ((c[2] - a[2]) * (b[0] - a[0]) - (b[2] - a[2]) * (c[0] - a[0])) / twice
    grade = math.hypot(rise_x, rise_y)
    return Slope(grade=grade, downhill=(-rise_x / grade, -rise_y / grade) if grade > _EDGE else None)


def grade_between(surface: Surface, start: Point, end: Point) -> Ratio:
    """Rise over run from one place to another, uphill positive.

    Raises:
        InputError: the two are one place.
    """
    direction(start, end)
    return (height_at(surface, end).z - height_at(surface, start).z) / math.dist(start, end)


def _twice_area(a: SpotHeight | Point, b: SpotHeight | Point, c: SpotHeight | Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _triangle_at(surface: Surface, point: Point) -> Corners | None:
    if surface.bins is None:
        return None
    points, (x, y) = surface.points, point
    for number in surface.bins.near(point):
        corners = surface.triangles[number]
        (ax, ay, _), (bx, by, _), (cx, cy, _) = points[corners[0]], points[corners[1]], points[corners[2]]
        opposite_a = (bx - x) * (cy - y) - (by - y) * (cx - x)
        opposite_b = (cx - x) * (ay - y) - (cy - y) * (ax - x)
        opposite_c = (ax - x) * (by - y) - (ay - y) * (bx - x)
        if min(opposite_a, opposite_b, opposite_c) >= -_EDGE * (opposite_a + opposite_b + opposite_c):
            return corners
    return None


def _interpolated(points: tuple[SpotHeight, ...], corners: Corners, point: Point) -> Meter:
    a, b, c = (points[number] for number in corners)
    to_a, to_b, to_c = _twice_area(point, b, c), _twice_area(point, c, a), _twice_area(point, a, b)
    return a[2] + (to_b * (b[2] - a[2]) + to_c * (c[2] - a[2])) / (to_a + to_b + to_c)


def _on_rim(surface: Surface, point: Point) -> Height:
    x, y = point
    points = surface.points
    nearest, z = math.dist(point, points[0][:2]) ** 2, points[0][2]
    for first, second in surface.rim:  # the inmost loop of every drawing, hence spelled out
        (ax, ay, low), (bx, by, high) = points[first], points[second]
        across, up, from_x, from_y = bx - ax, by - ay, x - ax, y - ay
        share = (from_x * across + from_y * up) / (across * across + up * up)
        if share >= 1.0:
            share, from_x, from_y, low = 0.0, x - bx, y - by, high
        elif share > 0.0:
            from_x, from_y = from_x - share * across, from_y - share * up
        else:
            share = 0.0
        square = from_x * from_x + from_y * from_y
        if square < nearest:
            nearest, z = square, low + share * (high - low)
    return Height(z=z, inside=nearest <= SAME_PLACE**2)


def _breaks(surface: Surface, segment: Segment, slack: float) -> list[float]:
    """Shares of the way where the slope may change: edges crossed, and for the way outside the rim's corners passed."""
    (x, y), (far_x, far_y) = segment
    across, up = far_x - x, far_y - y
    shares = []
    for edge in surface.edges:
        (ax, ay, _), (bx, by, _) = surface.points[edge[0]], surface.points[edge[1]]
        side_a, side_b = across * (ay - y) - up * (ax - x), across * (by - y) - up * (bx - x)
        if side_a * side_b <= 0 and side_a != side_b:
            part = side_a / (side_a - side_b)
            place = (ax + part * (bx - ax), ay + part * (by - ay))
            shares.append(_share(segment, place))
    for edge in surface.rim:
        (ax, ay), (bx, by) = surface.edge(edge)
        along = across * (bx - ax) + up * (by - ay)
        if along:
            shares.extend(((px - x) * (bx - ax) + (py - y) * (by - ay)) / along for px, py in ((ax, ay), (bx, by)))
    kept = [0.0]
    for share in sorted(shares):
        if kept[-1] + slack < share < 1 - slack:
            kept.append(share)
    return [*kept, 1.0]


def _share(segment: Segment, place: Point) -> float:
    (x, y), (far_x, far_y) = segment
    across, up = far_x - x, far_y - y
    return ((place[0] - x) * across + (place[1] - y) * up) / (across * across + up * up)


__all__ = [
    "Ground", "GroundProfile", "Height", "Slope", "SpotHeight", "Surface", "grade_between", "height_at", "profile",
    "profile_along", "slope_at", "surface",
]  # fmt: skip

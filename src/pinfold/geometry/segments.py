"""Points, segments and paths in plan: lengths, directions, places along them, where two segments come closest.

A path is an open polyline of two points or more. Closed outlines (see `outlines`) are written without repeating the
first point; `closed_path` makes a path of one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.units import Meter, Radian

Point = tuple[Meter, Meter]
"""A place in plan: x and y in meters."""
Path = tuple[Point, ...]
"""Points joined by straight segments, in meters."""
Segment = tuple[Point, Point]
"""A straight piece from one point to another, in meters."""

SAME_PLACE: Meter = 1e-6
"""Places closer than this are one place: a thousandth of a millimeter, far below any tape."""
_PARALLEL = 1e-12


@dataclass(frozen=True, kw_only=True)
class Approach:
    """Where two shapes come closest.

    Attributes:
        distance: between the two places, 0 where the shapes meet.
        near: the place on the first shape.
        far: the place on the second shape.
    """

    distance: Meter
    near: Point
    far: Point


def length(path: Path) -> Meter:
    """Length of a path, 0 for a single point [m]."""
    return math.fsum(math.dist(first, second) for first, second in pairwise(path))


def direction(start: Point, end: Point) -> Point:
    """Unit vector from start to end.

    Raises:
        InputError: the two are one place or not finite.
    """
    across, up = end[0] - start[0], end[1] - start[1]
    size = math.hypot(across, up)
    if not math.isfinite(size) or size <= SAME_PLACE:
        raise InputError(f"the segment from {_told(start)} to {_told(end)} has no direction: its ends are one place")
    return across / size, up / size


def left_normal(start: Point, end: Point) -> Point:
    """Unit vector to the left of somebody walking from start to end.

    Raises:
        InputError: the two are one place or not finite.
    """
    along = direction(start, end)
    return -along[1], along[0]


def turn(before: Point, corner: Point, after: Point) -> Radian:
    """How far one turns at a corner, to the left positive, between −π and π [rad].

    Raises:
        InputError: the corner is one place with a neighbor.
    """
    coming, going = direction(before, corner), direction(corner, after)
    return math.atan2(coming[0] * going[1] - coming[1] * going[0], coming[0] * going[0] + coming[1] * going[1])


def point_along(path: Path, distance: Meter) -> Point:
    """The point so far along a path, a segment being a path of two points.

    Raises:
        InputError: the path has fewer than two points, or the distance is below 0 or beyond its length.
    """
    checked_path(path)
    whole = length(path)
    if not -SAME_PLACE <= distance <= whole + SAME_PLACE:
        raise InputError(f"{distance:g} m is not on a path of {whole:g} m")
    left = max(distance, 0.0)
    for first, second in pairwise(path):
        size = math.dist(first, second)
        if left <= size and size > 0:
            return between(first, second, left / size)
        left -= size
    return path[-1]


def closed_path(outline: Path) -> Path:
    """The path around an outline, back to its first point."""
    return (*outline, outline[0])


def between(start: Point, end: Point, share: float) -> Point:
    """The point at a share of the way from start (0) to end (1), exactly the end at 1."""
    if share == 1.0:
        return end
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def checked_path(path: Path, *, fewest: int = 2) -> Path:
    """The path itself.

    Raises:
        InputError: it has too few points or a coordinate that is not finite.
    """
    if len(path) < fewest:
        raise InputError(f"{len(path)} point{'s' if len(path) != 1 else ''} found; at least {fewest} are wanted")
    for point in path:
        if not (math.isfinite(point[0]) and math.isfinite(point[1])):
            raise InputError(f"the point {_told(point)} is not finite")
    return path


def share_along(point: Point, segment: Segment) -> float:
    """Where on a segment the place nearest to a point is, from 0 at its start to 1 at its end."""
    (x, y), (far_x, far_y) = segment
    across, up = far_x - x, far_y - y
    square = across * across + up * up
    if square == 0:
        return 0.0
    return min(max(((point[0] - x) * across + (point[1] - y) * up) / square, 0.0), 1.0)


def point_to_segment(point: Point, segment: Segment) -> Approach:
    """Where a segment comes closest to a point."""
    foot = between(*segment, share_along(point, segment))
    return Approach(distance=math.dist(point, foot), near=point, far=foot)


def segment_to_segment(first: Segment, second: Segment) -> Approach:
    """Where two segments come closest; where they cross, the crossing with distance 0."""
    crossing = crossing_of(first, second)
    if crossing is not None:
        return Approach(distance=0.0, near=crossing, far=crossing)
    pairs = [(point, between(*second, share_along(point, second))) for point in first]
    pairs += [(between(*first, share_along(point, first)), point) for point in second]
    near, far = min(pairs, key=_apart)
    return Approach(distance=math.dist(near, far), near=near, far=far)


def crossing_of(first: Segment, second: Segment) -> Point | None:
    """Where two segments cross; nothing where they are parallel, apart, or lie along each other."""
    (x, y), (far_x, far_y) = first
    (other_x, other_y), (other_far_x, other_far_y) = second
    across, up = far_x - x, far_y - y
    other_across, other_up = other_far_x - other_x, other_far_y - other_y
    cross = across * other_up - up * other_across
    if abs(cross) <= _PARALLEL * math.hypot(across, up) * math.hypot(other_across, other_up):
        return None
    share = ((other_x - x) * other_up - (other_y - y) * other_across) / cross
    other_share = ((other_x - x) * up - (other_y - y) * across) / cross
    if 0 <= share <= 1 and 0 <= other_share <= 1:
        return between(*first, share)
    return None


def _apart(pair: Segment) -> Meter:
    return math.dist(*pair)


def _told(point: Point) -> str:
    return f"({point[0]:g}, {point[1]:g})"

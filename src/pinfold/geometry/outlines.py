"""Closed outlines in plan: area, perimeter, way around, angles at the corners, and whether they cross themselves.

An outline is the tuple of its corners in order, in meters, the first not repeated at the end. Edge `i` goes from corner
`i` to the next, the last edge back to corner 0.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

from pinfold.geometry.segments import (
    SAME_PLACE,
    Path,
    Point,
    Segment,
    between,
    checked_path,
    closed_path,
    length,
    point_to_segment,
    segment_to_segment,
    share_along,
)
from pinfold.units import Meter, SquareMeter


def edges(outline: Path) -> tuple[Segment, ...]:
    """The edges of an outline in order."""
    return tuple(pairwise(closed_path(outline)))


def signed_area(outline: Path) -> SquareMeter:
    """Area inside an outline, positive when it goes counterclockwise [m2].

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    checked_path(outline, fewest=3)
    x, y = outline[0]
    corners = [(point[0] - x, point[1] - y) for point in outline]
    return math.fsum(first[0] * second[1] - first[1] * second[0] for first, second in pairwise(corners)) / 2


def area(outline: Path) -> SquareMeter:
    """Area inside an outline that does not cross itself [m2].

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    return abs(signed_area(outline))


def perimeter(outline: Path) -> Meter:
    """Length all the way around [m].

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    return length(closed_path(checked_path(outline, fewest=3)))


def is_clockwise(outline: Path) -> bool:
    """Whether the corners go around clockwise, x to the right and y up.

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    return signed_area(outline) < 0


def counterclockwise(outline: Path) -> Path:
    """The same outline going counterclockwise, starting from the same corner.

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    return (outline[0], *reversed(outline[1:])) if is_clockwise(outline) else outline


def crossing_edges(outline: Path) -> tuple[tuple[int, int], ...]:
    """Every pair of edges that cross, touch or fold back on each other, as their numbers from 0.

    Raises:
        InputError: fewer than three corners or a coordinate not finite.
    """
    return tuple(_crossing_pairs(outline))


def contains(outline: Path, point: Point) -> bool:
    """Whether a point is inside an outline; its edges belong to it."""
    inside = False
    for edge in edges(outline):
        (x, y), (far_x, far_y) = edge
        if (y > point[1]) != (far_y > point[1]) and point[0] < x + (point[1] - y) / (far_y - y) * (far_x - x):
            inside = not inside
    return inside or is_on(closed_path(outline), point)


def is_on(path: Path, point: Point) -> bool:
    """Whether a point lies on a path."""
    return any(
        math.dist(point, between(*segment, share_along(point, segment))) <= SAME_PLACE for segment in pairwise(path)
    )


def _crossing_pairs(outline: Path) -> Iterator[tuple[int, int]]:
    checked_path(outline, fewest=3)
    sides = edges(outline)
    count = len(sides)
    for (early, first), (late, second) in combinations(enumerate(sides), 2):
        if late - early == 1:
            meet = _folds_back(first, second)
        elif late - early == count - 1:
            meet = _folds_back(second, first)
        else:
            meet = _boxes_meet(first, second) and segment_to_segment(first, second).distance <= SAME_PLACE
        if meet:
            yield early, late


def _folds_back(coming: Segment, going: Segment) -> bool:
    return (
        point_to_segment(coming[0], going).distance <= SAME_PLACE
        or point_to_segment(going[1], coming).distance <= SAME_PLACE
    )


def _boxes_meet(first: Segment, second: Segment) -> bool:
    return all(
        max(first[0][axis], first[1][axis]) + SAME_PLACE >= min(second[0][axis], second[1][axis])
        and max(second[0][axis], second[1][axis]) + SAME_PLACE >= min(first[0][axis], first[1][axis])
        for axis in (0, 1)
    )

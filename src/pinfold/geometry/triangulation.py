"""Surveyed ground and the surface of triangles spanned over it.

Between three neighboring points the ground is taken as a plane. Which three are neighbors is settled by Delaunay's
rule: no other point inside the circle through them. Four points on one circle leave two choices; the one made does not
depend on the order in which the points are given.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise

import shapely
from shapely.errors import ShapelyError

from pinfold.errors import InputError
from pinfold.geometry.segments import SAME_PLACE, Point, Segment, point_to_segment
from pinfold.units import Meter

SpotHeight = tuple[Meter, Meter, Meter]
"""A surveyed point: x, y and height z in meters."""
Corners = tuple[int, int, int]


@dataclass(frozen=True, kw_only=True)
class Ground:
    """What was surveyed.

    Attributes:
        points: x, y and height z of each point; one will do where the ground is taken as level.

    Raises:
        InputError: no point, a number that is not finite, or one place with two heights.
    """

    points: tuple[SpotHeight, ...]

    def __post_init__(self) -> None:
        if not self.points:
            raise InputError("the ground needs one surveyed point at least")
        heights: dict[Point, Meter] = {}
        for x, y, z in self.points:
            if not (math.isfinite(x) and math.isfinite(y) and math.isfinite(z)):
                raise InputError(f"the surveyed point ({x:g}, {y:g}, {z:g}) is not finite")
            known = heights.setdefault(_place(x, y), z)
            if abs(known - z) > SAME_PLACE:
                raise InputError(f"the place ({x:g}, {y:g}) is surveyed at two heights: {known:g} m and {z:g} m")


@dataclass(frozen=True, kw_only=True)
class Bins:
    """A grid over a surface that tells which triangles to try for a point.

    Attributes:
        corner: the grid's least x and y.
        size: side of a cell along x and y.
        rows: cells by row and column, each holding the numbers of the triangles that reach into it.
    """

    corner: Point
    size: Point
    rows: tuple[tuple[tuple[int, ...], ...], ...]

    def near(self, point: Point) -> tuple[int, ...]:
        """Numbers of the triangles that may hold a point; none off the grid."""
        column = math.floor((point[0] - self.corner[0]) / self.size[0])
        row = math.floor((point[1] - self.corner[1]) / self.size[1])
        if 0 <= row < len(self.rows) and 0 <= column < len(self.rows[0]):
            return self.rows[row][column]
        return ()


@dataclass(frozen=True, kw_only=True, eq=False)
class Surface:
    """The ground as triangles; two are the same when they are one object, which `surface` sees to.

    Attributes:
        points: the surveyed points, each place once, sorted.
        triangles: numbers of three points each, counterclockwise; empty when all points are on one line.
        edges: every edge of the triangles once.
        rim: edges around the outside; with all points on one line the pieces of that line; empty for one point.
        bins: which triangles to try where; absent without triangles.
    """

    points: tuple[SpotHeight, ...]
    triangles: tuple[Corners, ...]
    edges: tuple[tuple[int, int], ...]
    rim: tuple[tuple[int, int], ...]
    bins: Bins | None = field(repr=False, compare=False)

    def edge(self, edge: tuple[int, int]) -> Segment:
        """An edge in plan."""
        return self.points[edge[0]][:2], self.points[edge[1]][:2]


@lru_cache(maxsize=64)
def surface(ground: Ground) -> Surface:
    """The surface spanned over surveyed points; kept for the same ground.

    Raises:
        InputError: the points cannot be spanned.
    """
    points = _once_each(ground.points)
    chain = _chain(points)
    if chain is not None:
        rim = tuple(pairwise(chain))
        return Surface(points=points, triangles=(), edges=(), rim=rim, bins=None)
    triangles = _triangles(points)
    uses = Counter((min(pair), max(pair)) for a, b, c in triangles for pair in ((a, b), (b, c), (c, a)))
    rim = tuple(edge for edge, count in uses.items() if count == 1)
    return Surface(points=points, triangles=triangles, edges=tuple(uses), rim=rim, bins=_bins(points, triangles))


def _place(x: Meter, y: Meter) -> Point:
    return round(x, 6), round(y, 6)


def _once_each(points: tuple[SpotHeight, ...]) -> tuple[SpotHeight, ...]:
    return tuple(sorted({_place(x, y): (float(x), float(y), float(z)) for x, y, z in sorted(points)}.values()))


def _chain(points: tuple[SpotHeight, ...]) -> tuple[int, ...] | None:
    """Points in their order along a line, if they are all on one."""
    first = points[0][:2]
    far = max((point[:2] for point in points), key=lambda place: math.dist(first, place))
    if any(point_to_segment(point[:2], (first, far)).distance > SAME_PLACE for point in points):
        return None
    return tuple(sorted(range(len(points)), key=lambda number: math.dist(first, points[number][:2])))


def _triangles(points: tuple[SpotHeight, ...]) -> tuple[Corners, ...]:
    number_at = {point[:2]: number for number, point in enumerate(points)}
    try:
        spanned = shapely.delaunay_triangles(shapely.multipoints([point[:2] for point in points]))
        rings = [tuple(map(tuple, shapely.get_coordinates(part).tolist()[:3])) for part in shapely.get_parts(spanned)]
        found = [tuple(number_at[place] for place in ring) for ring in rings]
    except (ShapelyError, KeyError, TypeError, ValueError) as fault:
        raise InputError(f"the surveyed points cannot be spanned with triangles: {fault}") from fault
    turned = (_counterclockwise(points, (a, b, c)) for a, b, c in found)
    kept = tuple(sorted(corners for corners in turned if corners is not None))
    if not kept:
        raise InputError("the surveyed points cannot be spanned with triangles")
    return kept


def _counterclockwise(points: tuple[SpotHeight, ...], corners: Corners) -> Corners | None:
    """The corners in order, the least first; nothing for a triangle without width."""
    a, b, c = (points[number] for number in corners)
    twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    longest = max(math.dist(a[:2], b[:2]), math.dist(b[:2], c[:2]), math.dist(c[:2], a[:2]))
    if abs(twice) <= SAME_PLACE * longest:
        return None
    first, second, third = corners if twice > 0 else (corners[0], corners[2], corners[1])
    return min((first, second, third), (second, third, first), (third, first, second))


def _bins(points: tuple[SpotHeight, ...], triangles: tuple[Corners, ...]) -> Bins:
    low_x, low_y = min(point[0] for point in points), min(point[1] for point in points)
    high_x, high_y = max(point[0] for point in points), max(point[1] for point in points)
    count = math.ceil(math.sqrt(len(triangles)))
    margin = 2 * SAME_PLACE
    corner = low_x - margin, low_y - margin
    size = (high_x - low_x + 2 * margin) / count, (high_y - low_y + 2 * margin) / count
    cells: list[list[list[int]]] = [[[] for _ in range(count)] for _ in range(count)]
    for number, corners in enumerate(triangles):
        columns = _reach([points[i][0] - corner[0] for i in corners], size[0], count)
        for row in _reach([points[i][1] - corner[1] for i in corners], size[1], count):
            for column in columns:
                cells[row][column].append(number)
    return Bins(corner=corner, size=size, rows=tuple(tuple(map(tuple, row)) for row in cells))


def _reach(ends: list[Meter], size: Meter, count: int) -> range:
    slack = SAME_PLACE
    return range(max(math.floor((min(ends) - slack) / size), 0), min(math.floor((max(ends) + slack) / size) + 1, count))

"""Contour lines of a surface, for drawing."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass

from pinfold.errors import InputError
from pinfold.geometry.segments import SAME_PLACE, Path, Point, between
from pinfold.geometry.triangulation import Surface
from pinfold.units import Meter

MOST_CONTOURS = 1000
"""More levels than this would blacken any sheet."""
_Edge = tuple[int, int]


@dataclass(frozen=True, kw_only=True)
class Contour:
    """One level's line; a level with several hills has several.

    Attributes:
        z: height of the line.
        path: the line in plan; its first point repeated at the end where it closes on itself.
    """

    z: Meter
    path: Path


def contours(surface: Surface, interval: Meter) -> tuple[Contour, ...]:
    """Lines of equal height at whole multiples of an interval, from low to high; none without triangles.

    Raises:
        InputError: an interval not above 0, or one so small that there would be more than `MOST_CONTOURS` levels.
    """
    if not 0 < interval < math.inf:
        raise InputError(f"contours every {interval:g} m cannot be drawn")
    if not surface.triangles:
        return ()
    heights = [point[2] for point in surface.points]
    first, last = math.ceil(min(heights) / interval), math.floor(max(heights) / interval)
    if last - first >= MOST_CONTOURS:
        raise InputError(f"contours every {interval:g} m would be more than {MOST_CONTOURS}; take a larger interval")
    return tuple(
        Contour(z=number * interval, path=path)
        for number in range(first, last + 1)
        for path in _paths(surface, number * interval)
    )


def _paths(surface: Surface, level: Meter) -> list[Path]:
    """A point at the level counts as above it, so each triangle is crossed at two edges or none."""
    neighbors: dict[_Edge, list[_Edge]] = defaultdict(list)
    above = [point[2] >= level for point in surface.points]
    for a, b, c in surface.triangles:
        crossed = [(min(pair), max(pair)) for pair in ((a, b), (b, c), (c, a)) if above[pair[0]] != above[pair[1]]]
        if crossed:
            neighbors[crossed[0]].append(crossed[1])
            neighbors[crossed[1]].append(crossed[0])
    ends = [edge for edge, others in neighbors.items() if len(others) == 1]
    paths = []
    for edge in (*ends, *neighbors):
        chain = _followed(neighbors, edge)
        path = _lean(tuple(_place(surface, crossed, level) for crossed in chain))
        if len(path) > 1:
            paths.append(path)
    return paths


def _followed(neighbors: dict[_Edge, list[_Edge]], start: _Edge) -> list[_Edge]:
    """Edges one after the other from a start, taken out of the neighbors as they are passed."""
    chain, edge = [start], start
    while neighbors[edge]:
        after = neighbors[edge].pop()
        neighbors[after].remove(edge)
        chain.append(after)
        edge = after
    return chain


def _place(surface: Surface, edge: _Edge, level: Meter) -> Point:
    low, high = surface.points[edge[0]][2], surface.points[edge[1]][2]
    return between(*surface.edge(edge), (level - low) / (high - low))


def _lean(path: Path) -> Path:
    kept = [path[0]]
    for point in path[1:]:
        if math.dist(point, kept[-1]) > SAME_PLACE:
            kept.append(point)
    return tuple(kept)

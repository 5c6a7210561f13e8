"""What is there before anything is built, in plan: contours, neighbors, buried lines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.naming import SMALL
from pinfold.drawings.scenes import Area, Label, Point, Polyline, Shape
from pinfold.geometry.contours import Contour, contours
from pinfold.geometry.outlines import contains, signed_area
from pinfold.geometry.segments import Segment, between, length, point_along, point_to_segment
from pinfold.geometry.triangulation import Surface
from pinfold.plan.outline import BuriedLine, Neighbor
from pinfold.units import Meter, System, tape

FOOT: Meter = 0.3048
_INTERVALS: dict[System, tuple[Meter, ...]] = {
    System.US: tuple(FOOT * size for size in (0.25, 0.5, 1, 2, 5, 10, 20, 50)),
    System.METRIC: (0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0),
}
MOST_LINES = 12
"""More contours than this are drawn at a wider interval."""

LONG_NAME = 36.0
"""Room for a buried line's name along it, in millimeters on paper."""


def ground_shapes(surface: Surface | None, system: System, outline: tuple[Point, ...]) -> Iterator[Shape]:
    """Contours of the surveyed ground, each with its height where it runs through the plot."""
    interval = contour_interval(surface, system)
    if surface is None or interval is None:
        return
    for line in contours(surface, interval):
        yield Polyline(layer="contour", points=line.path)
        at, turn = _label_place(line, outline)
        yield Label(
            at=at, text=tape(line.z, system), layer="contour", anchor="over", turn=turn, size=SMALL, priority=1
        )  # fmt: skip


def contour_interval(surface: Surface | None, system: System) -> Meter | None:
    """The smallest usual interval that gives no more than a dozen contours; None on level ground."""
    if surface is None:
        return None
    heights = [z for _, _, z in surface.points]
    rise = max(heights) - min(heights)
    if rise < 1e-3:
        return None
    return next((size for size in _INTERVALS[system] if rise / size <= MOST_LINES), rise / MOST_LINES)


def _label_place(line: Contour, outline: tuple[Point, ...]) -> tuple[Point, float]:
    """Where along a contour its height is written: the middle of its part inside the plot, and its direction there."""
    whole = length(line.path)
    places = [whole * part / 40 for part in range(1, 40)]
    inside = [place for place in places if len(outline) > 2 and contains(outline, point_along(line.path, place))]
    place = (inside or places)[len(inside or places) // 3]
    before, after = point_along(line.path, max(place - 0.1, 0.0)), point_along(line.path, min(place + 0.1, whole))
    return point_along(line.path, place), math.atan2(after[1] - before[1], after[0] - before[0])


def neighbor_shapes(neighbors: tuple[Neighbor, ...], system: System) -> Iterator[Shape]:
    """Footprints with name and height."""
    for neighbor in neighbors:
        yield Area(layer="neighbor", points=neighbor.footprint, hatch="stone")
        yield Label(
            at=middle_of(neighbor.footprint), text=f"{neighbor.name}\n{tape(neighbor.height, system)} high",
            layer="neighbor", anchor="over", priority=6,
        )  # fmt: skip


def line_shapes(
    lines: tuple[BuriedLine, ...], system: System, sides: tuple[Segment, ...], millimeter: Meter
) -> Iterator[Shape]:
    """Buried lines with name and depth, written away from the sides; those only remembered are marked.

    Args:
        lines: as planned
        system: whose units are written
        sides: of the plot, from corner to corner
        millimeter: about how much ground one millimeter of paper will hold
    """
    for line in lines:
        yield Polyline(layer="line", points=line.path)
        text = f"{line.name}, {tape(line.depth, system)} deep"
        if not line.located:
            text += "\nfind before digging"
        at, turn, room = _free_place(line.path, sides)
        along = 2 * room > LONG_NAME * millimeter
        yield Label(
            at=at, text=text, layer="line" if line.located else "mark", size=1.8, priority=4,
            anchor="above" if along else "right", turn=turn if along else 0.0,
        )  # fmt: skip


def _free_place(path: tuple[Point, ...], sides: tuple[Segment, ...]) -> tuple[Point, float, Meter]:
    """The place on a path that lies farthest from sides and bends, the path's direction there, and how far it lies."""
    best, turn, most = path[0], 0.0, -math.inf
    for start, end in pairwise(path):
        for part in range(1, 10):
            at = between(start, end, part / 10)
            room = min(point_to_segment(at, side).distance for side in sides) if sides else math.inf
            room = min(room, math.dist(at, start), math.dist(at, end))
            if room > most:
                best, turn, most = at, math.atan2(end[1] - start[1], end[0] - start[0]), room
    return best, turn, most


def middle_of(ring: tuple[Point, ...]) -> Point:
    """The center of an outline's area."""
    doubled = 2 * signed_area(ring)
    (x, y), parts = ring[0], tuple(pairwise((*ring, ring[0])))
    if abs(doubled) < 1e-9:
        return (x, y)
    crosses = [((a - x) * (d - y) - (c - x) * (b - y), a + c - 2 * x, b + d - 2 * y) for (a, b), (c, d) in parts]
    return (
        x + math.fsum(cross * across for cross, across, _ in crosses) / (3 * doubled),
        y + math.fsum(cross * up for cross, _, up in crosses) / (3 * doubled),
    )

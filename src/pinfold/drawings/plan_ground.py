"""What is there before anything is built, in plan: contours, neighbors, buried lines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import accumulate, pairwise

from pinfold.drawings.blocks import pads_in_plan
from pinfold.drawings.clipping import clipped
from pinfold.drawings.naming import SMALL
from pinfold.drawings.scenes import Area, Frame, Label, Point, Polyline, Shape, frame_of
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
BEYOND: Meter = 1.5
"""Contours and buried lines are drawn so far past plot and neighbors."""
CLEAR: Meter = 0.8
"""A contour's height is written no nearer to a side."""
LONG_NAME = 36.0
"""Room for a buried line's name along it, in millimeters on paper."""


def shown_frame(outline: tuple[Point, ...], neighbors: tuple[Neighbor, ...]) -> Frame:
    """How far contours and buried lines are drawn: a little past the plot and its neighbors."""
    frame = frame_of((*outline, *(point for one in neighbors for point in one.footprint)))
    return Frame(
        left=frame.left - BEYOND, bottom=frame.bottom - BEYOND, right=frame.right + BEYOND, top=frame.top + BEYOND
    )  # fmt: skip


def ground_shapes(
    surface: Surface | None, system: System, outline: tuple[Point, ...], frame: Frame
) -> Iterator[Shape]:  # fmt: skip
    """Contours of the surveyed ground in a frame, each with its height where it runs through the plot."""
    interval = contour_interval(surface, system)
    if surface is None or interval is None:
        return
    for line in contours(surface, interval):
        inside = _inside(line, outline)
        if not inside:
            continue
        yield from (Polyline(layer="contour", points=part) for part in clipped(line.path, frame))
        if (found := _label_place(line, inside, outline)) is not None:
            yield _height_label(line, found, system)


def _height_label(line: Contour, found: tuple[Meter, Meter], system: System) -> Label:
    place, slide = found
    before = point_along(line.path, max(place - 0.1, 0.0))
    after = point_along(line.path, min(place + 0.1, length(line.path)))
    turn = math.atan2(after[1] - before[1], after[0] - before[0])
    return Label(
        at=point_along(line.path, place), text=_level(line.z, system), layer="contour", anchor="over", turn=turn,
        size=SMALL, priority=1, slide=slide,
    )  # fmt: skip


def _level(height: Meter, system: System) -> str:
    """A height of the survey: in feet and inches, or in meters whatever its size."""
    return tape(height, system) if system is System.US else f"{height:.2f} m".replace("-", "−")


def contour_interval(surface: Surface | None, system: System) -> Meter | None:
    """The smallest usual interval that gives no more than a dozen contours; None on level ground."""
    if surface is None:
        return None
    heights = [z for _, _, z in surface.points]
    rise = max(heights) - min(heights)
    if rise < 1e-3:
        return None
    return next((size for size in _INTERVALS[system] if rise / size <= MOST_LINES), rise / MOST_LINES)


def _inside(line: Contour, outline: tuple[Point, ...]) -> tuple[Meter, ...]:
    """Places along a contour that lie in the plot; all of it where the plot is open."""
    whole = length(line.path)
    places = (whole * part / 40 for part in range(1, 40))
    return tuple(place for place in places if len(outline) < 3 or contains(outline, point_along(line.path, place)))


def _label_place(line: Contour, inside: tuple[Meter, ...], outline: tuple[Point, ...]) -> tuple[Meter, Meter] | None:
    """How far along a contour its height is written, and how far it may slide; None where it only cuts a corner.

    A third along the longest straight part that lies in the plot, clear of the sides.
    """
    sides = tuple(pairwise((*outline, outline[0]))) if len(outline) > 2 else ()
    clear = [place for place in inside if _room(point_along(line.path, place), sides) > CLEAR]
    ends = tuple(accumulate((math.dist(*part) for part in pairwise(line.path)), initial=0.0))
    parts = [[place for place in clear if low <= place <= high] for low, high in pairwise(ends)]
    longest = max(parts, key=len, default=[])
    if not longest:
        return None
    place = longest[len(longest) // 3]
    return place, min(place - longest[0], longest[-1] - place)


def _room(at: Point, sides: tuple[Segment, ...]) -> Meter:
    return min((point_to_segment(at, side).distance for side in sides), default=math.inf)


def neighbor_shapes(neighbors: tuple[Neighbor, ...], system: System) -> Iterator[Shape]:
    """Footprints with name and height, and the pads of those on blocks."""
    for neighbor in neighbors:
        yield Area(layer="neighbor", points=neighbor.footprint, hatch="stone")
        yield from pads_in_plan(neighbor)
        text = f"{neighbor.name}\n{tape(neighbor.height, system)} high"
        yield Label(at=middle_of(neighbor.footprint), text=text, layer="neighbor", anchor="over", priority=6)


def line_shapes(
    lines: tuple[BuriedLine, ...], system: System, sides: tuple[Segment, ...], *, millimeter: Meter, frame: Frame
) -> Iterator[Shape]:  # fmt: skip
    """Buried lines with name and depth, written away from the sides; those only remembered are marked.

    Args:
        lines: as planned
        system: whose units are written
        sides: of the plot, from corner to corner
        millimeter: about how much ground one millimeter of paper will hold
        frame: how far they are drawn
    """
    for line in lines:
        yield from (Polyline(layer="line", points=part) for part in clipped(line.path, frame))
        at, turn, room = _free_place(line.path, sides)
        along = 2 * room > LONG_NAME * millimeter
        text = f"{line.name}, {tape(line.depth, system)} deep" if along else _in_rows(line, system)
        if not line.located:
            text += "\nfind before digging"
        yield Label(
            at=at, text=text, layer="line" if line.located else "mark", size=1.8, priority=4,
            anchor="above" if along else "right", turn=turn if along else 0.0,
        )  # fmt: skip


def _in_rows(line: BuriedLine, system: System) -> str:
    return f"{line.name},\n{tape(line.depth, system)} deep"


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

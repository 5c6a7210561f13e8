"""Boxes that texts stand in on paper, turned or not, and whether they get in each other's way (millimeters)."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from pinfold.drawings.scenes import Frame, Point, frame_of

TOUCH = 1e-6
"""Boxes nearer than this only touch."""
INK_STEPS_MOST = 20_000
"""A longer line is entered in coarser steps."""


@dataclass(frozen=True, kw_only=True)
class Slab:
    """A rectangle by center, size and the direction of its width."""

    center: Point
    width: float
    height: float
    turn: float = 0.0

    @cached_property
    def corners(self) -> tuple[Point, ...]:
        """Its four corners, counterclockwise from the start of the lower edge."""
        half, rise = self.width / 2, self.height / 2
        return tuple(self.outward((x, y)) for x, y in ((-half, -rise), (half, -rise), (half, rise), (-half, rise)))

    @cached_property
    def _along(self) -> Point:
        """Unit step along the width."""
        return (math.cos(self.turn), math.sin(self.turn))

    @cached_property
    def frame(self) -> Frame:
        """The upright rectangle round it."""
        return frame_of(self.corners)

    def outward(self, point: Point) -> Point:
        """A point given from the center along width and height, as a point on the paper."""
        cos, sin = self._along
        return (self.center[0] + point[0] * cos - point[1] * sin, self.center[1] + point[0] * sin + point[1] * cos)

    def inward(self, point: Point) -> Point:
        """A point on the paper, from the center along width and height."""
        cos, sin = self._along
        x, y = point[0] - self.center[0], point[1] - self.center[1]
        return (x * cos + y * sin, y * cos - x * sin)

    def gap(self, point: Point) -> float:
        """Distance from a point to the rectangle; 0 inside."""
        x, y = self.inward(point)
        return math.hypot(max(abs(x) - self.width / 2, 0.0), max(abs(y) - self.height / 2, 0.0))


def collide(one: Slab, other: Slab) -> bool:
    """Whether two boxes share more than an edge."""
    if not frames_meet(one.frame, other.frame):
        return False
    if one.turn == other.turn == 0.0:
        return True
    return all(_meet_along(turn, one, other) for turn in (one.turn, other.turn))


def frames_meet(one: Frame, other: Frame) -> bool:
    """Whether two upright rectangles share more than an edge."""
    return (
        one.left < other.right - TOUCH
        and other.left < one.right - TOUCH
        and one.bottom < other.top - TOUCH
        and other.bottom < one.top - TOUCH
    )


def _meet_along(turn: float, one: Slab, other: Slab) -> bool:
    for axis in ((math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))):
        near = [x * axis[0] + y * axis[1] for x, y in one.corners]
        far = [x * axis[0] + y * axis[1] for x, y in other.corners]
        if max(near) <= min(far) + TOUCH or max(far) <= min(near) + TOUCH:
            return False
    return True


def length_inside(slab: Slab, start: Point, end: Point) -> float:
    """How much of the line from start to end runs inside a box."""
    a, b = slab.inward(start), slab.inward(end)
    low, high = 0.0, 1.0
    for here, there, half in ((a[0], b[0], slab.width / 2), (a[1], b[1], slab.height / 2)):
        step = there - here
        if abs(step) < 1e-12:
            if abs(here) >= half:
                return 0.0
            continue
        first, second = sorted(((-half - here) / step, (half - here) / step))
        low, high = max(low, first), min(high, second)
    return max(high - low, 0.0) * math.dist(a, b)


def lines_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the line a-b crosses c-d somewhere inside both."""
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


class Ink:
    """How much line work lies where: squares of a millimeter, each with the cost of the lines in it."""

    def __init__(self) -> None:
        self._squares: defaultdict[tuple[int, int], float] = defaultdict(float)

    def draw(self, start: Point, end: Point, cost: float) -> None:
        """Enters a line at a cost per millimeter."""
        length = math.dist(start, end)
        steps = min(max(math.ceil(length * 2), 1), INK_STEPS_MOST)
        across, up, each = (end[0] - start[0]) / steps, (end[1] - start[1]) / steps, cost * length / steps
        for step in range(steps):
            x, y = start[0] + across * (step + 0.5), start[1] + up * (step + 0.5)
            self._squares[math.floor(x), math.floor(y)] += each

    def under(self, slab: Slab) -> float:
        """The cost of what lies under a box: of the squares whose middles it covers."""
        frame, squares = slab.frame, self._squares
        level = slab.turn == 0.0
        half, rise = slab.width / 2, slab.height / 2
        total = 0.0
        for column in range(math.ceil(frame.left - 0.5), math.floor(frame.right - 0.5) + 1):
            for row in range(math.ceil(frame.bottom - 0.5), math.floor(frame.top - 0.5) + 1):
                cost = squares.get((column, row))
                if cost is not None and (level or _within(slab.inward((column + 0.5, row + 0.5)), half, rise)):
                    total += cost
        return total


def _within(point: Point, half: float, rise: float) -> bool:
    return abs(point[0]) <= half and abs(point[1]) <= rise


class Grid:
    """Things on the paper, found again by where they are: squares of one size, each listing what touches it."""

    def __init__(self, size: float = 8.0) -> None:
        self.size = size
        self._cells: defaultdict[tuple[int, int], dict[int, None]] = defaultdict(dict)

    def put(self, key: int, frame: Frame) -> None:
        """Enters a thing."""
        for cell in self._covered(frame):
            self._cells[cell][key] = None

    def take(self, key: int, frame: Frame) -> None:
        """Removes a thing entered with this frame."""
        for cell in self._covered(frame):
            self._cells[cell].pop(key, None)

    def near(self, frame: Frame) -> list[int]:
        """Keys of all things in the squares a frame touches, in rising order."""
        return sorted({key for cell in self._covered(frame) if cell in self._cells for key in self._cells[cell]})

    def _covered(self, frame: Frame) -> Iterator[tuple[int, int]]:
        for column in range(math.floor(frame.left / self.size), math.floor(frame.right / self.size) + 1):
            for row in range(math.floor(frame.bottom / self.size), math.floor(frame.top / self.size) + 1):
                yield column, row

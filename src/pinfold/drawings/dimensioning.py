"""Dimension lines on paper: side by side in tiers, never on each other (millimeters, y upward)."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from pinfold.drawings.boxes import Slab
from pinfold.drawings.lettering import PlacedText, block_size, em_of, lines_of, upright
from pinfold.drawings.linework import scaled
from pinfold.drawings.scenes import Dimension, PaperMm, Point

TIER: PaperMm = 7.5
"""From one dimension line to the next one farther out."""
OVERRUN: PaperMm = 1.2
"""How far an extension line passes the dimension line."""
SLANT: PaperMm = 2.2
"""Length of the slanting stroke at each end."""
TEXT_GAP: PaperMm = 0.6
"""Between the dimension line and its text."""


@dataclass(frozen=True, kw_only=True)
class DimensionLine:
    """Where one dimension stands on paper, still without its text.

    Attributes:
        start: measured point, on paper.
        end: the other one.
        offset: from the measured points to the dimension line, to the left of start to end.
    """

    dimension: Dimension
    start: Point
    end: Point
    offset: PaperMm

    @cached_property
    def length(self) -> PaperMm:
        """Between the measured points."""
        return math.dist(self.start, self.end)

    @cached_property
    def along(self) -> Point:
        """Unit step from start to end; to the right when they are the same point."""
        if self.length < 1e-9:
            return (1.0, 0.0)
        return ((self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length)

    @cached_property
    def line(self) -> tuple[Point, Point]:
        """The ends of the dimension line."""
        return self._out(self.start, self.offset), self._out(self.end, self.offset)

    @cached_property
    def extensions(self) -> tuple[tuple[Point, Point], ...]:
        """The lines from the measured points to a little past the dimension line; none when it lies on them."""
        side = math.copysign(1.0, self.offset)
        if abs(self.offset) <= self.dimension.clear:
            return ()
        return tuple(
            (self._out(point, side * self.dimension.clear), self._out(point, self.offset + side * OVERRUN))
            for point in (self.start, self.end)
        )

    @cached_property
    def slants(self) -> tuple[tuple[Point, Point], ...]:
        """The slanting strokes at both ends, rising to the right as the text reads."""
        turn = upright(math.atan2(self.along[1], self.along[0])) + math.pi / 4
        step = (math.cos(turn) * SLANT / 2, math.sin(turn) * SLANT / 2)
        return tuple(((x - step[0], y - step[1]), (x + step[0], y + step[1])) for x, y in self.line)

    @cached_property
    def middle(self) -> Point:
        """The middle of the dimension line."""
        (a, b), (c, d) = self.line
        return ((a + c) / 2, (b + d) / 2)

    def _out(self, point: Point, distance: float) -> Point:
        x, y = self.along
        return (point[0] - y * distance, point[1] + x * distance)


@dataclass(frozen=True, kw_only=True)
class PlacedDimension:
    """A dimension line with its text in place."""

    drawn: DimensionLine
    text: PlacedText


def dimension_lines(dimensions: tuple[Dimension, ...], mm_per_meter: float) -> tuple[DimensionLine, ...]:
    """All dimension lines in their order, each moved outward by whole tiers until it lies on no other.

    The shorter ones keep their place, so that an overall length ends outside of its parts.
    """
    lines = []
    for one in dimensions:
        start, end = scaled((one.start, one.end), mm_per_meter)
        lines.append(DimensionLine(dimension=one, start=start, end=end, offset=one.offset))
    placed: dict[int, DimensionLine] = {}
    for index in sorted(range(len(lines)), key=lambda number: (round(lines[number].length, 6), number)):
        line = lines[index]
        while any(_on_each_other(line, other) for other in placed.values()):
            line = replace(line, offset=line.offset + math.copysign(TIER, line.offset))
        placed[index] = line
    return tuple(placed[index] for index in range(len(lines)))


def _on_each_other(one: DimensionLine, other: DimensionLine) -> bool:
    (x, y), (u, v) = one.along, other.along
    if abs(x * v - y * u) > 1e-3:
        return False
    (ax, ay), (bx, by) = one.line
    spans = []
    for px, py in other.line:
        if abs((py - ay) * x - (px - ax) * y) > TIER * 0.8:
            return False
        spans.append((px - ax) * x + (py - ay) * y)
    reach = math.hypot(bx - ax, by - ay)
    return min(spans) < reach - 0.2 and max(spans) > 0.2


def text_candidates(line: DimensionLine, ring: int) -> tuple[PlacedText, ...]:
    """Where the text of a dimension may stand.

    Ring 0 is over the middle of its line, ring 1 along it and under it; farther rings lie ever farther out and aside,
    tied to the line by a leader, so that none is read as its neighbor's.
    """
    if ring == 0:
        return (_text(line, (0.0, 1)),)
    width = block_size(lines_of(line.dimension.text), line.dimension.size)[0]
    if ring == 1:
        room = (line.length - width) / 2 - SLANT
        slides = (room / 2, -room / 2, room, -room) if room > 0 else ()
        return tuple(_text(line, (along, side)) for side in (1, -1) for along in (0.0, *slides))[1:]
    rise = em_of(line.dimension.size) * 1.15 * (ring - 1)
    shifts = (0.0, width * 0.6, -width * 0.6)
    return tuple(_text(line, (shift, side), rise=rise, tied=True) for shift in shifts for side in (1, -1))


def _text(line: DimensionLine, place: tuple[float, int], *, rise: PaperMm = 0.0, tied: bool = False) -> PlacedText:
    """The text so far along from the middle and on the upper (1) or lower (-1) side as it reads."""
    lines = lines_of(line.dimension.text)
    width, height = block_size(lines, line.dimension.size)
    turn = upright(math.atan2(line.along[1], line.along[0]))
    along, side = place
    base = Slab(center=line.middle, width=width, height=height, turn=turn)
    slab = replace(base, center=base.outward((along, side * (TEXT_GAP + height / 2 + rise))))
    leader = (line.middle, slab.outward((0.0, -side * height / 2))) if tied else ()
    return PlacedText(
        layer=line.dimension.layer, lines=lines, size=line.dimension.size, slab=slab, leader=leader
    )  # fmt: skip

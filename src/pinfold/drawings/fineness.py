"""How fine a drawing may be: what can still be told apart on paper, guessed before its scale is known."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.scenes import Point, Polyline
from pinfold.units import Meter, Radian

_ROOMS: tuple[tuple[float, float], ...] = ((140.0, 150.0), (205.0, 100.0))
"""What a binder's sheet leaves for line work, upright and broad, in millimeters."""
Line = tuple[Point, Point]


def millimeter(width: Meter, height: Meter) -> Meter:
    """About how much of the ground one millimeter of paper will hold for a drawing so wide and high."""
    return max(min(max(width / across, height / up) for across, up in _ROOMS), 1e-4)


def thinned(spacing: Meter, least: Meter) -> Meter:
    """The smallest whole multiple of a spacing that is at least so wide, so that lines stand apart on paper."""
    return spacing * max(math.ceil(least / spacing - 1e-9), 1)


def lattice(ring: tuple[Point, ...], spacings: tuple[Meter, Meter], *, turn: Radian = 0.0) -> tuple[Polyline, ...]:
    """A grid of thin lines over an area, as mesh is drawn.

    Args:
        ring: the area, its first point not repeated
        spacings: between lines that lie along, and between lines that stand
        turn: direction of those that lie; the others stand upright, or for a turn of 45° square to them
    """
    square_to = turn + math.pi / 2 if abs(turn) > math.pi / 5 else math.pi / 2
    return tuple(
        Polyline(layer="mesh", points=line)
        for direction, spacing in ((turn, spacings[0]), (square_to, spacings[1]))
        for line in strokes(ring, spacing, turn=direction)
    )


def strokes(ring: tuple[Point, ...], spacing: Meter, *, turn: Radian = 0.0) -> Iterator[Line]:
    """Parallel lines over an area, counted from the middle of it."""
    cos, sin = math.cos(turn), math.sin(turn)
    turned = tuple((x * cos + y * sin, y * cos - x * sin) for x, y in ring)
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    count = math.floor((high - low) / spacing + 1e-9)
    first = (low + high - spacing * max(count - 1, 0)) / 2 if count else math.inf
    for number in range(count):
        level = first + number * spacing
        for start, end in level_spans(turned, level):
            yield (
                (start * cos - level * sin, start * sin + level * cos),
                (end * cos - level * sin, end * sin + level * cos),
            )


def level_spans(ring: tuple[Point, ...], level: Meter) -> Iterator[tuple[Meter, Meter]]:
    """Where a level line runs inside an area, from left to right."""
    cuts = sorted(
        a + (level - b) / (d - b) * (c - a)
        for (a, b), (c, d) in pairwise((*ring, ring[0]))
        if (b <= level) != (d <= level)
    )
    yield from zip(cuts[::2], cuts[1::2], strict=True)

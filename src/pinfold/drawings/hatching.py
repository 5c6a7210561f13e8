"""Hatches as clipped line work, so that every program that reads the file shows the same lines (millimeters).

Textures start from the scene's origin, so that areas side by side match. A texture of more than STROKES_MOST strokes is
drawn coarser by as much as it takes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.scenes import PaperMm, Point, frame_of
from pinfold.drawings.styles import TEXTURES, Strokes

STROKES_MOST = 6000
"""Per area and family of lines."""
SHORTEST: PaperMm = 0.08
"""Shorter pieces are left out."""

Line = tuple[Point, Point]


def texture(rings: tuple[tuple[Point, ...], ...], hatch: str) -> tuple[Line, ...]:
    """The lines that fill an area.

    Args:
        rings: its outer ring and those of its holes, none repeating its first point; inside is what an odd number of
            rings enclose
        hatch: a name in HATCHES
    """
    return tuple(line for family in TEXTURES[hatch] for line in _family(rings, _coarse_enough(family, rings)))


def _coarse_enough(family: Strokes, rings: tuple[tuple[Point, ...], ...]) -> Strokes:
    frame = frame_of(point for ring in rings for point in ring)
    period = sum(family.dashes) or math.inf
    rows = (frame.width + frame.height) / family.spacing
    count = max(rows, frame.width * frame.height / family.spacing / period)
    if count <= STROKES_MOST:
        return family
    larger = count / STROKES_MOST if math.isinf(period) or rows > STROKES_MOST else math.sqrt(count / STROKES_MOST)
    return Strokes(
        turn=family.turn,
        spacing=family.spacing * larger,
        dashes=tuple(dash * larger for dash in family.dashes),
        shift=family.shift * larger,
        start=family.start,
    )


def _family(rings: tuple[tuple[Point, ...], ...], family: Strokes) -> Iterator[Line]:
    cos, sin = math.cos(family.turn), math.sin(family.turn)
    turned = [[(x * cos + y * sin, y * cos - x * sin) for x, y in ring] for ring in rings]
    edges = [edge for ring in turned for edge in pairwise([*ring, *ring[:1]])]
    heights = [y for ring in turned for _, y in ring]
    if not heights:
        return
    first = math.ceil((min(heights) - family.start[0]) / family.spacing)
    last = math.floor((max(heights) - family.start[0]) / family.spacing)
    for row in range(first, last + 1):
        height = family.start[0] + row * family.spacing
        for low, high in _dashed(_inside(edges, height), family, row):
            yield (
                (low * cos - height * sin, low * sin + height * cos),
                (high * cos - height * sin, high * sin + height * cos),
            )


def _inside(edges: list[Line], height: float) -> Iterator[tuple[float, float]]:
    """The stretches of a level line that lie inside."""
    cuts = sorted(
        a + (height - b) / (d - b) * (c - a) for (a, b), (c, d) in edges if (b <= height) != (d <= height)
    )  # fmt: skip
    return zip(cuts[::2], cuts[1::2], strict=True)


def _dashed(stretches: Iterator[tuple[float, float]], family: Strokes, row: int) -> Iterator[tuple[float, float]]:
    period = sum(family.dashes)
    for low, high in stretches:
        if not period:
            if high - low > SHORTEST:
                yield low, high
            continue
        begin = family.start[1] + row * family.shift
        place = begin + math.floor((low - begin) / period) * period
        while place < high:
            yield from _strokes_from(place, family.dashes, (low, high))
            place += period


def _strokes_from(
    place: float, dashes: tuple[float, ...], stretch: tuple[float, float]
) -> Iterator[tuple[float, float]]:  # fmt: skip
    for index, dash in enumerate(dashes):
        low, high = max(place, stretch[0]), min(place + dash, stretch[1])
        if index % 2 == 0 and high - low > SHORTEST:
            yield low, high
        place += dash

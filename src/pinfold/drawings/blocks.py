"""The pads under a neighbor that stands on blocks, in plan."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinfold.drawings.naming import sizes
from pinfold.drawings.scenes import Area, Point, Shape
from pinfold.geometry.outlines import contains
from pinfold.plan.grounds import Blocks
from pinfold.plan.outline import Neighbor
from pinfold.units import Meter, System

ROWS = 2
"""Piers stand in two rows under the long sides, as the study of their loads takes it, where nobody says where."""


def pads_in_plan(neighbor: Neighbor) -> Iterator[Shape]:
    """Each pad at its size where its support is, else in two rows along the longest edge; none that lie elsewhere."""
    blocks = neighbor.blocks
    if blocks is None or blocks.pad_length is None or blocks.pad_width is None:
        return
    rings = tuple(_pads(neighbor.footprint, blocks, (blocks.pad_length, blocks.pad_width)))
    if all(contains(neighbor.footprint, _middle(ring)) for ring in rings):
        yield from (Area(layer="footing", points=ring, hatch="concrete") for ring in rings)


def _middle(ring: tuple[Point, ...]) -> Point:
    return (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))


def on_blocks(neighbor: Neighbor, system: System) -> str:
    """What it stands on, for the notes of the plan; empty where it is founded."""
    blocks = neighbor.blocks
    if blocks is None:
        return ""
    stands = f"Under {neighbor.name}: {blocks.count} piers of blocks"
    if blocks.pad_length is None or blocks.pad_width is None:
        return f"{stands}, the size of their pads not given."
    where = "where its supports are" if blocks.leveling.supports else "in two rows"
    return f"{stands} on pads of {sizes(system, blocks.pad_length, blocks.pad_width)}, drawn {where}."


def _pads(footprint: tuple[Point, ...], blocks: Blocks, pad: tuple[Meter, Meter]) -> Iterator[tuple[Point, ...]]:
    edges = tuple(pairwise((*footprint, footprint[0])))
    (x, y), end = max(edges, key=lambda edge: math.dist(*edge))
    long = math.dist((x, y), end)
    way = ((end[0] - x) / long, (end[1] - y) / long)

    def turned(at: Point) -> Point:
        return ((at[0] - x) * way[0] + (at[1] - y) * way[1], (at[1] - y) * way[0] - (at[0] - x) * way[1])

    def back(along: Meter, aside: Meter) -> Point:
        return (x + along * way[0] - aside * way[1], y + along * way[1] + aside * way[0])

    local = [turned(at) for at in footprint]
    box = [(min(at[n] for at in local), max(at[n] for at in local)) for n in (0, 1)]
    half = (pad[0] / 2, pad[1] / 2)
    told = [turned(support.at) for support in blocks.leveling.supports]
    for along, aside in told or _in_rows(box, blocks.count, half):
        corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        yield tuple(back(along + a * half[0], aside + b * half[1]) for a, b in corners)


def _in_rows(box: Sequence[tuple[Meter, Meter]], count: int, half: tuple[Meter, Meter]) -> Iterator[Point]:
    """Middles of so many pads in two rows inside a box, along its first way."""
    for row, aside in enumerate(_spread(box[1], min(ROWS, count), half[1])):
        own = (count + 1 - row) // ROWS if count > 1 else 1
        yield from ((along, aside) for along in _spread(box[0], own, half[0]))


def _spread(ends: tuple[Meter, Meter], count: int, half: Meter) -> tuple[Meter, ...]:
    """So many places evenly from end to end, each with half a pad's room; one alone in the middle."""
    low, high = ends[0] + half, ends[1] - half
    if count == 1 or high <= low:
        return ((low + high) / 2,) * count
    return tuple(low + (high - low) * number / (count - 1) for number in range(count))

"""Where a piece of wall lies in its line of wall: how far from both ends, and what turns the corner there."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.outline import Point, Side
from pinfold.studies.layout.records import EndKind, Layout, Stretch
from pinfold.units import Meter

_SAME: Meter = 0.01
RELIEVING = (math.radians(60) - 1e-9, math.radians(120) + 1e-9)
"""Turns at which a return corner counts: about square, as the standards draw it (pinfold's own bounds)."""


@dataclass(frozen=True, kw_only=True)
class Line:
    """A piece of wall or fence in the straight line it belongs to.

    Attributes:
        side: length of the straight side, gates and all: the longest that one wall can count as.
        unbroken: length of wall without a gap around the piece: the shortest.
        from_start: from the start of the unbroken wall to the piece.
        from_end: from its end to the piece.
        start_return: length of the wall around the corner at the start; 0 where the wall ends free.
        end_return: likewise at the end.
        unrelieved: ends, `start` or `end`, where a wall goes on around a corner that turns too little or too much for
            its length to count.
    """

    side: Meter
    unbroken: Meter
    from_start: Meter
    from_end: Meter
    start_return: Meter
    end_return: Meter
    unrelieved: tuple[str, ...] = ()

    @property
    def ends(self) -> tuple[tuple[str, Meter, Meter], ...]:
        """(which end, distance to the piece, length of the return) for both ends, the nearer first."""
        both = (("start", self.from_start, self.start_return), ("end", self.from_end, self.end_return))
        return tuple(sorted(both, key=lambda end: (end[1], end[2])))

    def piece(self, start: Meter, end: Meter) -> Line:
        """Part of the piece, from `start` on and up to `end` before its own end, no distance below 0."""
        return replace(self, from_start=max(self.from_start + start, 0.0), from_end=max(self.from_end + end, 0.0))


def has_wall(stretch: Stretch) -> bool:
    """Whether masonry, earth, concrete or stone stands there; sheet on a frame is carried by its posts."""
    wall = stretch.buildup.wall
    return wall is not None and bool(stretch.steps) and wall.kind.word("make") != "sheet"


def lines_of(layout: Layout) -> Mapping[str, Line]:
    """The line of every stretch, by the stretch's name."""
    chains = _chains(layout.stretches)
    chain_of = {stretch.name: chain for chain in chains for stretch in chain}
    return {stretch.name: _line(layout, stretch, chain_of) for stretch in layout.stretches}


def _chains(stretches: tuple[Stretch, ...]) -> list[list[Stretch]]:
    chains: list[list[Stretch]] = []
    for stretch in stretches:
        last = chains[-1][-1] if chains else None
        if last is not None and last.side == stretch.side and _goes_on(last, stretch):
            chains[-1].append(stretch)
        else:
            chains.append([stretch])
    return chains


def _goes_on(before: Stretch, after: Stretch) -> bool:
    meet = before.end_kind is EndKind.BUTT and after.start_kind is EndKind.BUTT
    return meet and abs(before.end - after.start) < _SAME and has_wall(before) == has_wall(after)


def _line(layout: Layout, stretch: Stretch, chain_of: Mapping[str, list[Stretch]]) -> Line:
    chain = chain_of[stretch.name]
    first, last = chain[0], chain[-1]
    plan = layout.plan
    side = next(side for side in plan.sides if side.name == stretch.side)
    returns = {
        "start": _return(layout, first, side, chain_of) if first.start_kind is EndKind.CORNER else 0.0,
        "end": _return(layout, last, side, chain_of, at_end=True) if last.end_kind is EndKind.CORNER else 0.0,
    }
    blunt = {where for where in returns if not _relieves(plan, side, after=where == "end")}
    return Line(
        side=math.dist(plan.corner(side.start), plan.corner(side.end)),
        unbroken=last.end - first.start,
        from_start=stretch.start - first.start,
        from_end=last.end - stretch.end,
        start_return=0.0 if "start" in blunt else returns["start"],
        end_return=0.0 if "end" in blunt else returns["end"],
        unrelieved=tuple(where for where, length in returns.items() if where in blunt and length > 0),
    )


def _relieves(plan: Enclosure, side: Side, *, after: bool) -> bool:
    """Whether the corner at an end of a side turns squarely enough."""
    other = _beside(plan, side, after=after)
    if other is None:
        return False
    (ax, ay), (bx, by) = _way(plan, side), _way(plan, other)
    return RELIEVING[0] <= abs(math.atan2(ax * by - ay * bx, ax * bx + ay * by)) <= RELIEVING[1]


def _way(plan: Enclosure, side: Side) -> Point:
    (x, y), (far_x, far_y) = plan.corner(side.start), plan.corner(side.end)
    return far_x - x, far_y - y


def _return(
    layout: Layout, stretch: Stretch, side: Side, chain_of: Mapping[str, list[Stretch]], *, at_end: bool = False
) -> Meter:
    """Length of the unbroken wall that turns the corner at an end; 0 where none of its sort does."""
    following = _beside(layout.plan, side, after=at_end)
    there = [other for other in layout.stretches if following is not None and other.side == following.name]
    if not there:
        return 0.0
    other = there[0] if at_end else there[-1]
    meets = (other.start_kind if at_end else other.end_kind) is EndKind.CORNER
    if not meets or has_wall(other) != has_wall(stretch):
        return 0.0
    chain = chain_of[other.name]
    return chain[-1].end - chain[0].start


def _beside(plan: Enclosure, side: Side, *, after: bool) -> Side | None:
    number = plan.sides.index(side) + (1 if after else -1)
    if plan.is_closed:
        return plan.sides[number % len(plan.sides)]
    return plan.sides[number] if 0 <= number < len(plan.sides) else None

"""The wall around a corner, where it is bonded with the panel next to the corner and may hold it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Buildup
from pinfold.studies.layout.records import EndKind, Stretch
from pinfold.studies.stability.ends import Line, has_wall
from pinfold.studies.stability.pieces import Piece, pieces_of
from pinfold.units import Meter

_SAME: Meter = 0.01


@dataclass(frozen=True, kw_only=True)
class Return:
    """The wall around a corner, up to its own first joint. Two are the same where they hold the same.

    Attributes:
        name: of the stretch it belongs to.
        buildup: how it is built.
        reach: from the corner to its first joint, step or end.
        levels: of its top, bed, footing and lowest ground at the corner.
        stretch: it belongs to.
        last: whether it is the last step of that stretch that meets the corner, and not the first.
    """

    name: str
    buildup: Buildup
    reach: Meter
    levels: tuple[Meter, Meter, Meter, Meter]
    stretch: Stretch = field(compare=False, repr=False)
    last: bool = field(compare=False)

    @cached_property
    def piece(self) -> Piece:
        """Its step at the corner.

        Raises:
            NotFoundError: it stands on no footing for a wall.
        """
        return pieces_of(self.stretch)[-1 if self.last else 0]


Returns = tuple[Return | None, Return | None]
"""Around the corners at start and end of a stretch; None where no wall there is bonded with it."""
NONE: Returns = (None, None)


def returns_of(stretches: tuple[Stretch, ...], lines: Mapping[str, Line]) -> Mapping[str, Returns]:
    """By name of stretch, for stretches in order around the plot."""
    before = (stretches[-1:] + stretches)[: len(stretches)]
    after = (stretches + stretches[:1])[1:]
    return {
        own.name: (_around(own, one, lines[own.name], last=True), _around(own, other, lines[own.name], last=False))
        for own, one, other in zip(stretches, before, after, strict=True)
    }


def _around(own: Stretch, other: Stretch, line: Line, *, last: bool) -> Return | None:
    """The other wall, if it meets the start of one's own with its last step (`last`), or the end with its first."""
    here, there = (0, 1) if last else (1, 0)
    squares = line.start_return if last else line.end_return
    kinds = ((own.start_kind, own.end_kind)[here], (other.start_kind, other.end_kind)[there])
    meets = squares > 0 and kinds == (EndKind.CORNER, EndKind.CORNER)
    if not meets or math.dist(own.points[here], other.points[there]) > _SAME or not _bonded(own, other, last=last):
        return None
    step = other.steps[-1 if last else 0]
    return Return(
        name=other.name, buildup=other.buildup, reach=_reach(other, step, last=last),
        levels=(step.top, step.bed, step.footing_bottom, step.lowest_ground), stretch=other.between_ends, last=last,
    )  # fmt: skip


def _bonded(own: Stretch, other: Stretch, *, last: bool) -> bool:
    """Whether both are laid of the same units, course by course, over all of the panel's height above the ground."""
    if not (_may_bond(own) and _may_bond(other)) or own.buildup.wall is None or other.buildup.wall is None:
        return False
    mine, its = own.steps[0 if last else -1], other.steps[-1 if last else 0]
    covers = its.top >= mine.top - _SAME and its.bed <= mine.lowest_ground + _SAME
    return own.buildup.wall.kind == other.buildup.wall.kind and covers and _is_level(other, its)


def _may_bond(stretch: Stretch) -> bool:
    wall = stretch.buildup.wall
    units = wall is not None and has_wall(stretch) and wall.kind.word("make") == "units"
    return units and wall is not None and not wall.membrane and stretch.buildup.piers is None


def _is_level(stretch: Stretch, step: Step) -> bool:
    tops = stretch.tops[stretch.steps.index(step)]
    return len({z for _, z in tops}) == 1


def _reach(stretch: Stretch, step: Step, *, last: bool) -> Meter:
    places = [joint.at - stretch.start for joint in stretch.joints]
    if last:
        return stretch.length - max((*places, step.start))
    return min((*places, step.end))

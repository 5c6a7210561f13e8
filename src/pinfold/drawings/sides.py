"""Sides as a draftsman sees them: places along and off a side in plan, left to right seen from outside."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinfold.drawings.scenes import Point
from pinfold.geometry.segments import share_along
from pinfold.plan.buildups import Buildup
from pinfold.plan.outline import Side
from pinfold.studies.layout.lie import Lie, lies, turn_between
from pinfold.studies.layout.posting import top_at
from pinfold.studies.layout.records import EndKind, Layout, Post, Stretch
from pinfold.studies.layout.walls import mitre
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Radian

ON_SIDE: Meter = 0.02
"""A post so near a side's line stands in it."""
BESIDE: Meter = 0.2
"""A post so near a stretch's end, such as a gate post, holds its fence."""


@dataclass(frozen=True, kw_only=True)
class SideView:
    """A side with its outside known.

    Attributes:
        lie: the side in plan and on the ground.
        outer_is_right: whether the outside lies right of the way along it.
        turns: angle turned to the left at its first and its last corner; None where no other side meets it.
        others: the sides that meet it there.
    """

    lie: Lie
    outer_is_right: bool
    turns: tuple[Radian | None, Radian | None]
    others: tuple[Side | None, Side | None]

    @property
    def side(self) -> Side:
        """As planned."""
        return self.lie.side

    @property
    def length(self) -> Meter:
        """Of the side."""
        return self.lie.length

    def at(self, along: Meter, out: Meter = 0.0) -> Point:
        """The place in plan so far along the side and so far outside of it."""
        return self.lie.at(along, -out if self.outer_is_right else out)

    def across(self, along: Meter) -> Meter:
        """How far right a place along the side is, seen from outside."""
        return along if self.outer_is_right else self.length - along

    @property
    def inward(self) -> Point:
        """Unit vector to the inside."""
        x, y = self.lie.way
        return (-y, x) if self.outer_is_right else (y, -x)

    @property
    def turn(self) -> Radian:
        """Direction of the side in plan."""
        return math.atan2(self.lie.way[1], self.lie.way[0])

    def out_offset(self, millimeters: float) -> float:
        """Offset on the outside for a dimension that follows the way along the side."""
        return -millimeters if self.outer_is_right else millimeters


def side_views(layout: Layout) -> tuple[SideView, ...]:
    """Every side of the plan, in order."""
    sides = lies(layout.plan)
    count, closed = len(sides), layout.plan.is_closed
    views = []
    for number, lie in enumerate(sides):
        before = sides[number - 1] if number or closed else None
        after = sides[(number + 1) % count] if number < count - 1 or closed else None
        views.append(
            SideView(
                lie=lie, outer_is_right=layout.outer_is_right,
                turns=(turn_between(before, lie) if before else None, turn_between(lie, after) if after else None),
                others=(before.side if before else None, after.side if after else None),
            )
        )  # fmt: skip
    return tuple(views)


def stretches_on(layout: Layout, view: SideView) -> tuple[Stretch, ...]:
    """The stretches of a side, from its first corner on."""
    return tuple(stretch for stretch in layout.stretches if stretch.side == view.side.name)


def posts_on(layout: Layout, view: SideView) -> tuple[tuple[Meter, Post], ...]:
    """Every post in a side's line with its place along it: the corner post counted with the next side too."""
    ends = (view.at(0.0), view.at(view.length))
    found = []
    for post in layout.posts:
        place = post.along if post.side == view.side.name else share_along(post.line_point, ends) * view.length
        if math.dist(view.at(place), post.line_point) < ON_SIDE:
            found.append((place, post))
    return tuple(sorted(found, key=lambda one: one[0]))


def foot_of_fence(view: SideView, stretch: Stretch, along: Meter) -> Meter:
    """Where the mesh starts at a place: the wall's top with its coping, or the ground."""
    return top_at(stretch, along) if stretch.steps else view.lie.ground_at(along)


def bays(layout: Layout, view: SideView, stretch: Stretch) -> Iterator[tuple[Meter, Meter]]:
    """Places along the side between which rails and mesh hang: from post to post, else over the whole stretch."""
    places = [place for place, _ in posts_on(layout, view) if stretch.start - BESIDE < place < stretch.end + BESIDE]
    ends = places if len(places) > 1 else [stretch.start, stretch.end]
    yield from pairwise(ends)


def width_of_post(kind: Kind) -> Meter:
    """Width of a post's section; 0 where none is known."""
    return kind.value("width") if kind.has("width") else 0.0


def band(view: SideView, stretch: Stretch, layout: Layout, *, footing: bool = False) -> tuple[Point, ...]:
    """The ring in plan that a stretch's wall or footing covers, mitered with the next at corners."""
    own = _width(stretch.buildup, footing=footing)
    left: tuple[Point, ...] = ()
    right: tuple[Point, ...] = ()
    ends = ((stretch.start, stretch.start_kind, 0), (stretch.end, stretch.end_kind, 1))
    for along, kind, number in ends:
        push = 0.0
        turn, other = view.turns[number], view.others[number]
        if kind is EndKind.CORNER and turn is not None and other is not None:
            run = other.runs[0 if number else -1]
            push = mitre(turn, own, _width(layout.plan.buildups[run.buildup or ""], footing=footing))
        sign = 1 if number else -1
        left = (*left, view.lie.at(along + sign * push, own / 2))
        right = (*right, view.lie.at(along - sign * push, -own / 2))
    return (*right, *reversed(left))


def _width(buildup: Buildup, *, footing: bool) -> Meter:
    if footing:
        return buildup.footing.width if buildup.footing else 0.0
    return buildup.wall.thickness if buildup.wall else 0.0

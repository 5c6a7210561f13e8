"""A stretch as the take-off sees it: what it meets at its ends, the posts in it, its areas and heights."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import NamedTuple

from pinfold.geometry.intervals import Interval
from pinfold.geometry.profiles import Profile, area_above, height_along
from pinfold.geometry.spacing import bays_between
from pinfold.plan.buildups import Setting, Wall
from pinfold.studies.layout.records import EndKind, Layout, Post, Stretch
from pinfold.units import Meter, SquareMeter, System

_NEAR: Meter = 0.2
"""Uprights nearer than this share a cell."""
_BESIDE: Meter = 0.35
"""A gate post belongs to a stretch that ends this near to it."""


class Met(NamedTuple):
    """The wall that a stretch goes on into at one of its ends.

    Attributes:
        wall: as planned.
        height: from bed to top where they meet.
    """

    wall: Wall
    height: Meter


@dataclass(frozen=True, kw_only=True)
class Reach:
    """A stretch with what it meets.

    Attributes:
        stretch: as laid out.
        before: the wall it meets in a corner or butts at its start; None where none comes.
        after: likewise at its end.
        posts: that stand along it, those of the gates at its ends too, in order.
        system: units for notes.
    """

    stretch: Stretch
    before: Met | None
    after: Met | None
    posts: tuple[Post, ...]
    system: System

    @cached_property
    def between_ends(self) -> Reach:
        """Itself with its stretch between its ends."""
        return replace(self, stretch=self.stretch.between_ends)

    @property
    def wall(self) -> Wall:
        """The wall of a stretch that has one."""
        assert self.stretch.buildup.wall is not None
        return self.stretch.buildup.wall

    @property
    def wall_area(self) -> SquareMeter:
        """Between bed and top, seen from the side."""
        stretch = self.stretch
        return math.fsum(area_above(top, step.bed) for step, top in zip(stretch.steps, stretch.tops, strict=True))

    @property
    def shown_area(self) -> SquareMeter:
        """Of wall between ground and top, along the center line."""
        return math.fsum(area_above(top, 0.0) for top in self.stretch.tops) - area_above(self.stretch.ground, 0.0)

    @property
    def course_length(self) -> Meter:
        """Length along the top of the wall, or along the ground where there is no wall: level unless raked."""
        lines = self.stretch.tops or (self.stretch.ground,)
        return math.fsum(path_length(line) for line in lines)

    @property
    def joined_ends(self) -> int:
        """How many of its ends go on into another stretch of wall."""
        return (self.before is not None) + (self.after is not None)

    @property
    def height_changes(self) -> tuple[Meter, ...]:
        """How much the top steps up or down where one step meets the next."""
        return tuple(abs(after[0][1] - before[-1][1]) for before, after in pairwise(self.stretch.tops))

    @property
    def risers(self) -> tuple[Meter, ...]:
        """How much the footing steps up or down where one step meets the next."""
        bottoms = [step.footing_bottom for step in self.stretch.steps]
        return tuple(abs(after - before) for before, after in pairwise(bottoms) if abs(after - before) > 1e-9)

    def shown_height(self, place: Meter) -> Meter:
        """Height of the wall above ground at a place of the stretch; at a step the higher side."""
        tops = [height_along(top, place) for top in self.stretch.tops if _holds(top, place)]
        return max(max(tops, default=0.0) - height_along(self.stretch.ground, place), 0.0)

    def full_height(self, place: Meter) -> Meter:
        """Height of the wall from bed to top at a place; at a step the higher one."""
        return full_height(self.stretch, place)

    def uprights(self, spacing: Meter, *, alike: Callable[[Wall], bool]) -> tuple[Meter, ...]:
        """Where upright cells or bars stand: at the ends, at posts in the wall, and between them as the spacing asks.

        One in a corner or butt that the next stretch needs too (its wall is `alike`) counts with the taller.
        """
        length = self.stretch.length
        inner = [place for place in self.posts_in_wall if _NEAR < place < length - _NEAR]
        places = bays_between((0.0, *inner, length), spacing).places
        first = 0 if self._owns(self.before, at_end=False, alike=alike) else 1
        last = len(places) if self._owns(self.after, at_end=True, alike=alike) else len(places) - 1
        return places[first:last]

    def _owns(self, other: Met | None, *, at_end: bool, alike: Callable[[Wall], bool]) -> bool:
        if other is None or not alike(other.wall):
            return True
        mine = self.full_height(self.stretch.length if at_end else 0.0)
        return mine > other.height + 1e-9 or (abs(mine - other.height) <= 1e-9 and not at_end)

    @property
    def posts_in_wall(self) -> tuple[Meter, ...]:
        """Places of the posts that stand in the wall or on it, from the stretch's start."""
        posts = self.stretch.buildup.posts
        if posts is None or posts.setting not in (Setting.WALL, Setting.WALL_TOP):
            return ()
        return tuple(post.along - self.stretch.start for post in self.posts if not post.gate)

    @property
    def bays(self) -> tuple[Interval, ...]:
        """From post to post along the stretch, distances from its start; the whole stretch where it has no posts."""
        places = [post.along - self.stretch.start for post in self.posts]
        ends = [0.0, *(place for place in places if _NEAR < place < self.stretch.length - _NEAR), self.stretch.length]
        return tuple(pairwise(ends))


@lru_cache(maxsize=4)  # take-off, part list and water all ask
def reaches(layout: Layout) -> tuple[Reach, ...]:
    """Every stretch of the plot with what it meets, in order."""
    stretches = layout.stretches
    by_side: dict[str, list[Post]] = {}
    for post in layout.posts:
        by_side.setdefault(post.side, []).append(post)
    return tuple(
        Reach(
            stretch=stretch,
            before=_meets(stretches[number - 1], stretch) if number or layout.plan.is_closed else None,
            after=_meets(stretch, stretches[(number + 1) % len(stretches)], forward=True)
            if number < len(stretches) - 1 or layout.plan.is_closed else None,
            posts=_along(by_side.get(stretch.side, ()), stretch),
            system=layout.plan.units,
        )
        for number, stretch in enumerate(stretches)
    )  # fmt: skip


def _meets(first: Stretch, second: Stretch, *, forward: bool = False) -> Met | None:
    """The wall of the other one where `first` ends against the start of `second` in wall and wall."""
    joined = first.end_kind in _JOINED and second.start_kind in _JOINED and first is not second
    if not joined or not first.steps or not second.steps or math.dist(first.points[1], second.points[0]) > 1e-6:
        return None
    other, place = (second, 0.0) if forward else (first, first.length)
    assert other.buildup.wall is not None
    return Met(wall=other.buildup.wall, height=full_height(other, place))


_JOINED = (EndKind.CORNER, EndKind.BUTT)


def _along(posts: Iterable[Post], stretch: Stretch) -> tuple[Post, ...]:
    found = (post for post in posts if stretch.start - _BESIDE <= post.along <= stretch.end + _BESIDE)
    return tuple(sorted(found, key=lambda post: post.along))


def full_height(stretch: Stretch, place: Meter) -> Meter:
    """Height of a stretch's wall from bed to top at a place from its start; at a step the higher one."""
    highest = 0.0
    for step, top in zip(stretch.steps, stretch.tops, strict=True):
        if place < top[0][0] - 1e-6:
            break
        if place <= top[-1][0] + 1e-6:
            highest = max(highest, height_along(top, place) - step.bed)
    return highest


def _holds(top: Profile, place: Meter) -> bool:
    return top[0][0] - 1e-6 <= place <= top[-1][0] + 1e-6


def path_length(line: Profile) -> Meter:
    """Length along a profile."""
    return math.fsum(math.hypot(end - start, high - low) for (start, low), (end, high) in pairwise(line))

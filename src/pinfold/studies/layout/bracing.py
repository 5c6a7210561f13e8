"""Where braces stand: at every end of a fence, its corners and gates, along the fence that ends there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from pinfold.geometry.profiles import height_along
from pinfold.plan.buildups import Buildup, Posts, Setting
from pinfold.plan.fences import Brace, BraceForm
from pinfold.plan.outline import Point
from pinfold.studies.layout.posting import stands_behind, top_at
from pinfold.studies.layout.records import Layout, Post, Role, Stretch
from pinfold.units import Meter

_REACH: Meter = 0.02
_NEAR: Meter = 0.15
"""A post of the fence so near to the end of a rail is its brace post (pinfold's own bound)."""
_STRAIGHT = math.radians(1)


@dataclass(frozen=True, kw_only=True)
class BracePlace:
    """One brace in its place.

    Attributes:
        brace: as planned.
        stretch: along which it stands.
        post: the end, corner or gate post that it holds.
        start: along the side, at that post.
        end: along the side, where its rail meets the brace post, or its strut the ground.
        point: in plan, likewise.
        brace_post: a post of its own there; None where one of the fence stands there, and for a strut.
    """

    brace: Brace
    stretch: Stretch
    post: Post
    start: Meter
    end: Meter
    point: Point
    brace_post: Post | None

    @property
    def length(self) -> Meter:
        """From the end post to the brace post, or to the strut's foot."""
        return abs(self.end - self.start)

    @property
    def slant(self) -> Meter:
        """Length of the strut, or of the diagonal once."""
        return math.hypot(self.length, self.brace.rail_at)

    @property
    def held_at(self) -> Meter:
        """Height of the level where its post is held, from which the rail is measured."""
        return self.post.ground if self.post.hole > 0 else self.post.base


@lru_cache(maxsize=4)  # take-off, parts and drawings all ask
def braces_of(layout: Layout) -> tuple[BracePlace, ...]:
    """Every brace of the plot, in order around it."""
    if not any(buildup.brace for buildup in layout.plan.buildups.values()):
        return ()
    return tuple(place for stretch in layout.stretches for place in _of_stretch(layout, stretch))


def _of_stretch(layout: Layout, stretch: Stretch) -> Iterator[BracePlace]:
    brace, posts = stretch.buildup.brace, stretch.buildup.posts
    if brace is None or posts is None:
        return
    for number, start in enumerate((stretch.start, stretch.end)):
        post = _at(layout, stretch.points[number])
        if post is not None and not any(_goes_on(stretch, number, other) for other in layout.stretches):
            yield _braced(layout, stretch, (brace, posts), (post, start))


def _at(layout: Layout, point: Point) -> Post | None:
    """The post at an end of a stretch; a gate's stands beside it."""
    for post in layout.posts:
        room = (post.kind.value("width") if post.gate and post.kind.has("width") else 0.0) + _REACH
        if math.dist(post.line_point, point) <= room:
            return post
    return None


def _goes_on(stretch: Stretch, number: int, other: Stretch) -> bool:
    """Whether another fence takes over the same wires straight on at an end."""
    point = stretch.points[number]
    if other is stretch or other.buildup.posts is None:
        return False
    for beyond, meets in ((other.points[1], other.points[0]), (other.points[0], other.points[1])):
        if math.dist(meets, point) <= _REACH:
            back, on = _way(point, stretch.points[1 - number]), _way(point, beyond)
            turned = abs(math.atan2(back[0] * on[1] - back[1] * on[0], back[0] * on[0] + back[1] * on[1]))
            return turned > math.pi - _STRAIGHT and _wires(stretch.buildup) == _wires(other.buildup)
    return False


def _way(start: Point, end: Point) -> Point:
    return end[0] - start[0], end[1] - start[1]


def _wires(buildup: Buildup) -> list[tuple[str, Meter]]:
    return [(rail.kind.name, rail.at) for rail in buildup.rails if rail.kind.word("sold") == "roll"]


def _braced(layout: Layout, stretch: Stretch, how: tuple[Brace, Posts], held: tuple[Post, Meter]) -> BracePlace:
    (brace, posts), (post, start) = how, held
    on = 1 if start == stretch.start else -1
    end = start + on * min(brace.rail_length, stretch.length)
    standing = next(
        (each for each in layout.posts if each.side == stretch.side and abs(each.along - end) <= _NEAR
         and each is not post), None,
    )  # fmt: skip
    if brace.form is BraceForm.RAIL and standing is not None:
        return BracePlace(
            brace=brace, stretch=stretch, post=post, start=start, end=standing.along, point=standing.point,
            brace_post=None,
        )  # fmt: skip
    own = _brace_post(layout, stretch, posts, end)
    return BracePlace(
        brace=brace, stretch=stretch, post=post, start=start, end=end, point=own.point,
        brace_post=own if brace.form is BraceForm.RAIL else None,
    )  # fmt: skip


def _brace_post(layout: Layout, stretch: Stretch, posts: Posts, along: Meter) -> Post:
    """A post like those of the fence at a place of a stretch."""
    place = along - stretch.start
    ground = height_along(stretch.ground, place)
    (x, y), (far_x, far_y) = stretch.points
    share, length = place / stretch.length, math.dist(*stretch.points)
    spot = (x + share * (far_x - x), y + share * (far_y - y))
    aside = stands_behind(stretch.buildup) * (1 if layout.outer_is_right else -1) / length
    in_wall = posts.setting in (Setting.WALL, Setting.WALL_TOP)
    base = top_at(stretch, along) if stretch.steps else ground
    return Post(
        name="", side=stretch.side, run=stretch.run, gate="", along=along,
        point=(spot[0] - aside * (far_y - y), spot[1] + aside * (far_x - x)), line_point=spot, role=Role.LINE,
        kind=posts.kind, ground=ground, base=base, foot=(base if in_wall else ground) - posts.embed,
        top=base + posts.height, hole=0.0 if in_wall else posts.embed,
        collar=0.0 if in_wall else posts.collar or 0.0, share=0.0,
    )  # fmt: skip

"""Measuring up posts: where each stands, how deep and how high, and one for both sides of a corner."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from pinfold.plan.buildups import Buildup, Posts, Setting
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.outline import Point
from pinfold.studies.layout.lie import Lie, turn_between
from pinfold.studies.layout.records import Post, Role, Stretch
from pinfold.studies.layout.spots import SAME, Spot, shares_of, spots_of
from pinfold.studies.layout.walls import mitre, outside_is_right
from pinfold.tables.shelf import Kind
from pinfold.units import Meter

OVER_LEAF: Meter = 0.05
"""A gate post ends this much above the leaf it holds (common practice)."""


def posts_of(
    plan: Enclosure, sides: tuple[Lie, ...], stretches: tuple[Stretch, ...], hangs: Mapping[str, Meter]
) -> tuple[Post, ...]:  # fmt: skip
    """Every post of the plot in order around it, named P1 and on; where two sides meet they share one.

    Args:
        plan: as read
        sides: in plan
        stretches: as laid out, for the tops of walls
        hangs: by gate, height of the leaf's underside
    """
    posts: list[Post] = []
    for number, lie in enumerate(sides):
        own = _along(plan, sides, number, stretches, hangs)
        if number and posts and own and _meet(posts[-1], own[0], lie.start):
            own[0] = _shared(own[0], posts.pop(), turn_between(sides[number - 1], lie))
        if number == len(sides) - 1 and plan.is_closed and posts and own and _meet(own[-1], posts[0], sides[0].start):
            posts[0] = _shared(posts[0], own.pop(), turn_between(lie, sides[0]))
        posts.extend(own)
    return tuple(post._replace(name=f"P{number}") for number, post in enumerate(posts, start=1))


def _along(
    plan: Enclosure, sides: tuple[Lie, ...], number: int, stretches: tuple[Stretch, ...], hangs: Mapping[str, Meter]
) -> list[Post]:  # fmt: skip
    lie, places = sides[number], spots_of(plan, sides[number])
    shares = shares_of(plan, lie, places)
    spots = tuple((spot, shares[spot.along]) for spot in places)
    names = {spot.run.buildup for spot, _ in spots}
    setter = _Setter(
        lie=lie,
        turns=_turns(plan, sides, number),
        beside=tuple(stretch for stretch in stretches if stretch.side == lie.side.name and stretch.steps),
        buildups=tuple(buildup for name, buildup in plan.buildups.items() if name in names),
        hangs=tuple((spot.gate.name, hangs[spot.gate.name]) for spot, _ in spots if spot.gate is not None),
        outer_is_right=outside_is_right(plan),
    )
    return list(_measured(setter, spots))


@lru_cache(maxsize=128)  # while one corner is dragged, most sides stay what they were
def _measured(setter: _Setter, spots: tuple[tuple[Spot, Meter], ...]) -> tuple[Post, ...]:
    return tuple(_post(setter, spot, share) for spot, share in spots)


def _turns(plan: Enclosure, sides: tuple[Lie, ...], number: int) -> tuple[float, float]:
    """Turn to the left at the side's first and last corner; 0 where no side comes."""
    count = len(sides)
    before = turn_between(sides[number - 1], sides[number]) if number or plan.is_closed else 0.0
    has_next = number < count - 1 or plan.is_closed
    return before, turn_between(sides[number], sides[(number + 1) % count]) if has_next else 0.0


def _meet(first: Post, second: Post, corner: Point) -> bool:
    """Whether both are the post of one corner, whichever side of it each stands on."""
    both = (first, second)
    return not any(post.gate for post in both) and all(math.dist(post.line_point, corner) < SAME for post in both)


def _shared(post: Post, other: Post, turn: float) -> Post:
    """One post for both sides of a corner: as high, deep and wide as either wants it, in the wall if either stands so.

    The wind it takes is that on both half bays, each square to its own side, added as vectors.
    """
    both = math.sqrt(post.share**2 + other.share**2 + 2 * post.share * other.share * math.cos(turn))
    share, top = max(both, post.share, other.share), max(post.top, other.top)
    in_wall = next((each for each in (post, other) if each.hole == 0.0), None)
    if in_wall is not None:
        return in_wall._replace(top=top, share=share)
    wider = max(post, other, key=lambda each: each.kind.value("width") if each.kind.has("width") else 0.0)
    return post._replace(
        kind=wider.kind, top=top, share=share, foot=min(post.foot, other.foot), hole=max(post.hole, other.hole),
        collar=max(post.collar, other.collar),
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class _Setter:
    """What it takes to measure up the posts of one side."""

    lie: Lie
    turns: tuple[float, float]
    beside: tuple[Stretch, ...]
    buildups: tuple[Buildup, ...]
    hangs: tuple[tuple[str, Meter], ...]
    outer_is_right: bool

    def buildup(self, spot: Spot) -> Buildup:
        """The build-up whose fence a post carries."""
        return next(buildup for buildup in self.buildups if buildup.name == spot.run.buildup)

    def place(self, spot: Spot, buildup: Buildup) -> tuple[Meter, Meter]:
        """Along the side and left of it: on the line, or inside of wall and trench when set in the ground beside it."""
        back = 0.0 if spot.gate else stands_behind(buildup)
        if back == 0.0:
            return spot.along, 0.0
        inward = 1 if self.outer_is_right else -1
        shift = 0.0
        for turn, corner, way in zip(self.turns, (0.0, self.lie.length), (-1, 1), strict=True):
            if abs(spot.along - corner) < SAME:
                shift = mitre(turn, 2 * back, 2 * back) * way * inward
        return spot.along + shift, back * inward


def stands_behind(buildup: Buildup) -> Meter:
    """How far inside of the center line its posts stand: clear of wall, trench and pads when set in the ground."""
    posts, wall = buildup.posts, buildup.wall
    if posts is None or wall is None or posts.setting in (Setting.WALL, Setting.WALL_TOP):
        return 0.0
    width = posts.kind.value("width") if posts.kind.has("width") else 0.0
    trench = max(buildup.footing.width if buildup.footing else 0.0, wall.thickness) / 2
    if buildup.piers is not None:
        trench = max(trench, buildup.piers.pad_reach(wall.thickness)[1])
    return trench + max(posts.collar or 0.0, width) / 2


def _post(setter: _Setter, spot: Spot, share: Meter) -> Post:
    buildup = setter.buildup(spot)
    along, aside = setter.place(spot, buildup)
    ground = setter.lie.ground_at(along, aside)
    wall_top = _wall_top(setter.beside, spot, ground)
    if spot.gate is not None:
        foot, top, collar = _gate_heights(spot.gate, buildup, ground, wall_top, dict(setter.hangs)[spot.gate.name])
        kind, base, hole = spot.gate.post, ground, ground - foot
    else:
        assert buildup.posts is not None
        foot, collar = _foot(buildup.posts, ground, wall_top)
        base = wall_top
        kind, top, hole = _kind(buildup.posts, spot.role), base + buildup.posts.height, max(ground - foot, 0.0)
        if buildup.posts.setting in (Setting.WALL, Setting.WALL_TOP):
            hole = 0.0
    return Post(
        name="", side=setter.lie.side.name, run=spot.run.name, gate=spot.gate.name if spot.gate else "",
        along=spot.along, point=setter.lie.at(along, aside), line_point=setter.lie.at(spot.along), role=spot.role,
        kind=kind, ground=ground, base=base, foot=foot, top=top, hole=hole, collar=collar, share=share,
    )  # fmt: skip


def _kind(posts: Posts, role: Role) -> Kind:
    return posts.stout if posts.stout is not None and role is not Role.LINE else posts.kind


def _foot(posts: Posts, ground: Meter, wall_top: Meter) -> tuple[Meter, Meter]:
    if posts.setting in (Setting.WALL, Setting.WALL_TOP):
        return wall_top - posts.embed, 0.0
    return ground - posts.embed, posts.collar or 0.0


def _gate_heights(
    gate: Gate, buildup: Buildup, ground: Meter, wall_top: Meter, hang: Meter
) -> tuple[Meter, Meter, Meter]:  # fmt: skip
    over = hang + gate.height + OVER_LEAF
    fence = wall_top + buildup.posts.height if buildup.posts is not None else wall_top
    return ground - gate.embed, max(over, fence), gate.collar or 0.0


def _wall_top(stretches: Sequence[Stretch], spot: Spot, ground: Meter) -> Meter:
    """Top of the wall with its coping at a place; the ground where there is no wall. At a step the higher one."""
    tops = [
        top_at(stretch, spot.along)
        for stretch in stretches
        if stretch.run == spot.run.name and stretch.start - 0.2 <= spot.along <= stretch.end + 0.2
    ]
    return max(tops, default=ground)


def top_at(stretch: Stretch, along: Meter) -> Meter:
    """Height of the wall's top, coping included, at a place along its side; at a step the higher of the two."""
    place = min(max(along - stretch.start, 0.0), stretch.length)
    coping = stretch.buildup.coping.thickness if stretch.buildup.coping else 0.0
    heights = [
        _between(top, place)
        for step, top in zip(stretch.steps, stretch.tops, strict=True)
        if step.start - 1e-6 <= place <= step.end + 1e-6
    ]
    return max(heights) + coping


def _between(profile: tuple[tuple[Meter, Meter], ...], place: Meter) -> Meter:
    number = min(max(bisect_right(profile, (place, math.inf)), 1), len(profile) - 1)
    (left, low), (right, high) = profile[number - 1], profile[number]
    share = 0.0 if right <= left else min(max((place - left) / (right - left), 0.0), 1.0)
    return low + share * (high - low)

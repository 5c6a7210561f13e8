"""Setting out posts: at corners, ends, gates and changes of build-up, and in equal bays between them."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.geometry.spacing import equal_bays
from pinfold.plan.buildups import Buildup, Posts, Setting
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.outline import Run
from pinfold.studies.layout.lie import Lie
from pinfold.studies.layout.records import Post, Role, Stretch
from pinfold.studies.layout.walls import opening_of
from pinfold.tables.shelf import Kind
from pinfold.units import Meter

MOST_POSTS = 4000
"""More posts than this are taken for a slip of the pen."""
OVER_LEAF: Meter = 0.05
"""A gate post ends this much above the leaf it holds (common practice)."""
_SAME: Meter = 0.02


@dataclass(frozen=True, kw_only=True)
class _Spot:
    """A post's place along a side before it is measured up."""

    along: Meter
    role: Role
    run: Run
    gate: Gate | None = None


def posts_of(plan: Enclosure, sides: tuple[Lie, ...], stretches: tuple[Stretch, ...]) -> tuple[Post, ...]:
    """Every post of the plot, each corner's once, in order around the plot, named P1 and on."""
    posts: list[Post] = []
    for number, lie in enumerate(sides):
        spots = _spots(plan, lie)
        ends_at_corner = bool(spots) and spots[-1].along > lie.length - _SAME and not spots[-1].gate
        if ends_at_corner and _corner_is_set(plan, sides, number):
            spots = spots[:-1]
        if number and posts and spots and math.dist(lie.at(spots[0].along), posts[-1].point) < _SAME:
            spots = spots[1:]
        shares = _shares(plan, lie)
        beside = [stretch for stretch in stretches if stretch.side == lie.side.name and stretch.steps]
        posts.extend(_post(plan, lie, spot, shares[spot.along], beside) for spot in spots)
    return tuple(replace(post, name=f"P{number}") for number, post in enumerate(posts, start=1))


def refuse_forests(plan: Enclosure) -> None:
    """Stop before counting out more posts than anyone sets.

    Raises:
        InputError: more than MOST_POSTS.
    """
    count = 0.0
    for _, run in plan.runs:
        posts = plan.buildups[run.buildup].posts if run.buildup is not None else None
        count += (run.end - run.start) / posts.spacing if posts is not None else 0.0
    if count > MOST_POSTS:
        raise InputError(f"the plan asks for {count:.0f} posts; at most {MOST_POSTS} are set out: widen their spacing")


def _corner_is_set(plan: Enclosure, sides: tuple[Lie, ...], number: int) -> bool:
    """Whether the next side sets a post at the corner where this one ends."""
    following = (number + 1) % len(sides)
    if number == len(sides) - 1 and not plan.is_closed:
        return False
    spots = _spots(plan, sides[following])
    return bool(spots) and spots[0].along < _SAME and spots[0].gate is None


def _spots(plan: Enclosure, lie: Lie) -> list[_Spot]:
    spots: list[_Spot] = []
    for run in lie.side.runs:
        if run.buildup is None:
            continue
        spots.extend(_of_gates(plan, lie, run))
        if plan.buildups[run.buildup].posts is not None:
            spots.extend(_of_run(plan, lie, run))
    spots.sort(key=lambda spot: (spot.along, spot.gate is None))
    kept: list[_Spot] = []
    for spot in spots:
        if not kept or spot.along - kept[-1].along > _SAME:
            kept.append(spot)
    return kept


def _of_gates(plan: Enclosure, lie: Lie, run: Run) -> list[_Spot]:
    spots = []
    for gate in plan.gates_in(lie.side.name):
        if run.start - 1e-6 <= gate.start <= run.end:
            low, high = opening_of(gate)
            middles = (min(max((low + gate.start) / 2, run.start), run.end), min((gate.end + high) / 2, run.end))
            spots += [_Spot(along=along, role=Role.GATE, run=run, gate=gate) for along in middles]
    return spots


def _of_run(plan: Enclosure, lie: Lie, run: Run) -> list[_Spot]:
    posts = plan.buildups[run.buildup or ""].posts
    assert posts is not None
    gates = [spot.along for spot in _of_gates(plan, lie, run)]
    edges = [run.start, *gates, run.end]
    spots = [_Spot(along=end, role=_end_role(plan, lie, end), run=run) for end in (run.start, run.end)]
    for low, high in zip(edges[::2], edges[1::2], strict=True):
        if high - low > _SAME:
            spots.extend(
                _Spot(along=low + place, role=Role.LINE, run=run)
                for place in equal_bays(high - low, posts.spacing).places[1:-1]
            )
    return spots


def _end_role(plan: Enclosure, lie: Lie, along: Meter) -> Role:
    at_first, at_last = along < _SAME, along > lie.length - _SAME
    first, last = plan.sides[0] is lie.side, plan.sides[-1] is lie.side
    if (at_first and (plan.is_closed or not first)) or (at_last and (plan.is_closed or not last)):
        return Role.CORNER
    if at_first or at_last:
        return Role.END
    beside = [run for run in lie.side.runs if abs(run.start - along) < _SAME or abs(run.end - along) < _SAME]
    return Role.END if any(run.neighbor for run in beside) else Role.LINE


def _post(
    plan: Enclosure, lie: Lie, spot: _Spot, share: Meter, stretches: Sequence[Stretch]
) -> Post:  # fmt: skip
    buildup = plan.buildups[spot.run.buildup or ""]
    ground = lie.ground_at(spot.along)
    wall_top = _wall_top(stretches, spot, ground)
    if spot.gate is not None:
        foot, top, collar = _gate_heights(spot.gate, buildup, ground, wall_top)
        kind, base, hole = spot.gate.post, ground, ground - foot
    else:
        assert buildup.posts is not None
        foot, collar = _foot(buildup.posts, ground, wall_top)
        base = wall_top
        kind, top, hole = _kind(buildup.posts, spot.role), base + buildup.posts.height, max(ground - foot, 0.0)
        if buildup.posts.setting in (Setting.WALL, Setting.WALL_TOP):
            hole = 0.0
    return Post(
        name="", side=lie.side.name, run=spot.run.name, gate=spot.gate.name if spot.gate else "", along=spot.along,
        point=lie.at(spot.along), role=spot.role, kind=kind, ground=ground, base=base, foot=foot, top=top, hole=hole,
        collar=collar, share=share,
    )  # fmt: skip


def _kind(posts: Posts, role: Role) -> Kind:
    return posts.stout if posts.stout is not None and role is not Role.LINE else posts.kind


def _foot(posts: Posts, ground: Meter, wall_top: Meter) -> tuple[Meter, Meter]:
    if posts.setting in (Setting.WALL, Setting.WALL_TOP):
        return wall_top - posts.embed, 0.0
    return ground - posts.embed, posts.collar or 0.0


def _gate_heights(gate: Gate, buildup: Buildup, ground: Meter, wall_top: Meter) -> tuple[Meter, Meter, Meter]:
    over = ground + gate.under + gate.height + OVER_LEAF
    fence = wall_top + buildup.posts.height if buildup.posts is not None else wall_top
    return ground - gate.embed, max(over, fence), gate.collar or 0.0


def _wall_top(stretches: Sequence[Stretch], spot: _Spot, ground: Meter) -> Meter:
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


def _shares(plan: Enclosure, lie: Lie) -> dict[Meter, Meter]:
    """By place along a side: half of each bay beside the post there, gates and neighbors carrying none."""
    free = [opening_of(gate) for gate in plan.gates_in(lie.side.name)]
    free += [(run.start, run.end) for run in lie.side.runs if run.neighbor]
    places = [spot.along for spot in _spots(plan, lie)]
    shares = dict.fromkeys(places, 0.0)
    for low, high in pairwise(places):
        if not any(start < (low + high) / 2 < end for start, end in free):
            shares[low] += (high - low) / 2
            shares[high] += (high - low) / 2
    return shares

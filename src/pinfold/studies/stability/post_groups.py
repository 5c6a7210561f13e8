"""Posts alike, told together, and what pulls at the worst of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.studies.layout.records import Layout, Post
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import SOLID_MESH
from pinfold.studies.stability.fences import (
    Pull,
    bands_on,
    fence_of,
    listed,
    mesh_foot,
    must_have_wall,
    pull_of,
    setting_of,
)
from pinfold.studies.stability.pulls import NO_WIRES, Wires, wires_on, with_wind
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import Meter, NewtonMeter

_ALIKE_PULL = 20.0
"""Pulls in N and moments in N m this near count as one (pinfold's own)."""
_END: Meter = 0.1
"""A post farther than this from both ends of its stretch stands along it."""
_ALIKE: Meter = 0.05
"""Shares, depths and heights this near count as one, the worst of them (pinfold's own)."""


@dataclass(frozen=True, kw_only=True)
class Group:
    """Posts alike, and one that stands for the worst of them.

    Attributes:
        posts: all of them.
        worst: the greatest share and height and the least depth of any.
        fence: that it stands in.
        wires: that end or turn at them, the hardest pull of any.
    """

    posts: tuple[Post, ...]
    worst: Post
    fence: Exposed
    wires: Wires

    @cached_property
    def listed(self) -> str:
        """All of them by name."""
        return listed(self.posts)

    @cached_property
    def pull(self) -> Pull:
        """Force and moment where the posts are held.

        Raises:
            NotFoundError: the wind or the mesh is not known, or the posts stand in a sheet.
            OutOfRangeError: past the tables.
        """
        fence, post, wind = self.fence, self.worst, self.fence.wind
        in_wall = setting_of(fence, post) in IN_WALL
        if in_wall:
            must_have_wall(fence)
        held_at = mesh_foot(fence, post) if in_wall else 0.0
        pull = pull_of(bands_on(fence, post, wind, held_at), fence.factors.service.value)
        return replace(pull, working=(*wind.mesh_working, *pull.working))

    @cached_property
    def together(self) -> Pull:
        """Wind and wires."""
        return with_wind(self.pull, self.wires)


def groups_of(layout: Layout, fences: Mapping[str, Exposed]) -> tuple[Group, ...]:
    """Posts alike, in the order of their first."""
    groups: dict[tuple[object, ...], list[_Member]] = {}
    by_run: dict[str, dict[str, Exposed]] = {}
    for name, each in fences.items():
        by_run.setdefault(each.stretch.run, {})[name] = each
    for post in layout.posts:
        if not post.gate:
            fence = fence_of(by_run[post.run], post)
            wires = wires_on(fences, post, _held_level(fence, post)) if _at_an_end(fence, post) else NO_WIRES
            member = (post, fence, wires)
            groups.setdefault(_likeness(*member), []).append(member)
    return tuple(_group(members) for members in groups.values())


def hardest(groups: Iterable[Group]) -> tuple[Group, ...]:
    """The group whose posts are turned the most, and the first of which that cannot be told."""
    known: list[tuple[NewtonMeter, Group]] = []
    unknown: list[Group] = []
    for group in groups:
        try:
            known.append((group.together.moment, group))
        except (NotFoundError, OutOfRangeError):
            unknown.append(group)
    return (*(max(known, key=lambda each: each[0])[1:] if known else ()), *unknown[:1])


_Member = tuple[Post, Exposed, Wires]


def _at_an_end(fence: Exposed, post: Post) -> bool:
    """Whether a stretch may end at a post; along the one it stands in, none does."""
    return not fence.stretch.start + _END < post.along < fence.stretch.end - _END


def _held_level(fence: Exposed, post: Post) -> Meter:
    return post.base if setting_of(fence, post) in IN_WALL else post.ground


def _likeness(post: Post, fence: Exposed, wires: Wires) -> tuple[object, ...]:
    """What posts must have in common to be told together."""
    in_ground = setting_of(fence, post) not in IN_WALL
    sizes = (post.share, post.hole, post.collar, mesh_foot(fence, post)) if in_ground else (post.share,)
    line = fence.stretch.name if _counts_as_wall(fence) else ""
    pulled = (
        wires.unknown,
        wires.turned,
        wires.braced,
        round(wires.angle, 1),
        round(wires.force / _ALIKE_PULL),
        round(wires.moment / _ALIKE_PULL),
    )
    return (fence.stretch.buildup.name, post.kind.name, line, *pulled, *(round(size / _ALIKE) for size in sizes))


def _counts_as_wall(fence: Exposed) -> bool:
    """Whether the mesh may get so close that its place in the line of wall matters."""
    mesh = fence.stretch.buildup.mesh
    return mesh is None or (mesh.grown or 0.0) >= SOLID_MESH or not mesh.kind.has("wire")


def _group(members: list[_Member]) -> Group:
    posts = [post for post, _, _ in members]
    highest, fence, _ = max(members, key=lambda member: (mesh_foot(member[1], member[0]), member[1].stretch.tallest))
    worst = highest._replace(
        share=max(post.share for post in posts), hole=min(post.hole for post in posts),
        collar=min(post.collar for post in posts),
    )  # fmt: skip
    wires = max((wires for _, _, wires in members), key=lambda wires: (wires.moment, wires.force))
    return Group(posts=tuple(posts), worst=worst, fence=fence, wires=wires)

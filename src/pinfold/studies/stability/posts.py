"""Posts of the fence: their hold in the ground, their bending, and what stands on the wall's top."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, work
from pinfold.formulas import posts as formulas
from pinfold.plan.buildups import Setting
from pinfold.plan.place import Family
from pinfold.studies.layout.records import Layout, Post
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import LEFT_OUT as LEFT_OUT_BELOW
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import SOLID_MESH
from pinfold.studies.stability.fences import (
    Pull,
    bands_on,
    fence_of,
    listed,
    mesh_foot,
    modulus_of,
    pull_of,
    setting_of,
)
from pinfold.studies.stability.pulls import Wires, bent_by, told_of, wires_on, with_wind
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import NEWTON_METER, PASCAL, Meter

LEFT_OUT = (
    "how a post in the wall is held there; pull of a mesh strained by itself; braces; the little more of bending just "
    "under the ground; rot and rust; animals and people pushing"
)
_ALIKE_PULL = 20.0
"""Pulls in N and moments in N m this near count as one (pinfold's own)."""
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
    def pull(self) -> Pull:
        """Force and moment where the posts are held.

        Raises:
            NotFoundError: the wind or the mesh is not known, or the posts stand in a sheet.
            OutOfRangeError: past the tables.
        """
        fence, post, wind = self.fence, self.worst, self.fence.wind
        in_wall = setting_of(fence, post) in IN_WALL
        if in_wall and not has_wall(fence.stretch):
            raise NotFoundError("no wall stands there that could hold a post; set it in the ground or in a collar")
        held_at = mesh_foot(fence, post) if in_wall else 0.0
        pull = pull_of(bands_on(fence, post, wind, held_at), fence.factors.service.value)
        return replace(pull, working=(*wind.mesh_working, *pull.working))

    @cached_property
    def together(self) -> Pull:
        """Wind and wires."""
        return with_wind(self.pull, self.wires)


def fence_posts(layout: Layout, fences: Mapping[str, Exposed]) -> tuple[Finding, ...]:
    """Every post but those of gates, alike ones together."""
    findings: list[Finding] = []
    for group in groups_of(layout, fences):
        findings += _below(group)
        findings.append(_bending(group))
    return tuple(findings)


def groups_of(layout: Layout, fences: Mapping[str, Exposed]) -> tuple[Group, ...]:
    """Posts alike, in the order of their first."""
    groups: dict[tuple[object, ...], list[_Member]] = {}
    for post in layout.posts:
        if not post.gate:
            fence = fence_of(fences, post)
            member = (post, fence, wires_on(fences, post, _held_level(fence, post)))
            groups.setdefault(_likeness(*member), []).append(member)
    return tuple(_group(members) for members in groups.values())


_Member = tuple[Post, Exposed, Wires]


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
    worst = replace(
        highest, share=max(post.share for post in posts), hole=min(post.hole for post in posts),
        collar=min(post.collar for post in posts),
    )  # fmt: skip
    wires = max((wires for _, _, wires in members), key=lambda wires: wires.moment)
    return Group(posts=tuple(posts), worst=worst, fence=fence, wires=wires)


def _below(group: Group) -> list[Finding]:
    """What holds the posts: the ground, or the top of the wall."""
    setting = setting_of(group.fence, group.worst)
    subject = listed(group.posts)
    if setting is Setting.WALL:
        return []
    if setting is Setting.WALL_TOP:
        return [answered(Question(check="anchorage", subject=subject), lambda: _anchorage(group))]
    question = Question(check="embedment", subject=subject, left_out=LEFT_OUT_BELOW)
    return [answered(question, lambda: _embedment(group))]


def _anchorage(group: Group) -> Finding:
    pull, notes = group.together, (told_of(group.wires), *group.fence.wind.mesh_notes)
    return Finding(
        check="anchorage", subject="", demand=pull.moment, unit=NEWTON_METER, working=pull.working,
        because=told("what the anchors on the wall carry is not known: take it from their maker", *notes),
    )  # fmt: skip


def _embedment(group: Group) -> Finding:
    fence = group.fence
    found = embedment(fence.family, fence.place, group.worst, group.together)
    return replace(
        found, because=told(found.because, told_of(group.wires), _alike(group), *fence.wind.mesh_notes),
        figures=(*fence.figures, *found.figures, *group.wires.figures, *fence.factors.allowable),
    )  # fmt: skip


def _bending(group: Group) -> Finding:
    question = Question(check="bending", subject=listed(group.posts), left_out=LEFT_OUT)
    return answered(question, lambda: _stress(group))


def _stress(group: Group) -> Finding:
    fence, kind = group.fence, group.worst.kind
    modulus, steps, sized = modulus_of(kind)
    if not kind.has("allowable"):
        raise NotFoundError(f"no allowable stress is known for {kind.name}; write allowable beside it in the plan")
    allowed = kind.figure("allowable")
    moment, pulled = bent_by(group.pull, group.wires, kind)
    bent = work(
        formulas.bending_stress, why="stress where the post is held", moment=moment, modulus=modulus
    )  # fmt: skip
    return Finding(
        check="bending", subject="", demand=bent.number, capacity=allowed.value, unit=PASCAL,
        because=told(
            _held(fence, group.worst), told_of(group.wires), _family(fence), _alike(group), *fence.wind.mesh_notes
        ),
        working=(*pulled, *steps, bent),
        figures=(*fence.figures, *sized, *group.wires.figures, ("allowable stress of the post", allowed),
                 *fence.factors.allowable),
        mend="" if bent.number <= allowed.value else _mend(group.wires),
    )  # fmt: skip


def _mend(wires: Wires) -> str:
    pulled = wires.force > 0
    return "a brace, slacker wires or a stouter post" if pulled else "a stouter post, closer posts or lower mesh"


def _held(fence: Exposed, post: Post) -> str:
    setting = setting_of(fence, post)
    if setting in IN_WALL:
        return "bent at the top of the wall, which takes its moment on: see the overturning of its run"
    return "bent at the ground"


def _family(fence: Exposed) -> str:
    return "by allowable stress with the characteristic wind" if fence.family is Family.EU else ""


def _alike(group: Group) -> str:
    return "the worst of these posts counts" if len(group.posts) > 1 else ""

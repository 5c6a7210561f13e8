"""Posts of the fence: their hold in the ground, and their bending."""

from __future__ import annotations

from dataclasses import replace

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, work
from pinfold.formulas import post_sections
from pinfold.plan.place import Family
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.anchors import anchored
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import LEFT_OUT as LEFT_OUT_BELOW
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.fences import listed, setting_of
from pinfold.studies.stability.fencing.sections import modulus_of
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import Wires, bent_by, told_of
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import PASCAL

LEFT_OUT = (
    "how a post in the wall is held there; pull of a mesh strained by itself; braces; the little more of bending just "
    "under the ground; rails and mesh between posts; rot and rust"
)


def fence_posts(groups: tuple[Group, ...]) -> tuple[Finding, ...]:
    """Every post but those of gates, alike ones together."""
    standing = [finding for group in groups for finding in (*_below(group), _bending(group))]
    return (*standing, *anchored(groups))


def _below(group: Group) -> tuple[Finding, ...]:
    if setting_of(group.fence, group.worst) in IN_WALL:
        return ()
    question = Question(check="embedment", subject=listed(group.posts), left_out=LEFT_OUT_BELOW)
    return (answered(question, lambda: _embedment(group)),)


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
        post_sections.bending_stress, why="stress where the post is held", moment=moment, modulus=modulus
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
        return "bent at the top of the wall, which takes its moment on: see the overturning of its stretch"
    return "bent at the ground"


def _family(fence: Exposed) -> str:
    return "by allowable stress with the characteristic wind" if fence.family is Family.EU else ""


def _alike(group: Group) -> str:
    return "the worst of these posts counts" if len(group.posts) > 1 else ""

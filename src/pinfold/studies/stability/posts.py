"""Posts of the fence: their hold in the ground, and their bending."""

from __future__ import annotations

from dataclasses import replace

from pinfold.findings import Finding, keeps_to
from pinfold.plan.buildups import Setting
from pinfold.plan.place import Family
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import LEFT_OUT as LEFT_OUT_BELOW
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.fences import setting_of
from pinfold.studies.stability.fencing.leaning import leaning
from pinfold.studies.stability.fencing.shearing import shearing
from pinfold.studies.stability.fencing.sockets import built_in
from pinfold.studies.stability.fencing.stresses import stress_of
from pinfold.studies.stability.fencing.wall_tops import on_top
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import Wires, bent_by, told_of
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import PASCAL

LEFT_OUT = (
    "what cold adds to the pull of strained wires where no brace keeps the end stiff; the little more of bending just "
    "under the ground; rot and rust"
)


def fence_posts(groups: tuple[Group, ...]) -> tuple[Finding, ...]:
    """Every post but those of gates, alike ones together."""
    return (*bent_and_held(groups), *held_by_walls(groups), *leaning(groups), *shearing(groups))


def bent_and_held(groups: tuple[Group, ...]) -> tuple[Finding, ...]:
    """Their hold in the ground, and their bending."""
    return tuple(finding for group in groups for finding in (*_below(group), _bending(group)))


def held_by_walls(groups: tuple[Group, ...]) -> tuple[Finding, ...]:
    """How walls hold the posts built into them or anchored on their tops."""
    by_setting: dict[Setting, list[Group]] = {}
    for group in groups:
        by_setting.setdefault(setting_of(group.fence, group.worst), []).append(group)
    anchored = [finding for group in by_setting.get(Setting.WALL_TOP, ()) for finding in on_top(group)]
    return (*anchored, *built_in(by_setting.get(Setting.WALL, ())))


def _below(group: Group) -> tuple[Finding, ...]:
    if setting_of(group.fence, group.worst) in IN_WALL:
        return ()
    question = Question(check="embedment", subject=group.listed, left_out=LEFT_OUT_BELOW)
    return (answered(question, lambda: _embedment(group)),)


def _embedment(group: Group) -> Finding:
    fence = group.fence
    found = embedment(fence.family, fence.place, group.worst, group.together)
    return replace(
        found, because=told(found.because, told_of(group.wires), _alike(group), *fence.wind.mesh_notes),
        figures=(*fence.figures, *found.figures, *group.wires.figures, *fence.factors.allowable),
    )  # fmt: skip


def _bending(group: Group) -> Finding:
    question = Question(check="bending", subject=group.listed, left_out=LEFT_OUT)
    return answered(question, lambda: _stress(group))


def _stress(group: Group) -> Finding:
    fence, kind = group.fence, group.worst.kind
    moment, pulled = bent_by(group.pull, group.wires, kind)
    stress = stress_of(kind, moment, steady=group.wires.moment, why="stress where the post is held")
    return Finding(
        check="bending", subject="", demand=stress.demand, capacity=stress.capacity, unit=PASCAL,
        because=told(
            _held(fence, group.worst), told_of(group.wires), _family(fence), _alike(group), stress.note,
            *fence.wind.mesh_notes,
        ),
        working=(*pulled, *stress.working),
        figures=(*fence.figures, *stress.figures, *group.wires.figures, *fence.factors.allowable),
        mend="" if keeps_to(stress.demand, stress.capacity) else _mend(group.wires),
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

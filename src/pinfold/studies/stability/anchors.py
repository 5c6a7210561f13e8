"""Posts held by the wall: anchored on its top, or built into it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.findings import Finding
from pinfold.plan.buildups import Setting
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.fences import listed, setting_of
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import told_of
from pinfold.units import NEWTON_METER, Meter

CHECK = "anchorage"


def anchored(groups: Iterable[Group]) -> tuple[Finding, ...]:
    """How the wall holds the posts on and in it; those built in are told together, a build-up at a time."""
    found: list[Finding] = []
    built_in: dict[str, list[Group]] = {}
    for group in groups:
        setting = setting_of(group.fence, group.worst)
        if setting is Setting.WALL:
            built_in.setdefault(group.fence.stretch.buildup.name, []).append(group)
        elif setting is Setting.WALL_TOP:
            found.append(_on_top(group))
    return (*found, *(_built_in(alike) for alike in built_in.values()))


def _on_top(group: Group) -> Finding:
    def find() -> Finding:
        pull, notes = group.together, (told_of(group.wires), *group.fence.wind.mesh_notes)
        return Finding(
            check=CHECK, subject="", demand=pull.moment, unit=NEWTON_METER, working=pull.working,
            because=told("what the anchors on the wall carry is not known: take it from their maker", *notes),
        )  # fmt: skip

    return answered(Question(check=CHECK, subject=listed(group.posts)), find)


def _built_in(groups: list[Group]) -> Finding:
    """The greatest moment is told; how firmly the wall holds a post is not reckoned."""
    posts = tuple(post for group in groups for post in group.posts)
    question = Question(
        check=CHECK, subject=listed(posts), left_out="bond of the post in its cell; the cell breaking out"
    )

    def find() -> Finding:
        worst = max(groups, key=lambda group: group.together.moment)
        deep = [post.name for group in groups for post in group.posts if post.foot < _bed_under(group.fence)]
        too_deep = f"{', '.join(deep)} would reach below the wall's bed: shorten embed" if deep else ""
        held = "how firmly the wall holds a post built into it is not reckoned: fill its cell from top to bottom"
        return Finding(
            check=CHECK, subject="", demand=worst.together.moment, unit=NEWTON_METER,
            working=worst.together.working, because=told(too_deep, held, told_of(worst.wires)),
        )  # fmt: skip

    return answered(question, find)


def _bed_under(fence: Exposed) -> Meter:
    return min((step.bed for step in fence.stretch.steps), default=-math.inf)

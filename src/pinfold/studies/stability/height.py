"""What the height of a wall and the length of its panels call for: cautions, and control joints near enough."""

from __future__ import annotations

import math
from itertools import pairwise

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, Step, work
from pinfold.formulas import masonry
from pinfold.plan.buildups import Wall
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.answers import Question, answered
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.pieces import caution, limit
from pinfold.units import METER, Meter

_SLACK: Meter = 0.002


def standing_cautions(stretch: Stretch) -> str:
    """What to mind about a wall of that height, while it is built and after."""
    wall = stretch.buildup.wall
    own = wall.kind.words.get("cautions", []) if wall is not None else []
    names = [name for name in ("green-wall",) if isinstance(own, list) and name in own]
    if stretch.tallest > limit("tall-wall"):
        names.append("tall-wall")
    return " ".join(caution(name) for name in (*names, "engineer"))


def joints(stretch: Stretch) -> tuple[Finding, ...]:
    """Whether the control joints of a stretch stand near enough; nothing for dry stone, which moves by itself."""
    wall = stretch.buildup.wall
    if wall is None or not has_wall(stretch) or wall.kind.word("make") == "stone":
        return ()
    question = Question(
        check="joints",
        subject=f"run {stretch.name}",
        left_out="the first joint from a corner, which belongs at half the distance; reinforcement along the courses",
    )
    return (answered(question, lambda: _joints(question, stretch, wall)),)


def _joints(question: Question, stretch: Stretch, wall: Wall) -> Finding:
    places = [stretch.start, *(joint.at for joint in stretch.joints), stretch.end]
    longest = max(after - before for before, after in pairwise(places))
    kind = wall.kind
    figures: Named = tuple(
        (name.replace("_", " "), kind.figure(name)) for name in ("joint_ratio", "joint_spacing") if kind.has(name)
    )
    working: tuple[Step, ...] = ()
    if figures:
        allowed = work(
            masonry.joint_spacing, why="longest panel by the rule, from the bed of the lowest step",
            height=min(step.height for step in stretch.steps),
            ratio=kind.value("joint_ratio") if kind.has("joint_ratio") else math.inf,
            longest=kind.value("joint_spacing") if kind.has("joint_spacing") else math.inf,
        )  # fmt: skip
        working, most, because = (allowed,), allowed.number, ""
    elif wall.joints is not None:
        figures, most = (("joints", given(wall.joints, METER)),), wall.joints
        because = "by the plan's own spacing: no rule is known for the kind"
    else:
        raise NotFoundError(f"no rule for joints is known for {kind.name}; write joints under its wall in the plan")
    near = longest <= most + _SLACK
    return Finding(
        check=question.check, subject=question.subject, demand=longest, capacity=most + _SLACK, unit=METER,
        because=because if near else "its panels are longer than the rule for the kind", working=working,
        figures=figures, mend="" if near else "joints nearer together",
    )  # fmt: skip

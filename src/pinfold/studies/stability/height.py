"""What the height of a wall and the length of its panels call for: cautions, and control joints near enough."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import masonry
from pinfold.plan.buildups import Wall
from pinfold.studies.layout.records import EndKind, Stretch
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import COURSE_STEEL, Named
from pinfold.studies.stability.pieces import caution, has_ledges, limit
from pinfold.units import METER, Meter, SquareMeterPerMeter


def standing_cautions(stretch: Stretch) -> str:
    """What to mind about a wall of that height, while it is built and after."""
    wall = stretch.buildup.wall
    own = wall.kind.words.get("cautions", []) if wall is not None else []
    names = [name for name in ("green-wall",) if isinstance(own, list) and name in own]
    if has_ledges(stretch.buildup):
        names.append("open-trench")
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
        subject=f"stretch {stretch.name}",
        left_out="joints in the coats and the footing; cracks finer than the rule cares for",
    )
    return (answered(question, lambda: _joints(question, stretch, wall)),)


def _joints(question: Question, stretch: Stretch, wall: Wall) -> Finding:
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
    panel = _worst_panel(stretch, most)
    found = Finding(
        check=question.check, subject=question.subject, demand=panel.length, unit=METER, working=working,
        figures=figures,
    )  # fmt: skip
    if needs_course_steel(wall):
        if not keeps_to(COURSE_STEEL.value, course_steel(wall)):
            return replace(found, because=_UNSTEELED)
        found = replace(found, figures=(*figures, ("steel along the courses", COURSE_STEEL)))
    near = keeps_to(panel.length, panel.most)
    too_long = f"{panel.says} is longer than the rule allows"
    return replace(
        found, capacity=panel.most, because=told(because, panel.note) if near else too_long,
        mend="" if near else "joints nearer together",
    )  # fmt: skip


_UNSTEELED = (
    "the rule for its joints presumes steel in the bed joints all along, and the wall has none or too little: write "
    "course_bar and course_bar_every under it"
)


@dataclass(frozen=True, kw_only=True)
class _Panel:
    """A piece of wall between two joints or ends, and how long it may be; half as long where it hangs on a corner."""

    length: Meter
    most: Meter
    says: str
    note: str


def _worst_panel(stretch: Stretch, most: Meter) -> _Panel:
    places = [stretch.start, *(joint.at for joint in stretch.joints), stretch.end]
    last = len(places) - 2
    panels = []
    for number, (before, after) in enumerate(pairwise(places)):
        at_start = number == 0 and stretch.start_kind is EndKind.CORNER
        at_end = number == last and stretch.end_kind is EndKind.CORNER
        if at_start or at_end:
            where = "start" if at_start else "end"
            panels.append(
                _Panel(length=after - before, most=most / 2, says=f"the panel at the corner at its {where}",
                       note="at a corner the first joint comes at half the distance")
            )  # fmt: skip
        else:
            panels.append(_Panel(length=after - before, most=most, says="a panel between its joints", note=""))
    return max(panels, key=lambda panel: panel.length / panel.most)


def needs_course_steel(wall: Wall) -> bool:
    """Whether the rule for the joints of a wall is the one that presumes steel along the courses."""
    return wall.kind.has("joint_ratio") and wall.kind.figure("joint_ratio").source == COURSE_STEEL.source


def course_steel(wall: Wall) -> SquareMeterPerMeter:
    """Area of steel along the courses per height of wall."""
    if wall.course_bar is None or wall.course_bar_every is None:
        return 0.0
    return wall.course_bar.value("area") / wall.course_bar_every

"""Does it stand: every check on a plan that is laid out, each answered HOLDS, FAILS or NOT SHOWN."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.beds import feet
from pinfold.studies.stability.ends import lines_of
from pinfold.studies.stability.gates import gate_findings
from pinfold.studies.stability.ground import frost, survey
from pinfold.studies.stability.height import joints
from pinfold.studies.stability.lines import clearances
from pinfold.studies.stability.posts import fence_posts
from pinfold.studies.stability.walls import Ask, standing


def assess(layout: Layout) -> tuple[Finding, ...]:
    """All findings: walls in order around the plot, then posts, gates, frost, buried lines.

    Stability to begin with: wind, weight and ground. Each finding says what it leaves out.
    """
    plan, lines = layout.plan, lines_of(layout)
    walls: list[Finding] = []
    for stretch in layout.stretches:
        ask = Ask(stretch=stretch, line=lines[stretch.name], family=plan.family, place=plan.place)
        walls += (*standing(ask), *feet(ask), *joints(stretch))
    return (
        *survey(layout), *walls, *fence_posts(layout, lines), *gate_findings(layout, lines), *frost(layout),
        *clearances(layout),
    )  # fmt: skip

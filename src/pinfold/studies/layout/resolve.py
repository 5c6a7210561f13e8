"""Laying out a plan: from the validated plan to every stretch, step, joint, post and gate in its place."""

from __future__ import annotations

from pinfold.geometry.outlines import area
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.layout.gating import gap_of, gate_place
from pinfold.studies.layout.lie import lies
from pinfold.studies.layout.posting import posts_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.spots import refuse_forests
from pinfold.studies.layout.walls import outside_is_right, stretches_of


def lay_out(plan: Enclosure) -> Layout:
    """Lay the plan out on its ground.

    Raises:
        InputError: surveyed points that contradict each other, or bays and steps past counting.
    """
    refuse_forests(plan)
    sides = lies(plan)
    stretches = stretches_of(plan, sides)
    by_side = {lie.side.name: lie for lie in sides}
    gaps = {gate.name: gap_of(plan, gate, by_side[gate.side]) for gate in plan.gates}
    posts = posts_of(plan, sides, stretches, {name: gap.hang for name, gap in gaps.items()})
    return Layout(
        plan=plan,
        surface=sides[0].surface,
        stretches=stretches,
        posts=posts,
        gates={name: gate_place(plan, gap, posts) for name, gap in gaps.items()},
        area=area(plan.path) if plan.is_closed else None,
        length=sum(run.end - run.start for _, run in plan.runs if run.buildup is not None),
        perimeter=sum(lie.length for lie in sides),
        outer_is_right=outside_is_right(plan),
    )

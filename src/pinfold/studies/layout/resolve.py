"""Laying out a plan: from the validated plan to every stretch, step, joint, post and gate in its place."""

from __future__ import annotations

import math

from pinfold.geometry.outlines import area
from pinfold.plan.enclosure import Enclosure, Gate, Swing
from pinfold.studies.layout.lie import Lie, lies
from pinfold.studies.layout.posting import posts_of, refuse_forests
from pinfold.studies.layout.records import GatePlace, Layout, Post
from pinfold.studies.layout.walls import outside_is_right, stretches_of
from pinfold.units import Meter

SWING_STEPS = 12
"""Places looked at along a leaf's swing, on four radii each."""


def lay_out(plan: Enclosure) -> Layout:
    """Lay the plan out on its ground.

    Raises:
        InputError: surveyed points that contradict each other, or bays and steps past counting.
    """
    refuse_forests(plan)
    sides = lies(plan)
    stretches = stretches_of(plan, sides)
    posts = posts_of(plan, sides, stretches)
    by_side = {lie.side.name: lie for lie in sides}
    return Layout(
        plan=plan,
        surface=sides[0].surface,
        stretches=stretches,
        posts=posts,
        gates={gate.name: _gate_place(plan, gate, by_side[gate.side], posts) for gate in plan.gates},
        area=area(plan.path) if plan.is_closed else None,
        length=sum(run.end - run.start for _, run in plan.runs if run.buildup is not None),
        perimeter=sum(lie.length for lie in sides),
        outer_is_right=outside_is_right(plan),
    )


def _gate_place(plan: Enclosure, gate: Gate, lie: Lie, posts: tuple[Post, ...]) -> GatePlace:
    run = next(run for run in lie.side.runs if run.start - 1e-6 <= gate.start <= run.end)
    heights = [z for _, z in lie.ground(gate.start, gate.end)[0]]
    own = [post.name for post in posts if post.gate == gate.name]
    return GatePlace(
        gate=gate,
        run=run.name,
        buildup=plan.buildups[run.buildup or ""],
        opening=(lie.at(gate.start), lie.at(gate.end)),
        sill=max(heights),
        low=min(heights),
        swing_high=_swing_high(plan, gate, lie),
        posts=(own[0], own[-1]),
    )


def _swing_high(plan: Enclosure, gate: Gate, lie: Lie) -> Meter:
    out_is_left = not outside_is_right(plan)
    to_left = (gate.swing is Swing.OUT) == out_is_left
    heights = []
    for hinge, way in hinges_of(plan, gate):
        for part in range(SWING_STEPS + 1):
            angle = math.pi / 2 * part / SWING_STEPS
            for radius in (0.25, 0.5, 0.75, 1.0):
                reach = gate.leaf_width * radius
                aside = reach * math.sin(angle) * (1 if to_left else -1)
                heights.append(lie.ground_at(hinge + way * reach * math.cos(angle), aside))
    return max(heights)


def hinges_of(plan: Enclosure, gate: Gate) -> tuple[tuple[Meter, int], ...]:
    """Where along its side each leaf is hinged, and whether it reaches on (1) or back (-1) along the side."""
    first, last = (gate.start + gate.gap, 1), (gate.end - gate.gap, -1)
    if gate.leaves == 2:
        return (first, last)
    # Seen from outside, the first corner's side is on the left when the outside lies right of the way.
    left_is_first = outside_is_right(plan)
    return (first,) if (gate.hinges.value == "left") == left_is_first else (last,)

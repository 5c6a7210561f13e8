"""Gates on their ground: the sill, the ground under the swing, and how high the leaf must hang."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from pinfold.plan.enclosure import Enclosure, Gate, Swing
from pinfold.plan.outline import Point, Run
from pinfold.studies.layout.lie import Lie
from pinfold.studies.layout.records import GatePlace, Post
from pinfold.studies.layout.walls import outside_is_right
from pinfold.units import Meter

Hinges = tuple[tuple[Meter, int], ...]
"""Where along its side each leaf is hinged, and whether it reaches on (1) or back (-1) along the side."""
SWING_STEPS = 12
"""Places looked at along a leaf's swing, on four radii each."""


@dataclass(frozen=True, kw_only=True)
class Gap:
    """A gate's opening on its ground, before its posts are set.

    Attributes:
        gate: as planned.
        run: the run it is in.
        buildup: name of that run's build-up.
        opening: both edges in plan.
        sill: highest ground across the opening, or the top of what lies there.
        low: lowest ground across it.
        swing_high: highest ground under the swing.
    """

    gate: Gate
    run: str
    buildup: str
    opening: tuple[Point, Point]
    sill: Meter
    low: Meter
    swing_high: Meter

    @property
    def hang(self) -> Meter:
        """Height of the leaf's underside that clears the ground all along its swing."""
        return max(self.sill, self.swing_high) + self.gate.under


def gap_of(plan: Enclosure, gate: Gate, lie: Lie) -> Gap:
    """A gate's opening on its ground."""
    run = plan.run_of(gate)
    assert run is not None  # the reader has seen to it
    return _gap(run, gate, lie, hinges_of(plan, gate), outside_is_right(plan))


@lru_cache(maxsize=128)  # while one corner is dragged, most gates stay where they were
def _gap(run: Run, gate: Gate, lie: Lie, hinges: Hinges, outer_is_right: bool) -> Gap:  # noqa: FBT001
    heights = [z for _, z in lie.ground(gate.start, gate.end)[0]]
    return Gap(
        gate=gate, run=run.name, buildup=run.buildup or "", opening=(lie.at(gate.start), lie.at(gate.end)),
        sill=max(heights) + (gate.sill.above if gate.sill else 0.0), low=min(heights),
        swing_high=_swing_high(gate, lie, hinges, outer_is_right=outer_is_right),
    )  # fmt: skip


def gate_place(plan: Enclosure, gap: Gap, posts: tuple[Post, ...]) -> GatePlace:
    """The gate with its posts set."""
    own = [post.name for post in posts if post.gate == gap.gate.name]
    return GatePlace(
        gate=gap.gate, run=gap.run, buildup=plan.buildups[gap.buildup], opening=gap.opening, sill=gap.sill,
        low=gap.low, swing_high=gap.swing_high, posts=(own[0], own[-1]),
    )  # fmt: skip


def _swing_high(gate: Gate, lie: Lie, hinges: Hinges, *, outer_is_right: bool) -> Meter:
    to_left = (gate.swing is Swing.OUT) != outer_is_right
    heights = []
    for hinge, way in hinges:
        for part in range(SWING_STEPS + 1):
            angle = math.pi / 2 * part / SWING_STEPS
            for radius in (0.25, 0.5, 0.75, 1.0):
                reach = gate.leaf_width * radius
                aside = reach * math.sin(angle) * (1 if to_left else -1)
                heights.append(lie.ground_at(hinge + way * reach * math.cos(angle), aside))
    return max(heights)


def hinges_of(plan: Enclosure, gate: Gate) -> Hinges:
    """Where along its side each leaf is hinged, and whether it reaches on (1) or back (-1) along the side."""
    first, last = (gate.start + gate.gap, 1), (gate.end - gate.gap, -1)
    if gate.leaves == 2:
        return (first, last)
    # Seen from outside, the first corner's side is on the left when the outside lies right of the way.
    left_is_first = outside_is_right(plan)
    return (first,) if (gate.hinges.value == "left") == left_is_first else (last,)

"""Where posts stand along a side: at corners, ends, gates and changes of build-up, and in equal bays between them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.geometry.spacing import equal_bays
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.outline import Run
from pinfold.studies.layout.lie import Lie
from pinfold.studies.layout.records import Role
from pinfold.units import Meter

MOST_POSTS = 4000
"""More posts than this are taken for a slip of the pen."""
SAME: Meter = 0.02
"""Places nearer to each other than this are one."""


class Spot(NamedTuple):
    """A post's place along a side before it is measured up.

    Attributes:
        along: the side, from its first corner.
        role: what it does.
        run: whose fence it carries.
        gate: that it holds; None for others.
    """

    along: Meter
    role: Role
    run: Run
    gate: Gate | None = None


def refuse_forests(plan: Enclosure) -> None:
    """Stop before counting out more posts than anyone sets.

    Raises:
        InputError: more than MOST_POSTS.
    """
    count = 0.0
    for _, run in plan.runs:
        posts = plan.buildups[run.buildup].posts if run.buildup is not None else None
        count += (run.end - run.start) / posts.spacing if posts is not None else 0.0
    if count > MOST_POSTS:
        raise InputError(f"the plan asks for {count:.0f} posts; at most {MOST_POSTS} are set out: widen their spacing")


def spots_of(plan: Enclosure, lie: Lie) -> list[Spot]:
    """Every post of a side, both corners' included, from its first corner on."""
    spots: list[Spot] = []
    for run in lie.side.runs:
        if run.buildup is None:
            continue
        spots.extend(_of_gates(plan, lie, run))
        if plan.buildups[run.buildup].posts is not None:
            spots.extend(_of_run(plan, lie, run))
    spots.sort(key=lambda spot: (spot.along, spot.gate is None))
    kept: list[Spot] = []
    for spot in spots:
        if not kept or spot.along - kept[-1].along > SAME:
            kept.append(spot)
    return kept


def _of_gates(plan: Enclosure, lie: Lie, run: Run) -> list[Spot]:
    spots = []
    for gate in plan.gates_in(lie.side.name):
        if plan.run_of(gate) is run:
            low, high = gate.taken
            middles = (min(max((low + gate.start) / 2, run.start), run.end), min((gate.end + high) / 2, run.end))
            spots += [Spot(along=along, role=Role.GATE, run=run, gate=gate) for along in middles]
    return spots


def _of_run(plan: Enclosure, lie: Lie, run: Run) -> list[Spot]:
    posts = plan.buildups[run.buildup or ""].posts
    assert posts is not None
    gates = [spot.along for spot in _of_gates(plan, lie, run)]
    edges = [run.start, *gates, run.end]
    spots = [Spot(along=end, role=_end_role(plan, lie, end), run=run) for end in (run.start, run.end)]
    for low, high in zip(edges[::2], edges[1::2], strict=True):
        if high - low > SAME:
            spots.extend(
                Spot(along=low + place, role=Role.LINE, run=run)
                for place in equal_bays(high - low, posts.spacing).places[1:-1]
            )
    return spots


def _end_role(plan: Enclosure, lie: Lie, along: Meter) -> Role:
    at_first, at_last = along < SAME, along > lie.length - SAME
    first, last = plan.sides[0] is lie.side, plan.sides[-1] is lie.side
    if (at_first and (plan.is_closed or not first)) or (at_last and (plan.is_closed or not last)):
        return Role.CORNER
    if at_first or at_last:
        return Role.END
    beside = [run for run in lie.side.runs if abs(run.start - along) < SAME or abs(run.end - along) < SAME]
    return Role.END if any(run.neighbor for run in beside) else Role.LINE


def shares_of(plan: Enclosure, lie: Lie, spots: Sequence[Spot]) -> dict[Meter, Meter]:
    """By place along a side: half of each bay beside the post there, gates and neighbors carrying none."""
    free = [gate.taken for gate in plan.gates_in(lie.side.name)]
    free += [(run.start, run.end) for run in lie.side.runs if run.neighbor]
    places = [spot.along for spot in spots]
    shares = dict.fromkeys(places, 0.0)
    for low, high in pairwise(places):
        if not any(start < (low + high) / 2 < end for start, end in free):
            shares[low] += (high - low) / 2
            shares[high] += (high - low) / 2
    return shares

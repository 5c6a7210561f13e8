"""Whether the parts of a plan fit each other: names that are there, gates inside their sides, sides in a chain."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from pinfold.geometry import outlines, segments
from pinfold.geometry.clearances import point_to_path
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.outline import Point, Run
from pinfold.store.crosscheck_banks import check_banks
from pinfold.store.forms import Form
from pinfold.units import both

LEAST_BESIDE = 0.05
"""So much wall or fence, in meters, must be left between a gate's posts and the next thing (common practice)."""
FARTHEST_NEIGHBOR = 1.0
"""A neighbor's footprint farther than this, in meters, from the middle of its run does not stand for it."""
SHARPEST = math.radians(160)
"""A corner that turns more than this doubles back."""


def crosscheck(form: Form, plan: Enclosure) -> None:
    """Complain about everything that does not fit; the parts themselves were read before."""
    _names(form, plan)
    _chain(form, plan)
    for gate in plan.gates:
        _gate_fits(form, plan, gate)
    _gates_apart(form, plan)
    check_banks(form, plan)
    if not form.complaints:
        _shape(form, plan)
        _neighbors_stand_there(form, plan)


def _names(form: Form, plan: Enclosure) -> None:
    corners = {corner.name for corner in plan.corners}
    neighbors = {neighbor.name for neighbor in plan.neighbors}
    for side in plan.sides:
        _known(form, f"side.{side.name}.from", side.start, corners, "corner")
        _known(form, f"side.{side.name}.to", side.end, corners, "corner")
        for number, run in enumerate(side.runs):
            at = f"side.{side.name}.runs[{number}]" if len(side.runs) > 1 else f"side.{side.name}"
            if run.buildup is not None:
                _known(form, f"{at}.buildup", run.buildup, plan.buildups, "build-up")
            if run.neighbor is not None:
                _known(form, f"{at}.neighbor", run.neighbor, neighbors, "neighbor")
    for gate in plan.gates:
        _known(form, f"gate.{gate.name}.side", gate.side, {side.name for side in plan.sides}, "side")


def _known(form: Form, place: str, name: str, names: Iterable[str], what: str) -> None:
    if name and name not in names:
        form.complain(place, f"there is no {what} called {name!r}; there are: {', '.join(sorted(names)) or 'none'}")


def _chain(form: Form, plan: Enclosure) -> None:
    for before, after in pairwise(plan.sides):
        if before.end and after.start and before.end != after.start:
            form.complain(
                f"side.{after.name}.from",
                f"starts at {after.start!r}, but the side before it ends at {before.end!r}; "
                "write the sides in order, each from where the last one ends",
            )
    for side in plan.sides:
        if side.runs and 0.0 <= side.runs[-1].end < 0.3:
            form.complain(f"side.{side.name}", f"is {both(side.runs[-1].end)} long; at least 0.3 m is wanted")


def _gate_fits(form: Form, plan: Enclosure, gate: Gate) -> None:
    side = next((side for side in plan.sides if side.name == gate.side), None)
    if side is None or not math.isfinite(gate.start + gate.width):
        return
    length = side.runs[-1].end if side.runs else math.nan
    if gate.end > length + 1e-6:
        form.complain(
            f"gate.{gate.name}.at",
            f"its opening ends at {both(gate.end)} along {side.name}, which is {both(length)} long; move or narrow it",
        )
        return
    run = plan.run_of(gate)
    if run is None and math.isfinite(length):
        form.complain(f"gate.{gate.name}.at", f"its opening lies across two runs of {side.name}; move it into one")
    elif run is not None and run.neighbor is not None:
        form.complain(f"gate.{gate.name}.at", f"there stands {run.neighbor!r}; a gate needs a built run")
    elif run is not None:
        _room_for_posts(form, run, gate)


def _room_for_posts(form: Form, run: Run, gate: Gate) -> None:
    low, high = gate.taken
    if low < run.start - 1e-6 or high > run.end + 1e-6:
        form.complain(
            f"gate.{gate.name}.at",
            f"no room for its posts beside the opening: {both(high - gate.end)} are wanted to the ends of {run.name}",
        )
    elif low - run.start < LEAST_BESIDE and run.end - high < LEAST_BESIDE:
        form.complain(
            f"gate.{gate.name}.width", f"leaves nothing of {run.name} beside it; narrow it or lengthen the run"
        )


def _gates_apart(form: Form, plan: Enclosure) -> None:
    for side in plan.sides:
        for left, right in pairwise(plan.gates_in(side.name)):
            if right.taken[0] < left.taken[1] + LEAST_BESIDE:
                form.complain(
                    f"gate.{right.name}.at",
                    f"takes the side from {both(right.taken[0])} on, posts and all, but {left.name!r} takes it up to "
                    f"{both(left.taken[1])}; keep them {both(LEAST_BESIDE)} apart",
                )


def _shape(form: Form, plan: Enclosure) -> None:
    crossings = outlines.crossing_edges(plan.path) if plan.is_closed else _open_crossings(plan.path)
    for first, second in crossings:
        form.complain(
            f"side.{plan.sides[second].name}",
            f"crosses or touches side {plan.sides[first].name!r}; sides may meet at their corners only",
        )
    path = (*plan.path, *plan.path[:2]) if plan.is_closed else plan.path
    for number, (before, corner, after) in enumerate(zip(path, path[1:], path[2:], strict=False)):
        if abs(segments.turn(before, corner, after)) > SHARPEST:
            name = plan.sides[(number + 1) % len(plan.sides)].name
            form.complain(
                f"side.{name}", "doubles back on the side before it; at least 20 degrees between them are wanted"
            )


def _neighbors_stand_there(form: Form, plan: Enclosure) -> None:
    footprints = {neighbor.name: neighbor.footprint for neighbor in plan.neighbors}
    for side, run in plan.runs:
        if run.neighbor is None:
            continue
        start, end = plan.corner(side.start), plan.corner(side.end)
        share = (run.start + run.end) / 2 / math.dist(start, end)
        middle = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        ring = footprints[run.neighbor]
        away = 0.0 if outlines.contains(ring, middle) else point_to_path(middle, (*ring, ring[0])).distance
        if away > FARTHEST_NEIGHBOR:
            form.complain(
                f"side.{side.name}",
                f"{run.neighbor!r} is to stand for {run.name}, but lies {both(away)} from its middle",
            )


def _open_crossings(path: tuple[Point, ...]) -> list[tuple[int, int]]:
    sides = list(pairwise(path))
    return [
        (first, second)
        for second in range(len(sides))
        for first in range(second - 1)
        if segments.crossing_of(sides[first], sides[second]) is not None
    ]

"""Elevations: each side unfolded and seen square on from outside."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.banks import banks_seen
from pinfold.drawings.bracing import braces_on, braces_seen
from pinfold.drawings.elevation_dimensions import elevation_dimensions, lowest_of
from pinfold.drawings.faces import return_shapes, wall_shapes
from pinfold.drawings.fences import fence_shapes
from pinfold.drawings.fineness import millimeter
from pinfold.drawings.leaves import leaf_shapes, leaves_of
from pinfold.drawings.naming import slug
from pinfold.drawings.piers import piers_seen
from pinfold.drawings.scenes import Area, Label, Point, Polyline, ScaleBar, Scene, Shape
from pinfold.drawings.sides import SideView, posts_on, side_views, stretches_on
from pinfold.plan.outline import Run
from pinfold.studies.layout.posting import top_at
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter, tape

BEYOND: Meter = 0.6
"""Ground drawn past both ends of a side."""
STRIP = 3.0
"""Depth of the hatched ground on paper, in millimeters."""


def elevation_scenes(layout: Layout) -> tuple[Scene, ...]:
    """One elevation for each side, in order around the plot: x from its left end seen from outside, y the height."""
    return tuple(_scene(layout, view) for view in side_views(layout))


def _scene(layout: Layout, view: SideView) -> Scene:
    low = lowest_of(layout, view)
    high = max((post.top for _, post in posts_on(layout, view)), default=low + 1.0)
    fine = millimeter(view.length, high - low)
    shapes: list[Shape] = [*_ground(view, fine)]
    for run in view.side.runs:
        shapes += _neighbor(layout, view, run)
    for stretch in stretches_on(layout, view):
        shapes += wall_shapes(view, stretch, fine)
        shapes += piers_seen(view, stretch)
    shapes += banks_seen(layout, view)
    shapes += _returns(layout, view)
    shapes += fence_shapes(layout, view, fine)
    shapes += braces_seen(layout, view, fine)
    shapes += _gates(layout, view, fine)
    shapes += elevation_dimensions(layout, view, fine)
    shapes += _corners(view)
    shapes.append(ScaleBar(system=layout.plan.units))
    return Scene(
        name=slug("elevation", view.side.name), title=f"{layout.plan.name}: {view.side.name}, seen from outside",
        shapes=tuple(shapes), notes=_notes(layout, view), about=_about(layout, view),
    )  # fmt: skip


def _ground(view: SideView, fine: Meter) -> Iterator[Shape]:
    places = view.lie.ground(0.0, view.length)[0]
    ends = (-BEYOND, view.length + BEYOND)
    line = ((ends[0], view.lie.ground_at(ends[0])), *places, (ends[1], view.lie.ground_at(ends[1])))
    seen = tuple((view.across(along), z) for along, z in line)
    below = tuple((x, z - STRIP * fine) for x, z in reversed(seen))
    yield Area(layer="ground", points=(*seen, *below), hatch="ground", edged=False)
    yield Polyline(layer="ground", points=seen)


def _neighbor(layout: Layout, view: SideView, run: Run) -> Iterator[Shape]:
    """The outline of what stands for a run, from the lowest ground in it up to its height over the highest."""
    if run.neighbor is None:
        return
    neighbor = next(one for one in layout.plan.neighbors if one.name == run.neighbor)
    heights = [z for _, z in view.lie.ground(run.start, run.end)[0]]
    left, right = sorted((view.across(run.start), view.across(run.end)))
    low, top = min(heights), max(heights) + neighbor.height
    yield Area(layer="neighbor", points=((left, low), (right, low), (right, top), (left, top)), hatch="stone")
    yield Label(
        at=((left + right) / 2, (low + top) / 2), text=f"{neighbor.name}\n{tape(neighbor.height, layout.plan.units)}",
        layer="neighbor", anchor="over", priority=5,
    )  # fmt: skip


def _returns(layout: Layout, view: SideView) -> Iterator[Shape]:
    """Walls of the sides that meet this one, where no wall of its own stands before them."""
    own = stretches_on(layout, view)
    for along, name in ((0.0, view.side.start), (view.length, view.side.end)):
        if any(stretch.steps and min(abs(stretch.start - along), abs(stretch.end - along)) < 1e-6 for stretch in own):
            continue
        for stretch in layout.stretches:
            ends = zip(stretch.points, (stretch.start, stretch.end), strict=True)
            for point, place in ends:
                wall = stretch.buildup.wall
                if stretch.side != view.side.name and wall and math.dist(point, layout.plan.corner(name)) < 1e-6:
                    yield from return_shapes(view, along, wall.thickness, top_at(stretch, place))


def _gates(layout: Layout, view: SideView, fine: Meter) -> Iterator[Shape]:
    for gate in layout.plan.gates_in(view.side.name):
        place = layout.gates[gate.name]
        for leaf in leaves_of(layout.plan, view, place):
            yield from leaf_shapes(leaf, fine)
        middle: Point = (view.across((gate.start + gate.end) / 2), place.hang + gate.height)
        text = f"{gate.name}\n{tape(gate.width, layout.plan.units)}"
        yield Label(at=middle, text=text, layer="gate", anchor="above", priority=6, size=1.8)


def _corners(view: SideView) -> Iterator[Shape]:
    for along, name in ((0.0, view.side.start), (view.length, view.side.end)):
        at = (view.across(along), view.lie.ground_at(along))
        anchor = "left" if at[0] < view.length / 2 else "right"
        yield Label(
            at=at, text=name, layer="outline", anchor="above left" if anchor == "left" else "above right", bold=True,
            size=2.4, priority=7, reach=0.9,
        )  # fmt: skip


def _notes(layout: Layout, view: SideView) -> tuple[str, ...]:
    stretches = stretches_on(layout, view)
    notes = [f"{', '.join(names)}: {says.rstrip('.')}." for says, names in _says(layout, view).items()]
    if any(stretch.joints for stretch in stretches):
        notes.append("Dash-dotted across the wall: control joints; the second chain below measures to them.")
    if any(stretch.steps for stretch in stretches):
        coated = any(stretch.buildup.coats for stretch in stretches)
        notes.append(
            "Dashed: wall, footing and posts that ground or wall hide."
            + (" Courses are shown as laid, before coats." if coated else "")
        )
    if braces_on(layout, view):
        notes.append("Beside posts at ends, corners and gates: braces, a rail with its diagonal, or a strut.")
    if any(bank.side == view.side.name for bank in layout.plan.banks):
        notes.append("Earth before the wall, or dashed where the wall hides it: a bank, with its height.")
    if any(len(stretch.steps) > 1 for stretch in stretches):
        notes.append("A step written once, under the footing, is one of the wall's top as well.")
    return tuple(notes)


def _says(layout: Layout, view: SideView) -> dict[str, list[str]]:
    """What is built, with the runs it is built in."""
    runs: dict[str, list[str]] = {}
    for run in view.side.runs:
        if run.buildup is not None:
            buildup = layout.plan.buildups[run.buildup]
            runs.setdefault(buildup.says or buildup.name, []).append(run.name)
    return runs


def _about(layout: Layout, view: SideView) -> str:
    system = layout.plan.units
    left, right = (view.side.start, view.side.end) if view.outer_is_right else (view.side.end, view.side.start)
    gates = ", ".join(gate.name for gate in layout.plan.gates_in(view.side.name)) or "none"
    return (
        f"The side {view.side.name} seen from outside, {tape(view.length, system)} from corner {left} on the left to "
        f"corner {right} on the right. {len(posts_on(layout, view))} posts. Gates: {gates}."
    )

"""The plan: the plot seen from above, with ground, neighbors, buried lines, walls, posts, gates and dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.banks import banks_in_plan, reach_of_banks
from pinfold.drawings.blocks import on_blocks
from pinfold.drawings.fineness import millimeter
from pinfold.drawings.lettering import width_of
from pinfold.drawings.naming import side_of
from pinfold.drawings.plan_built import built_shapes
from pinfold.drawings.plan_dimensions import side_dimensions
from pinfold.drawings.plan_gates import gate_shapes
from pinfold.drawings.plan_ground import (
    contour_interval,
    ground_shapes,
    line_shapes,
    middle_of,
    neighbor_shapes,
    shown_frame,
)
from pinfold.drawings.scenes import Label, NorthArrow, Point, ScaleBar, Scene, Shape, frame_of
from pinfold.drawings.sides import SideView, side_views
from pinfold.geometry.intervals import subtract
from pinfold.geometry.outlines import contains
from pinfold.geometry.segments import Segment, point_to_segment
from pinfold.plan.buildups import Buildup, Faces
from pinfold.studies.layout.posting import stands_behind
from pinfold.studies.layout.records import Layout
from pinfold.units import METER, SQUARE_METER, Meter, show, tape

AREA_ROOM = 14.0
"""Least room round the middle of the plot for its area to be written there, in millimeters on paper."""
NAME_OFF = 2.4
"""From a wall to the name of its run, in millimeters on paper."""


def plan_scene(layout: Layout) -> Scene:
    """The plot in plan, in the plan's own coordinates: x right, y up."""
    plan, system = layout.plan, layout.plan.units
    views = side_views(layout)
    fine = _fineness(layout)
    frame = shown_frame(plan.path, plan.neighbors)
    shapes: list[Shape] = [*ground_shapes(layout.surface, system, plan.path, frame)]
    shapes += neighbor_shapes(plan.neighbors, system)
    for view in views:
        shapes += built_shapes(layout, view, fine)
        shapes += banks_in_plan(layout, view, fine)
        shapes += gate_shapes(layout, view, fine)
        shapes += side_dimensions(layout, view, fine)
        shapes += _run_names(layout, view, fine)
    sides = tuple((view.at(0.0), view.at(view.length)) for view in views)
    shapes += line_shapes(plan.lines, system, sides, millimeter=fine, frame=frame)
    shapes += _corner_names(layout, views, fine)
    shapes += _area_note(layout, sides, fine)
    shapes += [NorthArrow(turn=-plan.place.north), ScaleBar(system=system)]
    return Scene(
        name="plan", title=f"{plan.name}: plan", shapes=tuple(shapes), notes=_notes(layout), about=_about(layout)
    )  # fmt: skip


def _fineness(layout: Layout) -> Meter:
    """About how much ground a millimeter of paper will hold, dimensions on all sides."""
    points = [*layout.plan.path, *(point for one in layout.plan.neighbors for point in one.footprint)]
    size = frame_of(points)
    return 1.2 * millimeter(size.width, size.height)


def _run_names(layout: Layout, view: SideView, fine: Meter) -> Iterator[Shape]:
    """Side and build-up, written along the inside of each run, beyond the names of its posts."""
    banks = reach_of_banks(layout, view, Faces.INNER, fine)
    for run in view.side.runs:
        if run.buildup is None:
            continue
        buildup = layout.plan.buildups[run.buildup]
        half = buildup.footing.width / 2 if buildup.footing else 0.0
        openings = [(gate.start, gate.end) for gate in layout.plan.gates_in(view.side.name)]
        start, end = max(subtract((run.start, run.end), openings), key=lambda part: part[1] - part[0])
        for text in (f"{view.side.name}: {run.buildup}", f"{view.side.name}:\n{run.buildup}"):
            if fits := max(width_of(line, 1.8) for line in text.splitlines()) * fine < end - start:
                break
        yield Label(
            at=view.at((start + end) / 2, -max(half, stands_behind(buildup), banks)), text=text, layer="note",
            turn=view.turn if fits else 0.0, priority=2, size=1.8, reach=NAME_OFF,
            slide=(end - start) / 2,
            anchor=("above" if view.outer_is_right else "below") if fits else side_of(view.inward),
        )  # fmt: skip


def _corner_names(layout: Layout, views: tuple[SideView, ...], fine: Meter) -> Iterator[Shape]:
    """Each corner's name, inside of it and of the footings."""
    off = max((_inner_reach(stretch.buildup) for stretch in layout.stretches), default=0.0) + fine
    inward: dict[str, Point] = {}
    for view in views:
        for name in (view.side.start, view.side.end):
            x, y = inward.get(name, (0.0, 0.0))
            inward[name] = (x + view.inward[0], y + view.inward[1])
    for corner in layout.plan.corners:
        if corner.name in inward:
            x, y = inward[corner.name]
            size = math.hypot(x, y) or 1.0
            yield Label(
                at=(corner.at[0] + off * x / size, corner.at[1] + off * y / size), text=corner.name, bold=True,
                size=2.4, anchor=side_of((x / size, y / size)), layer="outline", priority=7,
            )  # fmt: skip


def _inner_reach(buildup: Buildup) -> Meter:
    """How far in from a corner its footings, and a post behind the wall with its collar, reach along the diagonal."""
    footing = buildup.footing.width / 2 if buildup.footing else 0.0
    back, posts = stands_behind(buildup), buildup.posts
    return max(1.2 * footing, math.sqrt(2) * back + (posts.collar or 0.0) / 2 if posts and back else 0.0)


def _area_note(layout: Layout, sides: tuple[Segment, ...], fine: Meter) -> Iterator[Shape]:
    """The area in the middle of the plot, where there is room for it."""
    if layout.area is None:
        return
    at = middle_of(layout.plan.path)
    room = min(point_to_segment(at, side).distance for side in sides)
    if contains(layout.plan.path, at) and room > AREA_ROOM * fine:
        text = f"{show(layout.area, SQUARE_METER, layout.plan.units)} inside"
        yield Label(at=at, text=text, layer="note", anchor="over", size=2.2, priority=1)


def _notes(layout: Layout) -> tuple[str, ...]:
    system = layout.plan.units
    inside = "" if layout.area is None else f"{show(layout.area, SQUARE_METER, system)} inside, "
    notes = [
        f"{inside}{show(layout.perimeter, METER, system)} around, {show(layout.length, METER, system)} to build. "
        "Lengths run along the wall's center line, from post center to post center."
    ]
    interval = contour_interval(layout.surface, system)
    if interval is None:
        notes.append("The ground is taken as level.")
    else:
        notes.append(f"Contours every {tape(interval, system)}, in heights of the survey.")
    if any(stretch.joints for stretch in layout.stretches):
        notes.append("A stroke across the wall is a control joint; a dashed line beside it is the edge of its footing.")
    aprons = {stretch.buildup.mesh.apron for stretch in layout.stretches if stretch.buildup.mesh}
    notes += [f"Dotted strip: apron of mesh, {tape(apron, system)} wide." for apron in sorted(aprons - {0.0})]
    if layout.plan.banks:
        notes.append("Strip of earth beside a wall: a bank, higher on that face; how far back it goes is not drawn.")
    notes += filter(None, (on_blocks(neighbor, system) for neighbor in layout.plan.neighbors))
    if any(stands_behind(stretch.buildup) for stretch in layout.stretches):
        notes.append("Posts set in the ground along a wall stand inside of it, clear of its trench.")
    if any(not line.located for line in layout.plan.lines):
        notes.append("Find every buried line before digging or driving anything.")
    return tuple(notes)


def _about(layout: Layout) -> str:
    plan = layout.plan
    sides = ", ".join(f"{view.side.name} {tape(view.length, plan.units)}" for view in side_views(layout))
    gates = ", ".join(f"{gate.name} in {gate.side}" for gate in plan.gates) or "none"
    return f"The plot from above. Sides: {sides}. {len(layout.posts)} posts. Gates: {gates}."

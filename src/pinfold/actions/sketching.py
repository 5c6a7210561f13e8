"""What the plan editor draws: footprints, posts, joints, gates, contours and every side unfolded, as plain numbers.

All in meters; in plan x and y, in the unfolded sides the distance from the left end seen from outside and the height.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.drawings.banks import banks_against
from pinfold.drawings.faces import panels
from pinfold.drawings.plan_ground import contour_interval
from pinfold.drawings.sides import SideView, band, bays, foot_of_fence, posts_on, side_views, stretches_on
from pinfold.geometry.contours import contours
from pinfold.geometry.triangulation import Ground, surface
from pinfold.plan.enclosure import Swing
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.units import Meter, System, tape

Spot = list[float]
Record = dict[str, object]
BEYOND: Meter = 0.6
"""Ground shown past both ends of a side."""
BANK: Meter = 0.6
"""Width of the strip that stands for a bank; how far back one goes is not planned."""


def sketch(layout: Layout) -> Record:
    """Everything built, in plan, and every side unfolded."""
    views = side_views(layout)
    return {
        "walls": [one for view in views for one in _walls(layout, view)],
        "posts": [
            {"name": post.name, "x": _r(post.point[0]), "y": _r(post.point[1]), "role": post.role.value,
             "r": _r(post.kind.value("width") / 2 if post.kind.has("width") else 0.03)}
            for post in layout.posts
        ],
        "joints": [
            [*_spot(joint.point), _r(view.turn)]
            for view in views for stretch in stretches_on(layout, view) for joint in stretch.joints
        ],
        "mesh": [
            [_spot(view.at(start)), _spot(view.at(end))]
            for view in views for stretch in stretches_on(layout, view)
            if stretch.buildup.mesh is not None for start, end in bays(layout, view, stretch)
        ],
        "banks": [one for view in views for one in _banks(layout, view)],
        "gates": [_gate(layout, view, gate.name) for view in views for gate in layout.plan.gates_in(view.side.name)],
        "unfolded": [_unfolded(layout, view) for view in views],
        "outside_is_right": layout.outer_is_right,
    }  # fmt: skip


def _r(value: float) -> float:
    return round(value, 4)


def _spot(point: Iterable[float]) -> Spot:
    return [_r(value) for value in point]


def _walls(layout: Layout, view: SideView) -> Iterable[Record]:
    for stretch in stretches_on(layout, view):
        if stretch.buildup.wall is None:
            continue
        footing = band(view, stretch, layout, footing=True) if stretch.buildup.footing is not None else ()
        yield {
            "side": view.side.name, "stretch": stretch.name,
            "ring": [_spot(point) for point in band(view, stretch, layout)],
            "footing": [_spot(point) for point in footing],
        }  # fmt: skip


def _banks(layout: Layout, view: SideView) -> Iterable[Record]:
    for lying in banks_against(layout, view):
        ring = [_spot(point) for point in lying.strip(view, BANK)]
        text = f"{lying.bank.name}, {tape(lying.bank.height, layout.plan.units)} higher"
        yield {"name": lying.bank.name, "text": text, "ring": ring}


def _gate(layout: Layout, view: SideView, name: str) -> Record:
    gate = layout.gates[name].gate
    out = 1 if gate.swing is Swing.OUT else -1
    leaves = [
        [_spot(view.at(hinge)), _spot(view.at(hinge, out * gate.leaf_width)),
         _spot(view.at(hinge + way * gate.leaf_width))]
        for hinge, way in hinges_of(layout.plan, gate)
    ]  # fmt: skip
    return {
        "name": name, "opening": [_spot(view.at(gate.start)), _spot(view.at(gate.end))], "leaves": leaves,
        "leaf": _r(gate.leaf_width),
    }  # fmt: skip


def _unfolded(layout: Layout, view: SideView) -> Record:
    """One side square on from outside."""
    places = view.lie.ground(0.0, view.length)[0]
    own = stretches_on(layout, view)
    ends = ((-BEYOND, view.lie.ground_at(-BEYOND)), (view.length + BEYOND, view.lie.ground_at(view.length + BEYOND)))
    line = [ends[0], *places, ends[1]]
    return {
        "side": view.side.name, "length": _r(view.length),
        "ground": [_spot((view.across(along), z)) for along, z in line],
        "steps": [_panel(view, stretch, number) for stretch in own for number in range(len(stretch.steps))],
        "fence": [_bay(view, stretch, bay) for stretch in own if stretch.buildup.mesh is not None
                  for bay in bays(layout, view, stretch)],
        "posts": [
            _spot((view.across(along), post.foot, post.base, post.top)) for along, post in posts_on(layout, view)
        ],
        "gates": [
            {"name": gate.name, "from": _r(view.across(gate.start)), "to": _r(view.across(gate.end)),
             "low": _r(layout.gates[gate.name].hang), "top": _r(layout.gates[gate.name].hang + gate.height)}
            for gate in layout.plan.gates_in(view.side.name)
        ],
        "neighbors": [_standing(layout, view, number) for number, run in enumerate(view.side.runs) if run.neighbor],
        "banks": [
            [_spot(point) for point in lying.seen(view)]
            for lying in banks_against(layout, view)
        ],
        "corners": [view.side.start, view.side.end] if view.outer_is_right else [view.side.end, view.side.start],
    }  # fmt: skip


def _panel(view: SideView, stretch: Stretch, number: int) -> Record:
    panel = tuple(panels(stretch))[number]
    return {
        "stretch": stretch.name,
        "shown": [_spot((view.across(along), z)) for along, z in panel.shown],
        "foot": _r(panel.step.footing_bottom if stretch.buildup.footing is not None else panel.step.bed),
    }


def _bay(view: SideView, stretch: Stretch, bay: tuple[Meter, Meter]) -> list[Spot]:
    mesh = stretch.buildup.mesh
    high = mesh.height if mesh is not None else 0.0
    inside = [min(max(along, stretch.start), stretch.end) for along in bay]
    feet = [foot_of_fence(view, stretch, along) for along in inside]
    (left, right), (low, other) = (view.across(along) for along in bay), feet
    return [_spot(point) for point in ((left, low), (right, other), (right, other + high), (left, low + high))]


def _standing(layout: Layout, view: SideView, number: int) -> Record:
    run = view.side.runs[number]
    neighbor = next(one for one in layout.plan.neighbors if one.name == run.neighbor)
    heights = [z for _, z in view.lie.ground(run.start, run.end)[0]]
    return {
        "name": neighbor.name, "from": _r(view.across(run.start)), "to": _r(view.across(run.end)),
        "low": _r(min(heights)), "top": _r(max(heights) + neighbor.height),
    }  # fmt: skip


def contour_lines(spots: tuple[tuple[float, float, float], ...], system: System) -> list[Record]:
    """Lines of equal height of the surveyed ground, with the height as text; none on level ground."""
    ground = surface(Ground(points=spots)) if spots else None
    interval = contour_interval(ground, system)
    if ground is None or interval is None:
        return []
    return [
        {"z": _r(line.z), "text": _height(line.z, system), "path": [_spot(point) for point in line.path]}
        for line in contours(ground, interval)
    ]


def _height(value: Meter, system: System) -> str:
    text = tape(value, system) if system is System.US else f"{value:.2f} m"
    return text if value < 0 or math.isclose(value, 0.0, abs_tol=1e-9) else f"+{text}"

"""Dimension chains outside each side in plan: posts and run boundaries, then the whole side."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.banks import reach_of_banks
from pinfold.drawings.scenes import Dimension, PaperMm, Point, Shape, chain
from pinfold.drawings.sides import SideView, posts_on
from pinfold.plan.buildups import Faces
from pinfold.plan.enclosure import Swing
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter, System, tape

NEAR: PaperMm = 5.0
"""From what is measured to the first dimension line."""
TIER: PaperMm = 6.1
"""From the first dimension line to that of the whole side."""
PAST: PaperMm = 2.0
"""From what only stands out in places, such as an open leaf, to the first dimension line."""
SAME: Meter = 0.03
"""Marks nearer than this are dimensioned as one."""


def side_dimensions(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """Both chains of a side, clear of what stands outside of it.

    Args:
        layout: the plan laid out
        view: the side
        millimeter: about how much ground one millimeter of paper will hold
    """
    standing = max(_standing_out(layout, view), reach_of_banks(layout, view, Faces.OUTER, millimeter))
    out = max(_built_out(layout, view), standing - (NEAR - PAST) * millimeter)
    places = marks(layout, view)
    ends, texts = together(places, kinds_between(layout, view, places), layout.plan.units)
    points = tuple(view.at(place, out) for place in ends)
    offset = view.out_offset(NEAR)
    yield from chain(points, texts, offset=offset, size=1.6)
    if len(places) > 2:
        whole = tape(view.length, layout.plan.units)
        yield Dimension(start=points[0], end=points[-1], offset=view.out_offset(NEAR + TIER), text=whole)


def together(
    places: tuple[Meter, ...], kinds: tuple[str, ...], system: System
) -> tuple[tuple[Meter, ...], tuple[str, ...]]:
    """Places and the texts between them, lengths of one kind that the tape shows alike gathered as `3 × 8'`."""
    groups: list[tuple[Meter, int, tuple[str, str]]] = []
    for (start, end), kind in zip(pairwise(places), kinds, strict=True):
        alike = (tape(end - start, system), kind)
        count = groups[-1][1] if groups and groups[-1][2] == alike else 0
        if count:
            groups.pop()
        groups.append((end, count + 1, alike))
    ends = (places[0], *(end for end, _, _ in groups))
    return ends, tuple(text if count == 1 else f"{count} × {text}" for _, count, (text, _) in groups)


def kinds_between(layout: Layout, view: SideView, places: tuple[Meter, ...]) -> tuple[str, ...]:
    """What lies between neighboring places along a side: the name of a gate, or else of a run."""
    kinds = []
    for start, end in pairwise(places):
        middle = (start + end) / 2
        gates = [gate.name for gate in layout.plan.gates_in(view.side.name) if gate.start <= middle <= gate.end]
        runs = [run.name for run in view.side.runs if run.start <= middle <= run.end]
        kinds.append(gates[0] if gates else runs[0] if runs else "")
    return tuple(kinds)


def marks(layout: Layout, view: SideView) -> tuple[Meter, ...]:
    """Places along a side worth measuring to: its corners, every post, every boundary of a run."""
    wanted = [0.0, view.length, *(run.end for run in view.side.runs), *(place for place, _ in posts_on(layout, view))]
    kept: list[Meter] = [0.0]
    for place in sorted(wanted):
        if place - kept[-1] > SAME:
            kept.append(place)
    if view.length - kept[-1] <= SAME:
        kept[-1] = view.length
    return tuple(kept)


def _built_out(layout: Layout, view: SideView) -> Meter:
    """How far out walls, footings and aprons reach along a side."""
    reach = 0.0
    for run in view.side.runs:
        buildup = layout.plan.buildups.get(run.buildup or "")
        if buildup is not None:
            near = buildup.wall.thickness / 2 if buildup.wall else 0.0
            apron = buildup.mesh.apron if buildup.mesh and not buildup.mesh.apron_buried else 0.0
            reach = max(reach, near + apron, buildup.footing.width / 2 if buildup.footing else 0.0)
    return reach


def _standing_out(layout: Layout, view: SideView) -> Meter:
    """How far out open leaves and neighbors reach along a side."""
    gates = [gate for gate in layout.plan.gates_in(view.side.name) if gate.swing is Swing.OUT]
    reach = max((gate.leaf_width for gate in gates), default=0.0)
    for neighbor in layout.plan.neighbors:
        spots = [_local(view, point) for point in neighbor.footprint]
        low, high = min(along for along, _ in spots), max(along for along, _ in spots)
        far = max(out for _, out in spots)
        if high > 0.0 and low < view.length and min(out for _, out in spots) < max(reach, 0.5) and far > 0.0:
            reach = max(reach, far)
    return reach


def _local(view: SideView, point: Point) -> tuple[Meter, Meter]:
    """A place in plan as distance along a side and out of it."""
    (x, y), (across, up) = view.lie.start, view.lie.way
    along = (point[0] - x) * across + (point[1] - y) * up
    left = (point[1] - y) * across - (point[0] - x) * up
    return along, -left if view.outer_is_right else left

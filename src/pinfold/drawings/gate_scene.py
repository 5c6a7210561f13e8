"""Gates: each one seen from outside with its leaves, posts, gaps and the diagonal to check it square by."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.fineness import millimeter
from pinfold.drawings.gate_dimensions import BESIDE, Opening, gate_call_outs, gate_dimensions
from pinfold.drawings.leaves import Leaf, leaf_shapes, leaves_of
from pinfold.drawings.naming import hatch_of, slug
from pinfold.drawings.scenes import Anchor, Area, Label, Polyline, ScaleBar, Scene, Shape
from pinfold.drawings.sides import SideView, side_views, width_of_post
from pinfold.plan.enclosure import Gate
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.layout.records import GatePlace, Layout, Post
from pinfold.units import Meter, System, tape

STRIP: Meter = 0.1
"""Depth of the hatched ground."""
HIGH_HANG: Meter = 0.02
"""A leaf that hangs so much higher than its gap over the sill does so because of the ground it swings over."""


def gate_scenes(layout: Layout) -> tuple[Scene, ...]:
    """One scene for each gate in the plan's order: x from the left end of its side seen from outside, y the height."""
    views = {view.side.name: view for view in side_views(layout)}
    return tuple(_scene(layout, views[gate.side], layout.gates[gate.name]) for gate in layout.plan.gates)


def _scene(layout: Layout, view: SideView, place: GatePlace) -> Scene:
    posts = sorted((post for post in layout.posts if post.name in place.posts), key=lambda one: view.across(one.along))
    gate = Opening(
        view=view, place=place, leaves=leaves_of(layout.plan, view, place), posts=tuple(posts),
        system=layout.plan.units,
    )  # fmt: skip
    fine = millimeter(place.gate.width + 2 * BESIDE, gate.high - gate.low)
    shapes = [*_ground(view, place.gate), *_sill(view, place)]
    for post in posts:
        shapes += _post(view, post, first=post is posts[0])
    for leaf in gate.leaves:
        shapes += leaf_shapes(leaf, fine)
        shapes += _diagonal(leaf, gate.system, named=leaf is gate.leaves[0])
    shapes += gate_dimensions(gate)
    shapes += gate_call_outs(gate)
    shapes.append(ScaleBar(system=gate.system))
    return Scene(
        name=slug("gate", place.gate.name), title=f"{layout.plan.name}: {place.gate.name}, seen from outside",
        shapes=tuple(shapes), notes=_notes(place, gate.system), about=_about(gate),
    )  # fmt: skip


def _ground(view: SideView, gate: Gate) -> Iterator[Shape]:
    start, end = gate.start - BESIDE, gate.end + BESIDE
    line = tuple((start + along, z) for along, z in view.lie.ground(start, end)[0])
    seen = tuple((view.across(along), z) for along, z in line)
    below = tuple((x, z - STRIP) for x, z in reversed(seen))
    yield Area(layer="ground", points=(*seen, *below), hatch="ground", edged=False)
    yield Polyline(layer="ground", points=seen)


def _sill(view: SideView, place: GatePlace) -> Iterator[Shape]:
    """What lies under the leaf between the posts; nothing where that is the ground."""
    gate = place.gate
    if gate.sill is not None and gate.sill.kind.has("width"):
        left, right = sorted((view.across(gate.start), view.across(gate.end)))
        foot = place.sill - gate.sill.height
        shown = ((left, foot), (right, foot), (right, place.sill), (left, place.sill))
        yield Area(layer="post", points=shown, hatch=hatch_of(gate.sill.kind))


def _post(view: SideView, post: Post, *, first: bool) -> Iterator[Shape]:
    """A post in its collar, its name on the side away from the opening."""
    x, half = view.across(post.along), max(width_of_post(post.kind), 0.02) / 2
    shown = ((x - half, post.ground), (x + half, post.ground), (x + half, post.top), (x - half, post.top))
    if post.collar > 0:
        wide = post.collar / 2
        ring = ((x - wide, post.foot), (x + wide, post.foot), (x + wide, post.ground), (x - wide, post.ground))
        yield Area(layer="footing", points=ring, hatch="concrete")
    yield Area(layer="post", points=shown, hatch=hatch_of(post.kind))
    hidden = ((x - half, post.ground), (x - half, post.foot), (x + half, post.foot), (x + half, post.ground))
    yield Polyline(layer="post", points=hidden, dashed=True)
    anchor: Anchor = "above left" if first else "above right"
    yield Label(at=(x, post.top), text=post.name, layer="post", anchor=anchor, size=1.8, priority=6)


def _diagonal(leaf: Leaf, system: System, *, named: bool) -> Iterator[Shape]:
    """The diagonal across the strut; named with its length on one leaf."""
    start, end = sorted(((leaf.hinge, leaf.top), (leaf.latch, leaf.foot)))
    yield Polyline(layer="mark", points=(start, end), dashed=True)
    if named:
        turn = math.atan2(end[1] - start[1], end[0] - start[0])
        at = (start[0] + (end[0] - start[0]) * 0.27, start[1] + (end[1] - start[1]) * 0.27)
        text = f"diagonal {tape(math.dist(start, end), system)}"
        yield Label(at=at, text=text, layer="mark", anchor="above", turn=turn, size=1.8, movable=False)


def _notes(place: GatePlace, system: System) -> tuple[str, ...]:
    gate, leaf = place.gate, leaf_size(place.gate, system)
    size = f"{tape(leaf.meters(leaf.width), system)} × {tape(gate.height, system)}"
    gaps = " and ".join(tape(leaf.meters(gap), system) for gap in sorted(set(leaf.gaps)))
    notes = [
        f"{gate.leaves} {'leaf' if gate.leaves == 1 else 'leaves'} of {size}, opening {gate.swing.value}; "
        f"gaps of {gaps} beside, {tape(gate.under, system)} under at the least. "
        "Both diagonals of a leaf are alike when it is square."
    ]
    if place.swing_high > place.sill + HIGH_HANG:
        rise = tape(place.swing_high - place.sill, system)
        notes.append(f"It hangs {rise} higher than its sill asks, to clear the ground it swings over.")
    notes.append("Where hinges and latch go is shown, not their make. Measure the opening before making the leaf.")
    return tuple(notes)


def _about(gate: Opening) -> str:
    hinged = " and ".join("left" if leaf.hinged_left else "right" for leaf in gate.leaves)
    width = tape(gate.place.gate.width, gate.system)
    return f"{gate.place.gate.name} seen from outside, clear width {width}, hinged {hinged}."

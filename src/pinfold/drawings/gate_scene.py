"""Gates: each one seen from outside with its leaves, posts, gaps and the diagonal to check it square by."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.fineness import millimeter
from pinfold.drawings.leaves import Leaf, infill_of, leaf_shapes, leaves_of
from pinfold.drawings.naming import column, hatch_of, slug, told
from pinfold.drawings.scenes import (
    Area,
    Dimension,
    Label,
    PaperMm,
    Point,
    Polyline,
    ScaleBar,
    Scene,
    Shape,
)
from pinfold.drawings.sides import SideView, side_views, width_of_post
from pinfold.plan.enclosure import Gate
from pinfold.studies.layout.records import GatePlace, Layout, Post
from pinfold.units import Meter, System, tape

BESIDE: Meter = 0.45
"""Ground drawn on each side of the opening."""
STRIP: Meter = 0.1
"""Depth of the hatched ground."""
NEAR: PaperMm = 6.0
TIER: PaperMm = 8.0
HIGH_HANG: Meter = 0.02
"""A leaf that hangs so much higher than its gap over the sill does so because of the ground it swings over."""


def gate_scenes(layout: Layout) -> tuple[Scene, ...]:
    """One scene for each gate in the order of the plan: x from the left end of its side seen from outside, y the height."""
    views = {view.side.name: view for view in side_views(layout)}
    return tuple(_scene(layout, views[gate.side], layout.gates[gate.name]) for gate in layout.plan.gates)


def _scene(layout: Layout, view: SideView, place: GatePlace) -> Scene:
    gate, system = place.gate, layout.plan.units
    leaves = leaves_of(layout.plan, view, place)
    posts = tuple(post for post in layout.posts if post.name in place.posts)
    fine = millimeter(gate.width + 2 * BESIDE, place.hang + gate.height - min(post.foot for post in posts))
    shapes = [*_ground(view, gate)]
    for post in posts:
        shapes += _post(view, post)
    for leaf in leaves:
        shapes += leaf_shapes(leaf, fine)
        shapes += _diagonal(leaf, system)
    shapes += _leaf_dimensions(view, place, leaves, system)
    shapes += _post_dimensions(view, place, posts, system)
    shapes += _call_outs(view, place, leaves, posts, system)
    shapes.append(ScaleBar(system=system))
    return Scene(
        name=slug("gate", gate.name), title=f"{layout.plan.name}: {gate.name}, seen from outside",
        shapes=tuple(shapes), notes=_notes(place, system), about=_about(place, leaves, system),
    )  # fmt: skip


def _ground(view: SideView, gate: Gate) -> Iterator[Shape]:
    start, end = gate.start - BESIDE, gate.end + BESIDE
    line = tuple((start + along, z) for along, z in view.lie.ground(start, end)[0])
    seen = tuple((view.across(along), z) for along, z in line)
    below = tuple((x, z - STRIP) for x, z in reversed(seen))
    yield Area(layer="ground", points=(*seen, *below), hatch="ground", edged=False)
    yield Polyline(layer="ground", points=seen)


def _post(view: SideView, post: Post) -> Iterator[Shape]:
    x, half = view.across(post.along), max(width_of_post(post.kind), 0.02) / 2
    shown = ((x - half, post.ground), (x + half, post.ground), (x + half, post.top), (x - half, post.top))
    if post.collar > 0:
        wide = post.collar / 2
        ring = ((x - wide, post.foot), (x + wide, post.foot), (x + wide, post.ground), (x - wide, post.ground))
        yield Area(layer="footing", points=ring, hatch="concrete")
    yield Area(layer="post", points=shown, hatch=hatch_of(post.kind))
    hidden = ((x - half, post.ground), (x - half, post.foot), (x + half, post.foot), (x + half, post.ground))
    yield Polyline(layer="post", points=hidden, dashed=True)
    yield Label(at=(x, post.top), text=post.name, layer="post", anchor="above", size=1.8, priority=6)


def _diagonal(leaf: Leaf, system: System) -> Iterator[Shape]:
    """Both diagonals of a leaf are alike when it is square; the one across the strut is drawn with its length."""
    start, end = (leaf.hinge, leaf.top), (leaf.latch, leaf.foot)
    if start[0] > end[0]:
        start, end = end, start
    yield Polyline(layer="mark", points=(start, end), dashed=True)
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    at = (start[0] + (end[0] - start[0]) * 0.3, start[1] + (end[1] - start[1]) * 0.3)
    text = f"both diagonals {tape(math.dist(start, end), system)}"
    yield Label(at=at, text=text, layer="mark", anchor="above", turn=turn, size=1.8, priority=7)


def _leaf_dimensions(
    view: SideView, place: GatePlace, leaves: tuple[Leaf, ...], system: System
) -> Iterator[Shape]:  # fmt: skip
    """Over the leaves: every gap and leaf, then the clear opening; beside them: gap under and height."""
    left, right = sorted((view.across(place.gate.start), view.across(place.gate.end)))
    top = leaves[0].top
    edges = [left, *(edge for leaf in leaves for edge in (leaf.left, leaf.right)), right]
    for start, end in zip(edges, edges[1:], strict=False):
        yield _level((start, end), top, NEAR + TIER, system)
    yield _level((left, right), top, NEAR + 2 * TIER, system)
    for edge, side in ((left, 1), (right, -1)):
        along = edge if view.outer_is_right else view.length - edge
        sill = view.lie.ground_at(along)
        out = edge - side * BESIDE
        yield _upright((out, sill), leaves[0].foot, side * NEAR, system)
        if side == 1:
            yield _upright((out, leaves[0].foot), top, side * NEAR, system)


def _post_dimensions(
    view: SideView, place: GatePlace, posts: tuple[Post, ...], system: System
) -> Iterator[Shape]:  # fmt: skip
    """Beside the posts: depth in the ground and height over it; under them: collars and centers."""
    low = min(post.foot for post in posts)
    ranked = sorted(posts, key=lambda post: view.across(post.along))
    for post, side in zip(ranked, (1, -1), strict=False):
        out = view.across(post.along) - side * BESIDE
        yield _upright((out, post.foot), post.ground, side * (NEAR + TIER), system)
        yield _upright((out, post.ground), post.top, side * (NEAR + TIER), system)
        if post.collar > 0:
            x = view.across(post.along)
            yield _level((x - post.collar / 2, x + post.collar / 2), low, -NEAR, system)
    yield _level((view.across(ranked[0].along), view.across(ranked[-1].along)), low, -(NEAR + TIER), system)


def _level(ends: tuple[Meter, Meter], z: Meter, offset: PaperMm, system: System) -> Dimension:
    return Dimension(
        start=(ends[0], z), end=(ends[1], z), offset=offset, text=tape(ends[1] - ends[0], system), size=1.7
    )  # fmt: skip


def _upright(foot: Point, top: Meter, offset: PaperMm, system: System) -> Dimension:
    return Dimension(start=foot, end=(foot[0], top), offset=offset, text=tape(top - foot[1], system), size=1.7)


def _call_outs(
    view: SideView, place: GatePlace, leaves: tuple[Leaf, ...], posts: tuple[Post, ...], system: System
) -> Iterator[Shape]:  # fmt: skip
    """Frame, infill, strut, hinges, latch, post and collar, in a column on the right."""
    leaf, gate = leaves[-1], place.gate
    post = max(posts, key=lambda one: view.across(one.along))
    wide, x = leaf.right - leaf.left, view.across(post.along)
    infill = infill_of(leaf)
    member = f"members {tape(leaf.member, system)} wide" if gate.kind.has("member_width") else ""
    rows: list[tuple[Point, str]] = [
        ((leaf.right - leaf.member / 2, leaf.foot + (leaf.top - leaf.foot) * 0.93), told(gate.kind.says, member)),
        ((leaf.left + wide * 0.72, leaf.foot + (leaf.top - leaf.foot) * 0.78), told("infill", infill.says) if infill else ""),
        ((leaf.hinge, leaf.foot + (leaf.top - leaf.foot) / 6), "hinges on this edge"),
        (_on_strut(leaf), "strut from the lower hinge corner to the upper latch corner" if _has_strut(leaf) else ""),
        ((x, post.ground + (post.top - post.ground) * 0.15), told(post.kind.says, f"{tape(post.length, system)} long")),
        ((x + post.collar * 0.35, (post.foot + post.ground) / 2), _collar(post, system)),
    ]  # fmt: skip
    if latched := next((one for one in leaves if one.latched), None):
        rows.append(((latched.latch, latched.foot + (latched.top - latched.foot) * 0.6), "latch"))
    edge = view.across(gate.end if view.outer_is_right else gate.start) + BESIDE
    low, high = min(one.foot for one in posts), max(one.top for one in posts)
    shown = sorted((row for row in rows if row[1]), key=lambda row: -row[0][1])
    for number, (at, text) in enumerate(shown):
        stand = (edge + COLUMN_OFF * (high - low), high - (high - low) * (number + 0.5) / len(shown))
        yield Label(at=at, text=column(text, 1.8, 46.0), stand=stand, anchor="right", size=1.8, priority=8)


COLUMN_OFF = 0.16
"""From the ground's end to the column of call-outs, as a share of the height: room for two dimension lines."""


def _has_strut(leaf: Leaf) -> bool:
    return leaf.kind.has("brace") and leaf.kind.value("brace") > 0


def _on_strut(leaf: Leaf) -> Point:
    share = 0.3
    return (leaf.hinge + (leaf.latch - leaf.hinge) * share, leaf.foot + (leaf.top - leaf.foot) * share)


def _collar(post: Post, system: System) -> str:
    if post.collar <= 0:
        return ""
    return told("collar of concrete", f"{tape(post.collar, system)} across", f"{tape(post.hole, system)} deep")


def _notes(place: GatePlace, system: System) -> tuple[str, ...]:
    gate = place.gate
    size = f"{tape(gate.leaf_width, system)} × {tape(gate.height, system)}"
    notes = [
        f"{gate.leaves} {'leaf' if gate.leaves == 1 else 'leaves'} of {size}, opening {gate.swing.value}; "
        f"gaps of {tape(gate.gap, system)} beside, {tape(gate.under, system)} under at the least."
    ]
    if place.swing_high > place.sill + HIGH_HANG:
        rise = tape(place.swing_high - place.sill, system)
        notes.append(f"The leaf hangs {rise} higher than its sill asks, to clear the ground it swings over.")
    notes.append("Where hinges and latch go is shown, not their make. Measure the opening before making the leaf.")
    return tuple(notes)


def _about(place: GatePlace, leaves: tuple[Leaf, ...], system: System) -> str:
    hinged = " and ".join("left" if leaf.hinged_left else "right" for leaf in leaves)
    return f"{place.gate.name} seen from outside, clear width {tape(place.gate.width, system)}, hinged {hinged}."

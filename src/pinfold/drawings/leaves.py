"""Gate leaves seen from outside: frame, strut, infill, hinges and latch."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinfold.drawings.fineness import lattice, thinned
from pinfold.drawings.scenes import Area, Point, Polyline, Shape
from pinfold.drawings.sides import SideView
from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.hanging import Bracing
from pinfold.studies.gates.bracing import brace_outline
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.gates.latching import hinge_places, latch_place
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.gates.records import GateFrame
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.records import GatePlace
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter, System

MESH_APART = 1.6
"""Wires nearer than this on paper, in millimeters, are thinned out."""
HARDWARE: Meter = 0.04
"""Size at which hinges and latch are drawn: their place is shown, not their make."""


@dataclass(frozen=True, kw_only=True)
class Leaf:
    """One leaf as seen from outside.

    Attributes:
        kind: of shelf `gates`.
        left: its left edge; right, foot and top likewise.
        hinged_left: whether its hinges are on its left edge.
        latched: whether its latch is drawn on it.
        frame: its pieces; None where they are not known.
        latch_at: height of the latch above its foot.
    """

    kind: Kind
    left: Meter
    right: Meter
    foot: Meter
    top: Meter
    hinged_left: bool
    latched: bool = True
    frame: GateFrame | None = None
    latch_at: Meter | None = None

    @property
    def member(self) -> Meter:
        """Width of its frame's members; a twentieth of the leaf where none is known."""
        if self.frame is not None:
            return self.frame.size.meters(self.frame.member)
        if not self.kind.has("member_width"):
            return (self.right - self.left) / 20
        return min(self.kind.value("member_width"), (self.right - self.left) / 5, (self.top - self.foot) / 5)

    @property
    def braced_by(self) -> Bracing:
        """What keeps it square, as far as it is drawn."""
        brace = self.frame.brace if self.frame is not None else None
        return Bracing.NONE if brace is None else brace.bracing

    def place(self, x: Meter, y: Meter) -> Point:
        """A place by its distance from the hinge edge and its height above the foot."""
        return (self.left + x if self.hinged_left else self.right - x), self.foot + y

    @property
    def hinge(self) -> Meter:
        """The edge with the hinges."""
        return self.left if self.hinged_left else self.right

    @property
    def latch(self) -> Meter:
        """The other edge."""
        return self.right if self.hinged_left else self.left


def leaves_of(plan: Enclosure, view: SideView, place: GatePlace) -> tuple[Leaf, ...]:
    """The leaves of a gate, in places across the side seen from outside, from left to right, on marks of the tape."""
    gate, found, frame = place.gate, [], known_frame(place.gate, plan.units)
    posts = sorted((view.across(gate.start), view.across(gate.end)))
    size = leaf_size(gate, plan.units)
    for number, (hinge, way) in enumerate(hinges_of(plan, gate)):
        left = view.across(hinge) < view.across(hinge + way * gate.leaf_width)
        hung, out = (posts[0], 1) if left else (posts[1], -1)
        ends = [hung + out * size.meters(steps) for steps in (size.gaps[0], size.gaps[0] + size.width)]
        found.append(
            Leaf(
                kind=gate.kind, left=min(ends), right=max(ends), foot=place.hang, top=place.hang + gate.height,
                hinged_left=left, latched=number == 0, frame=frame,
                latch_at=None if frame is None else latch_place(frame, place).at,
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda leaf: leaf.left))


def known_frame(gate: Gate, system: System) -> GateFrame | None:
    """The frame of a gate's leaf; None where a figure of it is not known or nothing is left between its members."""
    try:
        return frame_of(gate, system)
    except (NotFoundError, OutOfRangeError):
        return None


def leaf_shapes(leaf: Leaf, millimeter: Meter) -> Iterator[Shape]:
    """A leaf: infill behind, then strut, frame, hinges and latch."""
    yield from _infill(leaf, millimeter)
    yield from _brace(leaf)
    yield from _frame(leaf)
    yield from _hardware(leaf)


def _hatch(leaf: Leaf) -> str:
    return "timber" if leaf.kind.word("material") == "wood" else "steel"


def _frame(leaf: Leaf) -> Iterator[Shape]:
    """Two stiles the whole height, rails between them."""
    wide = leaf.member
    for left in (leaf.left, leaf.right - wide):
        yield _box(left, leaf.foot, left + wide, leaf.top)
    for foot in _rail_feet(leaf):
        yield _box(leaf.left + wide, foot, leaf.right - wide, foot + wide)


def _rail_feet(leaf: Leaf) -> tuple[Meter, ...]:
    """Lower edges of the rails, evenly from the leaf's foot to its top."""
    if leaf.frame is not None:
        return tuple(leaf.foot + leaf.frame.size.meters(rail.at) for rail in leaf.frame.rails)
    count = max(round(leaf.kind.value("rails")) if leaf.kind.has("rails") else 2, 2)
    rise = leaf.top - leaf.foot - leaf.member
    return tuple(leaf.foot + rise * number / (count - 1) for number in range(count))


def _box(left: Meter, foot: Meter, right: Meter, top: Meter) -> Area:
    return Area(layer="gate", points=((left, foot), (right, foot), (right, top), (left, top)))


def _brace(leaf: Leaf) -> Iterator[Shape]:
    """The strut as it is cut, or the wire."""
    frame = leaf.frame
    if frame is None or frame.brace is None:
        return
    points = tuple(leaf.place(x, y) for x, y in brace_outline(frame.brace, leaf.member))
    if len(points) == 2:
        yield Polyline(layer="mark", points=points)
    else:
        yield Area(layer="gate", points=points, hatch=_hatch(leaf))


def infill_of(leaf: Leaf) -> Kind | None:
    """The mesh that fills a leaf; None for sheet and for what no shelf knows."""
    try:
        return kind("meshes", leaf.kind.word("infill"))
    except NotFoundError:
        return None


def _infill(leaf: Leaf, millimeter: Meter) -> Iterator[Shape]:
    """What fills a leaf, from rail to rail inside its stiles; a sheet lies over the whole of it."""
    mesh = infill_of(leaf)
    if mesh is None:
        ring = ((leaf.left, leaf.foot), (leaf.right, leaf.foot), (leaf.right, leaf.top), (leaf.left, leaf.top))
        yield Area(layer="gate", points=ring, hatch="steel" if leaf.kind.word("infill") == "sheet" else "none")
        return
    left, right = leaf.left + leaf.member, leaf.right - leaf.member
    for lower, upper in pairwise(_rail_feet(leaf)):
        foot = lower + leaf.member
        yield from mesh_shapes(mesh, ((left, foot), (right, foot), (right, upper), (left, upper)), millimeter)


def mesh_shapes(mesh: Kind, ring: tuple[Point, ...], millimeter: Meter, *, turn: float = 0.0) -> Iterator[Shape]:
    """The wires of a mesh over an area, thinned out where the scale asks for it; slanting for diamonds and hexagons."""
    if not (mesh.has("opening_wide") and mesh.has("opening_high")):
        return
    least = MESH_APART * millimeter
    spacings = (thinned(mesh.value("opening_high"), least), thinned(mesh.value("opening_wide"), least))
    slanting = mesh.word("weave") in {"diamond", "hexagon", "expanded"}
    yield from lattice(ring, spacings, turn=math.pi / 4 if slanting else turn)


def _hardware(leaf: Leaf) -> Iterator[Shape]:
    """Two hinges near the ends, and the latch."""
    size, high = HARDWARE, leaf.top - leaf.foot
    middles: tuple[Meter, ...] = (high / 6, high * 5 / 6)
    if leaf.frame is not None:
        places, own = hinge_places(leaf.frame), leaf.frame.size
        middles = own.meters(places.lower), own.meters(places.upper)
    for middle in middles:
        yield _plate(leaf.hinge, leaf.foot + middle, size * 1.5, size / 2)
    if leaf.latched:
        yield _plate(leaf.latch, leaf.foot + (leaf.latch_at or high * 0.6), size * 1.2, size)


def _plate(x: Meter, z: Meter, wide: Meter, high: Meter) -> Area:
    ring = ((x - wide, z - high), (x + wide, z - high), (x + wide, z + high), (x - wide, z + high))
    return Area(layer="mark", points=ring, hatch="steel")

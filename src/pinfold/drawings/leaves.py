"""Gate leaves seen from outside: frame, strut, infill, hinges and latch."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinfold.drawings.fineness import lattice, thinned
from pinfold.drawings.scenes import Area, Point, Shape
from pinfold.drawings.sides import SideView
from pinfold.errors import NotFoundError
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.records import GatePlace
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter

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
    """

    kind: Kind
    left: Meter
    right: Meter
    foot: Meter
    top: Meter
    hinged_left: bool
    latched: bool = True

    @property
    def member(self) -> Meter:
        """Width of its frame's members; a twentieth of the leaf where none is known."""
        if not self.kind.has("member_width"):
            return (self.right - self.left) / 20
        return min(self.kind.value("member_width"), (self.right - self.left) / 5, (self.top - self.foot) / 5)

    @property
    def has_strut(self) -> bool:
        """Whether its kind has a slanting member."""
        return self.kind.has("brace") and self.kind.value("brace") > 0

    @property
    def hinge(self) -> Meter:
        """The edge with the hinges."""
        return self.left if self.hinged_left else self.right

    @property
    def latch(self) -> Meter:
        """The other edge."""
        return self.right if self.hinged_left else self.left


def leaves_of(plan: Enclosure, view: SideView, place: GatePlace) -> tuple[Leaf, ...]:
    """The leaves of a gate, in places across the side seen from outside, from left to right."""
    gate, found = place.gate, []
    for number, (hinge, way) in enumerate(hinges_of(plan, gate)):
        ends = view.across(hinge), view.across(hinge + way * gate.leaf_width)
        found.append(
            Leaf(
                kind=gate.kind, left=min(ends), right=max(ends), foot=place.hang, top=place.hang + gate.height,
                hinged_left=ends[0] < ends[1], latched=number == 0,
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda leaf: leaf.left))


def leaf_shapes(leaf: Leaf, millimeter: Meter) -> Iterator[Shape]:
    """A leaf: infill behind, then strut, frame, hinges and latch."""
    yield from _infill(leaf, millimeter)
    if leaf.has_strut:
        yield Area(layer="gate", points=_strut(leaf), hatch=_hatch(leaf))
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
    count = max(round(leaf.kind.value("rails")) if leaf.kind.has("rails") else 2, 2)
    rise = leaf.top - leaf.foot - leaf.member
    return tuple(leaf.foot + rise * number / (count - 1) for number in range(count))


def _box(left: Meter, foot: Meter, right: Meter, top: Meter) -> Area:
    return Area(layer="gate", points=((left, foot), (right, foot), (right, top), (left, top)))


def _strut(leaf: Leaf) -> tuple[Point, ...]:
    """From the lower hinge corner to the upper latch corner, between stiles and rails: pushed, not pulled."""
    wide = leaf.member
    left, right, low, high = leaf.left + wide, leaf.right - wide, leaf.foot + wide, leaf.top - wide
    start, end = ((left, low), (right, high)) if leaf.hinged_left else ((right, low), (left, high))
    length = math.dist(start, end)
    rise, run = abs(end[1] - start[1]) / length, abs(end[0] - start[0]) / length
    across, up = wide / 2 / max(rise, 1e-6), wide / 2 / max(run, 1e-6)
    way = 1 if leaf.hinged_left else -1
    across, up = min(across, (right - left) / 2), min(up, (high - low) / 2)
    (x, y), (u, v) = start, end
    return ((x, y), (x + way * across, y), (u, v - up), (u, v), (u - way * across, v), (x, y + up))


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
    """Two hinges a sixth of the height from the ends, and the latch a little over the middle."""
    size, high = HARDWARE, leaf.top - leaf.foot
    for part in (1 / 6, 5 / 6):
        middle = leaf.foot + high * part
        yield _plate(leaf.hinge, middle, size * 1.5, size / 2)
    if leaf.latched:
        yield _plate(leaf.latch, leaf.foot + high * 0.6, size * 1.2, size)


def _plate(x: Meter, z: Meter, wide: Meter, high: Meter) -> Area:
    ring = ((x - wide, z - high), (x + wide, z - high), (x + wide, z + high), (x - wide, z + high))
    return Area(layer="mark", points=ring, hatch="steel")

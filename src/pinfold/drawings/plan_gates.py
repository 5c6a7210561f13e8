"""Gates in plan: leaves drawn open, the way they swing, name and width."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.naming import side_of
from pinfold.drawings.scenes import Arc, Area, Label, Point, Polyline, Shape
from pinfold.drawings.sides import SideView
from pinfold.plan.enclosure import Gate, Swing
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter, tape

NAME_OFF = 2.5
"""From the swing, or from the wall, to a gate's name, in millimeters on paper."""


def gate_shapes(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """The gates of a side: the opening's line, each leaf open with its arc, name and width.

    Args:
        layout: the plan laid out
        view: the side
        millimeter: about how much ground one millimeter of paper will hold
    """
    for gate in layout.plan.gates_in(view.side.name):
        yield Polyline(layer="gate", points=(view.at(gate.start), view.at(gate.end)), dashed=True)
        for hinge, way in hinges_of(layout.plan, gate):
            yield from _leaf(view, gate, hinge, way)
        inside = (gate.leaf_width if gate.swing is Swing.IN else 0.0) + NAME_OFF * millimeter
        text = f"{gate.name}, {tape(gate.width, layout.plan.units)}\nopens {gate.swing.value}"
        yield Label(
            at=view.at((gate.start + gate.end) / 2, -inside), text=text, layer="gate", anchor=side_of(view.inward),
            priority=5,
        )  # fmt: skip


def _leaf(view: SideView, gate: Gate, hinge: Meter, way: int) -> Iterator[Shape]:
    """One leaf, hinged on the center line, standing open square to it, and a quarter circle from shut to open."""
    out = 1 if gate.swing is Swing.OUT else -1
    reach, deep = gate.leaf_width, _leaf_depth(gate)
    corners = ((0.0, 0.0), (0.0, reach), (deep, reach), (deep, 0.0))
    yield Area(layer="gate", points=tuple(view.at(hinge + way * along, out * off) for along, off in corners))
    center, shut, open_ = view.at(hinge), view.at(hinge + way * reach), view.at(hinge, out * reach)
    start, end = _direction(center, shut), _direction(center, open_)
    if math.remainder(end - start, math.tau) < 0:
        start, end = end, start
    yield Arc(layer="swing", center=center, radius=reach, start=start, end=end)


def _leaf_depth(gate: Gate) -> Meter:
    """How thick a leaf is drawn: its frame's member, at most a tenth of its width."""
    member = gate.kind.value("member_width") if gate.kind.has("member_width") else gate.leaf_width
    return min(member, gate.leaf_width / 10)


def _direction(start: Point, end: Point) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])

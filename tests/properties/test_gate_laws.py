"""Laws of gates to build: what is cut adds up, the swing is the worst of its arc, braces balance."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.studies.cutting.records import STEP
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.gates.latching import hinge_places
from pinfold.studies.gates.records import MARK
from pinfold.studies.gates.sag import brace_pull
from pinfold.studies.gates.swing import swing_ways
from pinfold.studies.gates.weight import leaf_weight
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.lie import lies
from pinfold.studies.layout.walls import outside_is_right
from pinfold.units import System
from small_plots import Opening, Plot

KINDS = ("wood-frame-mesh", "steel-frame-mesh", "sheet-panel", "pipe-frame-mesh")


@st.composite
def gates(draw):
    """A gate of any usual size and kind, and the tape it is measured with."""
    kind, leaves = draw(st.sampled_from(KINDS)), draw(st.sampled_from((1, 2)))
    width = draw(st.floats(0.75, 1.8)) * leaves
    words = (
        f'height = "{draw(st.floats(0.8, 2.0)):.4f} m"\nkind = "{kind}"\npost = "wood-6x6"\nembed = "1 m"\n'
        f'leaves = {leaves}\ngap = "{draw(st.floats(0.003, 0.03)):.4f} m"'
    )
    plot = Plot(corners=((0.0, 0.0), (9.0, 0.0)), gates=(Opening(side=0, at=2.0, width=width, words=words),))
    return plot.laid_out().plan.gates[0], draw(st.sampled_from(System))


@given(gates())
@settings(max_examples=60, deadline=None)
def test_every_length_is_on_a_mark_and_all_of_them_add_up(given_gate):
    gate, system = given_gate
    frame = frame_of(gate, system)
    mark, size = MARK[system], frame.size

    assert all(piece.length % mark == 0 for piece in frame.pieces)
    assert sum(size.gaps) + gate.leaves * size.width == size.opening
    assert max(size.gaps) - min(size.gaps) <= mark
    assert min(size.meters(gap) for gap in size.gaps) >= gate.gap - STEP[system] * mark
    rails = [rail.at for rail in frame.rails]
    assert rails[0] == 0
    assert rails[-1] + frame.member == size.height
    spans = [high - low - frame.member for low, high in pairwise(rails)]
    assert sum(spans) + len(rails) * frame.member == size.height
    assert max(spans) - min(spans) <= 2 * mark


@given(gates())
@settings(max_examples=60, deadline=None)
def test_a_strut_is_shorter_than_the_corners_it_joins_by_its_own_width(given_gate):
    gate, system = given_gate
    frame = frame_of(gate, system)
    struts = [piece for piece in frame.pieces if piece.says == "gate brace"]
    if len(struts) != 1:
        return
    wide = frame.size.meters(frame.member)
    corner = math.hypot(frame.brace.width, frame.brace.height)

    assert abs(frame.size.meters(struts[0].length) - math.sqrt(corner**2 - wide**2)) <= STEP[system] * MARK[system]


@given(gates())
@settings(max_examples=40, deadline=None)
def test_the_brace_holds_what_the_leafs_weight_asks_at_its_latch(given_gate):
    """Its upright part times the leaf's width turns against the weight at its center."""
    gate, system = given_gate
    frame, weight = frame_of(gate, system), leaf_weight(gate)
    force, _ = brace_pull(frame)
    upright = force * math.sin(frame.brace.angle)

    assert math.isclose(
        upright * frame.size.meters(frame.size.width), weight.mass * 9.80665 * weight.reach, rel_tol=1e-9
    )


@given(gates())
@settings(max_examples=40, deadline=None)
def test_hinges_lie_inside_the_leaf_and_a_mass_between_its_edges(given_gate):
    gate, system = given_gate
    frame, weight = frame_of(gate, system), leaf_weight(gate)
    places = hinge_places(frame)

    assert 0 < places.lower < places.upper < frame.size.height
    assert 0 < weight.reach < gate.leaf_width
    assert 0 < weight.rise < gate.height


@st.composite
def sloping(draw):
    """A gate over rolling ground."""
    heights = [draw(st.floats(-0.4, 0.4)) for _ in range(20)]
    spots = tuple(
        (x, y, heights[number % 20])
        for number, (x, y) in enumerate((x, y) for x in (0.5, 2.2, 3.1, 4.6, 7.5) for y in (-4.0, -0.9, 0.8, 4.0))
    )
    words = 'height = "1.2 m"\nkind = "wood-frame-mesh"\npost = "wood-4x4"\nembed = "80 cm"'
    width = draw(st.floats(0.8, 1.6))
    plot = Plot(
        corners=((0.0, 0.0), (8.0, 0.0)), gates=(Opening(side=0, at=2.5, width=width, words=words),), ground=spots
    )
    return plot.laid_out().plan


@given(sloping())
@settings(max_examples=15, deadline=None)
def test_the_least_clearance_is_that_of_the_arc_looked_at_point_by_point(plan):
    gate, lie = plan.gates[0], lies(plan)[0]
    sill = max(z for _, z in lie.ground(gate.start, gate.end)[0])
    planned = swing_ways(plan, gate, lie)[0]
    ((hinge, way),) = hinges_of(plan, gate)
    left = 1 if (gate.swing.value == "out") != outside_is_right(plan) else -1
    worst = max(
        lie.ground_at(
            hinge + way * radius * math.cos(angle), left * radius * math.sin(angle)
        )
        for angle in (math.pi / 2 * step / 240 for step in range(241))
        for radius in (gate.leaf_width * part / 40 for part in range(41))
    )  # fmt: skip
    brute = sill + gate.under - worst

    assert planned.clearance <= brute + 1e-9
    assert brute - planned.clearance < 0.01

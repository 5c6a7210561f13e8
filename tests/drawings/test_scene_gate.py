"""Gates are drawn as they hang: sizes, gaps, hand, strut and diagonal."""

from __future__ import annotations

import math

import pytest
import shapely

from mirroring import mirrored, on_a_plane, unmatched
from pinfold.drawings.all_scenes import largest_sheet
from pinfold.drawings.boxes import length_inside
from pinfold.drawings.gate_dimensions import NEAR
from pinfold.drawings.gate_scene import gate_scenes
from pinfold.drawings.leaves import leaves_of
from pinfold.drawings.scenes import Area, Dimension, Label, Polyline
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.layout.resolve import lay_out
from pinfold.units import METER, read, tape


@pytest.fixture(scope="module")
def scenes(layout):
    return dict(zip((gate.name for gate in layout.plan.gates), gate_scenes(layout), strict=True))


def of(scene, kind, layer):
    return [shape for shape in scene.shapes if isinstance(shape, kind) and shape.layer == layer]


def is_strut(area):
    """Whether an area leans: none of its two long sides is level or upright."""
    return (
        len(area.points) == 4
        and len({round(x, 6) for x, _ in area.points}) + len({round(y, 6) for _, y in area.points}) > 4
    )


def leaves(layout, views, gate):
    return leaves_of(layout.plan, views[gate.side], layout.gates[gate.name])


def test_leaves_have_their_size_and_gaps(layout, views):
    for gate in layout.plan.gates:
        left, right = sorted((views[gate.side].across(gate.start), views[gate.side].across(gate.end)))
        edges = [left, *(edge for leaf in leaves(layout, views, gate) for edge in (leaf.left, leaf.right)), right]
        gaps = [after - before for before, after in zip(edges[::2], edges[1::2], strict=True)]
        size = leaf_size(gate, layout.plan.units)
        assert sorted(gaps) == pytest.approx(sorted(size.meters(gap) for gap in size.gaps))
        assert gaps == pytest.approx([gate.gap] * (gate.leaves + 1), abs=0.0015)
        for leaf in leaves(layout, views, gate):
            assert leaf.right - leaf.left == pytest.approx(size.meters(size.width))
            assert leaf.top - leaf.foot == pytest.approx(gate.height)


def test_what_is_written_across_a_gate_adds_up_to_its_opening(layout, scenes):
    for gate in layout.plan.gates:
        over = [one for one in scenes[gate.name].shapes if isinstance(one, Dimension) and one.offset == NEAR
                and one.start[1] == one.end[1]]  # fmt: skip
        said = [read(one.text.replace("\u00a0", " "), like=METER) for one in over]

        assert len(said) == 2 * gate.leaves + 1
        assert sum(said) == pytest.approx(gate.width, abs=1e-9)


def test_a_leaf_is_hinged_as_seen_from_outside(layout, views):
    for gate in layout.plan.gates:
        hands = [leaf.hinged_left for leaf in leaves(layout, views, gate)]
        assert hands == ([True, False] if gate.leaves == 2 else [gate.hinges.value == "left"])


def test_the_strut_goes_from_the_lower_hinge_corner_to_the_upper_latch_corner(layout, views, scenes):
    for gate in layout.plan.gates:
        struts = [area for area in of(scenes[gate.name], Area, "gate") if is_strut(area)]
        for strut, leaf in zip(struts, leaves(layout, views, gate), strict=True):
            middle = (leaf.left + leaf.right) / 2
            low, high = min(strut.points, key=lambda p: p[1]), max(strut.points, key=lambda p: p[1])
            assert (low[0] < middle) == leaf.hinged_left
            assert (high[0] > middle) == leaf.hinged_left
            whole = shapely.box(leaf.left, leaf.foot, leaf.right, leaf.top)
            assert shapely.Polygon(strut.points).is_valid
            assert whole.covers(shapely.Polygon(strut.points).buffer(-1e-9))


def test_the_diagonal_is_that_of_the_leaf(layout, views, scenes):
    for gate in layout.plan.gates:
        size = leaf_size(gate, layout.plan.units)
        length = math.hypot(size.meters(size.width), gate.height)
        (label,) = of(scenes[gate.name], Label, "mark")
        assert label.text == f"diagonal {tape(length, layout.plan.units)}"
        lines = of(scenes[gate.name], Polyline, "mark")
        assert [math.dist(*line.points) for line in lines] == pytest.approx([length] * gate.leaves)


def test_posts_stand_at_their_depth_with_their_collars(layout, views, scenes):
    for gate in layout.plan.gates:
        posts = [post for post in layout.posts if post.gate == gate.name]
        collars = [shapely.Polygon(area.points).bounds for area in of(scenes[gate.name], Area, "footing")]
        wanted = sorted(
            (views[gate.side].across(post.along) - post.collar / 2, post.foot, post.collar, post.hole) for post in posts
        )
        shown = sorted((box[0], box[1], box[2] - box[0], box[3] - box[1]) for box in collars)
        for one, other in zip(shown, wanted, strict=True):
            assert one == pytest.approx(other)
        assert {label.text for label in of(scenes[gate.name], Label, "post")} == {post.name for post in posts}


def test_gaps_leaves_opening_and_height_are_dimensioned(layout, scenes):
    for gate in layout.plan.gates:
        said = [one.text for one in scenes[gate.name].shapes if isinstance(one, Dimension)]
        system, size = layout.plan.units, leaf_size(gate, layout.plan.units)
        for gap in size.gaps:
            assert said.count(tape(size.meters(gap), system)) >= size.gaps.count(gap)
        for length in (size.meters(size.width), gate.width, gate.height, gate.embed, gate.collar):
            assert tape(length, system) in said


def test_the_gap_under_a_leaf_is_measured_to_the_ground_at_both_edges(layout, views, scenes):
    for gate in layout.plan.gates:
        place, view = layout.gates[gate.name], views[gate.side]
        said = [one.text for one in scenes[gate.name].shapes if isinstance(one, Dimension)]
        for along in (gate.start, gate.end):
            assert tape(place.hang - view.lie.ground_at(along), layout.plan.units) in said


def test_a_mirrored_plan_gives_mirrored_gates(layout, views):
    plane = on_a_plane(layout.plan)
    others = gate_scenes(lay_out(mirrored(plane)))
    for gate, one, other in zip(plane.gates, gate_scenes(lay_out(plane)), others, strict=True):
        assert unmatched(one, other, axis=views[gate.side].length, labels=False) == []


def test_the_wires_of_a_leaf_lie_between_its_stiles_and_rails(layout, views, scenes):
    for gate in layout.plan.gates:
        panes = [
            shapely.box(leaf.left, leaf.foot, leaf.right, leaf.top).buffer(-leaf.member, join_style="mitre")
            for leaf in leaves(layout, views, gate)
        ]
        wires = of(scenes[gate.name], Polyline, "mesh")
        assert all(shapely.union_all(panes).buffer(1e-9).contains(shapely.LineString(wire.points)) for wire in wires)


def test_no_line_that_measures_runs_through_the_figures_of_a_collar(layout, scenes):
    for gate in layout.plan.gates:
        placed = largest_sheet(scenes[gate.name], paper=layout.plan.paper, system=layout.plan.units).placed
        lines = [line for one in placed.dimensions for line in (*one.drawn.extensions, one.drawn.line)]
        said = tape(gate.collar, layout.plan.units)
        collars = [one.text.slab for one in placed.dimensions if one.text.lines == (said,)]
        assert collars
        assert not any(length_inside(slab, *line) for slab in collars for line in lines)

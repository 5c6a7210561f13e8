"""The plan shows every part once, in its place and at its true size."""

from __future__ import annotations

import math

import pytest
import shapely

from mirroring import mirrored, on_a_plane, unmatched
from pinfold.drawings.anchoring import SLIDES, label_candidates
from pinfold.drawings.plan_dimensions import together
from pinfold.drawings.plan_ground import BEYOND
from pinfold.drawings.plan_scene import plan_scene
from pinfold.drawings.scenes import Arc, Area, Circle, Dimension, Label, NorthArrow, Polyline, Tick
from pinfold.plan.enclosure import Swing
from pinfold.studies.layout.resolve import lay_out
from pinfold.units import System, tape


@pytest.fixture(scope="module")
def scene(layout):
    return plan_scene(layout)


@pytest.fixture(scope="module")
def plot(layout):
    return shapely.Polygon(layout.plan.path)


def of(scene, kind, layer):
    return [shape for shape in scene.shapes if isinstance(shape, kind) and shape.layer == layer]


def test_every_post_appears_once_and_is_named_once(layout, scene):
    dots = [circle for circle in of(scene, Circle, "post") if circle.filled]
    names = [label.text for label in of(scene, Label, "post")]
    assert len(dots) == len(layout.posts)
    assert sorted(names) == sorted(post.name for post in layout.posts)
    widths = [post.kind.value("width") for post in layout.posts]
    assert all(2 * dot.radius >= width - 1e-9 for dot, width in zip(dots, widths, strict=True))


def test_posts_stand_on_their_line_unless_they_stand_behind_the_wall(layout, scene, plot):
    dots = [circle for circle in of(scene, Circle, "post") if circle.filled]
    for dot, post in zip(dots, layout.posts, strict=True):
        away = math.dist(dot.center, post.line_point)
        if away > 1e-9:
            assert plot.contains(shapely.Point(dot.center))
            assert post.hole > 0


def test_posts_behind_a_wall_are_clear_of_its_trench(layout, scene):
    trenches = [shapely.Polygon(line.points) for line in of(scene, Polyline, "footing")]
    behind = [
        circle for circle, post in zip([c for c in of(scene, Circle, "post") if c.filled], layout.posts, strict=True)
        if math.dist(circle.center, post.line_point) > 1e-9
    ]  # fmt: skip
    for circle in behind:
        assert all(trench.distance(shapely.Point(circle.center)) > circle.radius - 1e-9 for trench in trenches)


def test_each_wall_band_has_the_area_of_its_length_times_its_thickness(layout, scene):
    bands = [shapely.Polygon(area.points) for area in of(scene, Area, "wall")]
    walls = [stretch for stretch in layout.stretches if stretch.buildup.wall]
    for band, stretch in zip(bands, walls, strict=True):
        assert band.is_valid
        assert band.area == pytest.approx(stretch.length * stretch.buildup.wall.thickness, rel=1e-9)


def test_walls_meet_at_their_miters_and_do_not_overlap(scene):
    bands = [shapely.Polygon(area.points) for area in of(scene, Area, "wall")]
    assert shapely.union_all(bands).area == pytest.approx(sum(band.area for band in bands), rel=1e-9)


def test_the_faces_of_a_band_are_as_long_as_the_layout_says(layout, scene):
    walls = [stretch for stretch in layout.stretches if stretch.buildup.wall]
    for area, stretch in zip(of(scene, Area, "wall"), walls, strict=True):
        a, b, c, d = area.points
        faces = sorted((math.dist(a, b), math.dist(c, d)))
        assert faces == pytest.approx(sorted((stretch.outer, stretch.inner)), rel=1e-9)


def test_gates_swing_to_their_own_side(layout, scene, plot):
    arcs = of(scene, Arc, "swing")
    ordered = [gate for side in layout.plan.sides for gate in layout.plan.gates_in(side.name)]
    gates = [gate for gate in ordered for _ in range(gate.leaves)]
    assert len(arcs) == len(gates)
    for arc, gate in zip(arcs, gates, strict=True):
        middle = arc.start + ((arc.end - arc.start) % math.tau) / 2
        spot = (
            arc.center[0] + 0.5 * arc.radius * math.cos(middle),
            arc.center[1] + 0.5 * arc.radius * math.sin(middle),
        )
        assert plot.contains(shapely.Point(spot)) == (gate.swing is Swing.IN)
        assert (arc.end - arc.start) % math.tau == pytest.approx(math.pi / 2)
        assert arc.radius == pytest.approx(gate.leaf_width)


def test_a_leaf_is_hinged_on_the_hand_it_says_seen_from_outside(layout, scene, views):
    arcs = iter(of(scene, Arc, "swing"))
    for side in layout.plan.sides:
        for gate in layout.plan.gates_in(side.name):
            centers = [next(arcs).center for _ in range(gate.leaves)]
            view = views[side.name]
            middle = view.across((gate.start + gate.end) / 2)
            if gate.leaves == 1:
                along = math.dist(centers[0], view.at(0.0))
                assert (view.across(along) < middle) == (gate.hinges.value == "left")


def test_dimensions_of_a_side_add_up_to_its_length(layout, scene, views):
    for name, view in views.items():
        way = view.lie.way
        total = 0.0
        for one in (shape for shape in scene.shapes if isinstance(shape, Dimension)):
            step = (one.end[0] - one.start[0], one.end[1] - one.start[1])
            length = math.hypot(*step)
            along = (step[0] * way[0] + step[1] * way[1]) / length
            if along == pytest.approx(1.0) and _belongs(view, one.start):
                total += length
        assert total == pytest.approx(2 * view.length), name


def _belongs(view, point):
    away = abs((point[1] - view.lie.start[1]) * view.lie.way[0] - (point[0] - view.lie.start[0]) * view.lie.way[1])
    return away < 5.0


def test_dimensions_lie_outside(layout, scene, plot):
    for one in (shape for shape in scene.shapes if isinstance(shape, Dimension)):
        length = math.dist(one.start, one.end)
        left = (-(one.end[1] - one.start[1]) / length, (one.end[0] - one.start[0]) / length)
        out = math.copysign(0.5, one.offset)
        middle = ((one.start[0] + one.end[0]) / 2 + left[0] * out, (one.start[1] + one.end[1]) / 2 + left[1] * out)
        assert not plot.contains(shapely.Point(middle))


def test_lines_nobody_has_found_are_marked(layout, scene, plot):
    marked = {label.text.splitlines()[0] for label in of(scene, Label, "mark") if "find before digging" in label.text}
    assert len(marked) == sum(not line.located for line in layout.plan.lines)
    for line in layout.plan.lines:
        drawn = shapely.union_all([shapely.LineString(one.points) for one in of(scene, Polyline, "line")])
        inside = shapely.LineString(line.path).intersection(plot.buffer(BEYOND - 0.01))
        assert drawn.buffer(1e-6).contains(inside)  # it is cut off only past the plot
        texts = [shape.text for shape in scene.shapes if isinstance(shape, Label) and shape.text.startswith(line.name)]
        assert tape(line.depth, layout.plan.units) in texts[0]


def test_gates_neighbors_corners_and_area_are_named(layout, scene):
    texts = " ".join(shape.text for shape in scene.shapes if isinstance(shape, Label))
    for gate in layout.plan.gates:
        assert f"{gate.name}, {tape(gate.width, layout.plan.units)}" in texts
    for neighbor in layout.plan.neighbors:
        assert f"{neighbor.name}\n{tape(neighbor.height, layout.plan.units)} high" in texts
    assert {label.text for label in of(scene, Label, "outline")} == {corner.name for corner in layout.plan.corners}
    assert "inside" in texts


def test_every_joint_has_its_stroke_square_across_the_wall(layout, scene, views):
    ticks = of(scene, Tick, "joint")
    joints = [(stretch.side, joint) for stretch in layout.stretches for joint in stretch.joints]
    for tick, (side, joint) in zip(ticks, joints, strict=True):
        assert tick.at == joint.point
        assert math.cos(tick.turn - views[side].turn) == pytest.approx(0.0, abs=1e-9)


def test_contours_are_named_by_heights_of_the_survey(layout, scene, plot):
    spots, lines = [z for _, _, z in layout.surface.points], of(scene, Polyline, "contour")
    assert lines
    for label in of(scene, Label, "contour"):
        assert plot.contains(shapely.Point(label.at))
        assert any(shapely.LineString(one.points).distance(shapely.Point(label.at)) < 1e-6 for one in lines)
    assert 4 <= len({label.text for label in of(scene, Label, "contour")}) <= 13
    assert max(spots) > min(spots)


def test_north_is_where_the_place_says(layout, scene):
    (arrow,) = (shape for shape in scene.shapes if isinstance(shape, NorthArrow))
    assert arrow.turn == -layout.plan.place.north


def test_a_mirrored_plan_gives_the_mirrored_drawing(layout):
    plane = on_a_plane(layout.plan)
    one, other = plan_scene(lay_out(plane)), plan_scene(lay_out(mirrored(plane)))
    assert unmatched(one, other, axis=0.0, labels=True) == []


def test_the_name_of_a_run_slides_along_its_inside_and_never_crosses_to_the_other_side(layout, scene, views):
    names = [label for label in of(scene, Label, "note") if label.slide]
    assert len(names) == sum(run.buildup is not None for side in layout.plan.sides for run in side.runs)
    for label in names:
        across, up = views[label.text.partition(":")[0]].inward
        for ring in range(25):
            for text in label_candidates(label, 8.0, ring):
                x, y = text.slab.center
                assert (x / 8.0 - label.at[0]) * across + (y / 8.0 - label.at[1]) * up > 0.0
                assert ring > SLIDES or not text.leader


def test_lengths_are_gathered_only_within_a_run_and_never_with_a_gate():
    ends, texts = together((0.0, 2.0, 4.0, 6.0, 8.0, 10.0), ("a", "a", "gate", "a", "b"), System.METRIC)
    assert ends == (0.0, 4.0, 6.0, 8.0, 10.0)
    assert texts == ("2 × 2.000\u00a0m", "2.000\u00a0m", "2.000\u00a0m", "2.000\u00a0m")

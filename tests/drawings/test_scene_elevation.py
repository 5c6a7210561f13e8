"""Elevations show each side in true length and height, from outside."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely

from mirroring import mirrored, on_a_plane, unmatched
from pinfold.drawings.elevation_scene import elevation_scenes
from pinfold.drawings.faces import panels
from pinfold.drawings.scenes import Area, Dimension, Label, Polyline
from pinfold.drawings.sides import posts_on, stretches_on
from pinfold.geometry.profiles import area_above
from pinfold.studies.layout.resolve import lay_out
from pinfold.units import tape


@pytest.fixture(scope="module")
def scenes(layout, views):
    return dict(zip(views, elevation_scenes(layout), strict=True))


def of(scene, kind, layer):
    return [shape for shape in scene.shapes if isinstance(shape, kind) and shape.layer == layer]


def test_the_whole_length_of_a_side_is_dimensioned(layout, scenes, views):
    for name, scene in scenes.items():
        level = [one for one in scene.shapes if isinstance(one, Dimension) and one.start[1] == one.end[1]]
        longest = [one.text for one in level if math.dist(one.start, one.end) == pytest.approx(views[name].length)]
        assert tape(views[name].length, layout.plan.units) in longest
        total = sum(math.dist(one.start, one.end) for one in level)
        assert total / views[name].length == pytest.approx(round(total / views[name].length))  # whole chains


def test_every_post_of_a_side_stands_once_at_its_place_and_true_height(layout, scenes, views):
    for name, scene in scenes.items():
        shown, wanted = of(scene, Area, "post"), posts_on(layout, views[name])
        for area, (along, post) in zip(shown, wanted, strict=True):
            xs, zs = [x for x, _ in area.points], [z for _, z in area.points]
            assert sum(xs) / 4 == pytest.approx(views[name].across(along))
            assert (min(zs), max(zs)) == pytest.approx((post.base, post.top))
        assert sorted(label.text for label in of(scene, Label, "post")) == sorted(post.name for _, post in wanted)


def test_every_post_of_the_plot_is_in_some_elevation(layout, scenes):
    names = {label.text for scene in scenes.values() for label in of(scene, Label, "post")}
    assert names == {post.name for post in layout.posts}


def test_what_shows_of_a_wall_lies_between_ground_and_top(layout, scenes, views):
    for name, scene in scenes.items():
        own = [stretch for stretch in stretches_on(layout, views[name]) if stretch.buildup.wall]
        faces = [
            shapely.Polygon(area.points) for area in of(scene, Area, "wall")
            if not own or area.hatch in {"none", own[0].buildup.wall.kind.word("hatch"), "stone"}
        ]  # fmt: skip
        wanted = sum(area_above(panel.top, 0.0) - area_above(panel.ground, 0.0) for one in own for panel in panels(one))
        coping = sum(stretch.length * stretch.buildup.coping.thickness for stretch in own if stretch.buildup.coping)
        if own:
            assert sum(face.area for face in faces) == pytest.approx(wanted + coping, rel=0.02)


def test_courses_are_whole_and_show_only_above_the_ground(layout, scenes, views):
    for name, scene in scenes.items():
        faces = shapely.union_all([shapely.Polygon(area.points) for area in of(scene, Area, "wall")]).buffer(1e-6)
        for line in of(scene, Polyline, "course"):
            assert faces.covers(shapely.LineString(line.points)), name


def test_footing_and_bed_are_dashed_where_the_layout_has_them(layout, scenes, views):
    for name, scene in scenes.items():
        levels = {round(z, 6) for line in of(scene, Polyline, "footing") for _, z in line.points}
        for stretch in stretches_on(layout, views[name]):
            assert {round(step.footing_bottom, 6) for step in stretch.steps} <= levels
        assert all(line.dashed for line in of(scene, Polyline, "footing"))


def test_seen_from_outside_the_first_corner_is_left_when_the_outside_lies_right(layout, scenes, views):
    for name, scene in scenes.items():
        places = {label.text: label.at[0] for label in of(scene, Label, "outline")}
        view = views[name]
        assert (places[view.side.start] < places[view.side.end]) == layout.outer_is_right
        assert abs(places[view.side.end] - places[view.side.start]) == pytest.approx(view.length)


def test_each_step_of_the_wall_is_measured(layout, scenes, views):
    for name, scene in scenes.items():
        told_steps = [label.text for label in of(scene, Label, "dimension")]
        for stretch in stretches_on(layout, views[name]):
            for before, after in pairwise(panels(stretch)):
                rise = abs(after.top[0][1] - before.top[-1][1])
                if rise > 1e-3:
                    assert f"step {tape(rise, layout.plan.units)}" in told_steps


def test_a_neighbor_stands_in_its_run(layout, scenes, views):
    for name, scene in scenes.items():
        runs = [run for run in views[name].side.runs if run.neighbor]
        for area, run in zip(of(scene, Area, "neighbor"), runs, strict=True):
            xs = sorted({x for x, _ in area.points})
            assert xs == pytest.approx(sorted((views[name].across(run.start), views[name].across(run.end))))


def test_leaves_hang_at_their_height_inside_the_opening(layout, scenes, views):
    for gate in layout.plan.gates:
        place, view = layout.gates[gate.name], views[gate.side]
        boxes = [shapely.Polygon(area.points).bounds for area in of(scenes[gate.side], Area, "gate")]
        left, right = sorted((view.across(gate.start), view.across(gate.end)))
        own = [box for box in boxes if left - 1e-6 <= box[0] and box[2] <= right + 1e-6]
        assert min(box[1] for box in own) == pytest.approx(place.hang)
        assert max(box[3] for box in own) == pytest.approx(place.hang + gate.height)


def test_a_mirrored_plan_gives_mirrored_elevations(layout, views):
    plane = on_a_plane(layout.plan)
    both = zip(views, elevation_scenes(lay_out(plane)), elevation_scenes(lay_out(mirrored(plane))), strict=True)
    for name, one, other in both:
        assert unmatched(one, other, axis=views[name].length, labels=False) == []

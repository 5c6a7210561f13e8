"""Sections name every layer and draw it at its true size."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from mirroring import mirrored, on_a_plane, unmatched
from pinfold.drawings.callouts import spread
from pinfold.drawings.scenes import Area, Circle, Dimension, Label, Polyline
from pinfold.drawings.section_frame import cuts
from pinfold.drawings.section_scene import section_scenes
from pinfold.studies.layout.resolve import lay_out
from pinfold.tables import shelf
from pinfold.units import tape


@pytest.fixture(scope="module")
def scenes(layout):
    return {cut.buildup.name: scene for cut, scene in zip(cuts(layout), section_scenes(layout), strict=True)}


def of(scene, kind, layer):
    return [shape for shape in scene.shapes if isinstance(shape, kind) and shape.layer == layer]


def texts(scene):
    return " | ".join(" ".join(shape.text.splitlines()) for shape in scene.shapes if isinstance(shape, Label))


def test_every_build_up_in_use_has_its_section(layout, scenes):
    assert set(scenes) == {stretch.buildup.name for stretch in layout.stretches}


def test_a_section_names_every_layer_with_its_figure(layout, scenes):
    for name, scene in scenes.items():
        buildup, said = layout.plan.buildups[name], texts(scene)
        layers = [(coat.kind, coat.thickness) for coat in buildup.coats] + [
            (rail.kind, rail.at) for rail in buildup.rails
        ]
        layers += [(buildup.posts.kind, buildup.posts.embed), (buildup.mesh.kind, buildup.mesh.height)]
        if buildup.wall:
            layers += [(buildup.wall.kind, buildup.wall.thickness), (buildup.footing.kind, buildup.footing.width)]
        if buildup.coping:
            layers.append((buildup.coping.kind, buildup.coping.width))
        for kind, figure in layers:
            (line,) = [
                one for one in said.split(" | ")
                if one.startswith(f"{kind.says} —") and tape(figure, layout.plan.units) in one
            ]  # fmt: skip
            assert line
        for bar in filter(None, (buildup.wall and buildup.wall.bar, buildup.footing and buildup.footing.bar)):
            assert bar.name in said
        assert ("collar" in said) == bool(buildup.posts.collar)
        assert ("apron" in said) == bool(buildup.mesh.apron)


def test_the_wall_is_as_thick_and_high_as_planned(layout, scenes):
    for cut in cuts(layout):
        if cut.buildup.wall is None:
            continue
        outlines = [*of(scenes[cut.buildup.name], Polyline, "wall"), *of(scenes[cut.buildup.name], Area, "wall")]
        left, low, right, high = shapely.union_all([shapely.Polygon(one.points) for one in outlines]).bounds
        widest = max(cut.buildup.wall.thickness, cut.buildup.coping.width if cut.buildup.coping else 0.0)
        assert (left, right) == pytest.approx((-widest / 2, widest / 2))
        assert (low, high) == pytest.approx((cut.bed, cut.fence_foot))
        assert high >= cut.buildup.wall.height - 1e-9


def test_coats_are_drawn_at_their_true_thickness_on_their_faces(layout, scenes):
    for name, scene in scenes.items():
        coats = layout.plan.buildups[name].coats
        shown = of(scene, Area, "coat")
        widths = sorted(
            min(box[2] - box[0], box[3] - box[1]) for box in (shapely.Polygon(one.points).bounds for one in shown)
        )
        wanted = sorted(
            thickness for coat in coats
            for thickness in [coat.thickness] * (2 + (coat.top and layout.plan.buildups[name].coping is None))
        )  # fmt: skip
        assert widths == pytest.approx(wanted)


def test_the_bars_along_the_footing_are_all_there_inside_it(layout, scenes):
    for name, scene in scenes.items():
        footing = layout.plan.buildups[name].footing
        bars = of(scene, Circle, "bar")
        bed = next(cut.bed for cut in cuts(layout) if cut.buildup.name == name)
        bars = [bar for bar in bars if bar.center[1] < bed]
        assert len(bars) == (footing.bars if footing else 0)
        for area in of(scene, Area, "footing")[:1] if bars else []:
            ring = shapely.Polygon(area.points)
            assert all(ring.contains(shapely.Point(bar.center).buffer(bar.radius)) for bar in bars)


def test_a_post_reaches_from_its_foot_to_its_top(layout, scenes):
    for cut in cuts(layout):
        posts = cut.buildup.posts
        (area,) = of(scenes[cut.buildup.name], Area, "post")
        _, low, _, high = shapely.Polygon(area.points).bounds
        assert high - cut.fence_foot == pytest.approx(posts.height)
        in_wall = posts.setting.value.startswith("wall")
        assert (cut.fence_foot if in_wall else 0.0) - low == pytest.approx(posts.embed)


def test_the_chain_of_heights_adds_up_to_the_whole(layout, scenes):
    for scene in scenes.values():
        upright = [one for one in scene.shapes if isinstance(one, Dimension) and one.start[0] == one.end[0]]
        low, high = min(one.start[1] for one in upright), max(one.end[1] for one in upright)
        near = [one for one in upright if one.offset == min(other.offset for other in upright)]
        assert sum(one.end[1] - one.start[1] for one in near) == pytest.approx(high - low)


def test_frost_is_drawn_at_its_depth(layout, scenes):
    for scene in scenes.values():
        (line,) = of(scene, Polyline, "zone")
        assert {z for _, z in line.points} == {-layout.plan.place.frost_depth}


def test_call_outs_keep_the_order_of_their_heights(scenes):
    for scene in scenes.values():
        tied = [shape for shape in scene.shapes if isinstance(shape, Label) and shape.stand is not None]
        ranked = sorted(tied, key=lambda label: -label.at[1])
        stands = [label.stand[1] for label in ranked]
        assert stands == sorted(stands, reverse=True)
        assert len({label.stand[0] for label in tied}) == 1


@given(st.lists(st.tuples(st.floats(0, 3), st.floats(0.01, 0.5)), min_size=1, max_size=15))
def test_spread_texts_never_stand_over_each_other_nor_leave_the_room(pairs):
    wanted = sorted((height for height, _ in pairs), reverse=True)
    sizes = [size for _, size in pairs]
    share = min(1.0, 3 / sum(sizes))
    placed = spread(wanted, sizes, (0.0, 3.0))
    assert len(placed) == len(pairs)
    for (high, first), (low, second) in zip(
        zip(placed, sizes, strict=True), list(zip(placed, sizes, strict=True))[1:], strict=False
    ):
        assert high - low >= share * (first + second) / 2 - 1e-9
    assert placed[0] <= 3.0 + 1e-9
    assert placed[-1] >= -1e-9


def test_a_mirrored_plan_has_the_same_sections(layout):
    plane = on_a_plane(layout.plan)
    for one, other in zip(section_scenes(lay_out(plane)), section_scenes(lay_out(mirrored(plane))), strict=True):
        assert unmatched(one, other, axis=None, labels=True) == []


def test_the_frost_line_lies_as_deep_as_given_and_is_named(layout, scenes):
    for scene in scenes.values():
        (line,) = of(scene, Polyline, "zone")
        (label,) = of(scene, Label, "zone")
        assert {z for _, z in line.points} == {-layout.plan.place.frost_depth}
        assert tape(layout.plan.place.frost_depth, layout.plan.units) in label.text


def test_a_coping_is_told_by_what_stands_past_the_plaster_and_no_coat_goes_over_it(layout, scenes):
    for name, scene in scenes.items():
        buildup = layout.plan.buildups[name]
        if buildup.coping is None:
            continue
        past = (buildup.coping.width - buildup.wall.thickness) / 2 - sum(coat.thickness for coat in buildup.coats)
        words = " ".join(shape.text.replace("\n", " ") for shape in scene.shapes if isinstance(shape, Label))
        assert f"{tape(past, layout.plan.units)} past each finished face" in words
        assert "over the top" not in words


def test_a_dowel_turns_into_a_leg_inside_the_footing_clear_of_the_ground(layout, scenes):
    for name, scene in scenes.items():
        wall = layout.plan.buildups[name].wall
        if wall is None or wall.bar is None or not wall.dowels:
            continue
        footing = shapely.Polygon(of(scene, Area, "footing")[0].points)
        (dowel,) = (area for area in of(scene, Area, "bar") if len(area.points) == 6)
        cover, diameter = shelf.kind("waste", "bars").value("cover"), wall.bar.value("diameter")
        low = shapely.Polygon(dowel.points).intersection(footing)
        left, foot, right, _ = low.bounds
        assert foot - footing.bounds[1] == pytest.approx(cover)
        assert right - left == pytest.approx((shelf.kind("waste", "bars").value("hook") + 1) * diameter)
        assert footing.contains(low.buffer(-1e-9))

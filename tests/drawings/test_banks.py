"""Earth against a wall and pads under a neighbor are drawn where they lie, at their size."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely

import sheds
from banked_plots import BANKS, banked_text
from pinfold.drawings.all_scenes import largest_sheet, scenes
from pinfold.drawings.elevation_scene import elevation_scenes
from pinfold.drawings.placing import overlaps
from pinfold.drawings.plan_scene import plan_scene
from pinfold.drawings.scenes import Area, Dimension, Label, Polyline
from pinfold.drawings.section_frame import cuts
from pinfold.drawings.section_scene import section_scenes
from pinfold.plan.buildups import Faces
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.units import tape


@pytest.fixture(scope="module", params=list(BANKS))
def banked(request):
    return lay_out(plan_of(banked_text(request.param)))


def of(scene, kind, layer):
    return [shape for shape in scene.shapes if isinstance(shape, kind) and shape.layer == layer]


def texts(scene):
    return " | ".join(" ".join(shape.text.splitlines()) for shape in scene.shapes if isinstance(shape, Label))


def test_the_plan_shows_each_bank_beside_the_wall_on_its_face_over_its_length(banked):
    scene, plot = plan_scene(banked), shapely.Polygon(banked.plan.path)
    strips = [shapely.Polygon(area.points) for area in of(scene, Area, "ground")]
    walls = shapely.union_all([shapely.Polygon(area.points) for area in of(scene, Area, "wall")])

    for bank in banked.plan.banks:
        within = [one for one in strips if plot.contains(one.centroid) is (bank.face is Faces.INNER)]
        longest = max(math.dist(*pair) for one in within for pair in pairwise(one.exterior.coords))
        assert longest == pytest.approx(bank.end - bank.start)
        assert all(one.intersection(walls).area < 0.05 * one.area and one.distance(walls) < 1e-6 for one in within)
        assert f"{bank.name} {tape(bank.height, banked.plan.units)} higher" in texts(scene)


def test_an_elevation_shows_a_bank_before_the_wall_and_dashes_one_behind(banked):
    for scene, side in zip(elevation_scenes(banked), banked.plan.sides, strict=True):
        for bank in banked.plan.banks:
            if bank.side != side.name:
                assert f"{bank.name} " not in texts(scene)
                continue
            shown, hidden = of(scene, Area, "bank"), [one for one in of(scene, Polyline, "bank") if one.dashed]
            assert (bool(shown), bool(hidden)) == (bank.face is Faces.OUTER, bank.face is Faces.INNER)
            xs = [x for one in (*shown, *hidden) for x, _ in one.points]
            assert max(xs) - min(xs) == pytest.approx(bank.end - bank.start)


def test_a_build_up_is_cut_where_it_is_bare_and_at_each_bank(banked):
    found = cuts(banked)

    assert {cut.bank.name for cut in found if cut.bank} == {bank.name for bank in banked.plan.banks}
    assert {cut.buildup.name for cut in found if not cut.bank} == {one.buildup.name for one in banked.stretches}
    names = [scene.name for scene in section_scenes(banked)]
    assert len(set(names)) == len(names) == len(found)


def test_a_section_shows_the_bank_at_its_height_and_slope_on_its_face(banked):
    for cut, scene in zip(cuts(banked), section_scenes(banked), strict=True):
        if cut.bank is None:
            assert of(scene, Area, "bank") == []
            continue
        earth, said = of(scene, Area, "bank")[0], texts(scene)
        outside = [x < 0 for x, _ in earth.points]
        assert all(outside) if cut.bank.face is Faces.OUTER else not any(outside)
        (x, z), (end, high) = earth.points[1:3]
        assert z == pytest.approx(cut.bank.height)
        assert (high - z) / abs(end - x) == pytest.approx(math.tan(cut.bank.slope))
        height = tape(cut.bank.height, cut.system)
        assert f"bank {cut.bank.name} — {height} higher" in said
        assert height in {shape.text for shape in of(scene, Dimension, "dimension")}
        assert ("drain of gravel" in said) == cut.bank.drained == ("not drained" not in said)
        assert ("what stands or drives on it" in said) == (cut.bank.surcharge > 0)
        assert ("never dig it away" in said) == cut.bank.passive


def test_the_earth_begins_past_the_coats(banked):
    for cut, scene in zip(cuts(banked), section_scenes(banked), strict=True):
        coats = [shapely.Polygon(area.points) for area in of(scene, Area, "coat")]
        for area in of(scene, Area, "bank"):
            assert all(shapely.Polygon(area.points).intersection(coat).area < 1e-9 for coat in coats), cut.place


def test_a_bank_all_along_leaves_no_bare_section():
    text = banked_text("quinta")
    start = text.index("[[bank]]")
    whole = (
        '\n[[bank]]\nname = "{0}"\nside = "{0}"\nto = "{1}"\nheight = "30 cm"\nface = "inner"\n'.format(*one)
        for one in (("hill", "7 m"), ("store side", "15 m"))
    )  # fmt: skip
    layout = lay_out(plan_of(text[:start] + "".join(whole)))

    assert {cut.bank.name if cut.bank else "" for cut in cuts(layout) if cut.buildup.name == "stone and mesh"} == {
        "hill", "store side"
    }  # fmt: skip


def test_pads_lie_under_their_neighbor_at_their_size(banked):
    scene, neighbor = plan_scene(banked), banked.plan.neighbors[0]
    house, blocks = shapely.Polygon(neighbor.footprint), neighbor.blocks
    drawn = (shapely.Polygon(area.points) for area in of(scene, Area, "footing"))
    pads = [pad for pad in drawn if house.intersects(pad)]

    assert len(pads) == blocks.count
    assert all(house.buffer(1e-6).contains(pad) for pad in pads)
    assert all(pad.area == pytest.approx(blocks.pad_length * blocks.pad_width) for pad in pads)
    assert any(f"Under {neighbor.name}: {blocks.count} piers of blocks" in note for note in scene.notes)


def test_pads_lie_where_the_supports_are_told():
    layout = lay_out(sheds.plan())
    blocks = layout.plan.neighbors[0].blocks
    pads = [shapely.Polygon(area.points).centroid for area in of(plan_scene(layout), Area, "footing")]

    for pad, support in zip(pads, blocks.leveling.supports, strict=True):
        assert (pad.x, pad.y) == pytest.approx(support.at)
    assert any("drawn where its supports are" in note for note in plan_scene(layout).notes)


def test_no_text_stands_over_another(banked):
    for scene in scenes(banked):
        sheet = largest_sheet(scene, paper=banked.plan.paper, system=banked.plan.units)
        assert overlaps(sheet.placed) == (), scene.name

"""What piers take, and how they are drawn: in plan, in elevation, in section."""

from __future__ import annotations

import pytest

from pinfold.drawings.elevation_scene import elevation_scenes
from pinfold.drawings.plan_scene import plan_scene
from pinfold.drawings.scenes import Area, Label, Polyline
from pinfold.drawings.section_scene import section_scenes
from pinfold.studies.quantities.take_off import take_off
from small_plots import straight

BRICK = """
[buildup.b.footing]
kind = "strip-concrete"
width = "50 cm"
thickness = "20 cm"
below_ground = "20 cm"
[buildup.b.wall]
kind = "{kind}"
height = "{height}"
joints = "30 m"
{more}
[[buildup.b.coat]]
kind = "lime-first"
thickness = "10 mm"
"""
PIERS = """
[buildup.b.piers]
spacing = "3 m"
width = "40 cm"
depth = "{depth}"
pad_length = "80 cm"
pad_width = "90 cm"
{faces}
"""
COUNT = 4  # on 9.4 m


def laid(kind="block-200-hollow", height="1 m", depth="40 cm", faces="", more="", piers=True):
    text = BRICK.format(kind=kind, height=height, more=more) + (PIERS.format(depth=depth, faces=faces) if piers else "")
    return straight(9.4, text)


def more(layer, of="", **changes):
    """How much of a layer the piers add."""
    with_piers, without = (
        sum(q.net for q in take_off(laid(piers=piers, **changes)) if q.layer == layer and of in q.kind.name)
        for piers in (True, False)
    )
    return with_piers - without


def test_pads_are_dug_and_cast():
    assert more("footing") == pytest.approx(COUNT * 0.8 * 0.4 * 0.2)
    assert more("trench", "trench") == pytest.approx(COUNT * 0.8 * 0.4 * 0.2)


def test_units_of_a_pier_are_what_stands_out_of_the_wall():
    # 5 courses of 20 cm; 0.4 x 0.21 in plan by units of 0.4 x 0.2 with their joints: 1.05 to a course
    assert more("wall", "block-200") == 21
    assert more("wall", "block-200", depth="39 cm") == 20


def test_cells_of_a_pier_are_filled_whatever_the_wall():
    assert more("grout") == pytest.approx((21 + COUNT * 5 * 1.0) * 7.6e-3, rel=0.01)


def test_mortar_of_a_pier_goes_by_its_units():
    whole = sum(q.net for q in take_off(laid(piers=False)) if q.layer == "mortar")
    units = sum(q.net for q in take_off(laid(piers=False)) if q.layer == "wall")
    assert more("mortar") == pytest.approx(21 * whole / units, rel=0.05)


@pytest.mark.parametrize(("faces", "depth"), [("", 0.21), ('faces = "outer"', 0.21)])
def test_coats_go_over_the_flanks(faces, depth):
    assert more("coat", faces=faces) == pytest.approx(2 * depth * COUNT * 1.0 * 0.01, rel=1e-3)


def test_stone_piers_take_stone_and_mortar():
    rubble = {"kind": "mortared-rubble", "depth": "60 cm", "more": 'thickness = "45 cm"'}
    volume = COUNT * 0.4 * 0.15 * 1.0

    assert more("wall", **rubble) == pytest.approx(volume, rel=0.02)
    assert more("mortar", **rubble) == pytest.approx(volume / 3, rel=0.02)


def test_a_wall_without_piers_takes_none():
    assert not [q for q in take_off(laid(piers=False)) if "pier" in q.note]


def areas(scene, layer):
    return [shape for shape in scene.shapes if isinstance(shape, Area) and shape.layer == layer]


def dashed(scene, layer):
    return [s for s in scene.shapes if isinstance(s, Polyline) and s.layer == layer and s.dashed and s.closed]


def span(shape, axis):
    values = [point[axis] for point in shape.points]
    return max(values) - min(values)


def test_the_plan_shows_each_pier_and_its_pad_at_their_size():
    scene, plain = plan_scene(laid()), plan_scene(laid(piers=False))
    extra = areas(scene, "wall")[len(areas(plain, "wall")) :]

    assert len(extra) == COUNT
    assert {(round(span(one, 0), 6), round(span(one, 1), 6)) for one in extra} == {(0.4, 0.4)}
    pads = [one for one in dashed(scene, "footing") if span(one, 0) < 1.0]
    assert {(round(span(one, 0), 6), round(span(one, 1), 6)) for one in pads} == {(0.8, 0.9)}


def test_an_elevation_shows_each_pier_from_ground_to_top_dashed_where_it_stands_inside():
    (outer,), (inner,) = elevation_scenes(laid()), elevation_scenes(laid(faces='faces = "inner"'))

    def piers(scene):
        found = [s for s in scene.shapes if isinstance(s, Polyline) and s.layer == "wall" and s.closed]
        return [s for s in found if abs(span(s, 0) - 0.4) < 1e-6]

    assert len(piers(outer)) == len(piers(inner)) == COUNT
    assert {round(span(one, 1), 6) for one in piers(outer)} == {1.0}
    assert not any(one.dashed for one in piers(outer))
    assert all(one.dashed for one in piers(inner))


def test_a_section_names_the_pier_behind_it():
    (scene,) = section_scenes(laid(faces='faces = "outer"'))
    said = " ".join(shape.text.replace("\n", " ") for shape in scene.shapes if isinstance(shape, Label))

    assert "pier behind, 400 mm along the wall" in said
    assert min(x for one in dashed(scene, "wall") for x, _ in one.points) == pytest.approx(-(0.4 - 0.095))


POSTS = """
[buildup.b.posts]
kind = "wood-4x4"
spacing = "2 m"
height = "1 m"
setting = "collar"
embed = "80 cm"
collar = "30 cm"
"""


@pytest.mark.parametrize(("faces", "reach"), [("", 0.45), ('faces = "inner"', 0.45 + 0.105)])
def test_posts_behind_a_wall_stand_clear_of_the_pads(faces, reach):
    text = (
        BRICK.format(kind="block-200-hollow", height="1 m", more="") + PIERS.format(depth="40 cm", faces=faces) + POSTS
    )
    posts = straight(9.4, text).posts

    assert {round(abs(post.point[1]), 4) for post in posts} == {round(reach + 0.15, 4)}

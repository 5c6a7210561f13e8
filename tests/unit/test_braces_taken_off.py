"""Braces and anchors: where they stand, what they take, what is cut for them, how they are drawn."""

from __future__ import annotations

import math
import re

import pytest

from pinfold.drawings.elevation_scene import elevation_scenes
from pinfold.drawings.plan_scene import plan_scene
from pinfold.drawings.scenes import Circle, Label, Polyline
from pinfold.drawings.section_scene import section_scenes
from pinfold.findings import Verdict
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.gathering.gather import gather
from pinfold.studies.layout.bracing import braces_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.stability.assess import assess
from small_plots import SQUARE, Opening, Plot, straight

FENCE = """
[buildup.b.posts]
kind = "wood-4x4"
spacing = "2.5 m"
height = "1.3 m"
setting = "collar"
embed = "60 cm"
collar = "30 cm"
[[buildup.b.rail]]
kind = "wire-3mm"
at = "1 m"
tension = "300 N"
[buildup.b.mesh]
kind = "welded-50x50"
height = "1.2 m"
[buildup.b.brace]
rail_at = "1 m"
rail_length = "{length}"
rail = "wood-4x4"
{more}
"""
RAIL = FENCE.format(length="1.8 m", more='wire = "wire-3mm"\nstrands = 2')
STRUT = FENCE.format(length="1.5 m", more="").replace("[buildup.b.brace]", '[buildup.b.brace]\nform = "strut"')
ON_TOP = """
[buildup.b.footing]
kind = "strip-concrete"
width = "50 cm"
thickness = "20 cm"
below_ground = "30 cm"
[buildup.b.wall]
kind = "block-200-hollow"
height = "80 cm"
[buildup.b.posts]
kind = "pipe-60"
spacing = "2.5 m"
height = "1 m"
setting = "wall-top"
embed = "5 cm"
[buildup.b.posts.anchors]
hold = "{hold}"
row_spacing = "10 cm"
diameter = "12 mm"
depth = "20 cm"
{more}
"""


def amounts(layout: Layout, layer: str) -> dict[str, float]:
    return {each.kind.name: each.net for each in _of(layout, layer)}


def _of(layout: Layout, layer: str) -> list[Quantity]:
    return [each for each in take_off(layout) if each.layer == layer]


# Where they stand


def test_a_straight_fence_has_a_brace_at_either_end():
    found = braces_of(straight(10.0, RAIL))

    assert [(place.post.name, place.start, place.end) for place in found] == [("P1", 0, 1.8), ("P5", 10, 8.2)]


def test_a_corner_has_one_along_each_fence():
    found = braces_of(Plot(buildup=RAIL, corners=SQUARE, is_closed=True).laid_out())

    assert [place.post.name for place in found].count("P1") == 2
    assert len(found) == 8


def test_where_the_same_wires_go_straight_on_there_is_none():
    whole, parted = straight(10.0, RAIL), straight(10.0, RAIL, splits={0: (4.0,)})

    assert len(braces_of(parted)) == len(braces_of(whole)) == 2


def test_gate_posts_have_theirs():
    found = braces_of(straight(10.0, RAIL, gates=(Opening(side=0, at=4.0),)))

    assert [bool(place.post.gate) for place in found] == [False, True, True, False]


def test_a_post_of_the_fence_near_the_rails_end_is_its_brace_post():
    (first, _) = braces_of(straight(10.0, FENCE.format(length="2.4 m", more='wire = "wire-3mm"')))

    assert first.brace_post is None
    assert first.length == pytest.approx(2.5)


def test_on_a_stretch_shorter_than_the_rail_it_ends_at_the_far_post():
    found = braces_of(straight(1.0, RAIL))

    assert {place.length for place in found} == {1.0}


def test_braces_are_counted_where_they_are_checked():
    text = Plot(buildup=RAIL, corners=SQUARE, is_closed=True, gates=(Opening(side=1, at=4.0),)).text()
    layout = lay_out(plan_of(text.replace("[place]", '[place]\nwind_speed = "30 m/s"\nexposure = "C"\nsoil = "sand"')))
    lifted = next(each.subject for each in assess(layout) if each.check == "brace" and "lift" in each.subject)

    assert set(re.findall(r"P\d+", lifted)) <= {place.post.name for place in braces_of(layout)}


def test_a_rail_higher_than_a_corner_post_on_the_other_wall_is_not_shown():
    low = ON_TOP.partition("[buildup.b.posts.anchors]")[0].replace('"wall-top"', '"wall"').replace("1 m", "50 cm")
    text = Plot(buildup=RAIL, corners=((0.0, 0.0), (10.0, 0.0), (10.0, 8.0))).text()
    text = "".join(text.rsplit('buildup = "b"', 1)[:1]) + 'buildup = "w"' + text.rsplit('buildup = "b"', 1)[1]
    text += low.replace("buildup.b", "buildup.w") + '[buildup.w.mesh]\nkind = "welded-50x50"\nheight = "50 cm"\n'
    layout = lay_out(plan_of(text.replace("[place]", '[place]\nwind_speed = "30 m/s"\nexposure = "C"\nsoil = "sand"')))
    found = [each for each in assess(layout) if each.check == "brace"]

    assert any(each.verdict is Verdict.NOT_SHOWN and "lower rail_at" in each.because for each in found)


# What they take


def test_a_rail_brace_takes_post_collar_rail_and_diagonal():
    layout, bare = straight(10.0, RAIL), straight(10.0, RAIL.partition("[buildup.b.brace]")[0])
    found = _of(layout, "braces")
    slant = math.hypot(1.8, 1.0)

    assert [(each.kind.name, each.net) for each in found] == [
        ("wood-4x4", pytest.approx(2 * 1.9)), ("wood-4x4", pytest.approx(2 * 1.8)),
        ("wire-3mm", pytest.approx(2 * (2 * slant + 2 * 0.4572))),
    ]  # fmt: skip
    assert _dug(layout) - _dug(bare) == pytest.approx(2 * math.pi / 4 * 0.3**2 * 0.6)


def _dug(layout: Layout) -> float:
    return sum(each.net for each in _of(layout, "trench"))


def test_a_strut_takes_a_pole_and_something_to_stand_against():
    found = {each.kind.name: each for each in _of(straight(10.0, STRUT), "braces")}

    assert found["wood-4x4"].net == pytest.approx(2 * math.hypot(1.5, 1.0))
    assert found["strut-foot"].net == 2
    assert "2 struts" in found["strut-foot"].note


def test_a_pole_longer_than_any_in_stock_is_told():
    long = FENCE.format(length="9 m", more='wire = "wire-3mm"')
    notes = [each.note for each in _of(straight(30.0, long), "braces")]

    assert any("longer than any in stock" in note for note in notes)


def test_a_fence_without_braces_or_anchors_takes_none():
    layout = straight(10.0, RAIL.partition("[buildup.b.brace]")[0])

    assert not _of(layout, "braces")
    assert not _of(layout, "anchors")


@pytest.mark.parametrize(("hold", "more"), [("headed", ""), ("bent", 'hook = "4 cm"'), ("maker", 'pull = "4 kN"')])
def test_posts_on_a_wall_take_a_plate_each_and_their_anchors(hold, more):
    found = amounts(straight(10.0, ON_TOP.format(hold=hold, more=more)), "anchors")

    assert found == {"post-plate": 5, f"anchor-{hold}": 20}


def test_gate_posts_stand_in_the_ground_and_take_no_anchors():
    found = amounts(straight(10.0, ON_TOP.format(hold="headed", more=""), gates=(Opening(side=0, at=4.0),)), "anchors")

    assert found["anchor-headed"] == 4 * found["post-plate"]
    assert found["post-plate"] == 4


# What is cut


def test_parts_of_braces_have_their_marks_and_places():
    found = {part.says: part for part in parts(straight(10.0, RAIL))}

    assert found["brace post"].mark.startswith("T")
    assert found["brace rail"].mark.startswith("R")
    assert found["brace wire"].mark.startswith("W")
    assert found["brace rail"].places == ("P1", "P5")
    assert found["brace rail"].count == 2


def test_a_strut_is_cut_to_its_slope():
    strut = next(part for part in parts(straight(10.0, STRUT)) if part.says == "strut")

    assert strut.ends == f"cut to {math.degrees(math.atan2(1.0, 1.5)):.0f}°"
    assert strut.length == pytest.approx(math.hypot(1.5, 1.0), abs=0.001)


def test_parts_of_braces_are_their_take_off_cut_to_length():
    layout = straight(10.0, RAIL)
    wanted = sum(each.net for each in take_off(layout) if each.kind.name == "wood-4x4")
    cut = sum(part.length * part.count for part in parts(layout) if part.kind.name == "wood-4x4")

    assert cut == pytest.approx(wanted, abs=0.01)


# How they are drawn


def lines(scene, layer="rail"):
    return [shape.points for shape in scene.shapes if isinstance(shape, Polyline) and shape.layer == layer]


def test_the_plan_shows_rail_and_brace_post():
    layout = straight(10.0, RAIL)
    scene = plan_scene(layout)
    dots = [shape.center for shape in scene.shapes if isinstance(shape, Circle) and shape.layer == "post"]

    assert [points for points in lines(scene) if points[-1] == pytest.approx((1.8, 0.0))]
    assert len(dots) == len(layout.posts) + 2


def test_the_elevation_shows_the_diagonal_to_the_foot_of_the_end_post():
    (scene,) = elevation_scenes(straight(10.0, RAIL))
    slanting = [points for points in lines(scene) if len(points) == 2 and points[0][1] != points[1][1]]

    assert len(slanting) == 2
    assert any("braces" in note for note in scene.notes)
    assert [round(abs(a[0] - b[0]), 6) for a, b in slanting] == [1.8, 1.8]
    assert [round(abs(a[1] - b[1]), 6) for a, b in slanting] == [1.0, 1.0]


def test_the_elevation_shows_a_strut_down_to_the_ground():
    (scene,) = elevation_scenes(straight(10.0, STRUT))
    (first, second) = [points for points in lines(scene) if points[0][1] != points[-1][1]]

    assert first[-1][1] == second[-1][1] == 0
    assert abs(first[0][0] - first[-1][0]) == pytest.approx(1.5)


@pytest.mark.parametrize(("hold", "more", "corners"), [("headed", "", 2), ("bent", 'hook = "4 cm"', 3)])
def test_the_section_shows_plate_and_anchors(hold, more, corners):
    (scene,) = section_scenes(straight(10.0, ON_TOP.format(hold=hold, more=more)))
    bars = [points for points in lines(scene, "bar") if len(points) == corners]

    assert len(bars) == 2
    assert abs(bars[0][0][0] - bars[1][0][0]) == pytest.approx(0.1)
    assert any(isinstance(shape, Label) and "4 anchors under each post" in shape.text.replace("\n", " ")
               for shape in scene.shapes)  # fmt: skip


# What they cost


def test_what_has_no_price_is_named():
    layout = straight(10.0, ON_TOP.format(hold="headed", more=""))
    quantities = take_off(layout)
    found = gather(
        quantities,
        batch_cards(quantities, layout.plan.mixing),
        layout=layout,
        prices=prices_of('format = 1\ncurrency = "EUR"\n'),
    )

    assert "anchor-headed" in found.unpriced
    assert "post-plate" in found.unpriced


@pytest.mark.parametrize("with_parts", [True, False])
def test_priced_braces_cost_what_they_take(with_parts):
    prices = prices_of('format = 1\ncurrency = "EUR"\ndigits = 2\n[price.wood-4x4]\npack = "1 m"\ncost = "2.00"\n')

    def spent(layout):
        quantities = take_off(layout)
        cut = parts(layout) if with_parts else ()
        return gather(quantities, (), layout=layout, prices=prices, parts=cut).goods

    assert spent(straight(10.0, RAIL)) > spent(straight(10.0, RAIL.partition("[buildup.b.brace]")[0]))

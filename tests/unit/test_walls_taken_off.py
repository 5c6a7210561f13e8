"""What a wall takes where grout and bars end, bars stand near both faces, laps are as laid and a sheet lies higher."""

from __future__ import annotations

import pytest

from pinfold.drawings.scenes import Area, Label, Polyline
from pinfold.drawings.section_scene import section_scenes
from pinfold.studies.quantities.take_off import take_off
from small_plots import straight

WALL = """
[buildup.b.footing]
kind = "strip-concrete"
width = "60 cm"
thickness = "25 cm"
below_ground = "25 cm"
[buildup.b.wall]
kind = "block-200-hollow"
height = "1.2 m"
grout = "{grout}"
bar = "#4"
bar_spacing = "80 cm"
{more}
"""
PARTLY = 'grout_spacing = "80 cm"\n'


def wall(more="", grout="partial"):
    return WALL.format(grout=grout, more=(PARTLY if grout == "partial" else "") + more)


def net(buildup, layer, kind=""):
    found = [q for q in take_off(straight(8.0, buildup)) if q.layer == layer and kind in q.kind.name]
    assert len(found) == 1, [(q.layer, q.kind.name) for q in found]
    return found[0]


@pytest.mark.parametrize("grout", ["partial", "full"])
def test_grout_ends_where_the_plan_ends_it(grout):
    whole, half = net(wall(grout=grout), "grout"), net(wall('grout_height = "60 cm"', grout), "grout")

    assert half.net == pytest.approx(whole.net / 2)


def test_bars_end_where_the_plan_ends_them_and_laps_are_as_laid():
    whole, cut = net(wall(), "bars"), net(wall('bar_height = "60 cm"\nlap = "50 cm"'), "bars")
    places = 11  # at both ends and every 80 cm

    shorter = (1.2 - 0.05) - 0.6 + 48 * 0.0127 - 0.5
    assert whole.net - cut.net == pytest.approx(places * shorter, abs=places * 0.03)


def test_bars_near_both_faces_are_twice_as_many():
    assert net(wall('bar_place = "both"'), "bars").net == pytest.approx(2 * net(wall(), "bars").net)


def test_a_sheet_over_the_lowest_bed_says_where_it_lies():
    assert "200 mm over the lowest bed" in net(wall('membrane_at = "20 cm"'), "membrane").note
    assert "at the foot" in net(wall("membrane = true"), "membrane").note


def scene(more):
    (found,) = section_scenes(straight(8.0, wall(more)))
    return found


def uprights(found):
    bars = [
        shape for shape in found.shapes if isinstance(shape, Area) and shape.layer == "bar" and shape.hatch == "steel"
    ]
    return [(min(x for x, _ in bar.points), max(z for _, z in bar.points)) for bar in bars]


def test_a_section_shows_bars_near_both_faces_and_where_they_end():
    (middle,), (left, right) = uprights(scene("")), uprights(scene('bar_place = "both"\nbar_height = "60 cm"'))

    assert left[0] < middle[0] < right[0]
    assert left[1] == right[1] == pytest.approx(0.6, abs=0.01)
    assert "near both faces" in " ".join(
        shape.text for shape in scene('bar_place = "both"').shapes if isinstance(shape, Label)
    ).replace("\n", " ")


def test_a_section_shows_the_sheet_where_it_lies():
    def height(more):
        lines = [s for s in scene(more).shapes if isinstance(s, Polyline) and s.layer == "coat" and len(s.points) == 2]
        return {round(point[1], 4) for line in lines for point in line.points}

    assert height('membrane_at = "20 cm"') == {0.2}
    assert height("membrane = true") == {0.0}

"""Keys of walls and piers: where bars, grout and sheet end, and piers that can be built."""

from __future__ import annotations

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.buildups import BarPlace, Faces
from pinfold.store.planfile import plan_of
from small_plots import Plot

WALL = """
[buildup.b.footing]
kind = "strip-concrete"
width = "60 cm"
thickness = "25 cm"
below_ground = "40 cm"
[buildup.b.wall]
kind = "block-200-hollow"
height = "1.2 m"
grout = "partial"
grout_spacing = "80 cm"
bar = "#4"
bar_spacing = "80 cm"
{wall}
"""
PIERS = """
[buildup.b.piers]
spacing = "3 m"
width = "40 cm"
depth = "40 cm"
{piers}
"""


def build_up(wall="", piers=None):
    text = WALL.format(wall=wall) + (PIERS.format(piers=piers) if piers is not None else "")
    return plan_of(Plot(buildup=text).text()).buildups["b"]


def complaints(wall="", piers=None, *, old="", new=""):
    text = WALL.format(wall=wall) + (PIERS.format(piers=piers) if piers is not None else "")
    with pytest.raises(InvalidPlan) as stopped:
        plan_of(Plot(buildup=text.replace(old, new) if old else text).text())
    return {problem.place: problem.message for problem in stopped.value.problems}


def test_where_bars_grout_and_sheet_end_is_read():
    wall = build_up(
        'grout_height = "80 cm"\nbar_height = "1 m"\nbar_place = "both"\nlap = "62 cm"\nmembrane_at = "20 cm"'
    ).wall

    assert (wall.grout_height, wall.bar_height, wall.lap, wall.membrane_at) == (0.8, 1.0, 0.62, 0.2)
    assert wall.bar_place is BarPlace.BOTH
    assert wall.membrane


def test_what_is_left_out_is_none_and_the_bar_in_the_middle():
    wall = build_up().wall

    assert (wall.grout_height, wall.bar_height, wall.lap, wall.membrane_at) == (None, None, None, None)
    assert wall.bar_place is BarPlace.MIDDLE
    assert not wall.membrane


def test_pads_are_no_smaller_than_the_pier_and_the_strip_unless_the_plan_says():
    piers = build_up(piers="").piers

    assert (piers.spacing, piers.width, piers.depth, piers.faces) == (3.0, 0.4, 0.4, Faces.BOTH)
    assert (piers.pad_length, piers.pad_width) == (0.4, 0.6)


@pytest.mark.parametrize(
    ("place", "old", "new", "word"),
    [
        ("buildup.b.wall.lap", 'bar = "#4"\nbar_spacing = "80 cm"', 'lap = "60 cm"', "no bar"),
        ("buildup.b.wall.grout_height", 'grout = "partial"\ngrout_spacing = "80 cm"', 'grout_height = "1 m"', "no grout"),
        ("buildup.b.wall.membrane_at", 'bar = "#4"', 'membrane = false\nmembrane_at = "20 cm"\nbar = "#4"', "is false"),
        ("buildup.b.wall.bar_place", 'bar = "#4"', 'bar_place = "left"\nbar = "#4"', "middle, outer, inner, both"),
        ("buildup.b.piers.depth", 'depth = "40 cm"', 'depth = "19 cm"', "stands out of its wall"),
        ("buildup.b.piers.spacing", 'spacing = "3 m"', 'spacing = "30 cm"', "no wall between"),
        ("buildup.b.piers.pad_length", 'spacing = "3 m"', 'spacing = "3 m"\npad_length = "30 cm"', "under a pier"),
        ("buildup.b.piers.pad_width", 'spacing = "3 m"', 'spacing = "3 m"\npad_width = "50 cm"', "in a strip of"),
        ("buildup.b.piers", 'kind = "strip-concrete"', 'kind = "rubble-trench"', "cast with a strip"),
        ("buildup.b.piers", 'kind = "block-200-hollow"', 'kind = "rammed-earth"', "units or stone"),
    ],
)  # fmt: skip
def test_what_cannot_be_built_is_told_at_its_place(place, old, new, word):
    found = complaints(piers="", old=old, new=new)

    assert word in found[place]


def test_piers_without_a_footing_are_told():
    text = Plot(buildup='[buildup.b.wall]\nkind = "block-200-hollow"\nheight = "1 m"\n' + PIERS.format(piers="")).text()

    with pytest.raises(InvalidPlan, match="stand on its footing"):
        plan_of(text)

"""The take-off of plots small enough to count by hand."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace

import pytest

from pinfold.sources import Standing, publications
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.records import EndKind, Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.lines import habit
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.rows import Bond, row_of
from pinfold.studies.quantities.strips import slit_of, strips_of
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.quantities.totals import totals
from pinfold.tables.shelf import kind, shelf
from small_plots import SQUARE, Opening, Plot, straight

BOND = Bond(module=0.4, joint=0.01, give=0.01 / 3)
ON_A_STRIP = """
[buildup.b.footing]
kind = "strip-concrete"
width = "50 cm"
thickness = "20 cm"
below_ground = "40 cm"
bars = 2
bar = "10 mm"
[buildup.b.wall]
kind = "block-200-hollow"
height = "80 cm"
grout = "full"
bar = "10 mm"
bar_spacing = "80 cm"
course_bar = "8 mm"
course_bar_every = "40 cm"
membrane = true
[[buildup.b.coat]]
kind = "cement-scratch"
thickness = "10 mm"
[[buildup.b.coat]]
kind = "cement-finish"
thickness = "3 mm"
faces = "outer"
top = true
mesh = "plaster-glass-fiber"
"""
COPED = """[buildup.b.coping]
kind = "precast-50"
"""
ON_A_STRIP += COPED
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
at = "50 cm"
[[buildup.b.rail]]
kind = "sawn-50x100"
at = "1.2 m"
[buildup.b.mesh]
kind = "welded-50x50"
height = "1.2 m"
apron = "30 cm"
"""


def amounts(found: tuple[Quantity, ...]) -> dict[tuple[str, str], float]:
    """Net by layer and kind, all places together."""
    sums: dict[tuple[str, str], float] = defaultdict(float)
    for quantity in found:
        sums[quantity.layer, quantity.kind.name] += quantity.net
    return dict(sums)


def of(layout: Layout) -> dict[tuple[str, str], float]:
    return amounts(take_off(layout))


# Rows of units


@pytest.mark.parametrize(
    ("length", "starts_half", "whole", "large", "small"),
    [
        (8.0, False, 20, 0, 0),
        (8.0, True, 19, 0, 2),
        (8.2, False, 20, 0, 1),
        (8.2, True, 20, 0, 1),
        (8.3, False, 20, 1, 0),
        (8.1, False, 20, 0, 1),
        (8.05, False, 20, 0, 0),
        (0.15, True, 0, 0, 1),
    ],
)
def test_a_row_is_whole_units_and_one_piece(length, starts_half, whole, large, small):
    found = row_of(length, BOND, starts_half=starts_half)

    assert (found.whole, found.large, found.small) == (whole, large, small)


def test_two_short_pieces_come_out_of_one_unit_and_a_long_one_takes_its_own():
    short, long = row_of(8.2, BOND, starts_half=False), row_of(8.3, BOND, starts_half=False)

    assert (short + short).units == 41
    assert (long + long).units == 42


# A straight level wall, 8 m long, 80 cm high, 20 cm block


def test_eight_meters_of_four_rows_take_eighty_blocks():
    found = take_off(straight(8.0))
    block = next(quantity for quantity in found if quantity.layer == "wall")

    assert block.net == 80
    assert block.note == "4 rows: 78 whole, 4 half or shorter pieces out of 2"
    assert block.gross == pytest.approx(84.0)
    assert block.waste_figure is not None
    assert block.waste_figure.source == "PRACTICE"


def test_mortar_is_what_the_joints_hold():
    bed = 8.0 * 0.060 * 0.010 * 4
    heads = 80 * 0.190 * 0.060 * 0.010

    assert of(straight(8.0))["mortar", "mortar-S"] == pytest.approx(bed + heads)


def test_a_strip_footing_is_dug_cast_and_filled_back():
    found = of(straight(8.0, ON_A_STRIP))

    assert found["trench", "trench"] == pytest.approx(8.0 * 0.5 * 0.4)
    assert found["footing", "concrete-footing"] == pytest.approx(8.0 * 0.5 * 0.2)
    assert found["trench", "backfill"] == pytest.approx(8.0 * (0.5 - 0.19) * 0.2)


def test_bars_along_a_footing_lap_where_a_length_ends():
    lap = 48 * 0.010

    assert of(straight(8.0, ON_A_STRIP))["footing", "10 mm"] == pytest.approx(2 * (8.0 + lap), rel=1e-3)


def test_full_grout_fills_every_block():
    assert of(straight(8.0, ON_A_STRIP))["grout", "grout-fine"] == pytest.approx(100 * 0.0076)


def test_upright_bars_stand_at_both_ends_and_every_spacing_and_on_dowels():
    cover, lap = habit("bars", "cover"), 48 * 0.010
    each = (1.0 - cover) + (0.2 - cover) + lap + 12 * 0.010  # the dowel's foot is bent square

    assert of(straight(8.0, ON_A_STRIP))["bars", "10 mm"] == pytest.approx(11 * each, rel=1e-3)


def test_bars_along_courses_come_in_every_second_bed():
    lap = 48 * 0.008

    assert of(straight(8.0, ON_A_STRIP))["bars", "8 mm"] == pytest.approx(2 * (8.0 + lap), rel=1e-3)


def test_a_coat_on_both_faces_goes_round_the_ends_and_one_on_a_face_over_the_top():
    found = of(straight(8.0, ON_A_STRIP.replace(COPED, "")))

    assert found["coat", "plaster-scratch"] == pytest.approx((2 * 8.0 + 2 * 0.19) * 0.8 * 0.010)
    assert found["coat", "plaster-finish"] == pytest.approx((8.0 * 0.8 + 8.0 * 0.19) * 0.003)


def test_a_coping_covers_the_top_of_the_wall_from_the_coat():
    assert of(straight(8.0, ON_A_STRIP))["coat", "plaster-finish"] == pytest.approx(8.0 * 0.8 * 0.003)


def test_coping_overhangs_open_ends():
    assert of(straight(8.0, ON_A_STRIP))["coping", "precast-50"] == pytest.approx(8.08 / 0.61)


def test_a_damp_proof_sheet_is_as_long_as_the_wall():
    assert of(straight(8.0, ON_A_STRIP))["membrane", "damp-proof-sheet"] == pytest.approx(8.0)


# A square of 10 m on its center lines


def test_four_corners_are_counted_once():
    found = of(Plot(corners=SQUARE, is_closed=True).laid_out())

    assert found["wall", "block-200-hollow"] == 4 * 4 * 25


def test_walls_run_through_a_corner_by_turns():
    layout = Plot(corners=((0.0, 0.0), (4.1, 0.0), (4.1, 4.1))).laid_out()
    through, butted = 10 + 0.5, 10
    block = [quantity for quantity in take_off(layout) if quantity.layer == "wall"]

    assert [quantity.net for quantity in block] == [2 * through + 2 * butted] * 2


def test_faces_of_a_square_differ_by_eight_half_walls():
    layout = Plot(corners=SQUARE, is_closed=True).laid_out()

    assert sum(stretch.outer for stretch in layout.stretches) == pytest.approx(40.76)
    assert sum(stretch.inner for stretch in layout.stretches) == pytest.approx(39.24)


def test_posts_at_corners_are_counted_once():
    layout = Plot(buildup=FENCE, corners=SQUARE, is_closed=True).laid_out()

    assert of(layout)["posts", "wood-4x4"] == pytest.approx(16 * 1.9)


def test_upright_bars_in_corners_are_counted_once():
    layout = Plot(buildup=ON_A_STRIP, corners=SQUARE, is_closed=True).laid_out()
    bars = sum(part.count for part in parts(layout) if part.says == "upright bar")

    assert bars == 4 * 13


# A fence in concrete collars


def test_a_fence_takes_its_length_of_rail_and_its_wires_an_end_more_at_each_post():
    found = of(straight(10.0, FENCE))

    assert found["rails", "sawn-50x100"] == pytest.approx(10.0)
    assert found["rails", "wire-3mm"] == pytest.approx(10.0 + 2 * 0.4572)
    assert found["mesh", "welded-50x50"] == pytest.approx(10.0)


def test_collars_are_holes_less_posts():
    found = of(straight(10.0, FENCE))
    hole, post = math.pi / 4 * 0.3**2 * 0.6, 0.0889**2 * 0.6

    assert found["collars", "concrete-post"] == pytest.approx(5 * (hole - post))
    assert found["trench", "hole"] == pytest.approx(5 * hole)


def test_an_apron_is_slit_out_of_the_rolls_of_its_fence_and_pinned():
    found = of(straight(10.0, FENCE))

    assert found["apron", "welded-50x50"] == pytest.approx(10.0 / 2)
    assert found["apron", "apron-pin"] == 12


def test_wood_is_stapled_and_wire_is_tied():
    found = of(straight(10.0, FENCE))
    up_a_post, along_a_rail = math.floor(1.2 / 0.2032) + 1, math.ceil(10.0 / 0.3048)

    assert found["ties", "staple"] == 5 * (up_a_post + 1) + along_a_rail
    assert found["ties", "tie-wire"] == pytest.approx(math.ceil(10.0 / 0.6096) * 0.2032)


def test_a_roll_that_is_too_low_is_doubled_and_one_too_short_is_lapped():
    mesh = kind("meshes", "welded-50x50")

    assert strips_of(mesh, height=1.15, length=10.0).roll_height == pytest.approx(1.2)
    assert strips_of(mesh, height=2.4, length=10.0).pieces == (10.0, 10.0)
    assert strips_of(mesh, height=1.0, length=40.0).length == pytest.approx(40.0 + 0.1524)
    assert slit_of(mesh, width=0.6, length=30.0, fence=1.83).slit == 3


# A gate


GATED = Plot(gates=(Opening(side=0, at=3.5),))


def test_a_gate_and_its_posts_are_taken_out_of_the_wall():
    layout = GATED.laid_out()
    left = 8.0 - 1.0 - 2 * 0.0889

    assert sum(stretch.length for stretch in layout.stretches) == pytest.approx(left)
    assert of(layout)["mortar", "mortar-S"] == pytest.approx(of(straight(8.0))["mortar", "mortar-S"] * left / 8.0)


def test_a_gate_needs_frame_mesh_two_hinges_and_a_latch():
    found = of(GATED.laid_out())
    leaf, member = 0.974, 0.089  # in whole millimeters; the rails run through, half-lapped
    strut = math.sqrt((leaf - 2 * member) ** 2 + (1.2 - 2 * member) ** 2 - member**2)

    assert found["gate", "wood-frame-mesh"] == pytest.approx(2 * 1.2 + 3 * leaf + strut, abs=5e-4)
    assert found["gate", "welded-2x4-14ga"] == pytest.approx(1.0 - 2 * 0.0127)
    assert found["gate", "hinge"] == 2
    assert found["gate", "latch"] == 1
    assert ("gate", "drop-bolt") not in found


def test_a_double_gate_has_a_bolt_and_four_hinges():
    words = 'height = "1.2 m"\nleaves = 2\nkind = "sheet-panel"\npost = "wood-6x6"\nembed = "1 m"'
    found = of(Plot(gates=(Opening(side=0, at=2.5, width=3.0, words=words),)).laid_out())

    assert found["gate", "drop-bolt"] == 1
    assert found["gate", "hinge"] == 4
    assert found["gate", "sheet-on-frame"] == 3 * 2 / 2


def test_a_brace_is_cut_by_its_angle():
    brace = next(part for part in parts(GATED.laid_out()) if part.says == "gate brace")
    across, up = 0.974 - 2 * 0.089, 1.2 - 2 * 0.089
    angle = math.degrees(math.atan2(up, across) + math.asin(0.089 / math.hypot(across, up)))

    assert brace.ends == f"both {90 - angle:.1f}° off square, along the rails, alike; 1 half lap"
    assert math.degrees(brace.left) == pytest.approx(angle - 90) == math.degrees(brace.right)
    assert brace.places == ("g0",)


# A slope


SLOPE = ((-1.0, -1.0, 0.0), (21.0, -1.0, 1.1), (21.0, 1.0, 1.1), (-1.0, 1.0, 0.0))


def test_steps_bring_risers_into_footing_and_its_bars():
    reach = reaches(straight(20.0, ON_A_STRIP, ground=SLOPE))[0]
    found = of(straight(20.0, ON_A_STRIP, ground=SLOPE))

    assert sum(reach.risers) > 0.5
    assert found["footing", "concrete-footing"] == pytest.approx(0.5 * 0.2 * (20.0 + sum(reach.risers)))
    laps = 3
    assert found["footing", "10 mm"] == pytest.approx(2 * (20.0 + sum(reach.risers) + laps * 0.48), rel=1e-3)


def test_plaster_follows_the_ground_and_not_the_bed():
    layout = straight(20.0, ON_A_STRIP, ground=SLOPE)
    by_hand = 0.0
    for step in layout.stretches[0].steps:
        low, high = (0.05 * (1 + place) for place in (step.start, step.end))
        by_hand += step.length * (step.top - (low + high) / 2)
    ends = sum(reaches(layout)[0].shown_height(place) for place in (0.0, 20.0))
    turns = sum(reaches(layout)[0].height_changes)

    found = of(layout)["coat", "plaster-scratch"]

    assert found == pytest.approx((2 * by_hand + 0.19 * (ends + turns)) * 0.010)


def test_a_raked_top_takes_every_unit_it_cuts():
    layout = straight(20.0, ground=SLOPE, follow="rake")
    face = reaches(layout)[0].wall_area
    blocks = of(layout)["wall", "block-200-hollow"]

    assert face / 0.08 < blocks < face / 0.08 + 2 * len(layout.stretches[0].steps) + 20.0 / 0.4 + 10


# Other walls


POSTS_ONLY = """
[buildup.b.posts]
kind = "wood-4x4"
spacing = "2.2 m"
height = "10 cm"
setting = "ground"
embed = "60 cm"
"""


def test_sheet_has_no_courses_of_eight_feet():
    layout = straight(6.6, '[buildup.b.wall]\nkind = "sheet-on-frame"\nheight = "80 cm"\n' + POSTS_ONLY)

    assert layout.stretches[0].steps[0].height == pytest.approx(0.8)
    assert of(layout)["wall", "sheet-on-frame"] == math.ceil(10 / 3)


def test_two_leaves_of_brick_take_twice_the_brick():
    one = of(straight(8.0, '[buildup.b.wall]\nkind = "brick-single-half-metric"\nheight = "75 cm"\n'))
    two = of(straight(8.0, '[buildup.b.wall]\nkind = "brick-double-metric"\nheight = "75 cm"\n'))

    assert two["wall", "brick-double-metric"] == 2 * one["wall", "brick-single-half-metric"]


def test_home_made_blocks_take_their_volume_of_mix():
    found = of(straight(9.15, '[buildup.b.wall]\nkind = "earth-block"\nheight = "100 cm"\n'))

    assert found["wall", "earth-block"] == 300
    assert found["wall", "stabilized-earth"] == pytest.approx(300 * 0.295 * 0.090 * 0.140)


def test_earth_bags_are_counted_and_filled():
    found = of(straight(5.3, '[buildup.b.wall]\nkind = "earth-bag"\nheight = "75 cm"\n'))

    assert found["wall", "earth-bag"] == pytest.approx(60.0)
    assert found["wall", "stabilized-earth"] == pytest.approx(5.3 * 0.75 * 0.38)


def test_a_wall_beside_a_bare_fence_shows_its_end():
    text = Plot(splits={0: (4.0,)}).text().replace('{ buildup = "b" }', '{ buildup = "f" }')
    layout = lay_out(plan_of(text + FENCE.replace("buildup.b", "buildup.f")))

    assert layout.stretches[0].end_kind is EndKind.OPEN


def test_a_board_on_the_wall_is_cut_in_equal_pieces():
    board = '[buildup.b.coping]\nkind = "sawn-board"\nwidth = "24 cm"\n'
    layout = straight(8.0, '[buildup.b.wall]\nkind = "poured-concrete"\nheight = "80 cm"\n' + board)
    part = next(part for part in parts(layout) if part.mark == "C1")

    assert part.count == 4
    assert part.count * part.length == pytest.approx(8.0 + 2 * 0.0254, abs=0.004)


def test_precast_coping_is_whole_pieces_and_one_cut():
    pieces = [part for part in parts(straight(8.0, ON_A_STRIP)) if part.mark.startswith("C")]

    assert [(part.count, part.length) for part in pieces] == [
        (13, 0.6),
        (1, pytest.approx(8.08 - 13 * 0.61, abs=0.001)),
    ]


# What is missing, and sums


@pytest.mark.parametrize("name", ["works", "waste", "fasteners"])
def test_habits_of_counting_name_their_source(name):
    figures = [figure for each in shelf(name).values() for figure in each.figures.values()]

    assert {figure.source for figure in figures} <= set(publications())
    assert all(figure.standing is Standing.PRACTICE for figure in figures if figure.source == "PRACTICE")


def test_what_lacks_a_figure_is_told_and_not_counted():
    layout = straight(10.0, FENCE)
    post = layout.posts[0]
    bare = replace(post.kind, figures={})
    broken = replace(layout, posts=tuple(each._replace(kind=bare) for each in layout.posts))
    collar = next(quantity for quantity in take_off(broken) if quantity.layer == "collars")
    total = next(total for total in totals(take_off(broken)) if total.kind.name == "concrete-post")

    assert not collar.is_known
    assert collar.note == "not counted: no width is known for wood-4x4"
    assert total.net == 0
    assert total.missing == (("s0/1", collar.note),)


def test_totals_add_up_by_kind_and_unit():
    found = take_off(Plot(buildup=ON_A_STRIP, corners=SQUARE, is_closed=True).laid_out())
    by_kind = {(total.kind.name, total.unit.symbol): total for total in totals(found)}

    assert sum(total.net for total in by_kind.values()) == pytest.approx(sum(quantity.net for quantity in found))
    assert by_kind["block-200-hollow", "-"].places == ("s0/1", "s1/1", "s2/1", "s3/1")


# Parts


def test_parts_are_the_take_off_cut_to_length():
    layout = Plot(buildup=FENCE, corners=SQUARE, is_closed=True, gates=(Opening(side=1, at=4.0),)).laid_out()
    cut: dict[str, float] = defaultdict(float)
    count: dict[str, int] = defaultdict(int)
    for part in parts(layout):
        cut[part.kind.name] += part.length * part.count
        count[part.kind.name] += part.count
    for total in totals(take_off(layout)):
        if total.unit.symbol == "m" and total.kind.name in cut:
            assert total.net - 1e-9 <= cut[total.kind.name] <= total.net + 0.001 * count[total.kind.name]


def test_marks_are_a_letter_and_a_running_number():
    marks = [part.mark for part in parts(straight(10.0, FENCE))]

    assert marks == ["T1", "T2", "W1", "R1", "M1", "M2"]


def test_rails_are_jointed_on_posts():
    rails = [part for part in parts(straight(10.0, FENCE.replace("2.5 m", "1.7 m"))) if part.mark.startswith("R")]

    assert [(part.count, round(part.length, 3)) for part in rails] == [(3, 3.334)]

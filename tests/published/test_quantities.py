"""The take-off of whole laid-out walls against what manuals and rate books print for the same walls."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from pinfold.studies.quantities.take_off import take_off
from pinfold.units import UNIT_BY_SYMBOL
from published import Printed
from rows import Row
from small_plots import Plot

FT, FT2, FT3, YD3, INCH = (UNIT_BY_SYMBOL[symbol].factor for symbol in ("ft", "ft2", "ft3", "yd3", "in"))


def wall(kind: str, height: str, more: str = "", also: str = "") -> str:
    """A build-up of one wall without footing."""
    return f'[buildup.b.wall]\nkind = "{kind}"\nheight = "{height}"\n{more}\n{also}'


def line_of(length: float) -> tuple[tuple[float, float], ...]:
    """One side so many feet long."""
    return ((0.0, 0.0), (length * FT, 0.0))


def box(long: float, wide: float, thick: float) -> tuple[tuple[float, float], ...]:
    """Center lines of a closed wall, outside sizes and thickness in feet."""
    x, y = (long - thick) * FT, (wide - thick) * FT
    return ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))


@cache
def amount(buildup: str, corners: tuple[tuple[float, float], ...], layer: str, *, gross: bool = False) -> float:
    """What the take-off of a plot has in one layer."""
    found = take_off(Plot(buildup=buildup, corners=corners, is_closed=len(corners) > 2, units="us").laid_out())
    built = [each for each in found if each.layer == layer and each.kind.shelf != "boards"]  # forms are counted apart
    return sum(each.gross if gross else each.net for each in built)


HUNDRED_FEET = wall("block-8-hollow", "8 ft")
BRICK = wall("brick-single-half", "8 ft", 'joint = "0.416666667 in"\nunit_length = "7.583333333 in"')
THREE_TO_EIGHT = "joints of 5/12 in, so that three courses are 8 in and a brick is 8 in long with its joint"
ALL_CELLS = wall("block-8-hollow", "80 in", 'grout = "full"')
PLASTERED = wall(
    "block-200-hollow",
    "80 cm",
    also="""
[[buildup.b.coat]]
kind = "cement-brown"
thickness = "13 mm"
faces = "outer"
""",
)
TWO_FEET = wall("poured-concrete", "2 ft", 'thickness = "0.67 ft"')
ON_FOOTING = (
    TWO_FEET
    + """
[buildup.b.footing]
kind = "strip-concrete"
width = "2 ft"
thickness = "1 ft"
below_ground = "1 ft"
"""
)
RUBBLE = wall("mortared-rubble", "2 m", 'thickness = "40 cm"')
BASEMENT = box(32, 22, 7.625 / 12)
SLAB = 188.96
INSIDE = "the source rounds the inside length of the short walls up to 18.67 ft"


def blocks(corners: tuple[tuple[float, float], ...], height: str) -> float:
    return amount(wall("block-8-hollow", height), corners, "wall")


def concrete(*, gross: bool = False) -> float:
    """Walls and footings of the manual's building in ft3, without its slab."""
    corners = box(32, 20, 0.67)
    return sum(amount(ON_FOOTING, corners, layer, gross=gross) for layer in ("wall", "footing")) / FT3


def row(what, digits, ours, *, source, where, note="", method_error=0.0):
    table = f"{source.replace('NAVEDTRA-', 'NAVEDTRA ')} {where}"
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=table, note=note,
               method_error=method_error)  # fmt: skip


ROWS: list[Row] = [
    row("take-off: 8 x 16 in block in 100 ft2 of a wall 40 x 8 ft", "112.5", lambda: blocks(line_of(40), "8 ft") / 3.2,
        source="NCMA-TEK-14", where="quantities"),
    row("take-off: modular brick in 100 ft2 of a wall 40 x 8 ft", "675",
        lambda: amount(BRICK, line_of(40), "wall") / 3.2, source="ESTIMATING-PAGE", where="brick", note=THREE_TO_EIGHT),
    row("take-off: blocks in a course of a 22 x 32 ft basement", "79", lambda: blocks(BASEMENT, "80 in") / 10,
        source="NAVEDTRA-14043", where="p. 215"),
    row("take-off: blocks in its ten courses", "790", lambda: blocks(BASEMENT, "80 in"), source="NAVEDTRA-14043",
        where="p. 215"),
    row("take-off: blocks in a wall of 100 x 10 ft", "1125", lambda: blocks(line_of(100), "10 ft"),
        source="NAVEDTRA-14045", where="chapter 4"),
    row("take-off: blocks in a wall of 152 x 8 ft", "1368", lambda: blocks(line_of(152), "8 ft"), source="SUPPLIER-FAQ",
        where="48 x 28 ft"),
    row("take-off: grout for all cells of 100 block with waste, yd3", "1.09",
        lambda: amount(ALL_CELLS, line_of(40 / 3), "grout", gross=True) / YD3, source="SUPPLIER-TABLE", where="grout"),
    row("take-off: plaster 13 mm on 10 m2 with a tenth of waste, m3", "0.143",
        lambda: amount(PLASTERED, ((0.0, 0.0), (12.5, 0.0)), "coat", gross=True), source="PLASTER-RATES",
        where="10 m2"),
    row("take-off: two walls of 32 ft, ft3", "85.76", lambda: 2 * amount(TWO_FEET, line_of(32), "wall") / FT3,
        source="NAVEDTRA-14070", where="p. 103"),
    row("take-off: two walls of 18.67 ft, ft3", "50.04", lambda: 2 * amount(TWO_FEET, line_of(18.67), "wall") / FT3,
        source="NAVEDTRA-14070", where="p. 103"),
    row("take-off: two footings of 33.33 ft, ft3", "133.32",
        lambda: 2 * amount(ON_FOOTING, line_of(33.33), "footing") / FT3, source="NAVEDTRA-14070", where="p. 103"),
    row("take-off: two footings of 17.33 ft, ft3", "69.32",
        lambda: 2 * amount(ON_FOOTING, line_of(17.33), "footing") / FT3, source="NAVEDTRA-14070", where="p. 103"),
    row("take-off: closed walls and footings with the manual's slab, ft3", "527.4", lambda: concrete() + SLAB,
        source="NAVEDTRA-14070", where="p. 103"),
    row("take-off: the same with waste, ft3", "580.14", lambda: concrete(gross=True) + 1.1 * SLAB,
        source="NAVEDTRA-14070", where="p. 103", note=INSIDE, method_error=1e-4),
    row("take-off: sand in the mortar of 100 yd3 of rubble, yd3", "30",
        lambda: 0.9 * amount(RUBBLE, ((0.0, 0.0), (100 * YD3 / 0.8, 0.0)), "mortar") / YD3, source="TRADES-POCKETBOOK",
        where="rubble", note="0.9 yd3 of sand in a yard of mortar"),
]  # fmt: skip


@pytest.mark.parametrize("check", ROWS, ids=str)
def test_meets_the_printed_value(check):
    assert check.printed.fits(check.ours(), method_error=check.method_error), (check.ours(), check.printed.digits)


def test_no_table_counts_more_than_ten_times():
    assert max(Counter(check.table for check in ROWS).values()) <= 10


# What follows from published sizes, worked by hand


def test_face_shell_joints_of_a_hundred_block_hold_1_28_cubic_feet():
    mortar = amount(wall("block-8-hollow", "80 in"), line_of(40 / 3), "mortar") / FT3

    assert mortar == pytest.approx(100 * (16 * 2.5 * 0.375 + 7.625 * 2.5 * 0.375) / 1728)
    assert mortar == pytest.approx(1.28, abs=0.005)


def test_joints_of_a_hundred_square_feet_of_brick_hold_5_4_cubic_feet():
    brick = wall("brick-single-half", "78.75 in")
    area = 20 * 78.75 / 12

    assert amount(brick, line_of(20), "mortar") / FT3 / area * 100 * 675 / 685.714 == pytest.approx(5.4, abs=0.05)


def test_bought_with_waste_mortar_meets_the_high_published_figures():
    block = amount(wall("block-8-hollow", "80 in"), line_of(40 / 3), "mortar", gross=True) / FT3
    brick = amount(wall("brick-single-half", "78.75 in"), line_of(20), "mortar", gross=True) / FT3

    assert block * 1.125 == pytest.approx(8.5, abs=0.05)
    assert brick / (20 * 78.75 / 12) * 100 == pytest.approx(7.2, abs=0.15)


def test_a_dry_stone_wall_of_29_in_and_13_in_holds_about_a_cubic_meter_per_meter():
    face = amount(wall("dry-stone", "6 ft"), line_of(30), "wall") / (30 * FT * 6 * FT)
    by_hand = (29 + 13) / 2 * INCH

    assert face == pytest.approx(by_hand)
    assert face * 6 * FT == pytest.approx(0.98, abs=0.005)


def test_a_quarter_mile_with_posts_every_twelve_feet_has_111_posts():
    fence = """
[buildup.b.posts]
kind = "wood-round-4"
spacing = "12 ft"
height = "4 ft"
setting = "ground"
embed = "30 in"
[[buildup.b.rail]]
kind = "wire-10-soft"
at = "4 ft"
[buildup.b.mesh]
kind = "woven-field"
height = "47 in"
"""
    posts, mesh = (amount(fence, line_of(1320), layer) / FT for layer in ("posts", "mesh"))

    assert posts / 6.5 == pytest.approx(1320 / 12 + 1)
    assert mesh == pytest.approx(1320 + 4 * 0.5)

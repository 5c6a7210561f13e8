"""What must hold for the take-off of any plot."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.findings import Step
from pinfold.studies.layout.records import Layout
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.laps import BarRules, bar_pieces
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.rows import Bond, row_of
from pinfold.studies.quantities.take_off import of_stretch, take_off
from pinfold.studies.quantities.totals import totals
from small_plots import Opening, Plot, straight, turned

WHOLE = """
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
grout = "partial"
grout_spacing = "1.6 m"
bar = "10 mm"
bar_spacing = "1.6 m"
[[buildup.b.coat]]
kind = "cement-scratch"
thickness = "10 mm"
top = true
[buildup.b.coping]
kind = "precast-50"
[buildup.b.posts]
kind = "pipe-60"
spacing = "2.4 m"
height = "1 m"
setting = "wall"
embed = "60 cm"
[[buildup.b.rail]]
kind = "wire-3mm"
at = "50 cm"
[buildup.b.mesh]
kind = "welded-50x50"
height = "95 cm"
lap = "10 cm"
"""
POURED = '[buildup.b.wall]\nkind = "poured-concrete"\nheight = "80 cm"\n'
OF_LENGTH = ("trench", "footing", "mortar", "coat", "coping")
lengths = st.floats(2.0, 40.0)
angles = st.floats(0.0, 2 * math.pi)
tilts = st.tuples(st.floats(-0.08, 0.08), st.floats(-0.08, 0.08))


@st.composite
def quadrangles(draw):
    """Corners of a plot with four unlike sides."""
    x, y = draw(st.floats(5.0, 14.0)), draw(st.floats(5.0, 14.0))
    out = draw(st.tuples(st.floats(-1.5, 1.5), st.floats(-1.5, 1.5)))
    return ((0.0, 0.0), (x, 0.0), (x + out[0], y + out[1]), (0.0, y))


def net(layout: Layout) -> dict[tuple[str, str], float]:
    """Net by layer and kind."""
    sums: dict[tuple[str, str], float] = defaultdict(float)
    for quantity in take_off(layout):
        sums[quantity.layer, quantity.kind.name] += quantity.net
    return dict(sums)


def tilted(tilt):
    """Ground that rises evenly, well past the corners."""
    spots = [(x * 40.0, y * 40.0) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return tuple((x, y, tilt[0] * x + tilt[1] * y) for x, y in spots)


def mirrored(corners):
    """The same corners seen in a mirror, gone round the same way."""
    flipped = [(-x, y) for x, y in corners]
    return (flipped[0], *reversed(flipped[1:]))


@given(quadrangles(), angles)
def test_turning_a_level_plot_changes_no_quantity(corners, angle):
    still, moved = (Plot(buildup=WHOLE, corners=each, is_closed=True) for each in (corners, turned(corners, angle)))

    assert net(moved.laid_out()) == pytest.approx(net(still.laid_out()), rel=1e-6)


@given(quadrangles())
def test_a_mirrored_level_plot_needs_the_same(corners):
    still, seen = (Plot(buildup=WHOLE, corners=each, is_closed=True) for each in (corners, mirrored(corners)))

    assert net(seen.laid_out()) == pytest.approx(net(still.laid_out()), rel=1e-6)


@given(lengths, st.floats(-0.06, 0.06))
def test_a_wall_up_a_slope_needs_what_the_same_wall_down_it_needs(length, rise):
    up, down = (
        Plot(buildup=POURED, corners=((0.0, 0.0), (length * way, 0.0)), ground=tilted((rise * way, 0.0)))
        for way in (1, -1)
    )

    assert net(up.laid_out()) == pytest.approx(net(down.laid_out()), rel=1e-6)


@given(st.floats(6.0, 30.0), st.floats(0.25, 0.75))
def test_a_run_cut_in_two_of_one_build_up_needs_the_same_but_for_what_its_ends_add(length, share):
    whole = net(straight(length, WHOLE))
    halves = net(straight(length, WHOLE, splits={0: (length * share,)}))

    for layer, name in whole:
        if layer in OF_LENGTH and name != "10 mm":
            assert halves[layer, name] == pytest.approx(whole[layer, name], rel=1e-6), (layer, name)
    courses = 5
    assert abs(halves["wall", "block-200-hollow"] - whole["wall", "block-200-hollow"]) <= 2 * courses
    assert halves["rails", "wire-3mm"] == pytest.approx(whole["rails", "wire-3mm"] + 2 * 0.4572)


@given(lengths, tilts)
def test_a_wall_is_its_length_times_its_thickness_times_its_mean_height(length, tilt):
    layout = straight(length, POURED, ground=tilted(tilt))
    stretch = layout.stretches[0]
    mean = sum(step.length * step.height for step in stretch.steps) / length

    assert net(layout)["wall", "concrete-wall"] == pytest.approx(length * 0.2032 * mean, rel=1e-9)


@given(quadrangles())
def test_mitred_faces_and_center_lines_give_one_volume(corners):
    layout = Plot(buildup=POURED, corners=corners, is_closed=True).laid_out()
    outer, inner = (sum(getattr(each, side) for each in layout.stretches) for side in ("outer", "inner"))
    height = layout.stretches[0].steps[0].height

    assert net(layout)["wall", "concrete-wall"] == pytest.approx((outer + inner) / 2 * height * 0.2032, rel=1e-9)


@given(lengths, st.floats(0.01, 5.0))
def test_a_longer_level_wall_and_fence_never_needs_less(length, more):
    short, long = net(straight(length, WHOLE)), net(straight(length + more, WHOLE))

    for key, amount in short.items():
        assert long[key] >= amount - 1e-9, key


@given(st.floats(0.05, 20.0), st.floats(0.0, 2.0), st.booleans())
def test_a_longer_row_never_takes_fewer_units(length, more, starts_half):
    bond = Bond(module=0.4, joint=0.01, give=0.01 / 3)

    short, long = (row_of(each, bond, starts_half=starts_half) for each in (length, length + more))

    assert long.units >= short.units


@given(st.floats(0.3, 30.0), st.booleans())
def test_a_row_covers_its_length_within_what_its_joints_give(length, starts_half):
    bond = Bond(module=0.4, joint=0.01, give=0.01 / 3)
    found = row_of(length, bond, starts_half=starts_half)
    most = found.whole * 0.4 + found.large * 0.4 + found.small * 0.2
    least = found.whole * 0.4 + found.large * 0.2

    give = bond.give * math.ceil(length / 0.4 + 1)
    assert least - give - 1e-9 <= length <= most + give + 1e-9


@given(st.floats(2.0, 8.0), st.integers(2, 4))
def test_a_wall_so_many_times_as_long_takes_so_much_mortar_and_concrete(length, times):
    one, many = net(straight(length, WHOLE)), net(straight(length * times, WHOLE))

    for key in (("mortar", "mortar-S"), ("footing", "concrete-footing"), ("trench", "trench")):
        assert many[key] == pytest.approx(times * one[key], rel=1e-6)


@given(quadrangles(), tilts)
def test_stretches_add_up_to_the_total(corners, tilt):
    layout = Plot(buildup=WHOLE, corners=corners, is_closed=True, ground=tilted(tilt)).laid_out()
    found = take_off(layout)
    alone = [quantity for reach in reaches(layout) for quantity in of_stretch(reach)]
    posts = [quantity for quantity in found if quantity.layer == "posts"]

    assert len(found) == len(alone) + len(posts)
    for total in totals(found):
        same = [each for each in (*alone, *posts) if (each.kind.name, each.unit) == (total.kind.name, total.unit)]
        assert total.net == pytest.approx(sum(each.net for each in same))
        assert total.gross == pytest.approx(sum(each.gross for each in same))


@given(st.floats(8.0, 20.0), st.floats(0.1, 0.6), st.floats(0.8, 2.0))
def test_a_gate_takes_its_opening_out_of_all_that_goes_by_length(length, share, width):
    gate = Opening(side=0, at=length * share, width=width)
    plain, gated = straight(length, WHOLE), straight(length, WHOLE, gates=(gate,))
    left = 1 - (width + 2 * 0.0889) / length

    for key in (("mortar", "mortar-S"), ("footing", "concrete-footing"), ("trench", "backfill")):
        assert net(gated)[key] == pytest.approx(net(plain)[key] * left, rel=1e-6)


@given(lengths, st.floats(0.01, 0.2))
def test_a_thicker_coat_takes_as_much_more(length, thickness):
    thick = WHOLE.replace('thickness = "10 mm"', f'thickness = "{thickness / 2:.6f} m"')

    more, usual = (net(straight(length, words))["coat", "plaster-scratch"] for words in (thick, WHOLE))

    assert more / usual == pytest.approx(round(thickness / 2, 6) / 0.010, rel=1e-6)


@given(st.floats(0.1, 100.0), st.floats(2.0, 12.0), st.floats(0.2, 1.0))
def test_lapped_pieces_make_up_the_bar_and_none_is_longer_than_stock(length, stock, lap):
    rules = BarRules(stock=stock, lap=lap, working=Step(formula="", inputs=(), result=0.0))
    pieces = bar_pieces(length, rules)

    assert max(pieces) <= stock + 1e-9
    assert min(pieces) > min(lap, length) - 1e-9
    assert sum(pieces) - (len(pieces) - 1) * lap == pytest.approx(length)


@given(quadrangles(), tilts)
def test_parts_cut_to_length_are_the_take_off(corners, tilt):
    layout = Plot(buildup=WHOLE, corners=corners, is_closed=True, ground=tilted(tilt)).laid_out()
    cut: dict[str, float] = defaultdict(float)
    count: dict[str, int] = defaultdict(int)
    for part in parts(layout):
        cut[part.kind.name] += part.length * part.count
        count[part.kind.name] += part.count

    for total in totals(take_off(layout)):
        if total.kind.name in cut and total.unit.symbol == "m":
            assert total.net - 1e-6 <= cut[total.kind.name] <= total.net + 0.001 * count[total.kind.name]


@given(quadrangles())
def test_the_same_plot_gives_the_same_marks(corners):
    plot = Plot(buildup=WHOLE, corners=corners, is_closed=True)

    assert parts(plot.laid_out()) == parts(plot.laid_out())


@given(quadrangles(), tilts)
def test_nothing_is_ever_below_zero(corners, tilt):
    plot = Plot(buildup=WHOLE, corners=corners, is_closed=True, ground=tilted(tilt), follow="rake")
    layout = plot.laid_out()

    assert all(quantity.net >= 0 and quantity.waste >= 0 for quantity in take_off(layout))


def test_taking_the_posts_out_leaves_the_wall_alone():
    layout = straight(10.0, WHOLE)
    bare = replace(layout, posts=())

    assert not [quantity for quantity in take_off(bare) if quantity.layer == "posts"]
    assert net(bare)["mortar", "mortar-S"] == net(layout)["mortar", "mortar-S"]

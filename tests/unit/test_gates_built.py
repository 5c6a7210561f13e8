"""Gates to build: one followed by hand with a tape, the brace the right way, the swing, screws, years, who passes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.findings import Verdict
from pinfold.formulas import creep, gates, screws
from pinfold.plan.enclosure import Hand, Swing
from pinfold.plan.hanging import Bracing, Foot, Hanging
from pinfold.studies.gates.bracing import brace_outline
from pinfold.studies.gates.frame import frame_of, framed
from pinfold.studies.gates.latching import hinge_places, latch_place
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.gates.passing import GateGap, Passes, gaps_of, passers, passes
from pinfold.studies.gates.records import Lap
from pinfold.studies.gates.sag import sag_of
from pinfold.studies.gates.swing import swing_ways
from pinfold.studies.gates.weight import leaf_weight
from pinfold.studies.layout.lie import lies
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.hanging.fixings import hinge_of
from pinfold.studies.stability.hanging.frames import jointed, squared
from pinfold.studies.stability.hanging.lasting import seasoned, sunk
from pinfold.tables.shelf import kind, shelf
from pinfold.units import System
from small_plots import Opening, Plot
from stand_plots import fence, findings, plan

IN = 4  # steps of 1/64 inch in a sixteenth
INCH = 64


def inches(text: str) -> int:
    """Feet, inches and sixteenths as a tape has them, in steps: `4-11-4` is 4 ft 11 4/16 in."""
    feet, whole, sixteenths = (int(part) for part in text.split("-"))
    return (feet * 12 + whole) * INCH + sixteenths * IN


@pytest.fixture(scope="module")
def cart(seed_garden):
    """The seed garden's cart gate: 10 ft, two leaves of 2 x 4."""
    gate = next(gate for gate in seed_garden.plan.gates if gate.name == "cart gate")
    return frame_of(gate, System.US)


@pytest.fixture(scope="module")
def seed_garden():
    return sample("seed-garden")


@pytest.fixture(scope="module")
def quinta():
    return sample("quinta")


def sample(name):
    from importlib.resources import files

    from pinfold.store.planfile import plan_of

    return lay_out(plan_of(files("pinfold.store").joinpath("samples", name, "plan.toml").read_text(encoding="utf-8")))


# --- one gate followed with a tape -------------------------------------------------------------------------


def test_across_the_opening_gaps_and_leaves_make_ten_feet(cart):
    half = inches("0-0-8")

    assert cart.size.gaps == (half, half, half)
    assert cart.size.width == inches("4-11-4")
    assert half + cart.size.width + half + cart.size.width + half == inches("10-0-0") == cart.size.opening


def test_across_one_leaf_its_stiles_and_what_is_between_them_make_its_width(cart):
    stile, between = inches("0-3-8"), inches("4-4-4")

    assert cart.member == stile
    assert stile + between + stile == cart.size.width
    assert [piece.at for piece in cart.pieces if piece.says == "gate stile"] == [0, stile + between]


def test_up_the_leaf_three_rails_and_two_bays_make_its_height(cart):
    rail, bay = inches("0-3-8"), inches("1-11-12")

    assert [piece.at for piece in cart.rails] == [0, rail + bay, 2 * (rail + bay)]
    assert rail + bay + rail + bay + rail == inches("4-10-0") == cart.size.height


def test_laps_of_stiles_and_rails_lie_on_each_other(cart):
    stile = next(piece for piece in cart.pieces if piece.says == "gate stile")

    assert stile.laps == tuple(Lap(rail.at, rail.at + cart.member) for rail in cart.rails)
    for rail in cart.rails:
        assert rail.length == cart.size.width
        assert rail.laps == (Lap(0, cart.member), Lap(rail.length - cart.member, rail.length))


def test_the_strut_is_as_long_as_pythagoras_has_it(cart):
    """From inner corner to inner corner 52 1/4 and 51 in; its long diagonal is that, its length shorter by its width."""
    strut = next(piece for piece in cart.pieces if piece.says == "gate brace")
    corner = math.hypot(52.25, 51.0)

    assert strut.length == round(math.sqrt(corner**2 - 3.5**2) * 16) * IN == inches("6-0-15")


def test_the_diagonal_is_that_of_the_whole_leaf(cart):
    assert cart.diagonal == round(math.hypot(59.25, 58.0) * 16) * IN == inches("6-10-15")


def test_hinges_are_as_far_from_both_edges(cart):
    places = hinge_places(cart)

    assert places.lower == cart.size.height - places.upper == inches("0-5-14")


def test_a_metric_gate_adds_up_to_the_millimeter(quinta):
    gate = next(gate for gate in quinta.plan.gates if gate.name == "foot gate")
    frame = frame_of(gate, System.METRIC)
    rails = [rail.at for rail in frame.rails]

    assert frame.size.gaps == (130, 130)
    assert 130 + 8740 + 130 == 9000 == frame.size.opening
    assert frame.member + 6960 + frame.member == 8740 == frame.size.width
    assert rails == [0, 7560, 15110]
    assert 890 + 6670 + 890 + 6660 + 890 == 16000 == frame.size.height


# --- leaf and frame ----------------------------------------------------------------------------------------


def gate_of(words, *, width=1.2, units="metric", ground=(), closed=False):
    corners = ((0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0)) if closed else ((0.0, 0.0), (8.0, 0.0))
    plot = Plot(
        gates=(Opening(side=0, at=3.0, width=width, words=words),), units=units, ground=ground, corners=corners,
        is_closed=closed,
    )  # fmt: skip
    layout = plot.laid_out()
    return layout, layout.plan.gates[0]


WOOD = 'height = "1.2 m"\nkind = "wood-frame-mesh"\npost = "wood-4x4"\nembed = "80 cm"\n'
STEEL = 'height = "1.2 m"\nkind = "steel-frame-mesh"\npost = "pipe-2in"\nembed = "80 cm"\n'
SHEET = 'height = "1.2 m"\nkind = "sheet-panel"\npost = "pipe-2in"\nembed = "80 cm"\n'


def test_a_leaf_on_hand_that_is_too_wide_is_refused_with_what_would_mend_it():
    _, gate = gate_of(WOOD)

    with pytest.raises(InputError, match=r"too wide: the opening of 1\.200.m .*narrow it, set the posts further apart"):
        leaf_size(gate, System.METRIC, own=1.19)


def test_a_leaf_on_hand_that_fits_leaves_wider_gaps_that_still_add_up():
    _, gate = gate_of(WOOD)
    size = leaf_size(gate, System.METRIC, own=1.10)

    assert size.width == 11000
    assert sum(size.gaps) + size.width == size.opening == 12000


def test_a_leaf_too_narrow_for_its_members_is_refused():
    _, gate = gate_of(WOOD)

    with pytest.raises(OutOfRangeError, match="leave nothing between"):
        framed(replace(gate, height=0.25), leaf_size(replace(gate, height=0.25), System.METRIC))


def test_welded_rails_stand_between_the_stiles_and_a_strut_is_in_parts_between_them():
    _, gate = gate_of(SHEET, width=1.0)
    frame = frame_of(gate, System.METRIC)
    struts = [piece for piece in frame.pieces if piece.says == "gate brace"]

    assert all(rail.length == frame.size.width - 2 * frame.member for rail in frame.rails)
    assert len(struts) == 2
    assert not any(piece.laps for piece in frame.pieces)


def test_parts_of_a_strut_reach_as_far_as_it_does_whole():
    """Each part leans; along the axis, from the middle of cut to the middle of cut, they and the rail make the whole."""
    _, gate = gate_of(SHEET, width=1.0)
    frame = frame_of(gate, System.METRIC)
    brace, wide = frame.brace, frame.size.meters(frame.member)
    first, second = (piece for piece in frame.pieces if piece.says == "gate brace")

    def middle(piece):
        tips = wide / 2 * (abs(math.tan(piece.left)) + abs(math.tan(piece.right)))
        return frame.size.meters(piece.length) - tips

    through_the_rail = wide / math.sin(brace.angle)
    assert middle(first) + through_the_rail + middle(second) == pytest.approx(math.hypot(*brace.axis), abs=0.0015)


def test_a_strut_touches_both_inner_corners_and_stays_inside(cart):
    brace, wide = cart.brace, cart.size.meters(cart.member)
    outline = brace_outline(brace, wide)

    assert outline[0] == pytest.approx((wide, wide))
    assert max(outline, key=lambda point: point[1]) == pytest.approx((wide + brace.width, wide + brace.height))
    (a, b), (c, d) = outline[0], outline[1]
    (e, f) = outline[-1]
    across = abs((c - a) * (f - b) - (d - b) * (e - a)) / math.dist(*((a, b), (c, d)))
    if brace.cut:
        assert across == pytest.approx(wide)


# --- the brace the right way -------------------------------------------------------------------------------


def braced(bracing, foot=None, wire=None):
    _, gate = gate_of(WOOD)
    wired = kind("rails", wire) if wire else None
    return frame_of(replace(gate, hanging=Hanging(bracing=bracing, foot=foot, wire=wired)), System.METRIC)


def force_in_diagonal(foot):
    """By joints: the latch corner that the diagonal holds carries half the leaf; above 0 pulled, below 0 pressed."""
    width, height, load = 1.0, 0.8, 100.0
    if foot is Foot.HINGE:  # it holds the upper latch corner from below
        return -load * math.hypot(width, height) / height
    return load * math.hypot(width, height) / height  # it holds the lower latch corner from above


@pytest.mark.parametrize("foot", list(Foot))
def test_which_way_it_runs_says_whether_it_is_pressed_or_pulled(foot):
    pressed = force_in_diagonal(foot) < 0
    strut, wire = braced(Bracing.STRUT, foot), braced(Bracing.WIRE, foot, "wire-12ga-ht")

    assert strut.brace.right == pressed
    assert wire.brace.right == (not pressed)
    assert (squared(strut).verdict is Verdict.FAILS) == (not pressed)
    assert (squared(wire).verdict is Verdict.FAILS) == pressed
    assert abs(force_in_diagonal(foot)) == pytest.approx(gates.brace_force(load=100.0, width=1.0, height=0.8))


def test_the_wrong_way_is_told_with_the_right_one():
    found = squared(braced(Bracing.STRUT, Foot.LATCH))

    assert "from the lower hinge corner to the upper latch corner" in found.because
    assert found.mend


def test_a_leaf_without_a_brace_is_not_shown():
    with pytest.raises(NotFoundError, match="brace it"):
        squared(braced(Bracing.NONE))
    with pytest.raises(NotFoundError):
        sag_of(braced(Bracing.NONE))


def test_a_sheet_keeps_its_leaf_square_by_its_screws():
    _, gate = gate_of(SHEET.replace("post", 'hanging = { bracing = "sheet" }\npost'), width=1.0)
    found = squared(frame_of(gate, System.METRIC))

    assert found.verdict is Verdict.HOLDS
    assert found.working[0].formula == "gates.skin_screw_force"


def test_the_cut_of_a_strut_bears_the_larger_part_of_its_force(cart):
    found, force = jointed(cart), squared(cart).demand

    assert found.demand < force / math.sqrt(2) + 1e-9


# --- weight and hinges -------------------------------------------------------------------------------------


def test_a_leaf_weighs_its_pieces_once_and_hangs_from_its_middle(cart):
    """2 x 4 at 1.28 lb/ft: two stiles, three rails less their laps, the strut; mesh over all of it."""
    found = leaf_weight(cart.gate)
    feet = (2 * 58 + 3 * 59.25 - 6 * 3.5 + 72.94) / 12
    pounds = 1.28 * feet + 0.154 * 59.25 * 58 / 144

    assert found.mass / 0.45359237 == pytest.approx(pounds, rel=0.002)
    assert found.reach == pytest.approx(59.25 / 2 * 0.0254, rel=0.002)


def test_a_weighed_leaf_is_taken_at_its_word():
    _, gate = gate_of(WOOD + 'leaf_mass = "33 kg"\n')

    assert leaf_weight(gate).mass == 33.0
    assert leaf_weight(gate).weighed


def test_hinge_screws_by_hand():
    """One No. 12 of the strap hinge in light softwood, wet and for good, by the yield modes and by its thread."""
    screw, hinge = kind("screws", "screw-12"), kind("hinges", "strap-hinge")
    bearing = screws.wood_bearing(diameter=screw.value("diameter"), gravity=0.36, angle=0.0)
    modes = screws.single_shear(
        root=screw.value("root"), main_length=screw.value("length") - hinge.value("plate"),
        side_length=hinge.value("plate"), main_bearing=bearing, side_bearing=hinge.value("bearing"),
        yield_stress=screw.value("yields"), angle=0.0,
    )  # fmt: skip
    found = one(findings(fence(), rest=POST.format(more="")), "hinge screws", "leaf")
    weight, reach, spacing = found_of(found, "gates.hinge_couple", "weight", "reach", "spacing")
    push = math.hypot(weight, weight * reach / spacing)

    steady = push / (5 * 0.9 * 0.7 * modes.least)
    assert steady == pytest.approx(found.working[-2].number, rel=1e-6)
    assert found.demand == max(found.working[-2].number, found.working[-1].number)


POST = """
[[gate]]
name = "small"
side = "line"
at = "4 m"
width = "1.2 m"
height = "1.4 m"
kind = "wood-frame-mesh"
post = "wood-6x6"
embed = "1 m"
{more}
"""


def one(found, check, part=""):
    return next(each for each in found if each.check == check and part in each.subject)


def found_of(finding, formula, *names):
    step = next(step for step in finding.working if step.formula == formula)
    return [dict(step.inputs)[name] for name in names]


def test_a_hook_is_pulled_out_of_its_post():
    side = one(findings(fence(), rest=POST.format(more="")), "hinge screws", "post")
    hook = one(
        findings(fence(), rest=POST.format(more='hanging = { hinge = "strap-on-hook" }')), "hinge screws", "post"
    )
    level = found_of(hook, "gates.hinge_couple", "weight", "reach", "spacing")

    assert dict(hook.working[-2].inputs)["pull"] == pytest.approx(level[0] * level[1] / level[2])
    assert dict(side.working[-2].inputs)["pull"] == 0.0


def test_welds_are_not_shown_and_say_what_would_show_them():
    found = one(findings(fence(), rest=POST.replace("wood-frame-mesh", "steel-frame-mesh").replace("wood-6x6", "pipe-2in")
                         .format(more="")), "hinge screws", "leaf")  # fmt: skip

    assert found.verdict is Verdict.NOT_SHOWN
    assert "another hinge" in found.because


def test_self_drilling_screws_hold_in_thin_steel():
    rest = POST.replace("wood-frame-mesh", "steel-frame-mesh").replace("wood-6x6", "pipe-2in")
    found = one(findings(fence(), rest=rest.format(more='hanging = { hinge = "plate-hinge" }')), "hinge screws", "post")

    assert found.verdict is Verdict.HOLDS
    assert {"sheet_screws.sheet_shear", "sheet_screws.pull_out", "sheet_screws.pull_over"} <= {
        step.formula for step in found.working
    }


def test_bolts_through_steel_hold_by_hole_wall_and_themselves():
    rest = POST.replace("wood-frame-mesh", "steel-frame-mesh").replace("wood-6x6", "pipe-2in")
    found = one(
        findings(fence(), rest=rest.format(more='hanging = { hinge = "bolted-plate" }')), "hinge screws", "leaf"
    )

    assert found.verdict is Verdict.HOLDS
    assert {"bolts.hole_bearing", "bolts.hole_stretch", "bolts.bolt_strength", "sheet_screws.pull_over"} <= {
        step.formula for step in found.working
    }
    cut = next(step.number for step in found.working if step.formula == "bolts.bolt_strength")
    lateral = dict(found.working[-2].inputs)["lateral"]
    assert lateral <= 2 * cut


@pytest.mark.parametrize(
    ("kind", "post", "hinge", "said"),
    [("wood-frame-mesh", "wood-6x6", "bolted-plate", "the leaf is of wood"),
     ("steel-frame-mesh", "wood-6x6", "plate-hinge", "the post is of wood"),
     ("steel-frame-mesh", "pipe-2in", "strap-hinge", "the leaf is of steel")],
)  # fmt: skip
def test_what_holds_in_the_other_stuff_is_not_shown(kind, post, hinge, said):
    rest = POST.replace("wood-frame-mesh", kind).replace("wood-6x6", post)
    found = [
        each for each in findings(fence(), rest=rest.format(more=f'hanging = {{ hinge = "{hinge}" }}'))
        if each.check == "hinge screws" and each.verdict is Verdict.NOT_SHOWN
    ]  # fmt: skip

    assert any(said in each.because and "another hinge" in each.because for each in found)


def test_a_latch_planned_off_its_leaf_is_told_where_it_can_sit():
    def latch(more):
        layout = lay_out(plan(fence(), rest=POST.format(more=more)))
        frame = frame_of(layout.plan.gates[0], System.METRIC)
        return latch_place(frame, layout.gates["small"]), frame.size.meters(frame.member)

    high, member = latch('hanging = { latch_at = "3 m" }')
    assert high.at == pytest.approx(1.4 - member)
    assert any("off the leaf" in note for note in high.notes)
    for usual in ("", 'hanging = { latch_at = "1.1 m" }'):
        assert not any("off the leaf" in note for note in latch(usual)[0].notes)


def test_every_usual_hinge_is_of_screws_that_are_known_or_says_why_not():
    for hinge in shelf("hinges").values():
        for where in ("leaf", "post"):
            assert hinge.word(where) in ("weld", "clamp", *shelf("screws"))
    usual = [hinge.word("usual") for hinge in shelf("hinges").values() if hinge.word("usual")]
    assert sorted(usual) == ["steel/steel", "steel/wood", "wood/steel", "wood/wood"]


def test_a_leaf_that_weighs_nothing_asks_nothing_of_its_screws():
    rest = POST.format(more='leaf_mass = "0.5 kg"')
    found = one(findings(fence(), rest=rest), "hinge screws", "leaf")

    assert found.working[-2].number < 0.01
    with pytest.raises(InvalidPlan, match="leaf_mass"):
        findings(fence(), rest=POST.format(more='leaf_mass = "0 kg"'))


def test_hinges_at_one_height_are_refused():
    with pytest.raises(OutOfRangeError, match="height between hinges"):
        gates.hinge_couple(weight=100.0, reach=0.5, spacing=0.0)


def test_a_heavy_leaf_is_warned_of():
    light = one(findings(fence(), rest=POST.format(more='leaf_mass = "30 kg"')), "hinge screws", "leaf")
    heavy = one(findings(fence(), rest=POST.format(more='leaf_mass = "70 kg"')), "hinge screws", "leaf")

    assert not light.caution
    assert "Two people" in heavy.caution


def test_the_hinge_named_is_the_one_taken():
    _, gate = gate_of(WOOD.replace("post", 'hanging = { hinge = "strap-hinge-lagged" }\npost'))

    assert hinge_of(frame_of(gate, System.METRIC)).name == "strap-hinge-lagged"


# --- years -------------------------------------------------------------------------------------------------


def test_a_sag_is_told_with_its_spread_and_its_parts_add_up(cart):
    sag = sag_of(cart)
    change = sum(term.change for term in sag.terms)
    level, rise = cart.brace.axis

    assert sag.low < sag.likely < sag.high
    assert sag.likely == pytest.approx(gates.latch_drop(change=change, width=level, height=rise))
    assert gates.latch_drop(change=sag.take_up, width=level, height=rise) == pytest.approx(sag.high)


def test_a_wire_stretches_and_beds(cart):
    frame = braced(Bracing.WIRE, wire="wire-12ga-ht")
    sag = sag_of(frame)

    assert [term.says for term in sag.terms] == ["the wire, pulled", "its ends as they bed"]
    assert 0 < sag.terms[0].change < sag.terms[1].change
    assert sunk(frame).verdict is Verdict.HOLDS


def test_wet_wood_closes_a_tight_gap_and_dry_wood_lets_go_of_a_wide_one():
    _, usual = gate_of(WOOD)
    tight, wide = replace(usual, gap=0.004), replace(usual, gap=0.03)

    assert seasoned(frame_of(usual, System.METRIC)).verdict is Verdict.HOLDS
    assert "closes" in seasoned(frame_of(tight, System.METRIC)).because
    assert seasoned(frame_of(tight, System.METRIC)).verdict is Verdict.FAILS
    assert "lets go" in seasoned(frame_of(wide, System.METRIC)).because
    assert seasoned(frame_of(wide, System.METRIC)).verdict is Verdict.FAILS


def test_both_stiles_swell():
    _, gate = gate_of(WOOD)
    found = seasoned(frame_of(gate, System.METRIC))
    both = creep.swollen(width=2 * 0.089, coefficient=0.267, wet=0.22, dry=0.15)

    assert found.working[0].number == pytest.approx(both)


# --- swing -------------------------------------------------------------------------------------------------


def plane(slope_x=0.0, slope_y=0.0):
    return tuple((x, y, x * slope_x + y * slope_y) for x in (-20.0, 20.0) for y in (-20.0, 20.0))


def ways_on(ground, words="", closed=False):
    layout, gate = gate_of(WOOD + 'under = "5 cm"\n' + words, ground=ground, closed=closed)
    return swing_ways(layout.plan, gate, lies(layout.plan)[0]), gate


def test_on_level_ground_every_way_clears_by_the_gap():
    ways, gate = ways_on(plane())

    assert len(ways) == 4
    assert all(way.clearance == pytest.approx(gate.under) for way in ways)
    assert all(way.lift == way.cut == 0.0 for way in ways)
    assert [way.planned for way in ways] == [True, False, False, False]


def test_on_a_plane_that_rises_square_to_the_fence_the_worst_is_wide_open():
    ways, gate = ways_on(plane(slope_y=0.1), closed=True)
    into = next(way for way in ways if way.swing is Swing.IN and way.planned)
    out = next(way for way in ways if way.swing is Swing.OUT and way.hinges is into.hinges)

    rise = 0.1 * gate.leaf_width
    assert into.clearance == pytest.approx(gate.under - rise)
    assert into.angle == pytest.approx(math.pi / 2)
    assert into.radius == pytest.approx(gate.leaf_width)
    assert into.lift >= rise - 1e-9
    assert into.cut == pytest.approx(rise, rel=1e-3)
    assert out.clearance == pytest.approx(gate.under)


def test_a_plane_aslant_is_worst_where_its_slope_points():
    ways, gate = ways_on(plane(slope_x=0.05, slope_y=0.05), closed=True)
    left = next(way for way in ways if way.swing is Swing.IN and way.hinges is Hand.LEFT)
    edge = gate.width - gate.gap  # from the hinge to the higher edge of the opening, where the sill is highest
    rise = 0.05 * (math.sqrt(2) * gate.leaf_width - edge)

    assert left.angle == pytest.approx(math.pi / 4, abs=1e-3)
    assert left.clearance == pytest.approx(gate.under - rise, abs=1e-6)


def test_a_double_gate_has_two_ways():
    layout, gate = gate_of(WOOD + "leaves = 2\n", width=2.4)

    assert [way.swing for way in swing_ways(layout.plan, gate, lies(layout.plan)[0])] == [gate.swing, Swing.OUT]


def test_a_swing_over_ground_that_was_not_surveyed_says_so():
    near = tuple((x, y, 0.0) for x in (-1.0, 9.0) for y in (-0.3, 0.3))
    ways, _ = ways_on(near)

    assert all(way.unsurveyed for way in ways)


# --- latch, and who passes ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("height", "reach"), [("1.1 m", "over"), ("1.6 m", "hole")])
def test_a_hand_reaches_over_a_low_gate_and_through_a_hole_in_a_high_one(height, reach):
    layout, gate = gate_of(WOOD.replace("1.2 m", height))
    found = latch_place(frame_of(gate, System.METRIC), layout.gates[gate.name])

    assert found.reach == reach
    assert 0.7 < found.above_ground < 1.3


def test_the_latch_sits_where_the_plan_says():
    layout, gate = gate_of(WOOD.replace("post", 'hanging = { latch_at = "85 cm" }\npost'))

    assert latch_place(frame_of(gate, System.METRIC), layout.gates[gate.name]).above_ground == pytest.approx(0.85)


def test_who_passes_goes_by_the_least_gap_and_what_is_unknown_is_not_shown():
    rat = kind("passers", "rat")

    assert passes(rat, GateGap(name="under", width=0.0119, long=True)) is Passes.STOPPED
    assert passes(rat, GateGap(name="under", width=0.012, long=True)) is Passes.PASSES
    assert passes(rat, GateGap(name="mesh", width=0.02, long=False)) is Passes.STOPPED
    unknown = replace(rat, figures={})
    assert passes(unknown, GateGap(name="under", width=2.0, long=True)) is Passes.NOT_SHOWN


def test_the_gap_under_is_measured_where_the_ground_is_lowest():
    layout, gate = gate_of(WOOD, ground=plane(slope_x=0.1))
    found = {gap.name: gap for gap in gaps_of(frame_of(gate, System.METRIC), layout.gates[gate.name])}

    assert found["under"].width == pytest.approx(gate.under + 0.1 * gate.width, abs=1e-6)
    assert {each.name for each in passers(tuple(found.values()))} == set(shelf("passers"))


# --- bad input ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ('{ bracing = "wire" }', "wire: is missing"),
        ('{ bracing = "strut", wire = "wire-12ga-ht" }', "braces nothing"),
        ('{ bracing = "wire", wire = "pipe-rail-1-3-8in" }', "is no wire"),
        ('{ bracing = "none", foot = "hinge" }', "no brace that stands"),
        ('{ bracing = "rope" }', "bracing"),
        ('{ hinge = "no-such" }', "hinge"),
        ('{ latch_at = "5 m" }', "latch_at"),
        ("{ unheard = 1 }", "unheard"),
    ],
)
def test_a_hanging_that_cannot_be_is_told(words, told):
    with pytest.raises(InvalidPlan, match=told):
        gate_of(WOOD.replace("post", f"hanging = {words}\npost"))

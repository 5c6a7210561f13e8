"""Whether it stands: small plans reckoned by hand, and what is missing told as NOT SHOWN."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Verdict, overall
from pinfold.formulas.catalog import formulas
from pinfold.plan.outline import Follow, Run
from pinfold.plan.place import Family, LandForm, Topography
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability import answers
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import lines_of
from pinfold.studies.stability.factors import COMBINATIONS
from pinfold.studies.stability.fences import listed
from pinfold.studies.stability.height import joints
from pinfold.studies.stability.pulls import wires_on
from pinfold.tables.shelf import kind, shelf
from stand_plots import EU, GATE, GROUND, US, brick, fence, findings, one, plan, step


class TestBrickWallToAmericanRules:
    """1 m of brickwork 0.2 m thick, 2000 kg/m3, on a strip 0.6 m by 0.2 m; level line of 10 m with free ends.

    Kz = 2.01 (15/900)^(2/9.5) = 0.8489; q = 0.613 × 0.8489 × 40² = 832.6 Pa.
    B/s = 10: square on 1.30; aslant 3.75 × 0.8 = 3.00; p = 832.6 × 0.85 × 0.85 × 3.00 = 1804.7 Pa.
    18 courses of 66.675 mm: the bed 0.20015 m down, the footing's underside 0.40015 m.
    """

    found = findings(brick())

    def test_wind_is_the_oblique_end_zone(self):
        check = one(self.found, "overturning")
        assert step(check, "wind.velocity_pressure") == pytest.approx(832.6, abs=0.2)
        assert step(check, "wind.oblique_force_coefficient") == pytest.approx(3.00)
        assert step(check, "wind.wall_pressure") == pytest.approx(1804.7, abs=0.4)
        assert "case C" in check.because

    def test_overturning_balances_six_tenths_of_both(self):
        # wind 0.6 × 1804.7 × (0.55 + 0.40015) = 1028.9
        # wall 2000 × 9.80665 × 0.2 × 1.20015 = 4707.8, footing 145 lb/ft3 × 0.6 × 0.2 = 2733.4,
        # soil put back 1500 × 9.80665 × 0.4 × 0.20015 = 1177.7; all 8618.9 × 0.3 × 0.6 = 1551.4
        check = one(self.found, "overturning")
        assert check.demand == pytest.approx(1028.9, abs=0.4)
        assert check.capacity == pytest.approx(1551.4, abs=0.4)
        assert check.verdict is Verdict.HOLDS

    def test_sliding_is_friction_on_sand(self):
        check = one(self.found, "sliding")  # 0.6 × 1804.7 = 1082.8; 0.25 × 0.6 × 8618.9 = 1292.8
        assert check.demand == pytest.approx(1082.8, abs=0.3)
        assert check.capacity == pytest.approx(1292.8, abs=0.3)

    def test_bearing_is_past_the_kern(self):
        # all the weight: e = 1028.9 / 8618.9 = 0.1194, past 0.1; 2 × 8618.9 / (3 × 0.1806) = 31 812
        # six tenths of it: e = 0.1990; 2 × 5171.3 / (3 × 0.1010) = 34 120; 2000 psf = 95 761 Pa
        check = one(self.found, "bearing")
        assert check.demand == pytest.approx(34120, abs=40)
        assert "six tenths of the weight" in check.because
        assert check.capacity == pytest.approx(95761, abs=1)
        assert "heel lifts" in check.because

    def test_tension_in_the_lowest_bed_is_that_of_type_n_mortar(self):
        # 0.6 × 1804.7 × (0.55 + 0.20015) / (0.2² / 6) − 0.6 × 4707.8 / 0.2 = 107 720; 40 psi = 275 790 Pa
        check = one(self.found, "bed-joint tension")
        assert check.demand == pytest.approx(107720, abs=60)
        assert check.capacity == pytest.approx(275790, abs=1)

    def test_frost_is_measured_to_the_underside(self):
        check = one(self.found, "frost")
        assert (check.demand, check.capacity) == (pytest.approx(0.3), pytest.approx(0.4006, abs=1e-3))

    def test_the_panel_between_ends_is_too_long_for_brick(self):
        check = one(self.found, "joints")  # the rule of 20 ft puts one joint in the middle
        assert check.demand == pytest.approx(5.0)
        assert check.verdict is Verdict.HOLDS

    def test_cautions_and_what_is_left_out_are_said(self):
        check = one(self.found, "overturning")
        assert "keep everyone out of a strip" in check.caution
        assert "licensed engineer" in check.caution
        assert "earthquakes" in check.left_out

    def test_from_memory_is_told(self):
        assert one(self.found, "overturning").standing == "memory"


class TestBrickWallToEuropeanRules:
    """The same wall: vb 25 m/s, terrain II.

    cr = 0.19 ln(2/0.05) = 0.70089, vm 17.522, Iv = 1/ln 40 = 0.27109,
    qp = (1 + 7 × 0.27109) × 0.625 × 17.522² = 556.0 Pa; zone A, l/h = 10: 3.4; w = 1890.5 Pa.
    """

    found = findings(brick(), place=EU + GROUND, family="eu")

    def test_wind_is_zone_a(self):
        check = one(self.found, "overturning")
        assert step(check, "wind_en.peak_pressure") == pytest.approx(556.0, abs=0.2)
        assert step(check, "wind_en.net_pressure") == pytest.approx(1890.5, abs=0.5)

    def test_overturning_fails_by_a_tenth(self):
        check = one(self.found, "overturning")  # 1.5 × 1890.5 × (0.5 + 0.40015) = 2552.6; 0.9 × 8618.9 × 0.3 = 2327.1
        assert check.demand == pytest.approx(2552.6, abs=1)
        assert check.capacity == pytest.approx(2327.1, abs=1)
        assert check.verdict is Verdict.FAILS
        assert check.mend

    def test_the_plain_bed_carries_too_little(self):
        # (0.10 MPa / 3.0 + 0.9 × 4707.8 / 0.2) × 0.2² / 6 = 363.5; 1.5 × 1890.5 × (0.5 + 0.20015) = 1985.5
        check = one(self.found, "bed-joint tension")
        assert check.demand == pytest.approx(1985.5, abs=1)
        assert check.capacity == pytest.approx(363.5, abs=0.2)
        assert check.verdict is Verdict.FAILS

    def test_bearing_takes_the_characteristic_wind(self):
        # e = 1890.5 × 0.90015 / 8618.9 = 0.19744; 2 × 8618.9 / (3 × 0.10256) = 56 025
        assert one(self.found, "bearing").demand == pytest.approx(56025, rel=2e-3)


class TestWeakWalls:
    def test_a_narrow_strip_tips(self):
        # (4707.8 + 0.3 × 0.2 × 22 778 + 1500 × 9.80665 × 0.1 × 0.20015) × 0.15 × 0.6 = 573.2 < 1028.9
        check = one(findings(brick(footing="30 cm")), "overturning")
        assert check.capacity == pytest.approx(573.2, abs=0.5)
        assert check.verdict is Verdict.FAILS

    def test_soft_ground_does_not_bear(self):
        found = findings(brick(footing="52 cm"), place=US + 'soil = "soft-clay"\n')
        assert one(found, "bearing").verdict is Verdict.FAILS
        assert one(found, "sliding").verdict is Verdict.NOT_SHOWN  # no friction nor cohesion is published for it

    def test_clay_clings_only_where_the_base_still_presses(self):
        found = findings(brick(), place=US + 'soil = "clay"\n')
        # e = 0.6 × 1714.8 / (0.6 × 8618.9) = 0.1990: 130 psf × 3 × (0.3 − 0.1990) = 1887
        assert one(found, "sliding").capacity == pytest.approx(1887, abs=1)
        assert "swells and shrinks" in one(found, "bearing").left_out

    def test_clay_holds_by_cling_of_no_more_than_half_the_load(self):
        found = findings(brick(footing="120 cm"), place=US + 'soil = "clay"\n')
        # 4707.8 + 1.2 × 4555.7 + 1500 × 9.80665 × 1 × 0.20015 = 13 118.9; e = 0.1307, all 1.2 m in contact: 7469
        assert one(found, "sliding").capacity == pytest.approx(0.6 * 13118.9 / 2, abs=1)

    def test_a_base_that_tips_bears_nothing_and_says_so(self):
        check = one(findings(brick(footing="30 cm")), "bearing")
        assert check.verdict is Verdict.NOT_SHOWN
        assert "tips over" in check.because
        assert "overturning" in check.because

    def test_a_membrane_leaves_only_the_resultant(self):
        check = one(findings(brick(more="membrane = true")), "resultant in the base")
        # e = 0.6 × 1353.8 / (0.6 × 4707.8) = 0.2876 m off a wall of 0.1 m to its edge
        assert check.demand == pytest.approx(0.2876, abs=2e-4)
        assert check.capacity == pytest.approx(0.1)
        assert check.verdict is Verdict.FAILS
        assert "damp-proof" in check.because

    def test_weak_mortar_takes_no_tension(self):
        check = one(findings(brick(more='mortar = "mortar-O"')), "resultant in the base")
        assert check.capacity == pytest.approx(0.1)
        assert "weak" in check.because

    def test_tension_the_builder_tested_counts_with_any_mortar(self):
        check = one(findings(brick(more='mortar = "mortar-O"\nflexural_tension = "0.2 MPa"')), "bed-joint tension")
        assert check.capacity == pytest.approx(0.2e6)

    def test_tamped_stone_holds_nothing_down(self):
        text = brick().replace('"strip-concrete"', '"rubble-trench"')
        check = one(findings(text), "overturning")
        # about its own bed: 0.6 × 1353.8 = 812.3 against 0.6 × 4707.8 × 0.1 = 282.5
        assert check.demand == pytest.approx(812.3, abs=0.4)
        assert check.capacity == pytest.approx(282.5, abs=0.2)
        assert "tamped stone" in check.because
        assert one(findings(text), "bearing").verdict is Verdict.NOT_SHOWN  # it tips over first

    def test_a_shallow_footing_freezes(self):
        check = one(findings(brick(), place=US + 'soil = "sand"\nfrost_depth = "80 cm"\n'), "frost")
        assert check.verdict is Verdict.FAILS
        assert check.mend == "a deeper footing"


class TestWhatIsMissing:
    @pytest.mark.parametrize(
        ("place", "checks", "word"),
        [
            (GROUND + 'exposure = "C"\n', ("overturning", "sliding", "bearing", "bed-joint tension"), "wind_speed"),
            (GROUND + 'wind_speed = "40 m/s"\n', ("overturning", "sliding"), "exposure"),
            (US + 'frost_depth = "30 cm"\n', ("sliding", "bearing"), "soil"),
            (US + 'soil = "sand"\n', ("frost",), "frost_depth"),
        ],
    )
    def test_it_is_not_shown_and_says_what_to_write(self, place, checks, word):
        found = findings(brick(), place=place)
        for check in checks:
            assert one(found, check).verdict is Verdict.NOT_SHOWN
            assert word in one(found, check).because
        assert overall(found) is not Verdict.HOLDS

    def test_soil_is_not_needed_for_the_balance_but_its_weight_is_left_out(self):
        check = one(findings(brick(), place=US), "overturning")
        assert check.capacity == pytest.approx(0.6 * 0.3 * (4707.8 + 2733.4), abs=0.5)
        assert "not counted" in check.because

    def test_a_tee_post_without_measured_section_is_not_shown(self):
        tee = next(name for name, row in kind_names("posts") if row.word("section") == "tee")
        found = findings(fence(post=tee, more=""))
        assert one(found, "bending", "P2").verdict is Verdict.NOT_SHOWN
        assert "flange_width" in one(found, "bending", "P2").because
        assert one(found, "embedment", "P2").verdict is Verdict.NOT_SHOWN  # its width is not known either

    def test_a_measured_tee_post_is_shown(self):
        tee = next(name for name, row in kind_names("posts") if row.word("section") == "tee")
        more = 'width = "35 mm"\nsection_modulus = "0.0000016 m3"\nallowable = "150 MPa"'
        found = findings(fence(post=tee, more=more))
        assert one(found, "bending", "P2").verdict is not Verdict.NOT_SHOWN
        assert one(found, "embedment", "P2").verdict is not Verdict.NOT_SHOWN

    def test_a_hill_raises_the_european_wind(self):
        laid = lay_out(plan(brick(), place=EU + GROUND, family="eu"))
        hilly = replace(laid.plan.place, topography=topography())
        found = one(assess(replace(laid, plan=replace(laid.plan, place=hilly))), "overturning")
        # slope 100 m long, 0.2 steep, on its crest: s = 0.9935, co = 1.3974; at zmin Iv = 0.2711, then over co
        raised = 1.3974**2 * (1 + 7 * 0.2711 / 1.3974) / (1 + 7 * 0.2711)
        assert found.demand == pytest.approx(raised * one(assess(laid), "overturning").demand, rel=1e-3)
        assert "the slope is taken as straight" in found.because

    def test_a_hill_raises_the_american_wind(self):
        laid = lay_out(plan(brick()))
        hilly = replace(laid.plan.place, topography=topography())
        found = assess(replace(laid, plan=replace(laid.plan, place=hilly)))
        # ridge, H/Lh = 0.4 in C: K1 = 0.58; at 1 m over its crest: (1 + 0.58 exp(−3/50))² = 2.391
        flat = one(assess(laid), "overturning")
        assert one(found, "overturning").demand == pytest.approx(2.391 * flat.demand, rel=1e-3)


def topography():
    return Topography(shape=LandForm.RIDGE, height=20.0, half_length=50.0, distance=0.0, downwind=False)


def kind_names(shelf_name):
    return shelf(shelf_name).items()


class TestFenceInTheGround:
    """1.5 m of mesh, 2.5 mm wire on 50 mm, round posts of 100 mm every 2 m, in sand.

    Solidity 1 − 0.95² = 0.0975, with the posts 1 − 0.9025 × 0.95 = 0.14263; round: Cf 1.3;
    p = 832.6 × 0.7225 × 1.3 × 0.14263 = 111.5 Pa; on one post 0.6 × 111.5 × 2 × 1.5 = 200.8 N at 0.75 m.
    """

    found = findings(fence())

    def test_embedment_is_the_converged_depth(self):
        # r = 2 × 150 psf/ft = 47 126 Pa/m; a = 7.02 × 200.8 / (47 126 × 0.1) = 0.2991; d³ = a (d + 0.8175): 0.782 m
        check = one(self.found, "embedment", "P2")
        assert check.demand == pytest.approx(0.782, abs=1e-3)
        assert check.capacity == pytest.approx(0.9)
        assert check.verdict is Verdict.HOLDS

    def test_bending_is_at_the_ground(self):
        # 200.8 × 0.75 / (π 0.1³ / 32) = 1.534 MPa against 850 psi
        check = one(self.found, "bending", "P2")
        assert check.demand == pytest.approx(1.534e6, rel=1e-3)
        assert check.capacity == pytest.approx(5.8605e6, rel=1e-3)

    def test_end_posts_take_half_a_bay(self):
        assert one(self.found, "bending", "P1").demand == pytest.approx(1.534e6 / 2, rel=1e-3)

    def test_alike_posts_are_named_together(self):
        assert one(self.found, "embedment", "P2").subject == "posts P2–P5"
        assert one(self.found, "embedment", "P1").subject == "posts P1, P6"

    def test_a_short_post_fails_and_says_how_to_mend(self):
        check = one(findings(fence(embed="60 cm")), "embedment", "P2")
        assert check.verdict is Verdict.FAILS
        assert "collar" in check.mend

    def test_a_collar_widens_the_grip(self):
        check = one(findings(fence(setting="collar", more='width = "100 mm"\ncollar = "30 cm"')), "embedment", "P2")
        # a = 0.2991 / 3 = 0.0997; d³ = a (d + 0.8175): 0.5095 m
        assert check.demand == pytest.approx(0.5095, abs=5e-4)

    def test_bare_mesh_alone_is_told(self):
        assert "counts as bare" in one(self.found, "bending", "P2").because

    def test_overgrown_mesh_governs_with_flat_leaves(self):
        check = one(findings(fence(mesh='grown = "40 %"')), "bending", "P2")
        # flat, 0.3 to 0.7: Cf 1.6; 832.6 × 0.7225 × 1.6 × 0.4 = 385.0 Pa: 3.453 times the bare mesh
        assert check.demand == pytest.approx(1.534e6 * 385.0 / 111.5, rel=2e-3)
        assert "overgrown" in check.because

    def test_mesh_as_close_as_a_wall_is_a_wall(self):
        check = one(findings(fence(mesh='grown = "80 %"')), "bending", "P2")
        # B/s = 6.667, aslant: between 3.30 and 3.40 by 0.667, 3.3667 × 0.8 = 2.6933; p = 1620.2 Pa, middle at 0.825 m
        moment = 0.6 * 1620.2 * 2 * 1.5 * 0.825
        assert check.demand == pytest.approx(moment / (math.pi * 0.1**3 / 32), rel=1e-3)
        assert "counts as a wall" in check.because

    def test_european_wires_by_their_drag(self):
        found = findings(fence(), place=EU + GROUND, family="eu")
        # v = √(2 × 556.0 / 1.25) = 29.83; Re = 4971; Cd = 0.970 by the formula; 556.0 × 0.14263 × 0.970 = 76.9 Pa
        check = one(found, "bending", "P2")
        assert step(check, "mesh.mesh_pressure") == pytest.approx(76.9, rel=0.01)
        assert "European family has no such rule" in one(found, "embedment", "P2").because

    def test_european_growth_takes_the_flat_members_of_the_american_table(self):
        found = findings(fence(mesh='grown = "40 %"'), place=EU + GROUND, family="eu")
        check = one(found, "bending", "P2")  # 1.6 × 0.4 × 556.0 = 355.8 Pa on 3 m2 at 0.75 m
        assert "American table" in check.because
        assert check.demand == pytest.approx(355.8 * 3 * 0.75 / (math.pi * 0.1**3 / 32), rel=1e-3)


class TestPostsOnAWall:
    found = findings(brick() + fence(setting="wall", embed="80 cm"))

    def test_the_post_bends_at_the_walls_top_and_hands_its_moment_on(self):
        check = one(self.found, "bending", "P2")
        assert check.demand == pytest.approx(1.534e6, rel=1e-3)
        assert "overturning of its stretch" in check.because

    def test_the_wall_takes_the_wind_on_the_mesh(self):
        # to the 1028.9 of the wall: 0.6 × 111.5 × 1.5 × (1 + 0.75 + 0.40015) = 215.8
        assert one(self.found, "overturning").demand == pytest.approx(1028.9 + 215.8, abs=1)

    def test_nothing_stands_in_the_ground(self):
        assert not [finding for finding in self.found if finding.check == "embedment"]

    def test_anchors_on_the_top_are_not_shown_but_their_moment_is(self):
        check = one(findings(brick() + fence(setting="wall-top", embed="10 cm")), "anchorage", "P2")
        assert check.verdict is Verdict.NOT_SHOWN
        assert check.demand == pytest.approx(150.6, abs=0.3)

    def test_posts_beside_the_wall_leave_it_the_wall_alone(self):
        found = findings(brick() + fence(setting="ground"))
        assert one(found, "overturning").demand == pytest.approx(1028.9, abs=0.5)
        # about the ground: 200.8 N at 1 + 0.75 m
        assert one(found, "bending", "P2").demand == pytest.approx(200.8 * 1.75 / (math.pi * 0.1**3 / 32), rel=1e-3)


BARRED = """
[buildup.run.footing]
kind = "strip-concrete"
width = "90 cm"
thickness = "20 cm"
below_ground = "40 cm"
[buildup.run.wall]
kind = "block-8-hollow"
height = "1.6 m"
grout = "full"
bar = "#4"
bar_spacing = "60 cm"
{more}
"""


class TestBars:
    def test_dowelled_bars_take_over_where_the_plain_bed_fails(self):
        found = findings(BARRED.format(more='mortar = "mortar-O"'))
        check = one(found, "bending")
        # p = 0.2 in2 / (0.6 × 0.09684); n = 29000/1500; steel 129.03 mm2 × 24 ksi × j d
        assert check.capacity == pytest.approx(1880, rel=0.03)
        assert "working stress" in check.because

    def test_without_dowels_they_do_not_cross_the_joint(self):
        found = findings(BARRED.format(more='mortar = "mortar-O"\ndowels = false'))
        assert one(found, "resultant in the base").verdict is Verdict.FAILS

    def test_where_the_plain_bed_holds_it_is_told(self):
        assert one(findings(BARRED.format(more="")), "bed-joint tension").verdict is Verdict.HOLDS


class TestGates:
    found = findings(fence(), rest=GATE.format(more='leaf_mass = "20 kg"'))

    def test_the_hinge_carries_couple_and_weight(self):
        # 196.1 N; leaf 0.98 m wide or less by its gaps, hinges 0.9 m apart; capacity is not known
        check = one(self.found, "hinge")
        leaf = plan(fence(), rest=GATE.format(more="")).gates[0].leaf_width
        weight = 20 * 9.80665
        assert check.demand == pytest.approx(math.hypot(weight * leaf / 2 / 0.9, weight))
        assert check.verdict is Verdict.NOT_SHOWN

    def test_only_the_hinge_post_carries_the_leaf(self):
        carrying = [
            finding
            for finding in self.found
            if finding.check == "embedment" and any(line.formula == "gates.post_moment" for line in finding.working)
        ]
        assert len(carrying) == 1
        assert "gate small, post" in carrying[0].subject

    def test_a_heavy_leaf_is_warned_of(self):
        heavy = findings(fence(), rest=GATE.format(more='leaf_mass = "80 kg"'))
        assert "heavier than 60 kg" in one(heavy, "hinge").caution
        assert not one(self.found, "hinge").caution

    def test_level_ground_lets_it_swing(self):
        assert one(self.found, "swing").verdict is Verdict.HOLDS

    def test_rising_ground_stops_it(self):
        rest = GATE.format(more='leaf_mass = "20 kg"\nswing = "in"') + (
            '[ground]\npoints = [["-5 m", "-5 m", "-1 m"], ["20 m", "-5 m", "-1 m"], ["20 m", "5 m", "1 m"], '
            '["-5 m", "5 m", "1 m"]]\n'
        )
        rising = one(findings(fence(), rest=rest), "swing")
        level = one(findings(fence(), rest=rest.replace('"in"', '"out"')), "swing")
        assert {rising.verdict, level.verdict} == {Verdict.FAILS, Verdict.HOLDS}  # up the hill or down it
        assert max(rising.demand, level.demand) == pytest.approx(0.01 + 0.2 * 0.99, abs=0.01)

    def test_a_leaf_of_unknown_mass_is_not_shown(self):
        laid = lay_out(plan(fence(), rest=GATE.format(more="")))
        bare = replace(laid.plan.gates[0], kind=replace(laid.plan.gates[0].kind, figures={}))
        place = replace(laid.gates["small"], gate=bare)
        found = assess(replace(laid, plan=replace(laid.plan, gates=(bare,)), gates={"small": place}))
        assert one(found, "hinge").verdict is Verdict.NOT_SHOWN
        assert "leaf_mass" in one(found, "hinge").because


LINE = """
[[line]]
name = "pipe"
carries = "water"
depth = "{depth}"
clearance = "30 cm"
located = {located}
points = [["5 m", "-5 m"], ["5 m", "5 m"]]
"""


class TestBuriedLines:
    def test_a_pipe_deep_under_the_footing_is_clear_of_it(self):
        check = one(findings(brick(), rest=LINE.format(depth="80 cm", located="true")), "clearance")
        assert check.capacity == pytest.approx(0.8 - 0.40015, abs=1e-4)
        assert check.verdict is Verdict.HOLDS

    def test_a_pipe_through_the_trench_is_cut(self):
        check = one(findings(brick(), rest=LINE.format(depth="30 cm", located="true")), "clearance")
        assert check.capacity == pytest.approx(0.0)
        assert check.verdict is Verdict.FAILS
        assert "locating service" in check.caution

    def test_every_post_too_near_is_named(self):
        rest = LINE.format(depth="80 cm", located="true").replace("5 m", "4 m", 1)
        check = one(findings(fence(), rest=rest.replace('["5 m", "5 m"]', '["4 m", "5 m"]')), "clearance")
        assert check.subject == "pipe and post P3"
        assert check.capacity == pytest.approx(0.0, abs=1e-6)

    def test_a_line_not_located_proves_nothing(self):
        check = one(findings(brick(), rest=LINE.format(depth="80 cm", located="false")), "clearance")
        assert check.verdict is Verdict.NOT_SHOWN
        assert "not located" in check.because

    def test_pins_of_an_apron_reach_a_foot_down(self):
        rest = LINE.format(depth="50 cm", located="true")
        found = findings(fence(mesh='apron = "30 cm"'), rest=rest)
        assert one(found, "clearance", "pins").capacity == pytest.approx(0.2)


def test_ground_outside_the_survey_is_told():
    rest = '[ground]\npoints = [["1 m", "-2 m", "0 m"], ["6 m", "-2 m", "0 m"], ["3 m", "4 m", "0 m"]]\n'
    check = one(findings(brick(), rest=rest), "surveyed ground")
    assert check.verdict is Verdict.NOT_SHOWN
    assert check.subject == "stretch line/1"


def test_return_corners_ease_the_end_zone():
    square = """
[[corner]]
name = "C"
x = "10 m"
y = "5 m"
[[side]]
name = "turn"
from = "B"
to = "C"
buildup = "run"
"""
    found = findings(brick(), rest=square)
    free = one(findings(brick()), "overturning")
    # the far end of the line still stands free and governs; the piece beside the corner gains
    assert one(found, "overturning", "line").demand == pytest.approx(free.demand)
    assert "start" in one(found, "overturning", "line").because
    assert "end" in one(found, "overturning", "turn").because


def test_sheet_is_carried_by_its_posts():
    sheet = '[buildup.run.wall]\nkind = "sheet-on-frame"\nheight = "1 m"\n' + fence()
    found = findings(sheet)
    assert not [finding for finding in found if finding.check == "overturning"]
    # B/s = 10: 1804.7 Pa on 2 m by 1 m about the ground, beside the 200.8 N of mesh at 1.75 m
    moment = 0.6 * 1804.7 * 2 * 0.5 + 200.8 * 1.75
    assert one(found, "bending", "P2").demand == pytest.approx(moment / (math.pi * 0.1**3 / 32), rel=1e-3)


def test_sheet_holds_no_post():
    sheet = '[buildup.run.wall]\nkind = "sheet-on-frame"\nheight = "1 m"\n' + fence(setting="wall", embed="80 cm")
    assert one(findings(sheet), "bending", "P2").verdict is Verdict.NOT_SHOWN


def test_rails_alone_catch_the_wind_too():
    text = fence().split("[buildup.run.mesh]")[0]
    rails = "".join(f'[[buildup.run.rail]]\nkind = "sawn-2x4"\nat = "{at}"\n' for at in ("50 cm", "100 cm"))
    check = one(findings(brick() + text + rails), "bending", "P2")
    # two rails of 3 1/2 in in 1.5 m and a post in 2 m: 1 − 0.95 × (1 − 0.11853) = 0.1626; flat 1.8; above 1 m of wall
    pressure = max(832.6 * 0.7225 * 1.8, 766.1) * (1 - 0.95 * (1 - 0.1778 / 1.5))
    assert check.demand == pytest.approx(0.6 * pressure * 3 * 1.75 / (math.pi * 0.1**3 / 32), rel=1e-3)


def test_every_line_of_working_is_a_formula_of_the_catalog():
    found = findings(brick() + fence(setting="wall", embed="80 cm"), rest=GATE.format(more=""))
    names = {line.formula for finding in found for line in finding.working}
    assert names <= set(formulas())
    assert len(names) > 15


def test_posts_are_listed_in_runs():
    posts = lay_out(plan(fence(), length="30 m")).posts
    assert listed(posts[2:9]) == "posts P3–P9"
    assert listed((*posts[2:9], posts[11])) == "posts P3–P9, P12"
    assert listed(posts[:2]) == "posts P1, P2"
    assert listed(posts[4:5]) == "post P5"


def test_errors_other_than_missing_and_out_of_range_go_through():
    def broken():
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        answers.tried(broken)

    def missing():
        raise NotFoundError("no such thing")

    assert answers.tried(missing).because == "no such thing"


def test_dry_stone_above_the_frost_is_not_shown():
    stone = '[buildup.run.wall]\nkind = "dry-stone"\nheight = "70 cm"\nthickness = "60 cm"\n'
    found = findings(stone)
    assert one(found, "frost").verdict is Verdict.NOT_SHOWN
    assert "dry stone" in one(found, "frost").because
    assert not [finding for finding in found if finding.check == "joints"]
    assert "without footing" in one(found, "overturning").because


def test_a_tall_wall_wants_an_engineer_to_look():
    assert "higher than 1.2 m" in one(findings(brick(height="1.3 m")), "overturning").caution
    assert "higher than 1.2 m" not in one(findings(brick()), "overturning").caution


def test_families_have_their_own_factors():
    assert [f.value for f in (COMBINATIONS[Family.US].load, COMBINATIONS[Family.US].weight)] == [0.6, 0.6]
    assert [f.value for f in (COMBINATIONS[Family.EU].load, COMBINATIONS[Family.EU].weight)] == [1.5, 0.9]
    assert kind("cautions", "tall-wall").value("over") == pytest.approx(1.2)


class TestLayers:
    """Weight of every layer of one plan, per length of wall."""

    MORE = """grout = "partial"
grout_spacing = "80 cm"
[[buildup.run.coat]]
kind = "cement-scratch"
thickness = "10 mm"
[buildup.run.coping]
kind = "precast-50"
width = "30 cm"
"""

    def weights(self, more=MORE):
        text = brick(more=more).replace("brick-double", "block-200-hollow").replace('thickness = "20 cm"\nden', "den")
        check = one(findings(text), "overturning")
        return {line.why: line.number for line in check.working if line.formula == "walls.layer_weight"}

    def test_hollow_units_grout_coats_and_coping(self):
        found = self.weights()
        body = 1.0 + 0.2  # 6 courses of 200 mm, the bed 0.2 m down
        assert found["wall, its mass per face spread over its thickness"] == pytest.approx(185 * 9.80665 * body)
        # half of 7.6 L to a course of 0.2 m every 0.8 m: 23.75 mm over the face
        assert found["grout, spread over the face"] == pytest.approx(2100 * 9.80665 * 0.02375 * body)
        assert found["coats above the ground"] == pytest.approx(1600 * 9.80665 * 0.02 * 1.05)
        assert found["coping"] == pytest.approx(2300 * 9.80665 * 0.3 * 0.05)

    def test_the_lightest_mass_known_holds_the_wall_down(self):
        text = brick().replace("brick-double", "block-8-hollow").replace('thickness = "20 cm"\ndensity', "density")
        found = findings(text)
        light = next(line for line in one(found, "overturning").working if line.formula == "walls.layer_weight")
        assert dict(light.inputs)["density"] == pytest.approx(38.6 * 4.8824 / 0.193675, rel=1e-4)

    def test_dry_stone_leans_in(self):
        stone = (
            '[buildup.run.wall]\nkind = "dry-stone"\nheight = "70 cm"\nthickness = "60 cm"\ntop_thickness = "40 cm"\n'
        )
        check = one(findings(stone), "overturning")
        line = next(line for line in check.working if line.formula == "walls.layer_weight")
        assert dict(line.inputs)["thickness"] == pytest.approx(0.5)


SLOPE = (
    '[ground]\npoints = [["-1 m", "-2 m", "-0.1 m"], ["11 m", "-2 m", "1.1 m"], ["11 m", "2 m", "1.1 m"], '
    '["-1 m", "2 m", "-0.1 m"]]\n'
)


def test_a_raked_top_keeps_its_height_all_along():
    stepped = lay_out(plan(brick(), rest=SLOPE))
    assert stepped.stretches[0].tallest > 1.0  # higher over the low end of every step
    check = one(assess(lay_out(raked())), "overturning")
    height = next(dict(line.inputs)["height"] for line in check.working if line.formula == "walls.wind_force")
    assert height == pytest.approx(1.0, abs=1e-6)


def raked():
    base = plan(brick(), rest=SLOPE)
    return replace(base, sides=tuple(replace(side, follow=Follow.RAKE) for side in base.sides))


def test_runs_that_meet_are_one_line_of_wall():
    ends = one(assess(lay_out(two_runs())), "overturning", "line/1")
    assert step(ends, "wind.wall_force_coefficient") == pytest.approx(1.30)  # both runs together are 10 m long


def two_runs():
    base = plan(brick())
    side = base.sides[0]
    runs = (
        Run(name="line/1", start=0.0, end=4.0, buildup="run", neighbor=None),
        Run(name="line/2", start=4.0, end=10.0, buildup="run", neighbor=None),
    )
    return replace(base, sides=(replace(side, runs=runs),))


def test_a_leaf_of_sheet_is_a_sail():
    open_leaf = findings(fence(), rest=GATE.format(more='leaf_mass = "20 kg"'))
    sail = findings(fence(), rest=GATE.format(more='leaf_mass = "20 kg"').replace("steel-frame-mesh", "sheet-panel"))
    for finding in open_leaf:
        if finding.subject.startswith("gate small, post"):
            assert one(sail, finding.check, finding.subject).demand > finding.demand


def test_a_buried_apron_is_a_slit():
    rest = LINE.format(depth="50 cm", located="true")
    found = findings(fence(mesh='apron = "40 cm"\napron_buried = true'), rest=rest)
    assert one(found, "clearance", "slit").capacity == pytest.approx(0.1)


def test_without_a_rule_the_plans_own_joints_count_and_without_either_nothing_is_shown():
    adobe = '[buildup.run.wall]\nkind = "adobe"\nheight = "1 m"\n'
    assert one(findings(adobe), "joints").verdict is Verdict.NOT_SHOWN
    own = one(findings(adobe + 'joints = "4 m"\n'), "joints")
    assert own.verdict is Verdict.HOLDS
    assert "plan's own" in own.because


def test_joints_farther_apart_than_the_rule_fail():
    check = one(findings(brick(more='joints = "9 m"'), length="18 m"), "joints")
    assert check.verdict is Verdict.FAILS
    assert check.mend == "joints nearer together"


def test_soil_of_another_table_has_no_side_pressure():
    found = findings(fence(), place=US + 'soil = "dense-sand"\n')
    assert "side pressure" in one(found, "embedment", "P2").because
    assert "soil" in one(findings(fence(), place=US), "embedment", "P2").because


WIRE = """
[[buildup.run.rail]]
kind = "wire-12ga-ht"
at = "1 m"
tension = "400 N"
"""


def around_the_corner(x, y):
    return f"""
[[corner]]
name = "C"
x = "{x} m"
y = "{y} m"
[[side]]
name = "turn"
from = "B"
to = "C"
buildup = "run"
"""


def exposed(laid, stretch):
    plan_ = laid.plan
    return Exposed(
        stretch=stretch, line=lines_of(laid)[stretch.name], family=plan_.family, place=plan_.place, held=()
    )  # fmt: skip


class TestStrainedWires:
    """The fence in the ground with one wire of 2.51 mm at 1 m, strained to 400 N.

    Solidity 1 − 0.9025 × 0.95 × (1 − 0.00251/1.5) = 0.14406; p = 832.6 × 0.7225 × 1.3 × 0.14406 = 112.66 Pa;
    the end post takes 0.6 × 112.66 × 1 × 1.5 = 101.4 N of it at 0.75 m: 76.05 N m.
    """

    found = findings(fence(mesh=WIRE))
    section = math.pi * 0.1**3 / 32

    def test_an_end_post_takes_the_wire_along_and_the_wind_across(self):
        check = one(self.found, "bending", "P1")  # √(400² + 76.05²) = 407.17
        assert check.demand == pytest.approx(407.17 / self.section, rel=1e-3)
        assert "no brace is counted" in check.because

    def test_it_must_stand_deeper(self):
        # P = √(400² + 101.4²) = 412.65 at 407.17 / 412.65 = 0.9867 m; a = 0.6147; d³ = a (d + 1.0755): 1.102 m
        check = one(self.found, "embedment", "P1")
        assert check.demand == pytest.approx(1.102, abs=2e-3)
        assert check.verdict is Verdict.FAILS

    def test_line_posts_are_not_pulled(self):
        check = one(self.found, "bending", "P2")
        assert check.demand == pytest.approx(2 * 76.05 / self.section, rel=1e-3)
        assert "wire_moment" not in {line.formula.partition(".")[2] for line in check.working}

    def test_a_corner_takes_what_both_sides_leave_over_and_the_wind_the_same_way(self):
        found = findings(fence(mesh=WIRE), rest=around_the_corner(10, 6))
        check = one(found, "bending", "P6")  # 2 × 400 × sin 45° = 565.7 at 1 m; wind on both half bays √2 × 76.05
        assert check.demand == pytest.approx((565.7 + 107.55) / self.section, rel=2e-3)
        assert "both sides" in check.because

    def test_a_square_corner_post_is_bent_over_its_edge(self):
        found = findings(fence(post="wood-4x4", mesh=WIRE), rest=around_the_corner(10, 6))
        check = one(found, "bending", "P6")
        wind = 107.55 * 1.8 / 1.3  # square posts are flat members
        assert check.demand == pytest.approx(math.sqrt(2) * (565.7 + wind) / (0.1**3 / 6), rel=2e-3)

    def test_a_slight_turn_pulls_little(self):
        found = findings(fence(mesh=WIRE), rest=around_the_corner(15.99, 0.3))  # turns 2.87°: 2 × 400 × sin 1.43°
        check = one(found, "bending", "P6")
        assert check.demand == pytest.approx((20.01 + 2 * 76.05) / self.section, rel=5e-3)

    def test_where_wires_of_one_side_alone_pull_at_a_slight_turn_they_stand_nearly_square_to_the_wind(self):
        laid = lay_out(plan(fence(mesh=WIRE), rest=around_the_corner(15.99, 0.3)))
        bare = replace(laid.stretches[1].buildup, rails=())
        fences = {s.name: exposed(laid, s) for s in (laid.stretches[0], replace(laid.stretches[1], buildup=bare))}
        wires = wires_on(fences, laid.posts[5], laid.posts[5].ground)
        assert wires.force == pytest.approx(400.0)
        assert wires.angle == pytest.approx(math.pi / 2 - math.atan(0.3 / 5.99))

    def test_how_hard_they_are_strained_must_be_known(self):
        slack = WIRE.replace("wire-12ga-ht", "wire-3mm").replace('tension = "400 N"\n', "")
        found = findings(fence(mesh=slack), rest=GATE.format(more='leaf_mass = "20 kg"'))
        ends = [one(found, check, "P1") for check in ("embedment", "bending")]
        gates = [f for f in found if f.subject.startswith("gate small, post") and f.check in ("embedment", "bending")]
        assert len(gates) == 4
        for check in (*ends, *gates):
            assert check.verdict is Verdict.NOT_SHOWN
            assert "how hard the wires are strained" in check.because
        assert one(found, "bending", "P2").verdict is Verdict.HOLDS

    def test_where_a_run_of_the_same_wires_goes_on_nothing_pulls(self):
        base = plan(fence(mesh=WIRE))
        side = base.sides[0]
        runs = tuple(
            Run(name=f"line/{n}", start=start, end=end, buildup="run", neighbor=None)
            for n, start, end in ((1, 0.0, 4.0), (2, 4.0, 10.0))
        )
        found = assess(lay_out(replace(base, sides=(replace(side, runs=runs),))))
        blown = [f for f in found if f.check in ("embedment", "bending")]
        pulled = [f.subject for f in blown if any(line.formula == "fence_loads.wire_moment" for line in f.working)]
        assert set(pulled) == {"posts P1, P6"}

    def test_gate_posts_take_the_whole_pull_beside_leaf_and_wind(self):
        found = findings(fence(mesh=WIRE), rest=GATE.format(more='leaf_mass = "20 kg"'))
        for check in (f for f in found if f.subject.startswith("gate small, post") and f.check == "embedment"):
            assert step(check, "fence_loads.wire_moment") == pytest.approx(400.0)
            assert step(check, "fence_loads.force_together") > 400.0

    def test_in_a_wall_the_wire_bends_the_post_at_its_top(self):
        check = one(findings(brick() + fence(setting="wall", embed="80 cm", mesh=WIRE)), "bending", "P1")
        assert check.demand == pytest.approx(407.17 / self.section, rel=1e-3)


class TestPanels:
    def test_posts_bring_their_share_to_the_panel_they_stand_in(self):
        # joints at 2.5, 5 and 7.5 m, posts every 2 m: 1 + 2 = 3 m of mesh hang on the first 2.5 m
        found = findings(brick(more='joints = "3 m"') + fence(setting="wall", embed="80 cm"))
        check = one(found, "bed-joint tension")
        assert step(check, "walls.panel_load") == pytest.approx(111.5 * 1.5 * 3 / 2.5, rel=1e-3)
        # 0.6 × (1353.8 + 200.7 × (1.75 + 0.20015)) / (0.2² / 6) − 0.6 × 4707.8 / 0.2
        assert check.demand == pytest.approx(142940, abs=200)
        # the footing spreads it
        assert one(found, "overturning").demand == pytest.approx(1028.9 + 215.8, abs=1)

    def test_without_a_footing_nothing_spreads_it(self):
        bare = '[buildup.run.wall]\nkind = "brick-double"\nheight = "1 m"\njoints = "3 m"\n'
        check = one(findings(bare + fence(setting="wall", embed="80 cm")), "overturning")
        assert step(check, "walls.panel_load") == pytest.approx(111.5 * 1.5 * 3 / 2.5, rel=1e-3)


class TestFilledTrench:
    def test_what_holds_only_with_the_soil_on_the_footing_is_told(self):
        check = one(findings(brick(footing="48 cm")), "overturning")  # 0.6 × 0.24 × (4707.8 + 2186.7 + 824.4) = 1111.5
        assert check.verdict is Verdict.HOLDS
        assert check.capacity == pytest.approx(1111.5, abs=0.5)
        assert "filled and tamped: without the soil on the footing it does not hold" in check.because
        assert "Until the trench is filled" in check.caution

    def test_what_holds_without_it_is_told_too(self):
        assert "it would still hold" in one(findings(brick()), "overturning").because

    def test_light_soil_counts_by_its_own_weight(self):
        check = one(findings(brick(), place=US + 'soil = "organic"\n'), "overturning")
        assert check.capacity == pytest.approx(0.18 * (4707.8 + 2733.4 + 1177.7 * 11 / 15), abs=0.5)


class TestCourseSteel:
    wall = brick().replace("brick-double", "block-8-hollow")

    def test_the_rule_for_block_presumes_steel_along_the_courses(self):
        check = one(findings(self.wall), "joints")
        assert check.verdict is Verdict.NOT_SHOWN
        assert "course_bar" in check.because

    def test_with_enough_of_it_spacing_is_compared_and_with_too_little_not(self):
        steel = 'course_bar = "8 mm"\ncourse_bar_every = "{} cm"\n'
        enough = brick(more=steel.format(90)).replace("brick-double", "block-8-hollow")  # 50.27 / 0.9 = 55.9 mm2/m
        little = brick(more=steel.format(100)).replace("brick-double", "block-8-hollow")  # 50.3 under 52.9
        assert one(findings(enough), "joints").verdict is Verdict.HOLDS
        assert one(findings(little), "joints").verdict is Verdict.NOT_SHOWN

    def test_from_a_corner_the_first_joint_comes_at_half_the_distance(self):
        stretch = lay_out(plan(brick(), rest=around_the_corner(10, 5))).stretches[1]
        whole = joints(replace(stretch, joints=()))[0]  # 5 m from the corner, 20 ft by the rule: half is 3.048 m
        assert whole.verdict is Verdict.FAILS
        assert (whole.demand, whole.capacity) == (pytest.approx(5.0), pytest.approx(3.048, abs=1e-6))
        assert joints(stretch)[0].verdict is Verdict.HOLDS


class TestReturnCorners:
    def test_a_blunt_corner_gives_no_help_and_says_so(self):
        square, blunt = (
            one(findings(brick(), rest=around_the_corner(*at)), "overturning", "turn") for at in ((10, 5), (13.5, 3.5))
        )
        assert "no help is taken" in blunt.because
        assert "no help is taken" not in square.because
        assert "start" in blunt.because

    @pytest.mark.parametrize(("turn", "helps"), [(59.9, False), (60.1, True), (119.9, True), (120.1, False)])
    def test_it_helps_from_sixty_to_a_hundred_and_twenty_degrees(self, turn, helps):
        x, y = 10 + 5 * math.cos(math.radians(turn)), 5 * math.sin(math.radians(turn))
        laid = lay_out(plan(brick(), rest=around_the_corner(x, y)))
        line = lines_of(laid)["line/1"]
        assert (line.end_return > 0) is helps
        assert line.unrelieved == (() if helps else ("end",))


class TestFrictionOnStone:
    stone = (
        '[buildup.run.footing]\nkind = "rubble-trench"\nwidth = "{0} cm"\nthickness = "20 cm"\nbelow_ground = "20 cm"\n'
        '[buildup.run.wall]\nkind = "dry-stone"\nheight = "70 cm"\nthickness = "{0} cm"\ntop_thickness = "{0} cm"\n'
    )

    @pytest.mark.parametrize(("thick", "word"), [(30, "not"), (100, "still")])
    def test_it_is_named_with_its_standing_and_what_a_smoother_bed_would_do(self, thick, word):
        check = one(findings(self.stone.format(thick)), "sliding")
        assert "friction of 0.6" in check.because
        assert "common practice" in check.because
        assert f"with 0.35 it would {word} hold" in check.because
        # 0.6 × 0.35 × 1600 × 9.80665 × 0.7 × thickness = 2307 × thickness against about 0.8 kN/m of wind
        assert "names no bank" in one(findings(self.stone.format(thick)), "resultant in the base").left_out

    def test_tamped_stone_under_other_walls_is_the_smoother_bed_itself(self):
        check = one(findings(brick().replace('"strip-concrete"', '"rubble-trench"')), "sliding")
        assert "friction of 0.35" in check.because
        assert "would" not in check.because


class TestDowels:
    def test_a_thin_footing_cannot_hold_the_hooks(self):
        found = findings(BARRED.format(more='mortar = "mortar-O"'))
        check = one(found, "dowel")
        bars = one(found, "bending")
        steel = step(bars, "masonry.moment_in_steel")
        # 0.02 × 0.7 × 60 000 psi × share × 0.5 in / 50 = 8.4 in × share, not under 6 in; 20 cm less 3 in
        assert check.demand == pytest.approx(max(0.21336 * min(bars.demand / steel, 1), 0.1524), rel=1e-6)
        assert check.capacity == pytest.approx(0.1238)
        assert check.verdict is Verdict.FAILS

    def test_a_thick_one_holds_them(self):
        text = BARRED.format(more='mortar = "mortar-O"').replace('thickness = "20 cm"', 'thickness = "30 cm"')
        assert one(findings(text), "dowel").verdict is Verdict.HOLDS

    def test_where_no_bar_is_counted_none_is_asked_for(self):
        assert not [finding for finding in findings(BARRED.format(more="")) if finding.check == "dowel"]


def test_what_is_out_of_range_is_told_without_numbers_in_si():
    outside = OutOfRangeError("height in m is 0.3048; the method wants it at least 1")
    assert answers.in_words(outside) == "height is outside what the method covers"
    assert answers.in_words(OutOfRangeError("load in N m is -1; the method wants it above 0")).startswith("load is out")
    assert answers.in_words(OutOfRangeError("it tips over")) == "it tips over"


def test_findings_of_an_american_plan_say_no_si_number():
    measured = re.compile(r"\d ?(?:m|mm|cm|kg|N|kN|Pa|kPa|MPa)\b")
    for text in (brick(), brick(footing="30 cm"), fence(mesh='grown = "75 %"'), BARRED.format(more="")):
        for finding in findings(text, rest=GATE.format(more="") if "posts" in text else ""):
            assert not measured.search(finding.because), finding.because


DRY = """
[buildup.run.footing]
kind = "rubble-trench"
width = "75 cm"
thickness = "25 cm"
below_ground = "25 cm"
[buildup.run.wall]
kind = "dry-stone"
height = "70 cm"
thickness = "55 cm"
"""


@pytest.mark.parametrize("height", ["0.05 m", "0.1 m", "0.15 m", "0.2 m"])
def test_a_wall_that_begins_at_the_ground_line_is_asked_though_rounding_puts_its_bed_above(height):
    level = (
        f'[ground]\npoints = [["0 m", "-5 m", "{height}"], ["10 m", "-5 m", "{height}"], ["5 m", "5 m", "{height}"]]\n'
    )
    found = one(findings(DRY, rest=level), "overturning")
    assert found.verdict is Verdict.HOLDS
    assert found.capacity == pytest.approx(one(findings(DRY), "overturning").capacity)

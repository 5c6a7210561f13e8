"""Fences in detail: posts in walls and on them, tees and graded wood, braces, rails, wires, ties and sheet, by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from importlib.resources import files

import pytest

from pinfold.findings import Verdict
from pinfold.store import planfile
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.fencing.bays import strips_of
from stand_plots import EU, GATE, GROUND, US, brick, fence, findings, one, plan, step

PSI = 6894.757
WIRED = """
[[buildup.run.rail]]
kind = "wire-12ga-ht"
at = "1 m"
tension = "400 N"
"""
BRACE = """
[buildup.run.brace]
rail_at = "1 m"
rail_length = "2 m"
rail = "wood-round-4"
wire = "wire-12ga-ht"
"""
ANCHORS = """
[buildup.run.posts.anchors]
hold = "{hold}"
count = 4
row_spacing = "10 cm"
diameter = "12 mm"
depth = "15 cm"
{more}
"""


def anchored(hold="headed", more=""):
    return findings(
        brick()
        + fence(setting="wall-top", embed="10 cm", more='width = "100 mm"' + ANCHORS.format(hold=hold, more=more))
    )


class TestPostsInWalls:
    """200.8 N of wind at 0.75 m over the top of brickwork 0.2 m thick, a post 0.1 m thick 0.8 m down in it."""

    found = one(findings(brick() + fence(setting="wall", embed="80 cm")), "anchorage")

    def test_the_face_is_pushed_by_the_upper_of_two_forces(self):
        # p1 = (4 × 200.8 + 6 × 150.6 / 0.8) / 0.08 = 24 158, p2 = 19 138; 0.8 × 24158 / 43296 = 0.4464 m
        # 24158 × 0.1 × 0.4464 / 2 = 539.2; cone (π 0.05²/2 + 0.1 × 0.05) = 13.84 in2 × 1.25 √1500 = 669.9 lb
        assert self.found.demand == pytest.approx(539.2, rel=2e-3)
        assert self.found.capacity == pytest.approx(669.9 * 4.44822, rel=2e-3)
        assert self.found.verdict is Verdict.HOLDS

    def test_the_load_goes_on_into_the_wall_and_is_told(self):
        assert "overturning and bending of its stretch" in self.found.because

    def test_it_may_go_through_the_wall_into_the_footing_but_no_deeper(self):
        through = one(findings(brick() + fence(setting="wall", embed="1.35 m")), "anchorage")
        assert "into the footing" in through.because
        assert through.demand < self.found.demand
        below = one(findings(brick() + fence(setting="wall", embed="1.45 m")), "anchorage")
        assert below.verdict is Verdict.NOT_SHOWN
        assert "shorten embed" in below.because

    def test_a_wall_without_a_rule_lets_the_footing_hold_alone(self):
        earth = brick().replace("brick-double", "earth-block").replace("footing", "footing", 1)
        none = one(findings(earth + fence(setting="wall", embed="80 cm")), "anchorage")
        footed = one(findings(earth + fence(setting="wall", embed="1.35 m")), "anchorage")
        assert none.verdict is Verdict.NOT_SHOWN
        assert "earth-block" in none.because
        assert footed.verdict is not Verdict.NOT_SHOWN
        assert "footing alone" in footed.because

    def test_a_post_as_wide_as_its_wall_is_not_held(self):
        wide = one(findings(brick() + fence(setting="wall", embed="80 cm", more='width = "20 cm"')), "anchorage")
        assert wide.verdict is Verdict.NOT_SHOWN


class TestPostsOnWalls:
    def test_unsaid_anchors_are_asked_for(self):
        found = one(findings(brick() + fence(setting="wall-top", embed="10 cm")), "anchorage", "P2")
        assert found.verdict is Verdict.NOT_SHOWN
        assert "row_spacing" in found.because

    def test_pull_and_shove_use_up_the_anchor_together(self):
        # pull 150.6 / (2 × 0.1) = 753; cone π 0.05² = 12.17 in2 × 1.25 √1500 = 589.4 lb; shove 50.2, half the cone
        found = one(anchored(), "anchorage", "P2")
        assert found.demand == pytest.approx(753 / (589.4 * 4.44822) + 50.2 / (294.7 * 4.44822), rel=3e-3)
        assert found.verdict is Verdict.HOLDS

    def test_the_walls_top_is_bent_over_a_spread(self):
        # 150.6 / (0.1 + 4 × 0.2) / (0.2² / 6) = 25 100 Pa
        found = one(anchored(), "bending", "the wall's top under posts P2")
        assert found.demand == pytest.approx(25100, rel=3e-3)

    def test_the_european_wall_is_bent_by_design(self):
        built = brick(more='mortar = "mortar-N"') + fence(
            setting="wall-top", embed="10 cm", more='width = "100 mm"' + ANCHORS.format(hold="headed", more="")
        )
        found = one(findings(built, place=EU + GROUND, family="eu"), "bending", "the wall's top under posts P2")
        carried = step(found, "fence_loads.mesh_moment")

        assert found.demand == pytest.approx(1.5 * carried / 0.9 / (0.2**2 / 6), rel=1e-6)
        assert found.capacity == pytest.approx(dict(found.figures)["tension across the beds"].value / 3)

    def test_what_a_makers_anchor_holds_is_asked_of_the_maker(self):
        silent = one(anchored(hold="maker"), "anchorage", "P2")
        told = one(anchored(hold="maker", more='pull = "2 kN"\nshove = "2 kN"'), "anchorage", "P2")
        assert silent.verdict is Verdict.NOT_SHOWN
        assert told.demand == pytest.approx(753 / 2000 + 50.2 / 2000, rel=3e-3)

    def test_a_bent_anchor_never_holds_more_than_a_headed_one(self):
        bent = one(anchored(hold="bent", more='hook = "4 cm"'), "anchorage", "P2")
        assert bent.demand >= one(anchored(), "anchorage", "P2").demand - 1e-9


class TestSections:
    TEE = (
        'flange_width = "40 mm"\nflange_thickness = "4 mm"\nstem_depth = "36 mm"\nstem_thickness = "4 mm"\n'
        'width = "40 mm"\nallowable = "150 MPa"'
    )

    def test_a_measured_tee_is_bent_the_weaker_way(self):
        found = one(findings(fence(post="steel-tee-133", more=self.TEE)), "bending", "P2")
        side = (160e-6 * 0.04**2 + 144e-6 * 0.004**2) / 12 / 0.02
        assert found.demand == pytest.approx(step(found, "fence_loads.mesh_moment") / side, rel=1e-6)
        assert found.capacity == pytest.approx(150e6)

    def test_without_its_stress_it_is_not_shown(self):
        found = one(findings(fence(post="steel-tee-133", more=self.TEE.rpartition("\n")[0])), "bending", "P2")
        assert found.verdict is Verdict.NOT_SHOWN
        assert "allowable" in found.because

    def test_wood_by_its_table_takes_the_factor_of_wind(self):
        graded = 'width = "100 mm"\ntable_bending = "10 MPa"'
        found = one(findings(fence(more=graded)), "bending", "P2")
        cut = one(findings(fence(more=f'{graded}\nincising = "0.8"')), "bending", "P2")
        assert found.capacity == pytest.approx(16e6)  # round, thinner than a foot: wind alone
        assert cut.capacity == pytest.approx(12.8e6)

    def test_what_pulls_for_good_may_govern_where_wood_takes_less(self):
        wired = WIRED.replace("400 N", "1500 N")
        found = one(findings(fence(more='width = "125 mm"\ntable_bending = "10 MPa"', mesh=wired)), "bending", "P1")
        assert found.capacity == pytest.approx(9e6)
        assert "by itself" in found.because

    def test_wood_that_may_take_nothing_holds_nothing(self):
        wired = WIRED.replace("400 N", "1500 N")
        found = one(findings(fence(more='width = "125 mm"\ntable_bending = "0 MPa"', mesh=wired)), "bending", "P1")
        assert found.verdict is Verdict.FAILS


class TestDeflection:
    def test_the_top_moves_as_a_cantilever(self):
        # 200.8 N at 0.75 of 1.5 m on 8.27 GPa × π 0.1⁴/64
        found = one(findings(fence()), "deflection")
        stiff = 1200e3 * PSI * math.pi * 0.1**4 / 64
        force = step(found, "fence_loads.mesh_force")
        assert found.demand == pytest.approx(force * 0.75**2 * (4.5 - 0.75) / (6 * stiff), rel=1e-4)
        assert found.capacity == pytest.approx(1.5 / 60)
        assert "half an inch" in found.because

    def test_a_thin_post_moves_too_far(self):
        assert one(findings(fence(more='width = "40 mm"')), "deflection").verdict is Verdict.FAILS

    def test_gate_posts_are_asked_and_the_worse_is_named(self):
        found = one(findings(fence(), rest=GATE.format(more='leaf_mass = "20 kg"')), "deflection", "gate small")
        assert found.verdict is Verdict.HOLDS
        assert "the worse of both: post P" in found.because


class TestShear:
    def test_round_wood_is_sheared_by_four_thirds_of_the_mean(self):
        # 135 psi × 1.6 × 0.97
        found = one(findings(fence()), "shear")
        force = step(found, "fence_loads.mesh_force")
        assert found.demand == pytest.approx(4 / 3 * force / (math.pi * 0.1**2 / 4), rel=1e-6)
        assert found.capacity == pytest.approx(135 * 1.6 * 0.97 * PSI, rel=1e-6)

    def test_steel_is_not_asked(self):
        assert not [each for each in findings(fence(post="pipe-60", more="")) if each.check == "shear"]


class TestBraces:
    found = findings(fence(mesh=WIRED + BRACE))

    def test_the_end_post_keeps_the_level_pull_and_loses_the_moment(self):
        bare = one(findings(fence(mesh=WIRED)), "bending", "P1")
        braced = one(self.found, "bending", "P1")
        assert braced.demand < bare.demand
        assert "a brace takes" in braced.because
        assert step(one(self.found, "embedment", "P1"), "fence_loads.force_together") > 400

    def test_cold_is_in_the_forces_of_the_brace(self):
        # 400 N and 200 GPa × π 2.5146² / 4 mm2 × 12e-6 × 30
        cold = 400 + 29000e3 * PSI * math.pi * (0.099 * 0.0254) ** 2 / 4 * 12e-6 * 30
        rail = one(self.found, "brace", "rail")
        assert rail.demand == pytest.approx(cold, rel=1e-4)
        assert one(self.found, "brace", "wire").demand == pytest.approx(cold * math.sqrt(5) / 2, rel=1e-4)
        assert one(self.found, "brace", "lift").demand == pytest.approx(cold / 2, rel=1e-4)

    def test_a_short_stout_rail_is_crushed_before_it_buckles_and_says_by_which_stress(self):
        short = BRACE.replace('rail_length = "2 m"', 'rail_length = "60 cm"')
        found = one(findings(fence(mesh=WIRED + short)), "brace", "rail")

        assert "too stout to buckle" in found.because
        allowed = dict(found.figures)["allowable stress of the rail"].value
        assert found.capacity == pytest.approx(
            dict(found.figures)["width of the post"].value ** 2 * math.pi / 4 * allowed
        )

    def test_a_thin_rail_buckles_and_a_shallow_post_lifts(self):
        thin = findings(fence(mesh=WIRED + BRACE.replace('"wood-round-4"', '"bar-16"')))
        assert one(thin, "brace", "rail").verdict is Verdict.FAILS
        steep = findings(fence(embed="10 cm", mesh=WIRED.replace("400 N", "4 kN") + BRACE))
        assert one(steep, "brace", "lift").verdict is Verdict.FAILS

    def test_a_strut_is_pressed_along_its_length_and_has_no_wire(self):
        strut = 'form = "strut"\n' + BRACE.split("\n", 2)[2].replace('wire = "wire-12ga-ht"\n', "")
        found = findings(fence(mesh=f"{WIRED}\n[buildup.run.brace]\n{strut}"))
        rail = one(self.found, "brace", "rail").demand
        assert one(found, "brace", "strut").demand == pytest.approx(rail * math.sqrt(5) / 2)
        assert not [each for each in found if each.check == "brace" and "wire" in each.subject]

    def test_a_wire_of_unknown_strength_is_not_shown(self):
        found = findings(fence(mesh=WIRED + BRACE.replace('wire = "wire-12ga-ht"', 'wire = "bar-4"')))
        assert one(found, "brace", "wire").verdict is Verdict.NOT_SHOWN

    def test_gate_posts_are_braced_too_but_not_against_their_leaf(self):
        rest = GATE.format(more='leaf_mass = "20 kg"')
        found = findings(fence(mesh=WIRED + BRACE), rest=rest)
        bare = findings(fence(mesh=WIRED), rest=rest)
        assert "P3" in one(found, "brace", "rail").subject
        for name in ("post P3", "post P4"):
            assert one(found, "bending", name).demand < one(bare, "bending", name).demand


class TestMeshStrained:
    def test_its_pull_ends_at_the_ends(self):
        found = one(findings(fence(mesh='tension = "500 N/m"')), "embedment", "P1")
        assert step(found, "fence_loads.wire_moment") == pytest.approx(500 * 1.5 * 0.75)

    def test_unsaid_it_is_named_as_left_out(self):
        assert "strained by itself" in one(findings(fence()), "embedment", "P1").left_out


SAWN = """
[[buildup.run.rail]]
kind = "sawn-50x100"
at = "1.4 m"
"""


class TestRails:
    def test_mesh_leans_half_way_to_each_neighbor(self):
        rails = WIRED.replace("1 m", "50 cm") + SAWN
        assert strips_of(plan(fence(mesh=rails)).buildups["run"]) == pytest.approx((0.95, 0.55))
        lapped = plan(brick() + fence(setting="wall", embed="80 cm", mesh=rails)).buildups["run"]
        assert strips_of(lapped) == pytest.approx((0.7, 0.55))

    def test_a_sawn_rail_on_edge_bends_both_ways(self):
        found = one(findings(fence(mesh=SAWN)), "rail")
        wind, weight = step(found, "fence_loads.mesh_force"), (2.8 + mass() * 1.5) * 9.80665
        across, down = wind * 4 / 8 / (0.1 * 0.05**2 / 6), weight * 4 / 8 / (0.05 * 0.1**2 / 6)
        assert found.demand == pytest.approx(across + down, rel=1e-6)

    def test_a_bar_gives_too_much(self):
        found = one(findings(fence(mesh=SAWN.replace("sawn-50x100", "bar-12"))), "rail")
        assert found.verdict is Verdict.FAILS

    def test_rails_alone_carry_themselves(self):
        alone = fence(mesh=SAWN)
        head, _, tail = alone.partition("[buildup.run.mesh]")
        found = one(findings(brick() + head + tail[tail.index("[[buildup") :]), "rail")
        assert found.verdict is Verdict.HOLDS


def mass() -> float:
    """Of the mesh of the small fences, kg/m2."""
    mesh = plan(fence()).buildups["run"].mesh
    return mesh.kind.value("mass_per_area")


class TestWires:
    found = findings(fence(mesh=WIRED))

    def test_wind_and_cold_pull_harder_than_it_was_strained(self):
        held = one(self.found, "wire")
        assert 400 < step(held, "wires.pull_at_sag") <= held.demand < step(held, "wires.tension_after")
        assert "twentieth of its span" in held.because
        assert "strain it again" not in held.because

    def test_soft_wire_is_stretched_for_good_in_a_storm_and_it_is_told(self):
        soft = one(
            findings(
                fence(mesh=WIRED.replace("wire-12ga-ht", "wire-12ga-soft").replace("400 N", "100 N")),
                place=EU + GROUND,
                family="eu",
            ),
            "wire",
        )
        assert "strain it again" in soft.because
        assert step(soft, "wires.pull_at_sag") == pytest.approx(soft.demand)

    def test_a_rougher_wind_never_asks_less_of_a_wire(self):
        soft = fence(mesh=WIRED.replace("wire-12ga-ht", "wire-12ga-soft").replace("400 N", "100 N"))
        asked = []
        for speed in range(16, 60, 4):
            place = f'exposure = "II"\nwind_speed = "{speed} m/s"\n' + GROUND
            asked.append(one(findings(soft, place=place, family="eu"), "wire").demand)
        assert asked == sorted(asked)

    def test_an_overstrained_wire_parts_in_the_cold(self):
        found = one(findings(fence(mesh=WIRED.replace("400 N", "2.8 kN"))), "wire")
        assert found.verdict is Verdict.FAILS
        assert "cold pulls hardest" in found.because

    def test_warmth_lets_it_hang_through(self):
        slack = one(self.found, "slack")
        assert slack.verdict is Verdict.HOLDS
        assert one(findings(fence(mesh=WIRED.replace("400 N", "40 N"))), "slack").demand > slack.demand

    def test_unknown_strain_is_not_shown(self):
        unsaid = findings(fence(mesh=WIRED.replace('tension = "400 N"', "").replace("wire-12ga-ht", "wire-3mm")))
        for check in ("wire", "slack"):
            assert one(unsaid, check).verdict is Verdict.NOT_SHOWN
            assert "tension" in one(unsaid, check).because


class TestTies:
    def test_a_tie_takes_the_wind_on_its_piece_of_mesh(self):
        found = one(findings(fence(mesh=WIRED)), "tie")
        assert found.demand == pytest.approx(step(found, "fence_loads.mesh_force"))
        assert "tie wire" in found.because

    def test_staples_on_wood_pull_out(self):
        found = one(findings(fence()), "tie")
        # 1380 × 0.36^2.5 × 0.148 = 15.88 lb/in; two legs of 1.25 in, a quarter of it
        assert found.capacity == pytest.approx(15.88 * 2 * 1.25 * 0.25 * 4.44822, rel=1e-3)

    def test_far_from_rail_to_rail_they_fail(self):
        grown = one(findings(fence(mesh='grown = "100 %"')), "tie")
        assert grown.verdict is Verdict.FAILS


class TestSheet:
    SHEET = '[buildup.run.wall]\nkind = "sheet-on-frame"\nheight = "1.5 m"\n{more}\n[buildup.run.posts]\nkind = "wood-6x6"\nspacing = "2 m"\nheight = "10 cm"\nsetting = "ground"\nembed = "1.2 m"\n'

    def test_unsaid_it_is_asked_for(self):
        found = one(findings(self.SHEET.format(more="")), "bending", "stretch")
        assert found.verdict is Verdict.NOT_SHOWN
        assert "rail_spacing" in found.because

    def test_it_spans_from_rail_to_rail(self):
        said = 'section_modulus = "1.5e-6 m3/m"\nrail_spacing = "70 cm"\nallowable = "130 MPa"'
        found = one(findings(self.SHEET.format(more=said)), "bending", "stretch")
        pressure = step(found, "wind.wall_pressure")
        assert found.demand == pytest.approx(0.6 * pressure * 0.7**2 / 8 / 1.5e-6, rel=1e-6)


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_samples_hold_between_and_at_their_posts(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")
    checks = ("anchorage", "deflection", "rail", "wire", "slack", "tie", "brace")
    found = [each for each in assess(lay_out(planfile.plan_of(text))) if each.check in checks]

    assert found
    assert {each.verdict for each in found} == {Verdict.HOLDS}


def test_stretches_of_a_build_up_are_told_once():
    base = plan(fence(mesh=WIRED), rest=GATE.format(more='leaf_mass = "20 kg"'))
    found = [each for each in assess(lay_out(replace(base))) if each.check == "wire"]

    assert [each.subject for each in found] == ["stretches line/1a, line/1b"]


def test_the_coldest_and_the_hottest_of_the_plan_count_for_wires_and_braces():
    mild = US + GROUND + 'coldest = "10 °C"\nhottest = "25 °C"\n'
    usual, calm = findings(fence(mesh=WIRED + BRACE)), findings(fence(mesh=WIRED + BRACE), place=mild)

    assert one(calm, "brace", "rail").demand < one(usual, "brace", "rail").demand
    assert one(calm, "slack").demand < one(usual, "slack").demand

"""The wall itself as masonry: levels where it changes, shear, pressed edges, bars and proportions, by hand on small plots."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from pinfold.formulas import bed_shear, wall_levels
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from small_plots import Plot
from stand_plots import step

US = 'wind_speed = "40 m/s"\nexposure = "C"\nwind_edition = "7-16"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
EU = 'wind_speed = "25 m/s"\nexposure = "II"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
WALL = """
[buildup.b.footing]
kind = "strip-concrete"
width = "60 cm"
thickness = "25 cm"
below_ground = "45 cm"
[buildup.b.wall]
kind = "{kind}"
height = "{height}"
{more}
"""
PRESSURE, EXPOSED, SUNK = 1804.7, 1.0, 0.20015
"""Of ten meters of brick wall a meter high, as worked in test_stability."""


def wall(kind="brick-double", height="1 m", more='thickness = "20 cm"\ndensity = "2000 kg/m3"'):
    return WALL.format(kind=kind, height=height, more=more)


def findings(buildup, family="us", length=10.0):
    plot = Plot(buildup=buildup, corners=((0.0, 0.0), (length, 0.0)))
    text = plot.text().replace("[place]", f"[place]\n{US if family == 'us' else EU}", 1)
    return assess(lay_out(plan_of(text.replace('units = "metric"', f'units = "metric"\nfamily = "{family}"', 1))))


def one(found, check):
    fits = [finding for finding in found if finding.check == check]
    assert len(fits) == 1, [finding.check for finding in found]
    return fits[0]


def checks(found):
    return {finding.check for finding in found}


class TestBrickInTheAmericanFamily:
    found = findings(wall().replace("25 cm", "20 cm").replace("45 cm", "40 cm"))

    def test_shear_is_three_halves_of_the_force_on_the_bed(self):
        check = one(self.found, "shear in a bed")
        # 1.5 × 0.6 × 1804.7 / 0.2 = 8121; least of 58 psi, 120 psi and 37 psi + 0.45 × 0.6 × 4707.8 / 0.2 = 261 460
        assert check.demand == pytest.approx(8121, abs=3)
        assert check.capacity == pytest.approx(37 * 6894.757 + 0.45 * 0.6 * 4707.8 / 0.2, abs=20)
        assert check.verdict is Verdict.HOLDS

    def test_a_wall_that_goes_up_all_alike_has_no_change(self):
        assert "change in the wall" not in checks(self.found)

    def test_a_wall_in_mortar_needs_no_rule_of_proportion(self):
        assert not {"slenderness", "pressed edge"} & checks(self.found)


class TestSheet:
    HIGH = wall(more='thickness = "20 cm"\ndensity = "2000 kg/m3"\nmembrane_at = "35 cm"').replace("25 cm", "20 cm")
    HIGH = HIGH.replace("45 cm", "40 cm")

    def test_no_tension_crosses_a_sheet_over_the_ground(self):
        found = findings(self.HIGH)
        check, foot = one(found, "change in the wall"), one(found, "bed-joint tension")
        above = 0.35 - SUNK
        moment = wall_levels.moment_above(pressure=PRESSURE, height=EXPOSED, arm_share=0.55, level=above)
        weight = 2000 * 9.80665 * 0.2 * (EXPOSED - above)
        assert check.demand == pytest.approx(0.6 * moment / (0.6 * weight), rel=1e-3)
        assert check.capacity == pytest.approx(0.1)
        assert check.because.startswith("at the damp-proof sheet; no tension is taken across it")
        assert check.verdict is Verdict.FAILS  # the whole load stands 0.19 m off the middle of a wall 0.2 m thick
        assert foot.verdict is Verdict.HOLDS
        assert "sheet laid higher" in check.mend

    def test_a_sheet_under_the_ground_is_turned_by_all_of_the_wind(self):
        check = one(findings(self.HIGH.replace("35 cm", "10 cm")), "change in the wall")
        moment = PRESSURE * EXPOSED * (0.55 + SUNK - 0.10)
        assert check.demand == pytest.approx(moment / (2000 * 9.80665 * 0.2 * (EXPOSED + SUNK - 0.10)), rel=1e-3)

    def test_a_sheet_at_the_foot_leaves_friction_alone(self):
        found = findings(self.HIGH.replace('membrane_at = "35 cm"', "membrane = true"))
        check = one(found, "shear in a bed")
        assert "damp-proof sheet" in check.because
        assert check.capacity == pytest.approx(0.3 * 0.6 * 4707.8, abs=2)
        assert "resultant in the base" in checks(found)
        assert "change in the wall" not in checks(found)


BARS = 'grout = "partial"\ngrout_spacing = "60 cm"\nbar = "#4"\nbar_spacing = "60 cm"\n'


class TestBars:
    tall = wall("block-200-hollow", "1.8 m", BARS)

    def test_bars_bring_lap_cover_shear_and_the_span_between_them(self):
        found = findings(self.tall)
        assert {"bending", "lap", "cover", "shear at the bars", "span between bars", "dowel"} <= checks(found)
        assert "shear in a bed" not in checks(found)

    def test_a_lap_not_told_is_the_whole_one_and_must_fit(self):
        check = one(findings(self.tall), "lap")
        assert check.demand == pytest.approx(48 * 0.0127, rel=1e-3)  # 48 d at 24 ksi
        assert check.capacity > 1.5
        assert "must fit in the wall" in check.because

    def test_a_lap_as_laid_is_asked_for_the_stress_of_the_bar(self):
        check = one(findings(self.tall.replace('bar = "#4"', 'bar = "#4"\nlap = "40 cm"')), "lap")
        bent = one(findings(self.tall), "bending")
        carried = next(line.number for line in bent.working if line.formula == "masonry.moment_in_steel")
        assert check.capacity == pytest.approx(0.4)
        assert check.demand == pytest.approx(max(48 * 0.0127 * bent.demand / carried, 0.3048), rel=1e-3)

    def test_the_equation_that_the_building_code_removes_is_told_and_never_asked(self):
        check = one(findings(self.tall.replace('bar = "#4"', 'bar = "#6"')), "lap")
        asked, removed = (step(check, f"steel.{name}") for name in ("lap_by_allowable_stress", "lap_by_msjc05"))
        assert removed > asked == check.demand
        assert "which the building code puts aside, asks more" in check.because

    def test_too_short_a_lap_fails(self):
        check = one(findings(self.tall.replace('bar = "#4"', 'bar = "#4"\nlap = "20 cm"')), "lap")
        assert check.verdict is Verdict.FAILS
        assert "longer lap" in check.mend

    def test_the_wall_between_bars_is_a_beam(self):
        found = findings(self.tall)
        check = one(found, "span between bars")
        bent = next(line.number for line in check.working if line.formula == "wall_spans.panel_moment")
        pressure = dict(next(line.inputs for line in check.working if line.formula == "wall_spans.panel_moment"))[
            "pressure"
        ]
        modulus = (0.19**3 - 0.13**3) / 12 * 2 / 0.19  # on the face shells of 3 cm
        assert bent == pytest.approx(pressure * 0.6**2 / 8)
        assert check.demand == pytest.approx(0.6 * bent / modulus, rel=1e-6)
        assert check.capacity == pytest.approx(66 * 6894.757, rel=1e-4)

    def test_shear_at_a_bar_is_taken_by_its_grouted_core(self):
        found = findings(self.tall)
        check = one(found, "shear at the bars")
        line = next(line for line in check.working if line.formula == "bed_shear.shear_in_reinforced")
        assert dict(line.inputs)["width"] == pytest.approx(0.1905)
        assert dict(line.inputs)["depth"] == pytest.approx(0.095)
        assert check.capacity == pytest.approx(bed_shear.shear_by_strength(masonry_strength=1500 * 6894.757), rel=1e-6)

    @pytest.mark.parametrize(("place", "deeper"), [("both", True), ("outer", False), ("inner", False)])
    def test_a_bar_near_a_face_works_at_its_own_depth(self, place, deeper):
        middle = one(findings(self.tall), "bending")
        moved = one(findings(self.tall.replace('bar = "#4"', f'bar = "#4"\nbar_place = "{place}"')), "bending")
        assert (moved.capacity > middle.capacity) is deeper
        assert ("from both sides" in moved.because) is not deeper

    def test_where_bars_stop_the_plain_wall_is_asked(self):
        low = findings(self.tall.replace('bar = "#4"', 'bar = "#4"\nbar_height = "40 cm"'))
        high = findings(self.tall.replace('bar = "#4"', 'bar = "#4"\nbar_height = "1.6 m"'))
        assert one(low, "change in the wall").demand > one(high, "change in the wall").demand
        assert "where the upright bars stop" in one(low, "change in the wall").because

    def test_where_the_grout_stops_the_hollow_wall_is_asked_and_weighs_less(self):
        whole = findings(self.tall)
        half = findings(self.tall.replace('bar = "#4"', 'bar = "#4"\ngrout_height = "90 cm"'))
        assert one(half, "overturning").capacity < one(whole, "overturning").capacity
        assert "where the grout stops" in one(half, "change in the wall").because


class TestDryStone:
    stone = wall("dry-stone", "1.2 m", 'thickness = "60 cm"\ntop_thickness = "35 cm"').replace(
        "strip-concrete", "rubble-trench"
    )
    stone = stone.replace('width = "60 cm"', 'width = "80 cm"').replace("45 cm", "25 cm")

    def test_every_quarter_is_looked_at_and_the_worst_told(self):
        check = one(findings(self.stone), "change in the wall")
        assert "of the way up" in check.because
        assert check.unit.symbol == "m"

    def test_where_its_beds_are_said_to_pull_the_section_is_that_of_the_level(self):
        laid = self.stone.replace("[buildup.b.wall]", '[buildup.b.wall]\nflexural_tension = "0.05 MPa"')
        check = one(findings(laid), "change in the wall")
        sections = [line for line in check.working if line.formula == "walls.solid_modulus"]
        assert [dict(line.inputs)["thickness"] < 0.55 for line in sections] == [True]

    def test_course_slides_on_course_by_friction_of_stone(self):
        check = one(findings(self.stone), "shear in a bed")
        assert "course on course" in check.because
        assert ("friction", 0.6) in [(name, figure.value) for name, figure in check.figures]

    def test_its_edge_is_pressed_by_less_than_a_tenth_of_the_wall(self):
        check = one(findings(self.stone), "pressed edge")
        assert check.capacity == pytest.approx(0.1e6)

    def test_it_keeps_to_six_times_its_thickness(self):
        check = one(findings(self.stone), "slenderness")
        assert check.capacity == pytest.approx(3.6)
        assert check.verdict is Verdict.HOLDS

    def test_a_slim_one_does_not(self):
        slim = self.stone.replace("60 cm", "18 cm").replace("35 cm", "18 cm")
        assert one(findings(slim), "slenderness").verdict is Verdict.FAILS

    def test_where_the_load_leaves_the_wall_the_edge_is_not_shown(self):
        slim = self.stone.replace("60 cm", "18 cm").replace("35 cm", "18 cm")
        check = one(findings(slim), "pressed edge")
        assert check.verdict is Verdict.NOT_SHOWN
        assert "see the resultant" in check.because


class TestEuropeanFamily:
    def test_shear_is_the_bond_and_four_tenths_of_the_pressure(self):
        found = findings(wall(), family="eu")
        check = one(found, "shear in a bed")
        line = next(line for line in check.working if line.formula == "bed_shear.shear_by_en1996")
        assert dict(line.inputs)["initial"] == pytest.approx(0.2e6)  # clay in M2.5 to M9
        assert check.capacity == pytest.approx(line.number * 0.2 / 3.0)

    def test_the_edge_of_an_earth_wall_is_a_block_of_pressure(self):
        found = findings(wall("rammed-earth", "60 cm", 'thickness = "40 cm"'), family="eu")
        check = one(found, "pressed edge")
        off = next(line.number for line in check.working if line.formula == "bearing.eccentricity")
        assert check.capacity == pytest.approx(1e6 / 3 * (0.4 - 2 * off))

    def test_friction_of_earth_is_four_tenths(self):
        found = findings(wall("rammed-earth", "60 cm", 'thickness = "40 cm"'), family="eu")
        assert ("friction", 0.4) in [(name, figure.value) for name, figure in one(found, "shear in a bed").figures]


@pytest.mark.parametrize("family", ["us", "eu"])
@pytest.mark.parametrize(
    "kind",
    [
        "earth-bag",
        "adobe",
        "earth-block",
        "mortared-rubble",
        "rubble-lime",
        "dry-stone-low",
        "foamed-block",
        "poured-concrete",
    ],
)
def test_every_kind_is_answered_and_never_passes_unproved(family, kind):
    found = findings(wall(kind, "90 cm", "").replace("60 cm", "90 cm"), family=family)
    shear = one(found, "shear in a bed")
    assert shear.verdict in Verdict
    for finding in found:
        if finding.verdict is Verdict.NOT_SHOWN:
            assert finding.because


def test_no_wind_known_shows_nothing():
    plot = Plot(buildup=wall("adobe", "60 cm", ""), corners=((0.0, 0.0), (6.0, 0.0)))
    found = assess(lay_out(plan_of(plot.text())))
    for check in ("shear in a bed", "pressed edge"):
        assert one(found, check).verdict is Verdict.NOT_SHOWN


def test_a_wall_as_high_as_the_plan_lets_it_be_fails_and_does_not_crash():
    found = findings(wall("block-200-hollow", "6 m", BARS + 'bar_height = "1 m"\nmembrane_at = "2 m"'))
    assert one(found, "change in the wall").verdict is Verdict.FAILS

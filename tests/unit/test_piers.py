"""Walls with piers: where these stand, what they hold, and the panel between them; by hand on small plots."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from pinfold.formulas import bearing, pier_sections, wall_spans
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.piering import pier_bays, pier_places
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from small_plots import SQUARE, Plot

PLACE = {
    "us": 'wind_speed = "40 m/s"\nexposure = "C"\nwind_edition = "7-16"\nsoil = "sand"\nfrost_depth = "30 cm"\n',
    "eu": 'wind_speed = "25 m/s"\nexposure = "II"\nsoil = "sand"\nfrost_depth = "30 cm"\n',
}
THIN = """
[buildup.b.footing]
kind = "strip-concrete"
width = "50 cm"
thickness = "20 cm"
below_ground = "40 cm"
[buildup.b.wall]
kind = "brick-double"
height = "1 m"
thickness = "20 cm"
density = "2000 kg/m3"
joints = "30 m"
joint_spacing = "30 m"
"""
PIERS = """
[buildup.b.piers]
spacing = "3 m"
width = "40 cm"
depth = "40 cm"
pad_length = "80 cm"
pad_width = "90 cm"
"""
WALL, STRIP, SOIL = 2000 * 9.80665 * 0.2 * 1.20015, 2322.68 * 9.80665 * 0.5 * 0.2, 1500 * 9.80665 * 0.3 * 0.20015
PIER = 2000 * 9.80665 * 0.4 * 0.2 * 1.20015
PAD = 2322.68 * 9.80665 * 0.8 * 0.4 * 0.2


def laid(piers=PIERS, family="us", wall=THIN, length=9.4, **more):
    plot = Plot(buildup=wall + piers, corners=more.pop("corners", ((0.0, 0.0), (length, 0.0))), **more)
    text = plot.text().replace("[place]", f"[place]\n{PLACE[family]}", 1)
    return lay_out(plan_of(text.replace('units = "metric"', f'units = "metric"\nfamily = "{family}"', 1)))


def one(found, check):
    fits = [finding for finding in found if finding.check == check]
    assert len(fits) == 1, [finding.check for finding in found]
    return fits[0]


def test_piers_stand_at_free_ends_and_in_equal_bays_between():
    (stretch,) = laid().stretches

    assert pier_places(stretch) == pytest.approx((0.2, 3.2, 6.2, 9.2))
    assert pier_bays(stretch) == pytest.approx((3.0, 3.0, 3.0))


def test_at_a_corner_the_other_wall_stands_for_a_pier():
    stretches = laid(corners=SQUARE, is_closed=True).stretches

    for stretch in stretches:
        assert len(pier_places(stretch)) == len(pier_bays(stretch)) - 1
        assert max(pier_bays(stretch)) <= 3.0 + 1e-9


def test_a_control_joint_gets_a_pier_of_its_own():
    (stretch,) = laid(wall=THIN.replace('"30 m"', '"4.7 m"')).stretches

    assert any(place == pytest.approx(stretch.joints[0].at) for place in pier_places(stretch))


def test_without_piers_there_are_none():
    (stretch,) = laid(piers="").stretches

    assert pier_places(stretch) == ()
    assert pier_bays(stretch) == ()


class TestInTheAmericanFamily:
    plain, stiff = assess(laid(piers="")), assess(laid())
    wind = next(line.number for line in one(stiff, "overturning").working if line.formula == "wind.wall_pressure")

    def test_the_pads_hold_the_wall_down(self):
        check = one(self.stiff, "overturning")
        # weights over a bay of 3 m: all of them about the strip, and what stands on the pad 0.2 m farther from its toe
        line, spread = WALL + STRIP + SOIL, (PIER + PAD) / 3
        held = (line + spread) * 0.25 + (line * 0.8 / 3 + spread) * 0.2
        assert check.capacity == pytest.approx(0.6 * held, rel=2e-3)
        assert check.demand == pytest.approx(one(self.plain, "overturning").demand)
        assert check.capacity > one(self.plain, "overturning").capacity
        assert "the piers are counted" in check.because

    def test_the_pads_press_what_the_strip_does_not(self):
        check = one(self.stiff, "bearing")
        share = next(figure.value for name, figure in check.figures if name == "factor on the weight")
        moment = 0.6 * self.wind * (0.55 + 0.40015)
        line = share * (WALL + STRIP + SOIL)
        leaning = min(moment * 3, line * 0.5 / 6 * 2.2)
        pad = line * 0.8 + share * (PIER + PAD)
        toe = bearing.base_pressure(load=pad / 0.8, width=0.9, eccentricity=(moment * 3 - leaning) / pad).toe
        assert check.demand == pytest.approx(max(toe, 2 * line / 0.5), rel=5e-3)

    def test_the_lowest_bed_is_as_stout_as_pier_and_wall(self):
        check = one(assess(laid(PIERS.replace('depth = "40 cm"', 'depth = "60 cm"'))), "bed-joint tension")
        section = pier_sections.pier_section(length=2.8, thickness=0.2, width=0.4, depth=0.6, inset=0.5)
        area = (0.2 * 2.6 + 0.4 * 0.6) / 3
        pulled = 0.6 * self.wind * (0.55 + 0.20015) / (section.modulus / 3) - 0.6 * (WALL + 2 * PIER / 3) / area
        assert pulled > 5e4
        assert check.demand == pytest.approx(pulled, rel=2e-3)
        assert check.demand < one(self.plain, "bed-joint tension").demand

    def test_a_slender_rib_never_makes_the_wall_weaker(self):
        check, bare = one(self.stiff, "bed-joint tension"), one(self.plain, "bed-joint tension")
        assert check.demand <= bare.demand

    def test_the_panel_is_a_beam_from_pier_to_pier(self):
        check = one(self.stiff, "panel between piers")
        assert check.demand == pytest.approx(0.6 * self.wind * 2.6**2 / 8 / (0.2**2 / 6), rel=1e-3)
        assert check.capacity == pytest.approx(80 * 6894.757, rel=1e-4)  # brick in mortar N, along the beds
        assert check.verdict is Verdict.HOLDS

    def test_piers_too_far_apart_fail_and_say_what_mends(self):
        wide = assess(laid(PIERS.replace('"3 m"', '"9 m"')))
        check = one(wide, "panel between piers")
        assert check.verdict is Verdict.FAILS
        assert "nearer together" in check.mend


class TestInTheEuropeanFamily:
    stiff = assess(laid(family="eu"))

    def test_the_panel_is_held_at_its_foot_too(self):
        check = one(self.stiff, "panel between piers")
        line = next(line for line in check.working if line.formula == "wall_spans.panel_coefficient")
        assert dict(line.inputs)["height_over_length"] == pytest.approx(1 / 2.6, rel=1e-3)
        assert line.number < wall_spans.SIMPLE_SPAN
        assert "held at foot and both edges" in check.because

    def test_a_membrane_leaves_less_of_it(self):
        cut = assess(laid(family="eu", wall=THIN + "membrane = true\n"))
        assert one(cut, "panel between piers").demand > one(self.stiff, "panel between piers").demand


def test_where_no_bed_pulls_the_load_may_go_farther_in_the_piers():
    dry = THIN + "membrane = true\n"
    plain, stiff = (one(assess(laid(piers=piers, wall=dry)), "resultant in the base") for piers in ("", PIERS))

    assert plain.capacity == pytest.approx(0.1)
    at_pier = (WALL * 0.4 + PIER) * 0.2
    assert stiff.capacity == pytest.approx((WALL * 2.6 * 0.1 + at_pier) / (WALL * 3 + PIER), rel=1e-3)


def test_piers_on_one_face_hold_less_than_piers_on_both():
    both = one(assess(laid()), "overturning")
    outer = one(assess(laid(PIERS.replace("[buildup.b.piers]", '[buildup.b.piers]\nfaces = "outer"'))), "overturning")

    assert outer.capacity < both.capacity


def test_hollow_block_counts_its_filled_pier_alone_in_bending():
    block = THIN.replace("brick-double", "block-200-hollow").replace('density = "2000 kg/m3"\n', "")
    check = one(assess(laid(wall=block)), "bed-joint tension")
    line = next(line for line in check.working if line.formula == "pier_sections.pier_section")

    assert dict(line.inputs)["length"] == 0.4


def test_a_panel_in_a_mortar_of_no_known_strength_is_not_shown():
    check = one(
        assess(laid(wall=THIN.replace('density = "2000 kg/m3"', 'density = "2000 kg/m3"\nmortar = "mortar-O"'))),
        "panel between piers",
    )

    assert check.verdict is Verdict.NOT_SHOWN
    assert "along the beds" in check.because


@pytest.mark.parametrize("length", [0.3, 0.5, 1.0])
def test_a_wall_no_longer_than_a_pier_or_two_is_answered(length):
    found = assess(laid(length=length))

    assert one(found, "panel between piers").verdict in Verdict


def test_on_clay_what_presses_clings_pads_and_strip_together():
    clay = {family: text.replace('soil = "sand"', 'soil = "clay"') for family, text in PLACE.items()}
    text = Plot(buildup=THIN + PIERS, corners=((0.0, 0.0), (9.4, 0.0))).text()
    plain = Plot(buildup=THIN, corners=((0.0, 0.0), (9.4, 0.0))).text()
    stiff, bare = (
        one(assess(lay_out(plan_of(each.replace("[place]", f"[place]\n{clay['us']}", 1)))), "sliding")
        for each in (text, plain)
    )

    assert stiff.capacity > bare.capacity
    assert any(line.formula == "bearing.base_pressure" and "pad" in line.why for line in stiff.working)

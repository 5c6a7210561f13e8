"""What walls are founded on: small plans reckoned by hand, frost by the winter given, and what is missing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

import stand_plots
from pinfold.findings import Verdict
from pinfold.formulas import frost
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.tables.shelf import kind, shelf

WALL = """
[buildup.run.wall]
kind = "{kind}"
height = "80 cm"
{wall}
"""
STRIP = '[buildup.run.footing]\nkind = "strip-concrete"\nwidth = "{}"\nthickness = "{}"\nbelow_ground = "{}"\n'
US = 'exposure = "C"\nwind_speed = "30 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
EU = 'exposure = "II"\nwind_speed = "22 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
BRICK = 'thickness = "30 cm"\ndensity = "2000 kg/m3"\n'


USUAL = STRIP.format("60 cm", "20 cm", "40 cm")


def findings(footing=USUAL, kind="brick-double", wall=BRICK, place=US, **more):
    found = stand_plots.findings(footing + WALL.format(kind=kind, wall=wall), place=place, length="12 m", **more)
    return {finding.check: finding for finding in found if finding.subject == "stretch line/1"}


def numbers_of(finding, formula):
    return [step.number for step in finding.working if step.formula == formula]


def test_a_strip_is_as_wide_as_the_wall_and_two_inches_on_both_sides():
    found = findings()["footing width"]

    assert (found.demand, found.capacity) == pytest.approx((0.3 + 4 * 0.0254, 0.6))
    assert findings(footing=STRIP.format("35 cm", "20 cm", "40 cm"))["footing width"].verdict is Verdict.FAILS
    assert dict(found.figures)["tilt that cracks plaster"].value == 0.001
    assert "settlement is not reckoned" in found.left_out


def test_the_ledge_is_no_wider_than_the_strip_is_thick():
    found = findings(footing=STRIP.format("80 cm", "20 cm", "40 cm"))["footing thickness"]

    assert found.verdict is Verdict.FAILS
    assert found.demand >= 0.25


def test_the_ledge_bends_by_hand():
    found, pressed = (
        findings(place=US.replace('"30 m/s"', '"45 m/s"'))[check] for check in ("footing thickness", "bearing")
    )
    reach = 0.15 + 0.3 / 4
    moment = 1.67 * pressed.demand * reach**2 / 2
    tension = 0.6 * 5 * math.sqrt(2500) * 6894.757

    assert numbers_of(found, "footings.projection_moment") == pytest.approx([moment])
    assert found.demand == pytest.approx(max(0.1524, math.sqrt(6 * moment / tension) + 2 * 0.0254), rel=1e-4)


def test_a_poured_wall_bends_the_ledge_at_its_face_and_masonry_halfway_under_it():
    poured = findings(kind="poured-concrete", wall='thickness = "30 cm"\n')["footing thickness"]
    (asked,) = [step for step in poured.working if step.formula == "footings.projection_moment"]

    assert dict(asked.inputs)["projection"] == pytest.approx(0.15)


def test_the_european_strip_goes_by_its_own_rule():
    found, pressed = (findings(family="eu", place=EU)[check] for check in ("footing thickness", "bearing"))

    assert numbers_of(found, "footings.thickness_by_en1992") == pytest.approx(
        [0.15 * math.sqrt(9 * 1.5 * pressed.demand / 0.7e6) / 0.85]
    )


def test_without_a_pressure_a_thick_strip_is_not_shown_and_a_thin_one_fails():
    place = 'soil = "sand"\nfrost_depth = "30 cm"\n'
    thick, thin = (
        findings(place=place, footing=STRIP.format("80 cm", high, "40 cm"))["footing thickness"]
        for high in ("30 cm", "15 cm")
    )

    assert thick.verdict is Verdict.NOT_SHOWN
    assert "whether the ledge bends is not shown" in thick.because
    assert thin.verdict is Verdict.FAILS


def test_a_rubble_trench_is_no_narrower_than_its_wall_and_has_no_thickness_to_ask():
    trench = STRIP.format("60 cm", "25 cm", "25 cm").replace("strip-concrete", "rubble-trench")
    found = findings(footing=trench, kind="dry-stone", wall='thickness = "55 cm"\n')

    assert found["footing width"].demand == pytest.approx(0.55)
    assert "daylight" in found["footing width"].because
    assert "footing thickness" not in found


SLOPE = '[ground]\npoints = [["-1 m", "-2 m", "0 m"], ["13 m", "-2 m", "{0}"], ["-1 m", "2 m", "0 m"], ["13 m", "2 m", "{0}"]]'


@pytest.mark.parametrize(("family", "place"), [("us", US), ("eu", EU)])
def test_footings_step_down_a_slope(family, place):
    level = findings(family=family, place=place)
    sloped = findings(family=family, place=place, rest=SLOPE.format("1 m"))

    assert "footing step" not in level
    found = sloped["footing step"]
    assert found.verdict is Verdict.HOLDS
    (lap,) = numbers_of(found, "footings.step_overlap")
    assert lap >= max(0.3, 2 * found.demand)


def test_a_steep_slope_asks_more_than_the_rules_allow_and_warns_of_washing_out():
    steep = findings(rest=SLOPE.format("11 m"))
    british = findings(family="eu", place=EU, rest=SLOPE.format("5 m"), footing=STRIP.format("60 cm", "8 cm", "40 cm"))

    assert steep["footing step"].verdict is Verdict.FAILS
    assert british["footing step"].verdict is Verdict.FAILS
    assert "washes the bed out" in steep["footing width"].caution
    assert "washes" not in findings()["footing width"].caution


def test_water_in_the_ground_is_asked_about_only_where_it_is_given():
    assert "wet ground" not in findings()
    dry, wet = (findings(place=US + f'water_depth = "{depth}"\n')["wet ground"] for depth in ("2 m", "30 cm"))

    assert dry.verdict is Verdict.HOLDS
    assert wet.verdict is Verdict.FAILS
    assert "about half" in wet.because


# --- frost ----------------------------------------------------------------------------------------------------

WINTER = 'freezing_index = "500 °C day"\nfreezing_days = "110 day"\nmean_temperature = "8 °C"\nsurface = "turf"\n'


def winter_depth(n=0.5):
    soil = kind("soils", "sand")
    dry, damp = soil.value("dry_density"), soil.value("moisture")
    latent = frost.latent_heat(dry_density=dry, moisture=damp)
    surface = n * 500 * 86400
    share = frost.berggren_coefficient(
        surface_index=surface, duration=110 * 86400.0, mean_temperature=8.0,
        capacity=frost.heat_capacity(dry_density=dry, moisture=damp), latent_heat=latent,
    )  # fmt: skip
    carried = frost.conductivity_by_kersten(dry_density=dry, moisture=damp, grain="coarse")
    return frost.frost_depth(coefficient=share, conductivity=carried, surface_index=surface, latent_heat=latent)


def test_the_winter_counts_where_no_depth_is_given():
    found = findings(place=US.replace('frost_depth = "30 cm"\n', "") + WINTER)["frost"]

    assert found.demand == pytest.approx(winter_depth())
    assert "Berggren" in found.because
    assert "factor of the surface" in dict(found.figures)


def test_the_given_depth_goes_first_and_the_winter_stands_beside_it():
    found = findings(place=US + WINTER)["frost"]

    assert found.demand == pytest.approx(0.3)
    assert "freezes deeper than frost_depth" in found.because
    assert "freezes deeper than frost_depth" in found.caution
    assert numbers_of(found, "frost.frost_depth") == pytest.approx([winter_depth()])
    assert "no deeper" in findings(place=US.replace('"30 cm"', '"3 m"') + WINTER)["frost"].because


def test_without_a_word_on_the_surface_the_ground_is_as_cold_as_the_air():
    bare = US.replace('frost_depth = "30 cm"\n', "") + WINTER.replace('surface = "turf"\n', "")

    assert findings(place=bare)["frost"].demand == pytest.approx(winter_depth(1.0))
    assert all(0 < each.value("n") <= 1 for each in shelf("surfaces").values())


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('freezing_days = "110 day"\n', "", "write freezing_days and mean_temperature"),
        ('mean_temperature = "8 °C"', 'mean_temperature = "-4 °C"', "outside what the method covers"),
        ('freezing_index = "500 °C day"\n', "", "write frost_depth"),
    ],
)
def test_half_a_winter_is_not_shown_and_says_why(old, new, words):
    found = findings(place=US.replace('frost_depth = "30 cm"\n', "") + WINTER.replace(old, new))["frost"]

    assert found.verdict is Verdict.NOT_SHOWN
    assert words in found.because


def test_a_winter_without_frost_asks_for_no_depth():
    none = US.replace('frost_depth = "30 cm"\n', "") + WINTER.replace("500 °C day", "0 °C day")

    assert findings(place=none)["frost"].demand == 0.0


def test_ground_without_grain_keeps_the_given_depth_and_says_what_is_missing():
    plan = stand_plots.plan(USUAL + WALL.format(kind="brick-double", wall=BRICK), place=US + WINTER)
    rock = replace(plan, place=replace(plan.place, soil=kind("soils", "bedrock")))
    found = next(one for one in assess(lay_out(rock)) if one.check == "frost")

    assert found.demand == pytest.approx(0.3)
    assert "not known by its grain" in found.because

"""Walls that hold earth: small banks reckoned by hand, and what is missing told as NOT SHOWN."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

import stand_plots
from banked_plots import banked_text
from pinfold.findings import Verdict
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess

GRAVITY = 9.80665
NEAR = 5e-3
"""The brick's courses put the bed a hair off the round figures."""
WALL = """
[buildup.run.footing]
kind = "strip-concrete"
width = "{width}"
thickness = "20 cm"
below_ground = "{below}"
density = "2300 kg/m3"
[buildup.run.wall]
kind = "brick-double"
height = "80 cm"
thickness = "30 cm"
density = "2000 kg/m3"
"""
BANK = """
[[bank]]
name = "bed"
side = "line"
to = "{to} m"
height = "{height}"
face = "inner"
{bank}
"""
EARTH = 'soil = { kind = "sand", friction_angle = "30 deg", density = "1800 kg/m3" }\n'
CALM = 'exposure = "C"\nwind_speed = "5 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'


DRAINED = f"{EARTH}drained = true"


def banked(bank=EARTH, to=10, height="60 cm", place=CALM, family="us", width="60 cm", below="40 cm"):
    rest = BANK.format(to=to, height=height, bank=bank)
    return stand_plots.plan(WALL.format(width=width, below=below), place=place, family=family, rest=rest)


def findings(bank=DRAINED, **more):
    found = assess(lay_out(banked(bank, **more)))
    return {finding.check: finding for finding in found if "bank bed" in finding.subject}


def thrust(height, density=1800.0, coefficient=1 / 3):
    return coefficient * density * GRAVITY * height**2 / 2


def numbers_of(finding, formula):
    return [step.number for step in finding.working if step.formula == formula]


def test_the_earth_pushes_from_the_top_of_the_bank_to_the_underside_of_the_footing():
    found = findings()["sliding"]

    assert numbers_of(found, "earth.earth_thrust") == pytest.approx([thrust(1.0)], rel=NEAR)
    wind = sum(numbers_of(found, "walls.wind_force"))
    assert found.demand == pytest.approx(1.5 * (thrust(1.0) + 0.6 * wind), rel=NEAR)


def test_only_what_stands_above_the_bank_is_blown_at_from_its_side():
    low, high = (findings(height=height)["sliding"] for height in ("20 cm", "70 cm"))

    forces = [sum(numbers_of(one, "walls.wind_force")) for one in (low, high)]
    assert forces[0] / forces[1] == pytest.approx(0.6 / 0.1, rel=0.02)


def test_a_soaked_bank_pushes_with_what_it_weighs_in_water_and_with_the_water():
    found = findings(bank=EARTH)["sliding"]

    assert numbers_of(found, "earth.earth_thrust") == pytest.approx([thrust(1.0, density=800.0)], rel=NEAR)
    assert numbers_of(found, "earth.water_thrust") == pytest.approx([1000 * GRAVITY / 2], rel=NEAR)
    assert found.demand > findings()["sliding"].demand
    assert "soaked" in found.because


def test_what_stands_on_the_bank_pushes_too_and_the_engineer_is_named():
    loaded = findings(bank=f'{DRAINED}\nsurcharge = "3 kPa"')

    assert numbers_of(loaded["sliding"], "earth.surcharge_thrust") == pytest.approx([3000 / 3], rel=NEAR)
    assert "licensed engineer design it" in loaded["overturning"].caution
    assert "licensed engineer design it" not in findings()["overturning"].caution


def test_a_bank_over_four_feet_from_the_footing_up_keeps_its_answer_and_names_the_engineer():
    deep = findings(height="80 cm", width="1 m")
    found = findings(EARTH, height="80 cm", width="1 m", below="60 cm")

    assert "licensed engineer design it" not in deep["overturning"].caution
    assert "licensed engineer design it" in found["overturning"].caution
    assert found["overturning"].verdict is not Verdict.NOT_SHOWN


def test_overturning_by_hand_with_the_bank_on_the_ledge():
    found = findings()["overturning"]
    wall = (0.8 + 0.2) * 0.3 * 2000 * GRAVITY
    footing, fill = 0.6 * 0.2 * 2300 * GRAVITY, 0.3 * 0.2 * 1500 * GRAVITY
    ledge = 0.15 * 0.6 * 1800 * GRAVITY
    wind = sum(step.number for step in found.working if step.formula == "walls.wind_moment")

    assert found.capacity == pytest.approx((wall + footing + fill) * 0.3, rel=NEAR)
    turned = thrust(1.0) / 3 + 0.6 * wind
    assert found.demand == pytest.approx(1.5 * turned - ledge * (0.6 - 0.075), rel=NEAR)


def test_the_lowest_bed_is_asked_about_the_earth_above_it():
    found = findings()["bed-joint tension"]

    assert numbers_of(found, "earth.earth_thrust") == pytest.approx([thrust(0.8)], rel=NEAR)


def test_a_rising_surface_and_a_rough_wall():
    rising = findings(bank=f'{DRAINED}\nslope = "15 deg"')["sliding"]
    rough = findings(bank=f'{DRAINED}\nwall_friction = "20 deg"')["sliding"]
    level = findings()["sliding"]

    assert any(step.formula == "earth.active_pressure_by_coulomb" for step in rough.working)
    assert rough.demand < level.demand < rising.demand
    (leans,) = numbers_of(rough, "earth.level_part")
    assert leans == pytest.approx(thrust(1.0, coefficient=0.2973) * math.cos(math.radians(20)), rel=NEAR)


def test_earth_in_front_counts_by_half_and_only_where_it_is_asked_for():
    bare, held = findings()["sliding"], findings(bank=f"{DRAINED}\npassive = true")["sliding"]
    front = math.tan(math.radians(45 + 12.5)) ** 2 * 1800 * GRAVITY * 0.4**2 / 2

    assert bare.demand - held.demand == pytest.approx(1.5 * front / 2, rel=NEAR)
    assert "never dug away" in held.because


def test_what_is_missing_is_not_shown_and_says_what_to_write():
    for found, words in (
        (findings(bank=""), "write soil under it"),
        (findings(bank='soil = "bedrock"'), "friction angle"),
        (
            findings(place='soil = "sand"\nfrost_depth = "30 cm"', bank=DRAINED, height="10 cm"),
            "wind speed",
        ),
    ):
        assert found["overturning"].verdict is Verdict.NOT_SHOWN
        assert words in found["overturning"].because


def test_earth_that_is_too_much_by_itself_fails_without_any_wind_known():
    found = findings(place='soil = "sand"\nfrost_depth = "30 cm"', bank=EARTH, height="80 cm", width="40 cm")

    assert found["overturning"].verdict is Verdict.FAILS
    assert "the earth alone is too much" in found["overturning"].because


def test_the_european_family_asks_with_its_own_shares():
    place = 'exposure = "II"\nwind_speed = "10 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
    found = findings(family="eu", place=place)

    wind = sum(numbers_of(found["sliding"], "walls.wind_force"))
    assert found["sliding"].demand == pytest.approx(1.5 * (thrust(1.0) + wind), rel=NEAR)
    assert {name for name, _ in found["sliding"].figures} >= {"factor on the earth", "friction angle of the bank"}


def test_a_bank_speaks_only_of_the_walls_it_lies_against():
    plan = banked(to=4)
    halves = replace(plan, sides=(replace(plan.sides[0], runs=_halves(plan.sides[0].runs[0])),))
    found = [one for one in assess(lay_out(halves)) if "bank bed" in one.subject]

    assert {one.subject for one in found} == {"stretch line/1, bank bed"}


def _halves(run):
    return (run._replace(end=5.0), run._replace(name="line/2", start=5.0))


PIERS = """
[buildup.run.piers]
spacing = "2.5 m"
width = "40 cm"
depth = "60 cm"
pad_length = "80 cm"
pad_width = "1 m"
"""


def test_piers_hold_no_bank_since_the_wall_between_them_is_not_asked_about_earth():
    built = WALL.format(width="60 cm", below="40 cm") + PIERS
    rest = BANK.format(to=10, height="60 cm", bank=DRAINED)
    found = stand_plots.findings(built, place=CALM, rest=rest)
    plain = findings()

    for each in found:
        if "bank bed" in each.subject:
            assert each.capacity == plain[each.check].capacity
            assert each.demand == plain[each.check].demand


def test_a_plan_without_banks_says_that_none_were_looked_at():
    bare = assess(lay_out(replace(banked(), banks=())))

    assert not [one for one in bare if "bank" in one.subject]
    assert any("where the plan names no bank" in one.left_out for one in bare)


def test_wider_and_drained_and_lower_never_make_it_worse():
    def use(**changes):
        return findings(**changes)["overturning"].use

    assert use(width="90 cm") < use(width="60 cm")
    assert use() < use(bank=EARTH)
    assert use(height="30 cm") < use(height="60 cm")


def test_the_page_of_the_plan_lists_its_banks():
    from pinfold.reports.plan_page import plan_page
    from pinfold.reports.terminal import text_of

    layout = lay_out(plan_of(banked_text("quinta")))
    said = [" ".join(line.split()) for line in text_of(plan_page(layout, ()), layout.plan.units).splitlines()]

    assert "terrace hill, inner face 1.000 m to 7.000 m 400 mm sand no" in said
    assert "track lane, outer face 0 mm to 3.000 m 250 mm not given yes" in said

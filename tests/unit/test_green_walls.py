"""Walls while they are green: small plans reckoned by hand."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from pinfold.formulas.walls import GRAVITY
from stand_plots import EU, GROUND, US, brick, fence, findings, one, step

STONE = """
[buildup.run.wall]
kind = "dry-stone"
height = "80 cm"
thickness = "50 cm"
"""


def green(buildup, wind="", place=US + GROUND, **more):
    return one(findings(buildup, place=place + (f'building_wind = "{wind}"\n' if wind else ""), **more), "while green")


class TestBrickWallInALightWind:
    """1 m of brickwork over 0.20015 m in the open trench, 0.2 m thick, 2000 kg/m3; a gust of 10 m/s, exposure C.

    q = 0.613 × 0.8489 × 10² = 52.04 Pa. The wall is 1.20015 m high and 10 m long: B/s = 8.332, case C first zone
    3.55 + 0.332 × 0.1 = 3.583, × 0.8; p = 52.04 × 0.85² × 2.867 = 107.8 Pa.
    """

    PRESSURE = 107.8

    def test_it_stands_on_its_weight_to_where_the_safety_is_one_and_a_half(self):
        found = green(brick(), "10 m/s")
        height = 2000 * GRAVITY * 0.2 * 0.2 / (2 * 0.55 * self.PRESSURE * 1.5)

        assert found.capacity == pytest.approx(height, rel=2e-3)
        assert found.demand == pytest.approx(1.20015)
        assert found.verdict is Verdict.HOLDS

    def test_no_least_pressure_of_finished_walls_counts(self):
        assert step(green(brick(), "10 m/s"), "wind.wall_pressure") == pytest.approx(self.PRESSURE, rel=2e-3)

    def test_nobody_enters_a_strip_of_its_height_and_four_feet(self):
        assert step(green(brick(), "10 m/s"), "green_walls.keep_out_width") == pytest.approx(1.20015 + 4 * 0.3048)

    def test_a_gale_asks_for_braces_and_tells_what_they_take(self):
        found = green(brick(), "40 m/s")

        assert found.verdict is Verdict.NOT_SHOWN
        assert found.demand == pytest.approx(16 * self.PRESSURE * 1.20015 * 0.55 / 0.6, rel=2e-3)
        assert "brace it above that" in found.because
        assert "braces on both sides" in found.mend


def test_without_a_speed_a_share_of_the_plans_own_is_reckoned_with_and_said():
    found = green(brick())

    assert step(found, "green_walls.season_speed") == pytest.approx(0.58 * 40.0)
    assert "write building_wind" in found.because


def test_the_european_family_takes_the_wind_of_five_years():
    found = green(brick(), place=EU + GROUND, family="eu")

    assert step(found, "wind_en.return_period_factor") == pytest.approx(0.8545, abs=5e-5)
    assert step(found, "green_walls.season_speed") == pytest.approx(0.8545 * 25.0, abs=2e-3)


def test_a_higher_wall_hears_the_rules_of_safety_offices():
    assert "higher than 8 ft" in green(brick(height="2.5 m"), "8 m/s").because
    assert "ten times its thickness" in green(brick(height="2.1 m"), "8 m/s").because
    assert "ten times" not in green(brick(), "8 m/s").because


def test_what_is_poured_goes_up_a_lift_at_a_time():
    poured = brick().replace("brick-double", "foamed-poured").replace('density = "2000 kg/m3"', "")

    assert "height of a lift" in green(poured, "8 m/s").because
    assert "height laid in a day" in green(brick(), "8 m/s").because


def test_dry_stone_and_fences_are_never_green():
    assert not any(each.check == "while green" for each in findings(STONE))
    assert not any(each.check == "while green" for each in findings(fence()))


def test_where_the_wind_is_not_known_it_is_not_shown():
    found = green(brick(), place=GROUND)

    assert found.verdict is Verdict.NOT_SHOWN
    assert "write wind_speed" in found.because


def test_it_warns_of_the_fall_of_a_fresh_wall():
    assert "fresh wall has no strength" in green(brick(), "10 m/s").caution

"""Walls in an earthquake: small plans reckoned by hand."""

from __future__ import annotations

import pytest

from pinfold.findings import Verdict
from pinfold.formulas.walls import GRAVITY
from stand_plots import EU, GROUND, US, brick, findings, one

SHAKEN = "seismic = 0.5\n"
WEIGHT = 2000 * GRAVITY * 0.2 * 1.20015
"""1 m of brickwork over 0.20015 m of it in the ground."""


def shaken(buildup, said=SHAKEN, place=US + GROUND, **more):
    return findings(buildup, place=place + said, **more)


def test_a_share_of_its_weight_turns_the_wall_from_the_middle_of_it():
    found = one(shaken(brick()), "overturning in an earthquake")

    assert found.demand == pytest.approx(0.7 * 1.2 * 0.5 * WEIGHT * (0.2 + 1.20015 / 2), rel=1e-4)


def test_less_weight_helps_than_in_the_wind():
    found = shaken(brick())
    wind, quake = one(found, "overturning"), one(found, "overturning in an earthquake")

    assert quake.capacity / wind.capacity == pytest.approx((0.6 - 0.14 * 0.5) / 0.6)


def test_it_slides_and_pulls_at_its_lowest_bed_too():
    found = shaken(brick(more='mortar = "mortar-N"'))

    assert one(found, "sliding in an earthquake").demand == pytest.approx(0.7 * 1.2 * 0.5 * WEIGHT, rel=1e-4)
    assert one(found, "bed-joint tension in an earthquake").demand > 0


def test_a_light_shaking_is_borne_and_a_hard_one_is_not():
    verdicts = [
        one(shaken(brick(footing="40 cm"), f"seismic = {g}\n"), "overturning in an earthquake").verdict
        for g in (0.1, 1.5)
    ]

    assert verdicts == [Verdict.HOLDS, Verdict.FAILS]


def test_without_the_plans_figure_earthquakes_are_told_as_left_out():
    found = shaken(brick(), "")

    assert not any("earthquake" in each.check for each in found)
    assert "earthquakes" in one(found, "overturning").left_out
    assert "earthquakes" not in one(shaken(brick()), "overturning").left_out


class TestEuropeanFamily:
    """A wall shakes two and a half times as hard as the ground, all of its weight against all of the shaking."""

    def shaken(self, said=SHAKEN, **more):
        return shaken(brick(**more), said, place=EU + GROUND, family="eu")

    def test_it_is_turned_by_the_most_that_the_clause_asks(self):
        found = one(self.shaken(), "overturning in an earthquake")

        assert found.demand == pytest.approx(2.5 * 0.5 * WEIGHT * (0.2 + 1.20015 / 2), rel=1e-4)

    def test_all_of_its_weight_holds(self):
        found = self.shaken()
        wind, quake = one(found, "overturning"), one(found, "overturning in an earthquake")

        assert quake.capacity / wind.capacity == pytest.approx(1.0 / 0.9)

    def test_it_is_said_how_the_plans_figure_is_read_and_that_the_most_is_taken(self):
        found = one(self.shaken(), "sliding in an earthquake")

        assert "peak of the ground with its soil factor" in found.because
        assert "two and a half times" in found.because

    def test_a_light_shaking_is_borne_and_a_hard_one_is_not(self):
        verdicts = [
            one(self.shaken(f"seismic = {g}\n", footing="40 cm"), "overturning in an earthquake").verdict
            for g in (0.02, 1.5)
        ]

        assert verdicts == [Verdict.HOLDS, Verdict.FAILS]

"""Laws of green walls: a balance on weight alone, and braces that take the rest."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import bearing, green_walls, walls

faces, thicknesses, pressures = st.floats(200.0, 8000.0), st.floats(0.08, 0.6), st.floats(10.0, 1500.0)
arms, safeties = st.floats(0.3, 0.7), st.floats(1.0, 3.0)


@given(faces, thicknesses, pressures, arms, safeties)
def test_at_that_height_the_overturning_factor_is_the_safety_asked_for(weight, thickness, pressure, arm, safety):
    height = green_walls.unbraced_height(
        weight=weight, thickness=thickness, pressure=pressure, arm_share=arm, safety=safety
    )

    turned = walls.wind_moment(pressure=pressure, height=height, arm_share=arm, below=0.0)
    held = walls.resisting_moment(weight=weight * height, arm=thickness / 2)

    assert walls.overturning_factor(resisting=held, overturning=turned) == pytest.approx(safety)


@given(faces, thicknesses, pressures)
def test_without_safety_the_load_stands_over_the_toe(weight, thickness, pressure):
    height = green_walls.unbraced_height(
        weight=weight, thickness=thickness, pressure=pressure, arm_share=0.5, safety=1.0
    )
    off = bearing.eccentricity(moment=pressure * height**2 / 2, load=weight * height)

    assert off == pytest.approx(thickness / 2)


@given(faces, thicknesses, pressures, st.floats(1.0, 3.0))
def test_twice_the_wind_leaves_a_quarter_of_the_height(weight, thickness, pressure, faster):
    calm, blown = (
        green_walls.unbraced_height(weight=weight, thickness=thickness, pressure=each, arm_share=0.5, safety=1.5)
        for each in (pressure, pressure * faster**2)
    )

    assert blown == pytest.approx(calm / faster**2)


@given(faces, thicknesses, pressures, st.floats(5.0, 50.0), st.floats(0.3, 3.0))
def test_in_the_wind_it_just_stands_in_its_height_is_the_unbraced_one(weight, thickness, pressure, speed, height):
    unbraced = green_walls.unbraced_height(
        weight=weight, thickness=thickness, pressure=pressure, arm_share=0.5, safety=1.5
    )
    stands = green_walls.standing_speed(speed=speed, unbraced=unbraced, height=height)

    again = green_walls.unbraced_height(
        weight=weight, thickness=thickness, pressure=pressure * (stands / speed) ** 2, arm_share=0.5, safety=1.5
    )

    assert again == pytest.approx(height)


@given(pressures, st.floats(0.5, 5.0), st.floats(0.2, 1.0))
def test_braces_balance_the_wind_about_the_bed_strip_by_strip(pressure, height, share):
    strips = 400
    depth = height / strips
    moment = math.fsum(pressure * depth * (number + 0.5) * depth for number in range(strips))

    force = green_walls.brace_reaction(pressure=pressure, height=height, arm_share=0.5, brace_height=share * height)

    assert force * share * height == pytest.approx(moment)


@given(st.floats(0.0, 80.0), st.floats(0.0, 1.0))
def test_the_wind_of_the_season_is_no_stronger_than_the_plans(speed, share):
    assert green_walls.season_speed(speed=speed, share=share) == pytest.approx(speed * share)
    assert green_walls.season_speed(speed=speed, share=share) <= speed


@given(st.floats(0.0, 5.0), st.floats(0.0, 2.0))
def test_the_strip_reaches_past_where_the_top_falls(height, more):
    assert green_walls.keep_out_width(height=height, more=more) - height == pytest.approx(more)


@pytest.mark.parametrize("brace", [0.0, 2.1])
def test_braces_stand_on_the_wall_or_not_at_all(brace):
    with pytest.raises(OutOfRangeError):
        green_walls.brace_reaction(pressure=100.0, height=2.0, arm_share=0.5, brace_height=brace)

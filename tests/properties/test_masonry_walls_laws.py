"""Walls as masonry: shear, levels, spans and piers; what must hold whatever the numbers, and rival ways to an answer."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from pinfold.errors import OutOfRangeError
from pinfold.formulas import bearing, bed_shear, masonry, pier_sections, wall_levels, wall_spans, walls

PSI = 6894.757293168361


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


# --- shear ---------------------------------------------------------------------------------------------------------------


@given(force=numbers(0, 1e4), thickness=numbers(0.05, 0.6))
def test_the_greatest_shear_balances_the_force_over_a_rectangle(force, thickness):
    greatest = bed_shear.shear_stress(force=force, area=thickness)
    half = thickness / 2
    carried = quad(lambda y: greatest * (1 - (y / half) ** 2), -half, half)[0]

    assert carried == pytest.approx(force, rel=1e-9, abs=1e-9)


@given(strength=numbers(0, 3e7), load=numbers(0, 1e5), more=numbers(0, 1e5), area=numbers(0.01, 1))
def test_weight_never_lessens_what_plain_masonry_stands_in_shear(strength, load, more, area):
    def allowed(weight, bond="running"):
        return bed_shear.shear_by_tms402(masonry_strength=strength, load=weight, area=area, bond=bond)

    assert allowed(load + more) >= allowed(load)
    assert allowed(load, "grouted") >= allowed(load)
    assert allowed(load) <= 120 * PSI * 1.000001


def test_each_of_the_three_american_limits_governs_somewhere():
    def allowed(strength, load):
        found = bed_shear.shear_by_tms402(masonry_strength=strength * PSI, load=load, area=0.1, bond="running")
        return found / PSI

    assert allowed(100, 0.0) == pytest.approx(15)
    assert allowed(1500, 0.0) == pytest.approx(37)
    assert allowed(1500, 10 * PSI * 0.1) == pytest.approx(41.5)
    assert allowed(8000, 1000 * PSI * 0.1) == pytest.approx(120)


@given(initial=numbers(0, 4e5), stress=numbers(0, 1e6), more=numbers(0, 1e6), unit=numbers(1e5, 3e7))
def test_the_european_strength_grows_with_pressure_up_to_a_share_of_the_units(initial, stress, more, unit):
    def strength(pressed):
        return bed_shear.shear_by_en1996(initial=initial, stress=pressed, unit_strength=unit)

    assert strength(stress) <= strength(stress + more) <= 0.065 * unit


def test_no_bond_leaves_the_friction_of_four_tenths_alone():
    load, area = 4000.0, 0.2
    strength = bed_shear.shear_by_en1996(initial=0.0, stress=load / area, unit_strength=10e6)

    assert strength * area == pytest.approx(walls.sliding_resistance(load=load, friction=0.4, cohesion=0.0, width=area))


def test_reinforced_shear_is_force_over_area_and_capped_at_fifty():
    assert bed_shear.shear_in_reinforced(force=600.0, width=0.3, depth=0.1) == pytest.approx(20e3)
    assert bed_shear.shear_by_strength(masonry_strength=1600 * PSI) / PSI == pytest.approx(40)
    assert bed_shear.shear_by_strength(masonry_strength=4000 * PSI) / PSI == pytest.approx(50)


# --- levels --------------------------------------------------------------------------------------------------------------


@given(pressure=numbers(0, 2e3), height=numbers(0.1, 3), share=numbers(0, 1))
def test_an_even_wind_above_a_level_is_the_sum_of_its_strips(pressure, height, share):
    level = share * height
    strips = quad(lambda z: pressure * (z - level), level, height)[0]

    got = wall_levels.moment_above(pressure=pressure, height=height, arm_share=0.5, level=level)
    assert got == pytest.approx(strips, rel=1e-9, abs=1e-9)


@given(pressure=numbers(1, 2e3), height=numbers(0.1, 3), share=numbers(0, 1))
def test_a_lifted_resultant_meets_the_foot_and_nearly_a_straight_spread(pressure, height, share):
    level, foot = share * height, walls.wind_moment(pressure=pressure, height=height, arm_share=0.55, below=0.0)
    lean = 0.3  # a spread p (1 + 0.3 (2 z / h − 1)) has its resultant at 0.55 h
    spread = quad(lambda z: pressure * (1 + lean * (2 * z / height - 1)) * (z - level), level, height)[0]
    got = wall_levels.moment_above(pressure=pressure, height=height, arm_share=0.55, level=level)

    assert wall_levels.moment_above(pressure=pressure, height=height, arm_share=0.55, level=0.0) == pytest.approx(foot)
    assert got >= spread - 0.02 * foot


@given(foot=numbers(0.2, 1), lean=numbers(0, 0.1), height=numbers(0.2, 2), share=numbers(0, 1))
def test_a_wall_that_leans_in_is_as_thick_as_its_ends_say(foot, lean, height, share):
    def at(level):
        return wall_levels.thickness_at(foot=foot, top=foot - lean, height=height, level=level)

    assert at(0.0) == pytest.approx(foot)
    assert at(height) == pytest.approx(foot - lean)
    mean = quad(at, 0, share * height)[0]
    assert mean == pytest.approx(share * height * (foot + at(share * height)) / 2)


@given(strength=numbers(1e4, 1e7), thickness=numbers(0.1, 1), share=numbers(0, 0.49))
def test_a_load_that_crushes_balances_an_even_block_about_the_middle(strength, thickness, share):
    off = share * thickness
    load = wall_levels.crushing_load(strength=strength, thickness=thickness, eccentricity=off)
    width = load / strength

    assert off == pytest.approx(thickness / 2 - width / 2, abs=1e-9)
    straight = bearing.base_pressure(load=load, width=thickness, eccentricity=off)
    assert straight.toe >= strength * 0.999999  # straight-line pressure is the stricter of the two


def test_a_load_on_the_edge_or_off_the_wall_crushes_at_nothing():
    assert wall_levels.crushing_load(strength=1e6, thickness=0.4, eccentricity=0.2) == 0
    with pytest.raises(OutOfRangeError):
        wall_levels.crushing_load(strength=1e6, thickness=0.4, eccentricity=0.21)


# --- spans ---------------------------------------------------------------------------------------------------------------


def worst_pattern(k: float) -> float:
    """Largest coefficient over both yield patterns, searched and not solved."""

    def below(beta):
        return -(beta * (3 - beta) / (6 * (4 * beta + k)))

    def through(xi):
        return -(xi * (3 - 2 * xi) / (12 * (1 + k * xi**2)))

    found = (
        minimize_scalar(below, bounds=(1e-6, 1), method="bounded", options={"xatol": 1e-10}).fun,
        minimize_scalar(through, bounds=(1e-6, 0.5), method="bounded", options={"xatol": 1e-10}).fun,
    )
    return -min(*found, below(1.0), through(0.5))


@given(orthogonal=numbers(0.1, 1.5), share=numbers(0.2, 3))
def test_the_panel_coefficient_is_that_of_the_worst_pattern(orthogonal, share):
    got = wall_spans.panel_coefficient(orthogonal=orthogonal, height_over_length=share)

    assert got == pytest.approx(worst_pattern(orthogonal / share**2), rel=1e-6)


REMEMBERED = {  # EN 1996-1-1 annex E, support A, as remembered, not read
    1.0: "0.031 0.045 0.059 0.071 0.079 0.085 0.090", 0.8: "0.034 0.049 0.064 0.075 0.083 0.089 0.093",
    0.6: "0.038 0.053 0.069 0.080 0.088 0.093 0.097", 0.5: "0.040 0.056 0.073 0.083 0.090 0.095 0.099",
    0.35: "0.045 0.064 0.080 0.089 0.095 0.100 0.103",
}  # fmt: skip


@pytest.mark.parametrize("orthogonal", REMEMBERED)
def test_the_panel_coefficient_meets_the_remembered_table_of_the_standard(orthogonal):
    for share, printed in zip((0.3, 0.5, 0.75, 1.0, 1.25, 1.5, 1.75), REMEMBERED[orthogonal].split(), strict=True):
        got = wall_spans.panel_coefficient(orthogonal=orthogonal, height_over_length=share)
        assert got == pytest.approx(float(printed), abs=0.0015), share


@given(orthogonal=numbers(0.1, 1.5), share=numbers(0.2, 3), more=numbers(0, 2))
def test_a_third_edge_never_asks_more_than_two_and_less_where_the_wall_is_low(orthogonal, share, more):
    def coefficient(ratio):
        return wall_spans.panel_coefficient(orthogonal=orthogonal, height_over_length=ratio)

    assert coefficient(share) <= coefficient(share + more) + 1e-12 <= wall_spans.SIMPLE_SPAN + 1e-12


def test_a_very_tall_panel_spans_from_edge_to_edge_alone():
    got = wall_spans.panel_coefficient(orthogonal=1.0, height_over_length=300.0)

    assert got == pytest.approx(wall_spans.SIMPLE_SPAN, rel=5e-3)


@given(pressure=numbers(0, 2e3), length=numbers(0.1, 6))
def test_a_panel_on_two_edges_is_a_beam(pressure, length):
    middle = pressure * length / 2 * length / 2 - quad(lambda x: pressure * (length / 2 - x), 0, length / 2)[0]

    got = wall_spans.panel_moment(coefficient=wall_spans.SIMPLE_SPAN, pressure=pressure, length=length)
    assert got == pytest.approx(middle, rel=1e-9, abs=1e-9)


def test_a_rule_of_proportion_is_the_slenderness_turned_round():
    assert walls.slenderness(
        height=wall_spans.longest_by_ratio(thickness=0.2, ratio=6.0), thickness=0.2
    ) == pytest.approx(6)


# --- piers ---------------------------------------------------------------------------------------------------------------


@given(
    length=numbers(0.4, 2),
    thickness=numbers(0.1, 0.3),
    width=numbers(0.2, 0.4),
    out=numbers(0.01, 0.4),
    inset=numbers(0, 1),
)
def test_a_pier_and_its_wall_bend_as_their_strips_do(length, thickness, width, out, inset):
    depth, start = thickness + out, inset * out

    def across(y):
        return length if start <= y <= start + thickness else width

    cuts = [start, start + thickness]
    area = quad(across, 0, depth, points=cuts)[0]
    middle = quad(lambda y: across(y) * y, 0, depth, points=cuts)[0] / area
    inertia = quad(lambda y: across(y) * (y - middle) ** 2, 0, depth, points=cuts)[0]

    got = pier_sections.pier_section(length=length, thickness=thickness, width=width, depth=depth, inset=inset)

    assert got.area == pytest.approx(area, rel=1e-6)
    assert got.middle == pytest.approx(middle, rel=1e-6)
    assert got.modulus == pytest.approx(inertia / max(middle, depth - middle), rel=1e-6)


@given(thickness=numbers(0.1, 0.4), length=numbers(0.4, 2))
def test_a_pier_no_thicker_than_the_wall_is_wall(thickness, length):
    got = pier_sections.pier_section(length=length, thickness=thickness, width=0.3, depth=thickness, inset=0.5)

    assert got.modulus == pytest.approx(length * walls.solid_modulus(thickness=thickness))


@given(spacing=numbers(0.5, 5), width=numbers(0.1, 0.5), thickness=numbers(0.05, 0.4))
def test_no_more_wall_works_with_a_pier_than_stands_between_two(spacing, width, thickness):
    got = pier_sections.working_length(spacing=spacing, width=width, thickness=thickness)

    assert got == min(spacing, width + 12 * thickness)


# --- arrays --------------------------------------------------------------------------------------------------------------


def test_formulas_of_searches_and_storms_take_arrays():
    many, one = np.array([1000.0, 2000.0]), 1000.0
    shear = bed_shear.shear_stress(force=many, area=0.1)
    allowed = bed_shear.shear_by_tms402(masonry_strength=1e7, load=many, area=0.1, bond="running")
    european = bed_shear.shear_by_en1996(initial=1e5, stress=many, unit_strength=1e7)
    turned = wall_levels.moment_above(pressure=many, height=1.0, arm_share=0.55, level=0.3)
    crushed = wall_levels.crushing_load(strength=many, thickness=0.3, eccentricity=0.1)
    spanned = wall_spans.panel_moment(
        coefficient=wall_spans.panel_coefficient(orthogonal=np.array([0.3, 1.0]), height_over_length=0.5),
        pressure=many, length=2.0,
    )  # fmt: skip

    assert shear[0] == bed_shear.shear_stress(force=one, area=0.1)
    for found in (allowed, european, turned, crushed, spanned):
        assert found.shape == (2,)
        assert found[1] > found[0]


def test_a_pier_makes_the_moment_of_the_plain_wall_grow():
    flat = masonry.hollow_section(thickness=0.2, shell=0.1, filled=0.0)
    with_pier = pier_sections.pier_section(length=2.0, thickness=0.2, width=0.4, depth=0.4, inset=0.5)

    assert with_pier.modulus > 2.0 * flat.modulus

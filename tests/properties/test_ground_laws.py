"""Earth, footings and frost: what must hold whatever the numbers, and rival ways to the same answer."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar
from scipy.special import erf, erfc

from pinfold.errors import OutOfRangeError
from pinfold.formulas import blocks, earth, footings, frost

DEG = math.pi / 180
GRAVITY = 9.80665


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


ANGLES = numbers(10, 45)
SHARES = numbers(0, 0.99)

# --- earth ------------------------------------------------------------------------------------------------------------


def wedge(friction: float, wall: float, slope: float) -> float:
    """Greatest push of a sliding wedge behind an upright wall 1 m high, of earth of weight 1, over 1/2."""

    def push(plane: float) -> float:
        weight = math.sin(math.pi / 2 - plane) * math.cos(slope) / math.sin(plane - slope) / 2
        return weight * math.sin(plane - friction) / math.cos(plane - friction - wall)

    best = minimize_scalar(lambda plane: -push(plane), bounds=(max(friction, slope) + 1e-6, math.pi / 2 - 1e-6),
                           method="bounded", options={"xatol": 1e-10})  # fmt: skip
    return -best.fun * 2


@given(friction=ANGLES, wall=SHARES, slope=numbers(0, 0.9))
def test_coulombs_push_is_the_worst_of_all_wedges(friction, wall, slope):
    phi = friction * DEG
    ours = earth.active_pressure_by_coulomb(friction_angle=phi, wall_friction=wall * phi, slope=slope * phi)

    assert ours == pytest.approx(wedge(phi, wall * phi, slope * phi), rel=1e-5)


def test_the_wedge_settles_what_the_book_prints_for_25_degrees():
    assert wedge(30 * DEG, 25 * DEG, 0.0) == pytest.approx(0.2959, abs=5e-5)


@given(friction=ANGLES, slope=SHARES)
def test_rankine_is_coulomb_with_the_push_along_the_surface(friction, slope):
    phi = friction * DEG
    ours = earth.active_pressure_by_rankine(friction_angle=phi, slope=slope * phi)

    assert ours == pytest.approx(
        earth.active_pressure_by_coulomb(friction_angle=phi, wall_friction=slope * phi, slope=slope * phi), rel=1e-9
    )


@given(friction=ANGLES, more=numbers(0, 5), slope=SHARES, steeper=numbers(0, 0.009))
def test_a_firmer_earth_never_pushes_harder_and_a_steeper_one_never_less(friction, more, slope, steeper):
    def pushed(phi, share):
        return earth.active_pressure_by_rankine(friction_angle=phi * DEG, slope=share * friction * DEG)

    assert pushed(friction + more, slope) <= pushed(friction, slope) + 1e-12
    assert pushed(friction, slope + steeper) >= pushed(friction, slope) - 1e-12


@given(friction=ANGLES)
def test_what_pushes_and_what_holds_mirror_each_other(friction):
    active = earth.active_pressure_by_rankine(friction_angle=friction * DEG, slope=0.0)

    assert active * earth.passive_pressure_by_rankine(friction_angle=friction * DEG) == pytest.approx(1)
    assert active == pytest.approx(math.tan((45 - friction / 2) * DEG) ** 2)


@given(coefficient=numbers(0.1, 1), density=numbers(1100, 2200), height=numbers(0.1, 4))
def test_a_thrust_is_the_sum_of_its_pressures(coefficient, density, height):
    earthy = quad(lambda z: coefficient * density * GRAVITY * z, 0, height)[0]
    wet = quad(lambda z: 1000 * GRAVITY * z, 0, height)[0]

    assert earth.earth_thrust(coefficient=coefficient, density=density, height=height) == pytest.approx(earthy)
    assert earth.water_thrust(height=height) == pytest.approx(wet)
    assert earth.earth_thrust(coefficient=1.0, density=1000.0, height=height) == pytest.approx(wet)


@given(coefficient=numbers(0.1, 1), layer=numbers(0.01, 2), density=numbers(1100, 2200), height=numbers(0.1, 3))
def test_a_load_on_the_bank_pushes_as_a_layer_of_its_weight(coefficient, layer, density, height):
    whole = earth.earth_thrust(coefficient=coefficient, density=density, height=height + layer)
    over = earth.earth_thrust(coefficient=coefficient, density=density, height=layer)
    loaded = earth.surcharge_thrust(coefficient=coefficient, surcharge=density * GRAVITY * layer, height=height)

    assert earth.earth_thrust(coefficient=coefficient, density=density, height=height) + loaded == pytest.approx(
        whole - over
    )


@given(coefficient=numbers(0.1, 0.9), density=numbers(1100, 2200), height=numbers(0.1, 3))
def test_soaked_earth_always_pushes_harder_than_drained(coefficient, density, height):
    under = earth.soaked_density(density=density)
    soaked = earth.earth_thrust(coefficient=coefficient, density=under, height=height) + earth.water_thrust(
        height=height
    )

    assert under + 1000 == pytest.approx(density)
    assert soaked > earth.earth_thrust(coefficient=coefficient, density=density, height=height)


@given(thrust=numbers(0, 1e5), lean=numbers(0, 50))
def test_the_level_part_and_the_rest_make_up_the_whole(thrust, lean):
    level = earth.level_part(thrust=thrust, lean=lean * DEG)

    assert math.hypot(level, thrust * math.sin(lean * DEG)) == pytest.approx(thrust)


def test_earth_that_would_slide_by_itself_is_refused():
    for wrong in (
        lambda: earth.active_pressure_by_rankine(friction_angle=25 * DEG, slope=26 * DEG),
        lambda: earth.active_pressure_by_coulomb(friction_angle=25 * DEG, wall_friction=0.0, slope=26 * DEG),
        lambda: earth.active_pressure_by_coulomb(friction_angle=25 * DEG, wall_friction=26 * DEG, slope=0.0),
        lambda: earth.active_pressure_by_rankine(friction_angle=0.0, slope=0.0),
        lambda: earth.soaked_density(density=950.0),
    ):
        with pytest.raises(OutOfRangeError):
            wrong()


def test_many_walls_at_once_give_what_each_gives():
    angles, slopes, heights = np.radians([20.0, 30.0, 40.0]), np.radians([0.0, 10.0, 20.0]), np.array([0.5, 1.0, 2.0])
    together = earth.active_pressure_by_rankine(friction_angle=angles, slope=slopes)
    rough = earth.active_pressure_by_coulomb(friction_angle=angles, wall_friction=slopes, slope=slopes)
    thrusts = earth.earth_thrust(coefficient=together, density=1800.0, height=heights)

    for number in range(3):
        one = earth.active_pressure_by_rankine(friction_angle=angles[number], slope=slopes[number])
        assert together[number] == pytest.approx(one)
        assert rough[number] == pytest.approx(one)
        assert thrusts[number] == pytest.approx(
            earth.earth_thrust(coefficient=one, density=1800.0, height=heights[number])
        )


# --- footings ---------------------------------------------------------------------------------------------------------


@given(pressure=numbers(0, 3e5), ledge=numbers(0, 1), wall=numbers(0.1, 0.6))
def test_the_ledge_bends_by_what_the_ground_pushes_on_it(pressure, ledge, wall):
    pushed = quad(lambda x: pressure * x, 0, ledge)[0]
    whole = 2 * ledge + wall

    moment = footings.projection_moment(pressure=pressure, projection=ledge)
    assert moment == pytest.approx(pushed)
    assert moment == pytest.approx(pressure * (whole - wall) ** 2 / 8, abs=1e-9)


@given(moment=numbers(10, 1e5), tension=numbers(1e5, 2e6))
def test_a_plain_strip_is_used_up_to_the_last(moment, tension):
    thick = footings.thickness_by_bending(moment=moment, tension=tension)

    assert moment / (thick**2 / 6) == pytest.approx(tension)


@given(pressure=numbers(1e4, 3e5), ledge=numbers(0.05, 0.6), tension=numbers(3e5, 1.5e6))
def test_the_european_strip_is_a_good_deal_thicker_than_bending_alone_asks(pressure, ledge, tension):
    by_rule = footings.thickness_by_en1992(pressure=pressure, projection=ledge, tension=tension)
    moment = footings.projection_moment(pressure=pressure, projection=ledge)

    assert by_rule / footings.thickness_by_bending(moment=moment, tension=tension) == pytest.approx(math.sqrt(3) / 0.85)


@given(ledge=numbers(0, 1))
def test_the_rule_of_45_degrees(ledge):
    thick = footings.thickness_by_rule(projection=ledge)

    assert thick == pytest.approx(max(ledge, 0.1524))


@given(strength=numbers(1e6, 5e7), factor=numbers(0.1, 1))
def test_tension_grows_with_the_root_of_the_strength(strength, factor):
    held = footings.plain_tension(concrete_strength=strength, factor=factor)

    assert footings.plain_tension(concrete_strength=4 * strength, factor=factor) == pytest.approx(2 * held)
    assert footings.plain_tension(concrete_strength=2500 * 6894.757, factor=1.0) / 6894.757 == pytest.approx(250)


@given(rise=numbers(0, 1), thickness=numbers(0.1, 1))
def test_a_strip_laps_by_the_longest_of_three_rules(rise, thickness):
    lap = footings.step_overlap(rise=rise, thickness=thickness)

    assert lap >= 2 * rise
    assert lap >= 0.3
    assert lap >= min(thickness, 0.5)
    assert lap == max(2 * rise, 0.3, min(thickness, 0.5))


@given(run=numbers(0.61, 5))
def test_a_step_rises_no_more_than_three_quarters_of_its_run(run):
    assert footings.largest_rise(run=run) == pytest.approx(0.75 * run)
    with pytest.raises(OutOfRangeError):
        footings.largest_rise(run=run / 10)


# --- frost ------------------------------------------------------------------------------------------------------------

WINTERS = {
    "surface_index": numbers(1e6, 2e8), "duration": numbers(20 * 86400, 200 * 86400),
    "mean_temperature": numbers(0, 15),
}  # fmt: skip
SOILS = {"dry_density": numbers(1200, 2100), "moisture": numbers(0.07, 0.4)}


def neumann(winter, capacity, latent, conductivity):
    """Exact depth of frost after a sudden cold, ground alike frozen and thawed (Neumann)."""
    cold, spread = winter["surface_index"] / winter["duration"], math.sqrt(conductivity / capacity)
    ste, warm = capacity * cold / latent, winter["mean_temperature"] / cold

    def left(x):
        return math.exp(-(x**2)) / erf(x) - warm * math.exp(-(x**2)) / erfc(x) - math.sqrt(math.pi) * x / ste

    return 2 * brentq(left, 1e-6, 5.0) * spread * math.sqrt(winter["duration"])


@given(**WINTERS, **SOILS)
def test_the_closed_form_keeps_near_the_exact_solution_and_never_passes_stefans(
    surface_index, duration, mean_temperature, dry_density, moisture
):
    assume(surface_index / duration < 25)
    latent = frost.latent_heat(dry_density=dry_density, moisture=moisture)
    capacity = frost.heat_capacity(dry_density=dry_density, moisture=moisture)
    winter = {"surface_index": surface_index, "duration": duration, "mean_temperature": mean_temperature}
    share = frost.berggren_coefficient(**winter, capacity=capacity, latent_heat=latent)
    deep = frost.frost_depth(coefficient=share, conductivity=1.5, surface_index=surface_index, latent_heat=latent)
    stefan = frost.frost_depth(coefficient=1.0, conductivity=1.5, surface_index=surface_index, latent_heat=latent)
    exact = neumann(winter, capacity, latent, 1.5)

    assert deep <= stefan
    assert deep >= exact * 0.93, "what it takes off is never much more than the exact solution does"


@given(**SOILS)
def test_ground_that_holds_no_heat_freezes_to_stefans_depth(dry_density, moisture):
    latent = frost.latent_heat(dry_density=dry_density, moisture=moisture)
    share = frost.berggren_coefficient(
        surface_index=5e7, duration=1e7, mean_temperature=5.0, capacity=1e-9, latent_heat=latent
    )

    assert share == pytest.approx(1)
    deep = frost.frost_depth(coefficient=share, conductivity=2.0, surface_index=5e7, latent_heat=latent)
    assert latent * deep**2 / 2 == pytest.approx(2.0 * 5e7), "all heat that leaves comes through the frozen ground"


@given(**SOILS)
def test_wetter_ground_holds_more_heat_and_frozen_ground_carries_more_than_dry(dry_density, moisture):
    wetter = moisture * 1.1

    assert frost.latent_heat(dry_density=dry_density, moisture=wetter) == pytest.approx(
        1.1 * frost.latent_heat(dry_density=dry_density, moisture=moisture)
    )
    assert frost.heat_capacity(dry_density=dry_density, moisture=wetter) > frost.heat_capacity(
        dry_density=dry_density, moisture=moisture
    )
    for grain in ("coarse", "fine"):
        frozen = frost.frozen_by_kersten(dry_density=dry_density, moisture=moisture, grain=grain)
        mean = frost.conductivity_by_kersten(dry_density=dry_density, moisture=moisture, grain=grain)
        assert frost.frozen_by_kersten(dry_density=dry_density, moisture=wetter, grain=grain) > frozen
        assert mean > 0
        assert 2 * mean - frozen > 0


@given(index=numbers(0, 2e8), factor=numbers(0, 1))
def test_the_surface_is_never_colder_than_the_air(index, factor):
    assert frost.surface_index(air_index=index, factor=factor) == index * factor


# --- blocks -----------------------------------------------------------------------------------------------------------


@given(wall=numbers(0.05, 1))
def test_a_strip_is_wider_than_its_wall_and_a_foot_at_least(wall):
    assert footings.least_width(thickness=wall) == pytest.approx(max(wall + 4 * 0.0254, 12 * 0.0254))


@given(load=numbers(0, 1e5), row=st.integers(3, 10))
def test_piers_of_two_rows_carry_the_whole_load(load, row):
    most = blocks.pier_load(load=load, count=float(2 * row))

    assert 2 * (most * (row - 2) + 2 * most / 2) == pytest.approx(load), "whole bays between, half ones at the ends"
    assert blocks.pier_load(load=load, count=4.0) == pytest.approx(load / 4)


@given(pressure=numbers(0, 2e3), length=numbers(0.5, 10), height=numbers(0.5, 4), raised=numbers(0, 1.5),
       width=numbers(0.5, 5), lift=numbers(0, 1e4))  # fmt: skip
def test_the_wind_tips_a_box_by_the_sum_of_its_strips(pressure, length, height, raised, width, lift):
    force = blocks.wind_on_box(pressure=pressure, length=length, height=height)
    strips = quad(lambda z: pressure * length * (raised + z), 0, height)[0]
    pulled = quad(lambda x: lift / width * x, 0, width)[0]

    assert blocks.lift_on_roof(pressure=pressure, area=length * width) == pytest.approx(pressure * length * width)
    assert blocks.tipping_moment(force=force, height=height, raised=raised, lift=lift, width=width) == pytest.approx(
        strips + pulled
    )


@given(weight=numbers(0, 1e5), ties=numbers(0, 1e4), width=numbers(0.5, 5))
def test_a_box_without_wind_stands_on_both_rows_alike(weight, ties, width):
    held = blocks.holding_moment(weight=weight, ties=ties, width=width)

    assert held - ties * width == pytest.approx(weight * width / 2)


@given(weight=numbers(0, 1e5), lift=numbers(0, 1e5), friction=numbers(0, 1), ties=numbers(0, 1e4))
def test_what_floats_off_its_blocks_is_held_by_its_ties_alone(weight, lift, friction, ties):
    held = blocks.grip_on_blocks(weight=weight, lift=lift, friction=friction, ties=ties)

    assert held == pytest.approx(ties + friction * max(weight - lift, 0))
    assert held >= ties

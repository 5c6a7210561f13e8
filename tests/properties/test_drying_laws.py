"""Evaporation and drying: rivals, limits and balances."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from pinfold.errors import OutOfRangeError
from pinfold.formulas import drying, evaporation, moist_air

HOUR = 3600.0
SEA = 101325.0
GRID = (  # surface, air, humidity, km/h: rounded power, exact power, vapor pressures, kg/m2h; derived beside the project
    (20, 20, 0.50, 10, 0.312, 0.324, 0.314), (30, 35, 0.15, 20, 1.547, 1.615, 1.557),
    (35, 40, 0.10, 15, 1.699, 1.776, 1.776), (25, 38, 0.08, 25, 1.486, 1.548, 1.457),
    (30, 30, 0.30, 10, 0.782, 0.817, 0.799), (25, 10, 0.40, 20, 1.256, 1.311, 1.226),
    (20, 5, 0.50, 30, 1.298, 1.352, 1.230), (32, 42, 0.05, 10, 1.140, 1.191, 1.168),
)  # fmt: skip


@pytest.mark.parametrize("state", GRID)
def test_three_forms_meet_what_another_hand_reckoned(state):
    surface, air, humidity, wind, *wanted = state
    asked = {"surface_c": float(surface), "air_c": float(air), "humidity": humidity, "wind": wind / 3.6}
    forms = (evaporation.evaporation_by_uno, evaporation.evaporation_by_power, evaporation.evaporation_by_menzel)

    assert [form(**asked) * HOUR for form in forms] == pytest.approx(wanted, abs=6e-4)


@given(
    surface=st.floats(10, 40), cooler=st.floats(0, 15), humidity=st.floats(0.05, 0.8), wind=st.floats(0, 11)
)  # fmt: skip
def test_power_and_vapor_pressures_agree_while_the_surface_is_no_cooler(surface, cooler, humidity, wind):
    air = max(surface - cooler, 5.0)
    asked = {"surface_c": surface, "air_c": air, "humidity": humidity, "wind": wind}
    menzel = evaporation.evaporation_by_menzel(**asked) * HOUR
    if menzel <= 0.1:
        return

    assert evaporation.evaporation_by_power(**asked) * HOUR == pytest.approx(menzel, rel=0.16)
    assert evaporation.evaporation_by_uno(**asked) * HOUR == pytest.approx(menzel, rel=0.20)


@given(st.floats(0, 45), st.floats(0.0, 1.0), st.floats(0, 10))
def test_saturated_air_as_warm_as_the_surface_takes_nothing_and_wind_takes_more(air, humidity, wind):
    def rate(wind, humidity):
        return evaporation.evaporation_by_menzel(surface_c=air, air_c=air, humidity=humidity, wind=wind)

    assert rate(wind, 1.0) == pytest.approx(0.0, abs=1e-12)
    assert rate(wind + 1, humidity) >= rate(wind, humidity)


def test_open_water_and_fresh_concrete_are_of_one_size():
    full, air = 0.622 * 3169.7 / (SEA - 3169.7), 0.622 * 1584.9 / (SEA - 1584.9)
    for wind in (0.5, 1.0, 3.0):
        pool = evaporation.evaporation_from_open_water(surface_water=full, air_water=air, wind=wind)
        concrete = evaporation.evaporation_by_menzel(surface_c=25.0, air_c=25.0, humidity=0.5, wind=wind)
        assert 0.5 < concrete / pool < 2.0


def settles_at(air, humidity, *, lewis, sun=0.0, wind=2.0):
    """Temperature of a wet face that stores nothing and exchanges no long-wave heat, with what leaves it."""
    vapor = moist_air.vapor_pressure(temperature_c=air, humidity=humidity)
    convection = drying.convection_by_side(wind=wind, side="windward")

    def leaving(face):
        density = drying.air_density(temperature_c=(air + face) / 2, pressure=SEA, vapor_pressure=vapor)
        transfer = drying.vapor_transfer(convection=convection, density=density, lewis=lewis)
        return drying.evaporation_from_wall(transfer=transfer, surface_c=face, air_c=air, vapor_pressure=vapor)

    def left_over(face):
        return drying.heat_into_wall(
            sun=sun, absorptance=1.0, long_wave=0.0, convection=convection, air_c=air, surface_c=face,
            evaporation=leaving(face),
        )  # fmt: skip

    face = brentq(left_over, -20.0, 100.0)
    return face, leaving(face), convection


@pytest.mark.parametrize(("air", "humidity"), [(40.0, 0.14), (30.0, 0.5), (20.0, 0.5)])
@pytest.mark.parametrize(("lewis", "within"), [(drying.LEWIS, 1.3), (1.0, 0.6)])
def test_an_unlit_wet_face_settles_near_the_wet_bulb(air, humidity, lewis, within):
    wet_bulb = moist_air.wet_bulb_c(temperature_c=air, humidity=humidity, pressure=SEA)

    assert settles_at(air, humidity, lewis=lewis)[0] == pytest.approx(wet_bulb, abs=within)


@pytest.mark.parametrize(("air", "humidity", "lewis", "wanted"), [
    (40.0, 0.14, 0.865, 18.9), (40.0, 0.14, 1.0, 19.5), (30.0, 0.5, 0.865, 21.5), (30.0, 0.5, 1.0, 21.8),
    (20.0, 0.5, 0.865, 13.4), (20.0, 0.5, 1.0, 13.6),
])  # fmt: skip
def test_the_wet_face_settles_where_another_hand_reckoned_it(air, humidity, lewis, wanted):
    assert settles_at(air, humidity, lewis=lewis)[0] == pytest.approx(wanted, abs=0.1)


@pytest.mark.parametrize("sun", [0.0, 200.0, 500.0])
@pytest.mark.parametrize(("humidity", "within"), [(0.2, 0.25), (0.5, 0.16), (0.8, 0.16)])
def test_penmans_straight_line_is_near_the_full_balance(sun, humidity, within):
    _, leaves, convection = settles_at(25.0, humidity, lewis=drying.LEWIS, sun=sun)
    by_penman = drying.evaporation_by_penman(
        heat=sun, convection=convection, air_c=25.0, humidity=humidity, pressure=SEA, lewis=drying.LEWIS
    )

    assert by_penman == pytest.approx(leaves, rel=within)


def test_wet_grass_of_the_standard_is_penmans_with_the_grass_own_resistance():
    wind, air = 2.0, 25.0
    convection = drying.air_density(temperature_c=air, pressure=SEA, vapor_pressure=1500.0) * 1006.0 * wind / 208.0
    by_asce = evaporation.evaporation_by_asce(
        net_radiation=400.0, ground_heat=40.0, air_c=air, humidity=0.4, pressure=SEA, wind=wind, crop=37.0, closing=0.0
    )
    by_penman = drying.evaporation_by_penman(
        heat=360.0, convection=convection, air_c=air, humidity=0.4, pressure=SEA, lewis=1.0
    )

    assert by_penman == pytest.approx(by_asce, rel=0.02)


@given(st.floats(0.0, 4.0))
def test_windward_heat_lies_in_the_band_that_was_measured_and_under_the_traditional_form(wind):
    windward = drying.convection_by_side(wind=wind, side="windward")

    assert 4.5 <= windward <= 10.9
    assert drying.convection_by_side(wind=wind, side="leeward") <= windward
    assert drying.convection_by_mcadams(wind=wind) > windward


def test_heat_follows_the_measured_band_in_the_middle_of_its_winds():
    assert all(6 <= drying.convection_by_side(wind=wind, side="windward") <= 10 for wind in (1.0, 2.0, 3.0))


@given(st.floats(-20, 50), st.floats(0, 1))
def test_all_as_warm_as_the_face_gives_and_takes_nothing(warm, view):
    black = drying.STEFAN_BOLTZMANN * (warm + 273.15) ** 4

    gain = drying.long_wave_gain(sky_heat=black, ground_c=warm, sky_view=view, surface_c=warm, emittance=0.9)

    assert gain == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0, 5), st.floats(0, 1e5))
def test_four_times_as_long_draws_in_twice_as_much(suction, time):
    first, second = (drying.water_drawn_in(suction=suction, time=long) for long in (time, 4 * time))

    assert second == pytest.approx(2 * first)


def test_water_takes_less_heat_along_the_warmer_it_is_and_moist_air_is_lighter():
    assert drying.heat_of_vapor(temperature_c=0.0) > drying.heat_of_vapor(temperature_c=30.0)
    dry, moist = (drying.air_density(temperature_c=20.0, pressure=SEA, vapor_pressure=vapor) for vapor in (0.0, 2300.0))
    assert moist < dry == pytest.approx(1.204, abs=1e-3)


def test_what_is_asked_outside_its_range_is_refused():
    with pytest.raises(OutOfRangeError, match="wind"):
        evaporation.evaporation_by_menzel(surface_c=20.0, air_c=20.0, humidity=0.5, wind=-1.0)
    with pytest.raises(OutOfRangeError, match="humidity"):
        evaporation.evaporation_by_uno(surface_c=20.0, air_c=20.0, humidity=50.0, wind=1.0)


def test_a_whole_day_is_asked_at_once():
    warm = np.linspace(10, 40, 24)
    many = evaporation.evaporation_by_menzel(surface_c=warm, air_c=warm, humidity=np.full(24, 0.3), wind=np.ones(24))

    assert many[5] == pytest.approx(
        evaporation.evaporation_by_menzel(surface_c=float(warm[5]), air_c=float(warm[5]), humidity=0.3, wind=1.0)
    )
    assert many.shape == (24,)


@given(st.floats(200, 2590))
def test_heavier_stuff_carries_more_heat_and_no_more_than_stone(density):
    carries, heavier = (drying.conductivity_by_density(density=each) for each in (density, density + 10))

    assert 0.026 < carries < heavier < 3.0

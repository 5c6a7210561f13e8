"""Laws of the air, of a day's temperatures, of the sky and of possible years."""

from __future__ import annotations

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import diurnal, moist_air, sky, weather_year, wind_profile

airs = st.floats(-40.0, 50.0)
shares = st.floats(0.02, 1.0)
lengths = st.floats(8 * 3600.0, 16 * 3600.0)


@pytest.fixture(autouse=True)
def _si():
    psychrolib.SetUnitSystem(psychrolib.SI)


@given(airs)
def test_saturation_is_the_librarys(temperature):
    ours = moist_air.saturation_pressure(temperature_c=temperature)

    assert ours == pytest.approx(psychrolib.GetSatVapPres(temperature), rel=1e-6)


@given(airs, shares)
def test_dew_point_and_humidity_are_there_and_back(temperature, humidity):
    dew = moist_air.dew_point_c(temperature_c=temperature, humidity=humidity)

    assert dew <= temperature + 1e-9
    assert moist_air.humidity_at(temperature_c=max(temperature, dew), dew_point_c=dew) == pytest.approx(
        humidity, rel=1e-5
    )
    assert dew == pytest.approx(psychrolib.GetTDewPointFromRelHum(temperature, humidity), abs=0.01)


@given(st.floats(1.0, 50.0), shares, st.floats(60e3, 105e3))
def test_a_wet_thing_is_no_colder_than_the_dew_and_no_warmer_than_the_air(temperature, humidity, pressure):
    wet = moist_air.wet_bulb_c(temperature_c=temperature, humidity=humidity, pressure=pressure)

    assert moist_air.dew_point_c(temperature_c=temperature, humidity=humidity) - 0.05 <= wet <= temperature + 0.05


@given(airs, shares, shares)
def test_moister_air_has_more_vapor(temperature, one, other):
    dry, moist = sorted((one, other))

    assert moist_air.vapor_pressure(temperature_c=temperature, humidity=dry) <= moist_air.vapor_pressure(
        temperature_c=temperature, humidity=moist
    )


@given(st.floats(0.0, 4000.0), st.floats(1.0, 3000.0))
def test_air_is_thinner_higher_up(low, rise):
    assert moist_air.air_pressure(elevation=low + rise) < moist_air.air_pressure(elevation=low)


def test_arrays_give_what_each_of_them_gives():
    temperatures, humidities = np.array([-12.0, 3.0, 31.0]), np.array([0.3, 0.9, 0.5])
    each = [
        moist_air.dew_point_c(temperature_c=float(temperature), humidity=float(humidity))
        for temperature, humidity in zip(temperatures, humidities, strict=True)
    ]

    assert moist_air.dew_point_c(temperature_c=temperatures, humidity=humidities) == pytest.approx(each)


def test_a_dew_point_above_the_air_is_refused():
    with pytest.raises(OutOfRangeError, match="air temperature over dew point"):
        moist_air.humidity_at(temperature_c=10.0, dew_point_c=10.5)


def day_of(after, *, length=43200.0, low=4.0, high=22.0):
    return diurnal.day_temperature_c(after_sunrise=after, day_length=length, lowest_c=low, highest_c=high)


@given(lengths, st.floats(-20.0, 25.0), st.floats(0.0, 25.0), st.floats(0.0, 1.0))
def test_a_day_stays_between_its_low_and_high(length, low, span, part):
    found = day_of(part * length, length=length, low=low, high=low + span)

    assert low - 1e-9 <= found <= low + span + 1e-9


def test_the_coldest_is_just_before_sunrise_and_the_warmest_after_noon():
    assert day_of(diurnal.MINIMUM_LAG) == pytest.approx(4.0)
    assert day_of(43200.0 / 2 + diurnal.MAXIMUM_LAG) == pytest.approx(22.0)
    assert day_of(43200.0 / 2) < 22.0


@given(lengths, st.floats(-20.0, 25.0), st.floats(0.1, 25.0), st.floats(0.0, 40000.0), st.floats(10.0, 20000.0))
def test_a_night_begins_at_sunset_and_only_cools(length, low, span, after, later):
    def at(seconds):
        return diurnal.night_temperature_c(after_sunset=seconds, day_length=length, lowest_c=low, sunset_c=low + span)

    assert at(0.0) == pytest.approx(low + span)
    assert low < at(after + later) < at(after)


def test_a_day_without_night_or_without_day_is_refused():
    with pytest.raises(OutOfRangeError):
        day_of(0.0, length=0.0)
    with pytest.raises(OutOfRangeError):
        diurnal.night_temperature_c(after_sunset=0.0, day_length=86400.0, lowest_c=0.0, sunset_c=5.0)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_cloud_never_lets_more_sun_through(one, other):
    less, more = sorted((one, other))

    assert 0.25 <= sky.share_of_clear_sun(cloud=more) <= sky.share_of_clear_sun(cloud=less) <= 1.0


@given(st.floats(-30.0, 30.0), st.floats(0.0, 40.0), st.floats(0.0, 1.0))
def test_a_sky_gives_no_more_heat_than_a_black_one_in_warm_dry_air(dew, dryness, cloud):
    blackness = sky.sky_emissivity(dew_point_c=dew, cloud=cloud)

    assert 0.6 < blackness < 1.1
    assert (
        sky.sky_heat(temperature_c=dew + dryness, emissivity=blackness) < 1.1 * 5.67e-8 * (dew + dryness + 273.15) ** 4
    )


@given(st.floats(0.3, 30.0), st.floats(0.3, 30.0))
def test_wind_grows_with_height_and_is_itself_where_it_was_told(low, rise):
    assert wind_profile.share_of_wind(height=low, told_at=low) == pytest.approx(1.0)
    assert wind_profile.share_of_wind(height=low + rise, told_at=low) > 1.0


@given(st.floats(0.0, 30.0))
def test_wind_over_grass_and_the_logarithm_agree_within_a_tenth(speed):
    grass = wind_profile.wind_at_two_meters(speed=speed, height=10.0)

    assert grass == pytest.approx(speed * wind_profile.share_of_wind(height=2.0, told_at=10.0), rel=0.1)


def test_departures_of_many_days_have_variance_one_and_the_correlations_of_their_matrices():
    chance = np.random.default_rng(7).standard_normal((60_000, 3))
    day = weather_year.Departures(high=0.0, low=0.0, sun=0.0)
    days = []
    for high, low, sun in chance.tolist():
        day = weather_year.departures(high_before=day.high, low_before=day.low, sun_before=day.sun, high_chance=high,
                                      low_chance=low, sun_chance=sun)  # fmt: skip
        days.append((day.high, day.low, day.sun))
    found = np.array(days[100:])

    assert found.var(axis=0) == pytest.approx([1.0, 1.0, 1.0], abs=0.05)
    assert np.corrcoef(found.T)[np.triu_indices(3, 1)] == pytest.approx([0.634, 0.186, -0.193], abs=0.03)


@given(st.floats(0.05, 0.95), st.floats(0.05, 0.95))
def test_the_share_of_wet_days_is_kept_by_a_step_of_the_chain(after_wet, after_dry):
    share = weather_year.share_of_wet_days(wet_after_wet=after_wet, wet_after_dry=after_dry)

    assert share * after_wet + (1 - share) * after_dry == pytest.approx(share)


@given(st.floats(1e-4, 0.05), st.floats(1e-4, 0.05))
def test_shape_and_scale_give_back_mean_and_deviation(mean, deviation):
    shape = weather_year.rain_shape(mean=mean, deviation=deviation)
    scale = weather_year.rain_scale(mean=mean, deviation=deviation)

    assert shape * scale == pytest.approx(mean)
    assert shape**0.5 * scale == pytest.approx(deviation)

"""Laws of sunlight on a plane: pvlib as rival, mirrors, conservation, limits worked by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import sunlight

DEG = math.radians(1)
altitudes = st.floats(1 * DEG, 89 * DEG)
ways = st.floats(0.0, 2 * math.pi)
tilts = st.floats(0.0, math.pi)
days = st.integers(1, 365).map(float)


@given(altitudes, ways, tilts, ways)
def test_pvlib_finds_the_same_incidence(altitude, azimuth, tilt, facing):
    from pvlib.irradiance import aoi_projection

    ours = sunlight.cosine_of_incidence(altitude=altitude, azimuth=azimuth, tilt=tilt, facing=facing)

    assert ours == pytest.approx(
        aoi_projection(tilt / DEG, facing / DEG, 90 - altitude / DEG, azimuth / DEG), abs=1e-12
    )


@given(altitudes, ways, ways)
def test_a_plane_face_up_does_not_mind_where_it_looks(altitude, azimuth, facing):
    level = sunlight.cosine_of_incidence(altitude=altitude, azimuth=azimuth, tilt=0.0, facing=facing)

    assert level == pytest.approx(math.sin(altitude))


@given(altitudes, st.floats(0.0, math.pi), tilts)
def test_east_and_west_mirror_each_other_about_the_noon(altitude, past_noon, tilt):
    morning = sunlight.cosine_of_incidence(altitude=altitude, azimuth=math.pi - past_noon, tilt=tilt, facing=90 * DEG)
    evening = sunlight.cosine_of_incidence(altitude=altitude, azimuth=math.pi + past_noon, tilt=tilt, facing=270 * DEG)

    assert morning == pytest.approx(evening)


@given(altitudes, ways)
def test_the_squares_of_three_planes_square_to_each_other_make_the_whole_sun(altitude, azimuth):
    planes = [(0.0, 0.0), (90 * DEG, 0.0), (90 * DEG, 90 * DEG)]

    parts = [
        sunlight.cosine_of_incidence(altitude=altitude, azimuth=azimuth, tilt=tilt, facing=facing)
        for tilt, facing in planes
    ]

    assert sum(part**2 for part in parts) == pytest.approx(1.0)


@given(st.floats(0, 1200), st.floats(-1, 1), st.floats(0, 1))
def test_a_shadow_never_brightens_and_no_sun_comes_from_behind(beam, cosine, lit):
    on_plane = sunlight.beam_on_plane(beam=beam, cosine=cosine, lit=lit)

    assert 0 <= on_plane <= sunlight.beam_on_plane(beam=beam, cosine=cosine, lit=1.0) <= beam
    assert cosine > 0 or on_plane == 0


@given(st.floats(0, 500), st.floats(0, 1200), st.floats(0, 1))
def test_an_upright_plane_gets_half_of_an_even_sky_and_of_what_the_ground_throws_back(diffuse, level, albedo):
    upright = math.pi / 2

    assert sunlight.sky_on_plane(diffuse=diffuse, tilt=upright, view=1.0) == pytest.approx(diffuse / 2)
    assert sunlight.ground_on_plane(level=level, albedo=albedo, tilt=upright) == pytest.approx(albedo * level / 2)


@given(st.floats(0, 500), tilts)
def test_a_plane_and_its_back_see_all_of_the_sky_between_them(diffuse, tilt):
    front = sunlight.sky_on_plane(diffuse=diffuse, tilt=tilt, view=1.0)
    back = sunlight.sky_on_plane(diffuse=diffuse, tilt=math.pi - tilt, view=1.0)

    assert front + back == pytest.approx(diffuse)
    # what the ground throws back of as much light goes where the sky's does not
    assert front + sunlight.ground_on_plane(level=diffuse, albedo=1.0, tilt=tilt) == pytest.approx(diffuse)


def test_the_clear_sun_grows_with_its_height_and_never_past_the_air():
    heights = np.radians(np.arange(0, 91, 5))
    strengths = [
        sunlight.beam_by_ashrae(apparent=1187.0, extinction=0.142, clearness=1.0, altitude=float(e)) for e in heights
    ]

    assert strengths[0] == 0
    assert np.all(np.diff(strengths) > 0)
    assert strengths[-1] == pytest.approx(1187 * math.exp(-0.142))


def test_the_year_has_its_turns_where_the_calendar_has_them():
    declinations = [sunlight.declination_by_fao56(day=float(day)) / DEG for day in range(1, 366)]

    assert max(declinations) == pytest.approx(23.44, abs=0.02)
    assert 170 <= declinations.index(max(declinations)) + 1 <= 174
    assert 352 <= declinations.index(min(declinations)) + 1 <= 358
    assert sunlight.distance_factor_by_fao56(day=1.0) > 1 > sunlight.distance_factor_by_fao56(day=183.0)


@given(days, st.floats(-65, 65))
def test_half_a_year_on_the_other_hemisphere_has_the_same_day(day, latitude):
    here = sunlight.daylight_by_fao56(latitude=latitude * DEG, day=day)
    angle = sunlight.sunset_hour_angle(latitude=-latitude * DEG, declination=-sunlight.declination_by_fao56(day=day))

    assert here == pytest.approx(86400 / math.pi * angle)


def test_the_polar_day_and_night_last_all_day():
    assert sunlight.daylight_by_fao56(latitude=70 * DEG, day=172.0) == 86400
    assert sunlight.daylight_by_fao56(latitude=70 * DEG, day=355.0) == 0
    assert sunlight.sun_outside_by_fao56(latitude=70 * DEG, day=355.0) == pytest.approx(0, abs=1e-9)
    with pytest.raises(OutOfRangeError, match="between the poles"):
        sunlight.sunset_hour_angle(latitude=math.pi / 2, declination=0.1)


@given(days, st.floats(-60, 60))
def test_the_mean_outside_the_air_is_the_sun_summed_over_the_day(day, latitude):
    declination = sunlight.declination_by_fao56(day=day)
    turns = np.linspace(-math.pi, math.pi, 20001)
    up = math.sin(latitude * DEG) * math.sin(declination) + math.cos(latitude * DEG) * math.cos(declination) * np.cos(
        turns
    )
    by_sum = 0.082e6 / 60 * sunlight.distance_factor_by_fao56(day=day) * np.maximum(up, 0).mean()

    assert sunlight.sun_outside_by_fao56(latitude=latitude * DEG, day=day) == pytest.approx(by_sum, rel=1e-3, abs=0.1)


def test_the_shadow_of_a_long_wall_by_hand():
    golden = {"altitude": (90 - 50.11162202) * DEG, "azimuth": 194.34024051 * DEG}

    assert sunlight.shadow_of_wall(height=3.0, facing=0.0, **golden) == pytest.approx(3.4776, abs=5e-5)
    assert sunlight.shadow_length(height=3.0, altitude=golden["altitude"]) == pytest.approx(3 * 1.19648, abs=1e-4)
    assert sunlight.shadow_of_wall(height=3.0, facing=194.34024051 * DEG, **golden) == pytest.approx(
        sunlight.shadow_length(height=3.0, altitude=golden["altitude"])
    )
    with pytest.raises(OutOfRangeError):
        sunlight.shadow_length(height=3.0, altitude=0.0)


def test_a_face_that_gains_nothing_is_as_warm_as_the_air():
    still = {"absorptance": 0.65, "to_sky": 0.0, "film": 17.0}

    assert sunlight.sol_air_temperature_c(air_c=20.0, light=0.0, **still) == 20
    light, dark = (
        sunlight.sol_air_temperature_c(air_c=41.0, absorptance=share, light=815.0, to_sky=0.0, film=17.0)
        for share in (0.45, 0.9)
    )
    assert light - 41 == pytest.approx((dark - 41) / 2)
    assert dark == pytest.approx(84.1, abs=0.1)

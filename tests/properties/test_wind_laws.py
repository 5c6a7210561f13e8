"""What must hold of wind whatever the numbers."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import mesh, wind, wind_en
from pinfold.tables import wind as tables
from pinfold.tables.grids import Line

speeds = st.floats(0.0, 90.0)
heights = st.floats(0.0, 60.0)
wall_heights = st.floats(0.3, 4.0)
slenderness = st.floats(0.02, 80.0)
shares = st.floats(0.05, 1.0)
solidities = st.floats(0.8, 1.0)
exposures = st.sampled_from(["B", "C", "D"])
editions = st.sampled_from(["7-16", "7-22"])
terrains = st.sampled_from(["0", "I", "II", "III", "IV"])
features = st.sampled_from(["ridge", "escarpment", "hill"])
sides = st.sampled_from(["upwind", "downwind"])
reynolds = st.floats(1.0, math.log10(2e5) - 1e-9).map(lambda power: 10**power)


def pressure(speed, exposure="C", height=2.0, edition="7-16"):
    kz = wind.exposure_coefficient(height=height, exposure=exposure, edition=edition)
    q = wind.velocity_pressure(
        speed=speed, air_density=1.226, exposure_coefficient=kz, topographic_factor=1.0, elevation_factor=1.0
    )
    return wind.wall_pressure(
        velocity_pressure=q, directionality=0.85, gust_factor=0.85, force_coefficient=1.3, minimum=766.0
    )


def peak(speed, height, terrain):
    mean = wind_en.mean_speed(
        basic_speed=speed, orography_factor=1.0,
        roughness_factor=wind_en.roughness_factor(height=height, terrain=terrain),
    )  # fmt: skip
    gusts = wind_en.turbulence_intensity(height=height, terrain=terrain, orography_factor=1.0)
    return wind_en.peak_pressure(mean_speed=mean, turbulence=gusts, air_density=1.25)


def square(b, share):
    return wind.wall_force_coefficient(length=b * share, solid_height=share, top_height=1.0)


def oblique(b, place, *, corner=0.0, share=0.5):
    """Case C of a part 1 m high, `place` of its length along, its top at 1 m over `share`."""
    return wind.oblique_force_coefficient(
        length=b, solid_height=1.0, top_height=1.0 / share, distance=place * b, return_length=corner
    )


def zoned(zone, b, corner, solidity):
    return wind_en.net_pressure_coefficient(
        zone=zone, length=2.0 * b, height=2.0, return_length=2.0 * corner, solidity=solidity
    )


class TestVelocityPressure:
    @given(speeds, speeds, exposures, editions)
    def test_more_wind_never_presses_less(self, one, other, exposure, edition):
        slow, fast = sorted((one, other))

        assert pressure(slow, exposure, edition=edition) <= pressure(fast, exposure, edition=edition)

    @given(heights, heights, exposures, editions)
    def test_exposure_coefficient_never_falls_with_height(self, one, other, exposure, edition):
        low, high = sorted((one, other))

        assert wind.exposure_coefficient(height=low, exposure=exposure, edition=edition) <= wind.exposure_coefficient(
            height=high, exposure=exposure, edition=edition
        )

    @given(heights, editions)
    def test_barer_ground_never_shelters_more(self, height, edition):
        b, c, d = (wind.exposure_coefficient(height=height, exposure=e, edition=edition) for e in "BCD")

        assert b < c < d

    @given(st.floats(0.0, 4.5), exposures, editions)
    def test_below_fifteen_feet_height_makes_no_difference(self, height, exposure, edition):
        assert pressure(50.0, exposure, height, edition) == pressure(50.0, exposure, 0.0, edition)

    @given(st.floats(10.0, 60.0), st.floats(0.5, 2.0), exposures, editions)
    def test_velocity_pressure_goes_with_the_square_of_the_speed(self, speed, times, exposure, edition):
        factors = {"air_density": 1.2, "exposure_coefficient": 0.85, "topographic_factor": 1.3, "elevation_factor": 0.9}

        once, more = (wind.velocity_pressure(speed=v, **factors) for v in (speed, times * speed))

        assert more == pytest.approx(times**2 * once)

    @given(st.floats(-500.0, 6000.0), st.floats(-500.0, 6000.0))
    def test_higher_sites_have_thinner_air(self, one, other):
        low, high = sorted((one, other))

        assert wind.elevation_factor(elevation=low) >= wind.elevation_factor(elevation=high)

    def test_negative_wind_is_refused(self):
        with pytest.raises(OutOfRangeError, match="wind speed"):
            pressure(-1.0)

    def test_a_wall_above_the_gradient_height_is_refused(self):
        with pytest.raises(OutOfRangeError, match="height above ground"):
            wind.exposure_coefficient(height=300.0, exposure="D", edition="7-16")


class TestHills:
    @given(features, exposures, sides, st.floats(1, 80), st.floats(5, 300), st.floats(0, 600), st.floats(0, 20))
    def test_a_hill_never_shelters_and_at_most_trebles(self, feature, exposure, side, high, half, off, up):
        found = wind.topographic_factor(
            feature=feature, exposure=exposure, hill_height=high, half_length=half, crest_distance=off, side=side,
            height=up,
        )  # fmt: skip

        assert 1.0 <= found <= (1 + 1.55 / 2) ** 2

    @given(features, st.floats(0, 300), st.floats(0, 300), st.floats(0, 20), st.floats(0, 20))
    def test_the_hill_matters_less_away_from_its_crest_and_above_it(self, feature, near, far, low, high):
        near, far = sorted((near, far))
        low, high = sorted((low, high))

        def factor(distance, height):
            return wind.topographic_factor(
                feature=feature, exposure="C", hill_height=30.0, half_length=80.0, crest_distance=distance,
                side="downwind", height=height,
            )  # fmt: skip

        assert factor(near, low) >= factor(far, low)
        assert factor(near, low) >= factor(near, high)

    @given(st.floats(1.0, 5.0))
    def test_past_half_as_high_as_long_steeper_hills_count_alike(self, times):
        def crest(half_length):
            return wind.crest_speed_up(feature="ridge", exposure="C", hill_height=30.0, half_length=half_length)

        assert crest(60.0 / times) == pytest.approx(crest(60.0))

    def test_low_and_gentle_hills_do_not_count(self):
        low = wind.crest_speed_up(feature="hill", exposure="B", hill_height=18.0, half_length=40.0)
        gentle = wind.crest_speed_up(feature="hill", exposure="C", hill_height=18.0, half_length=95.0)
        counted = wind.crest_speed_up(feature="hill", exposure="C", hill_height=18.0, half_length=40.0)

        assert (low, gentle) == (0.0, 0.0)
        assert counted > 0.2


class TestSolidWalls:
    @given(slenderness, shares, st.floats(-1e-6, 1e-6))
    def test_square_coefficient_has_no_jumps(self, b, share, hair):
        near = square(b * (1 + hair), min(share * (1 + hair), 1.0))

        assert square(b, share) == pytest.approx(near, abs=1e-5)
        assert 1.30 <= square(b, share) <= 1.95

    @given(st.floats(0.05, 45.0), st.floats(0.16, 1.0))
    @example(0.05, 0.16)
    @example(45.0, 1.0)
    def test_table_and_fit_agree_within_a_tenth(self, b, share):
        fit = wind.wall_force_coefficient_by_cirsoc(length=b * share, solid_height=share, top_height=1.0)

        assert square(b, share) == pytest.approx(fit, abs=0.05)

    @given(slenderness, st.floats(0.1, 10.0), shares)
    def test_a_model_of_the_wall_has_the_same_coefficient(self, b, size, share):
        model = wind.wall_force_coefficient(length=b * share * size, solid_height=share * size, top_height=size)

        assert model == pytest.approx(square(b, share))

    @given(st.floats(2.0, 80.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
    def test_slanting_wind_never_presses_more_away_from_the_edge(self, b, one, other):
        near, far = sorted((one, other))

        assert oblique(b, near) >= oblique(b, far)

    @given(st.floats(2.0, 80.0), st.floats(0.0, 3.0), st.floats(0.0, 3.0), st.floats(0.0, 1.0))
    def test_a_longer_return_never_adds(self, b, one, other, place):
        short, long = sorted((one, other))

        assert oblique(b, place, corner=long) <= oblique(b, place, corner=short)

    @given(st.floats(2.0, 80.0), st.floats(0.0, 1.0))
    def test_standing_on_the_ground_eases_case_c_by_a_fifth(self, b, place):
        assert oblique(b, place, share=1.0) == pytest.approx(0.8 * oblique(b, place, share=0.5))

    def test_mean_of_case_c_over_the_length_is_what_its_zones_add_up_to(self):
        assert [mean_oblique(b) for b in (2, 10, 13, 45)] == pytest.approx([1.875, 1.47, 1.35, 0.83], abs=0.006)

    def test_case_c_is_not_asked_of_short_walls(self):
        with pytest.raises(OutOfRangeError, match="length over height"):
            oblique(1.9, 0.5)

    @given(st.floats(0.7001, 1.0), st.floats(0.7001, 1.0))
    def test_more_openings_never_add(self, one, other):
        opener, closer = sorted((one, other))

        assert wind.openings_factor(solidity=opener) <= wind.openings_factor(solidity=closer) <= 1.0

    @given(wall_heights, wall_heights)
    def test_the_force_acts_within_the_solid_part(self, one, other):
        solid, top = sorted((one, other))

        height = wind.resultant_height(solid_height=solid, top_height=top)

        assert top - solid <= height <= top
        if solid < 0.99 * top:
            assert height == pytest.approx(top - solid / 2)

    def test_a_panel_taller_than_its_top_is_refused(self):
        with pytest.raises(OutOfRangeError, match="height of the top"):
            wind.wall_force_coefficient(length=4.0, solid_height=2.0, top_height=1.5)


def mean_oblique(b):
    steps = 2000
    return sum(oblique(b, (step + 0.5) / steps) for step in range(steps)) / steps


class TestEurocodeWalls:
    @given(speeds, speeds, heights, terrains)
    def test_more_wind_never_presses_less(self, one, other, height, terrain):
        slow, fast = sorted((one, other))

        assert peak(slow, height, terrain) <= peak(fast, height, terrain)

    @given(heights, heights, terrains)
    def test_peak_pressure_never_falls_with_height(self, one, other, terrain):
        low, high = sorted((one, other))

        assert peak(25.0, low, terrain) <= peak(25.0, high, terrain) * (1 + 1e-12)

    @given(st.floats(10.0, 60.0))
    def test_rougher_ground_slows_the_wind_and_stirs_it(self, height):
        order = ("0", "I", "II", "III", "IV")
        means = [wind_en.roughness_factor(height=height, terrain=terrain) for terrain in order]
        gusts = [wind_en.turbulence_intensity(height=height, terrain=t, orography_factor=1.0) for t in order]

        assert means == sorted(means, reverse=True)
        assert gusts == sorted(gusts)

    @given(st.floats(2.0, 1000.0), st.floats(2.0, 1000.0))
    def test_rarer_storms_are_stronger(self, one, other):
        often, rare = sorted((one, other))

        assert wind_en.return_period_factor(return_period=often) <= wind_en.return_period_factor(return_period=rare)

    def test_the_fifty_year_storm_is_the_measure(self):
        assert wind_en.return_period_factor(return_period=50.0) == pytest.approx(1.0)

    @given(slenderness, st.floats(0.0, 3.0), solidities)
    def test_zones_press_less_the_farther_they_lie_from_the_end(self, b, corner, solidity):
        found = [zoned(zone, b, corner, solidity) for zone in "ABCD"]

        assert all(one >= other - 1e-12 for one, other in pairwise(found))
        assert found[3] == pytest.approx(1.2)

    @given(st.sampled_from("ABCD"), slenderness, st.floats(0.0, 1.0), solidities)
    def test_a_partial_return_lies_between_none_and_a_full_one(self, zone, b, corner, solidity):
        ends = sorted((zoned(zone, b, 0.0, solidity), zoned(zone, b, 1.0, solidity)))

        assert ends[0] - 1e-12 <= zoned(zone, b, corner, solidity) <= ends[1] + 1e-12

    @given(st.sampled_from("ABCD"), slenderness, st.floats(0.0, 2.0), st.floats(-1e-7, 1e-7))
    def test_zone_coefficient_has_no_jumps(self, zone, b, corner, hair):
        near = zoned(zone, b * (1 + hair), corner * (1 + hair), 1.0)

        assert zoned(zone, b, corner, 1.0) == pytest.approx(near, abs=1e-5)

    @given(wall_heights, slenderness, st.floats(0.0, 1.0))
    def test_the_zone_at_a_distance_is_the_one_it_lies_in(self, height, b, place):
        distance = place * b * height
        found = wind_en.net_pressure_coefficient_at(
            distance=distance, length=b * height, height=height, return_length=0.0, solidity=1.0
        )
        zone = next(z for z, end in zip("ABCD", (0.3, 2.0, 4.0, math.inf), strict=True) if distance / height <= end)

        assert found == pytest.approx(zoned(zone, b, 0.0, 1.0), abs=1e-9)

    @given(st.floats(0.0, 2000.0), st.floats(0.0, 3.4))
    def test_wall_pressure_is_the_product(self, q, coefficient):
        found = wind_en.net_pressure(peak_pressure=q, pressure_coefficient=coefficient, structural_factor=1.0)

        assert found == q * coefficient


class TestMesh:
    @given(reynolds)
    def test_two_published_drag_fits_agree_within_a_tenth(self, re):
        one, other = mesh.wire_drag_by_hy722(reynolds=re), mesh.wire_drag_by_viscous_flow(reynolds=re)

        assert one == pytest.approx(other, rel=0.10)

    @given(st.floats(10 ** (2.7), 2e5))
    def test_from_a_fast_wire_on_they_agree_within_six_hundredths(self, re):
        one, other = mesh.wire_drag_by_hy722(reynolds=re), mesh.wire_drag_by_viscous_flow(reynolds=re)

        assert one == pytest.approx(other, rel=0.06)

    def test_drag_settles_at_the_long_known_one_and_a_fifth(self):
        assert mesh.wire_drag_by_hy722(reynolds=2e5) == pytest.approx(1.2, abs=0.01)
        assert mesh.wire_drag_by_viscous_flow(reynolds=2e5) == pytest.approx(1.18, abs=0.01)

    @given(st.floats(0.0005, 0.006), st.floats(0.02, 0.2), st.floats(20.0, 60.0))
    def test_fence_wire_never_reaches_the_fast_column_and_the_table_is_on_the_safe_side(self, wire, pitch, speed):
        solidity = mesh.square_mesh_solidity(wire=wire, pitch=pitch)
        q = wind.velocity_pressure(
            speed=speed, air_density=1.226, exposure_coefficient=1.0, topographic_factor=1.0, elevation_factor=1.0
        )
        cf = wind.open_force_coefficient(solidity=solidity, members="round", member_width=wire, velocity_pressure=q)
        re = mesh.reynolds_number(speed=speed, width=wire, viscosity=1.5e-5)

        assert cf in tables.open_lattice().cf["round_slow"]
        assert cf >= mesh.wire_drag_by_hy722(reynolds=re) - 0.005

    @given(st.floats(0.0, 0.05), st.floats(0.0, 0.05), st.floats(0.05, 0.3), st.floats(0.05, 0.3))
    def test_solidity_is_a_share_and_at_most_the_sum_of_its_wires(self, upright, level, wide, high):
        found = mesh.mesh_solidity(upright_wire=upright, level_wire=level, upright_pitch=wide, level_pitch=high)

        assert 0.0 <= found <= 1.0
        assert found <= upright / wide + level / high + 1e-12

    @given(st.floats(0.0, 2000.0), st.floats(0.0, 0.3))
    def test_lone_wires_press_in_proportion(self, q, solidity):
        one = mesh.mesh_pressure(velocity_pressure=q, solidity=solidity, drag=1.1)

        assert one == pytest.approx(q * solidity * 1.1)

    @given(st.floats(0.0, 3000.0), st.floats(0.0, 0.7), st.sampled_from(["flat", "round"]))
    def test_mesh_is_loaded_as_a_wall_of_its_solid_area(self, q, solidity, members):
        cf = wind.open_force_coefficient(solidity=solidity, members=members, member_width=0.02, velocity_pressure=q)
        factors = {"velocity_pressure": q, "directionality": 0.85, "gust_factor": 0.85, "force_coefficient": cf}

        mesh_load = wind.lattice_pressure(solidity=solidity, minimum=766.0, **factors)

        assert mesh_load == pytest.approx(solidity * wind.wall_pressure(minimum=766.0, **factors))

    def test_a_close_mesh_is_no_row_of_lone_wires(self):
        with pytest.raises(OutOfRangeError, match="solidity"):
            mesh.mesh_pressure(velocity_pressure=1000.0, solidity=0.31, drag=1.0)


@given(st.floats(-1.0, 5.0))
def test_a_printed_line_is_read_straight_and_at_its_ends_beyond(place):
    line = Line(at=(0.0, 1.0, 3.0), values=(2.0, 4.0, 3.0))
    wanted = 2.0 if place < 0 else 3.0 if place > 3 else 2 + 2 * place if place <= 1 else 4 - (place - 1) / 2

    assert line.read(place) == pytest.approx(wanted)


@given(height=wall_heights, share=st.floats(0.05, 1.0))
def test_only_a_wall_near_the_ground_is_eased_and_never_by_more_than_a_fifth(height, share):
    factor = wind.clearance_factor(solid_height=height * share, top_height=height)

    assert 0.8 - 1e-12 <= factor <= 1.0
    assert (factor == 1.0) == (height * share / height <= 0.8)


@given(share=st.floats(0.8, 1.0), more=st.floats(0.0, 0.2))
def test_the_nearer_the_ground_the_more_a_wall_is_eased(share, more):
    near, far = (wind.clearance_factor(solid_height=min(part, 1.0), top_height=1.0) for part in (share + more, share))

    assert near <= far


@given(height=wall_heights, reach=st.floats(0.0, 4.0), more=st.floats(0.0, 4.0))
def test_a_longer_return_never_loads_the_end_more(height, reach, more):
    short, long = (
        wind.return_corner_factor(return_length=height * part, solid_height=height) for part in (reach, reach + more)
    )

    assert 0.6 <= long <= short <= 1.0


@given(height=wall_heights)
def test_no_return_eases_nothing_and_none_eases_below_three_fifths(height):
    factors = [
        wind.return_corner_factor(return_length=height * reach, solid_height=height) for reach in (0.0, 0.29, 2.0, 50.0)
    ]

    assert factors == [1.0, 1.0, pytest.approx(0.6), pytest.approx(0.6)]


@given(length=st.floats(0.1, 300.0), force=st.floats(0.0, 1e5))
def test_an_even_wind_moved_off_the_middle_is_a_wind_that_falls_off_along_the_wall(length, force):
    """A straight slope of pressure from (1 + k) to (1 − k) of the mean has its resultant k B / 6 off: 0.2 B needs k = 1.2."""
    arm = wind.square_offset(length=length)
    mean = force / length
    cells = 2000
    width = length / cells
    spots = [(number + 0.5) * width - length / 2 for number in range(cells)]
    moment = sum(mean * (1 + 1.2 * 2 * spot / length) * spot * width for spot in spots)

    assert force * arm == pytest.approx(moment, rel=1e-5, abs=1e-9)
    assert arm < length / 2


def test_rougher_ground_has_the_larger_terrain_factor_and_open_ground_the_standards_own():
    found = [wind_en.terrain_factor(terrain=name) for name in ("0", "I", "II", "III", "IV")]

    assert found == sorted(found)
    assert found[2] == pytest.approx(0.19)


@given(height=st.floats(10.0, 60.0), terrain=terrains)
def test_the_terrain_factor_is_the_slope_of_mean_speed_over_the_logarithm_of_height(height, terrain):
    low, high = (wind_en.roughness_factor(height=part, terrain=terrain) for part in (height, height * math.e))

    assert high - low == pytest.approx(wind_en.terrain_factor(terrain=terrain), rel=1e-9)

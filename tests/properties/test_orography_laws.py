"""Laws of wind over hills by EN 1991-1-4, and the American factor of the same ridge as a rival."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import orography, wind

features, sides = st.sampled_from(["ridge", "escarpment", "hill"]), st.sampled_from(["upwind", "downwind"])
rises, slopes = st.floats(1.0, 300.0), st.floats(10.0, 2000.0)
shares = st.floats(0.0, 1.0)


def located(feature="hill", side="upwind", rise=20.0, slope=100.0, far=0.0, high=0.0):
    return orography.orography_location(
        feature=feature, side=side, hill_height=rise, slope_length=slope, crest_distance=far, height=high
    )


def factor(feature="hill", side="upwind", rise=20.0, slope=100.0, far=0.0, high=0.0):
    return orography.orography_factor(
        feature=feature, side=side, hill_height=rise, slope_length=slope, crest_distance=far, height=high
    )


@given(features, sides, rises, slopes)
def test_at_the_crest_the_whole_speed_up_is_felt_as_the_figures_draw_it(feature, side, rise, slope):
    assert located(feature, side, rise, slope) == pytest.approx(1.0, abs=0.02)


@given(features, sides, rises, slopes, st.floats(0.0, 5000.0), st.floats(0.0, 500.0))
def test_a_rise_never_shelters_and_never_more_than_six_tenths_are_added(feature, side, rise, slope, far, high):
    found = factor(feature, side, rise, slope, far, high)

    assert 1.0 <= found <= 1.6 + 0.6 * 0.0125


@given(features, rises, slopes, st.floats(0.0, 1.9))
def test_over_the_crest_there_is_no_jump(feature, rise, slope, high):
    length = orography.effective_length(hill_height=rise, slope_length=slope)
    before, behind = (located(feature, side, rise, slope, 1e-9, high * length) for side in ("upwind", "downwind"))

    assert before == pytest.approx(behind, abs=1e-6)


@given(features, sides, rises, slopes, shares, shares)
def test_low_over_the_ground_the_farther_from_the_crest_the_less_is_felt(feature, side, rise, slope, one, other):
    near, far = sorted((one, other))
    found = [located(feature, side, rise, slope, 4 * slope * each) for each in (near, far)]

    assert found[1] <= found[0] + 1e-9


@given(features, rises, slopes, shares, shares)
def test_higher_over_the_crest_less_is_felt(feature, rise, slope, one, other):
    """Up to where the polynomial of the standard turns, a hair before its end at 2 Le."""
    low, high = sorted((one, other))
    length = orography.effective_length(hill_height=rise, slope_length=slope)
    found = [located(feature, "upwind", rise, slope, 0.0, 1.9 * length * each) for each in (low, high)]

    assert found[1] <= found[0] + 1e-9


@pytest.mark.parametrize(
    ("feature", "side", "ends"),
    [
        ("hill", "upwind", 1.5),
        ("escarpment", "upwind", 1.5),
        ("ridge", "downwind", 2.0),
        ("escarpment", "downwind", 3.5),
    ],
)
def test_past_its_reach_nothing_is_felt(feature, side, ends):
    assert located(feature, side, far=100.0 * ends * 1.001) == 0.0
    assert located(feature, side, far=100.0 * ends * 0.9) > 0.0


@given(features, sides, slopes, shares)
def test_what_rises_less_than_one_in_twenty_is_level_land(feature, side, slope, share):
    assert factor(feature, side, rise=0.0499 * slope * share, slope=slope) == 1.0


@given(rises, slopes)
def test_a_steep_hill_counts_as_one_of_three_in_ten(rise, slope):
    assume(rise / slope > 0.3)
    assert orography.effective_length(hill_height=rise, slope_length=slope) == pytest.approx(rise / 0.3)
    assert factor(rise=rise, slope=slope) == pytest.approx(1 + 0.6 * 1.0124)


@given(rises, slopes)
def test_the_effective_length_is_never_shorter_than_the_slope(rise, slope):
    assert orography.effective_length(hill_height=rise, slope_length=slope) >= slope


@given(slopes)
def test_half_way_up_a_straight_slope_lies_half_its_length(half):
    assert orography.slope_length(half_length=half) == pytest.approx(2 * half)


@pytest.mark.parametrize("steepness", [0.2, 0.3, 0.4, 0.5])
def test_the_american_factor_of_the_same_ridge_lies_within_a_quarter_of_the_squared_european(steepness):
    """H/Lh of ASCE is 2 H/Lu of EN; pressures go with the square of the speed."""
    half, rise = 100.0, steepness * 100.0
    american = wind.topographic_factor(
        feature="ridge", exposure="C", hill_height=rise, half_length=half, crest_distance=0.0, side="upwind", height=1.0
    )
    european = factor("ridge", rise=rise, slope=orography.slope_length(half_length=half), high=1.0) ** 2

    assert european == pytest.approx(american, rel=0.25)


def test_behind_a_cliff_the_logarithm_is_of_the_ratio_not_of_the_length():
    """A transcription in circulation takes log(0.1/Le): a cliff of 33 m then adds nothing a step behind its edge."""
    edge, step = (located("escarpment", "downwind", rise=33.0, slope=110.0, far=far) for far in (0.0, 1.0))

    assert step == pytest.approx(edge, abs=0.02)


@given(rises, slopes, shares)
def test_behind_a_cliff_the_two_parts_meet(rise, slope, share):
    length = orography.effective_length(hill_height=rise, slope_length=slope)
    high = 2 * length * share
    one, other = (
        located("escarpment", "downwind", rise, slope, 0.1 * length * hair, high) for hair in (1 - 1e-9, 1 + 1e-9)
    )

    assert one == pytest.approx(other, abs=1e-6)


@pytest.mark.parametrize("wrong", [{"slope": 0.0}, {"far": -1.0}, {"high": -0.1}, {"rise": -1.0}, {"far": math.nan}])
def test_what_is_no_hill_is_refused(wrong):
    with pytest.raises(OutOfRangeError):
        located(**wrong)

"""Laws of earthquakes on walls: shares of their own weight between two bounds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import earthquakes

shares, weights = st.floats(0.0, 3.0), st.floats(0.0, 1e5)
FENCE = {"importance": 1.0, "amplification": 2.5, "response": 2.5, "height_share": 1.0}


def force(weight=1000.0, acceleration=1.0, **more):
    return earthquakes.component_force(weight=weight, spectral_acceleration=acceleration, **{**FENCE, **more})


@given(weights, shares, st.floats(0.5, 2.0), st.floats(0.0, 5.0), st.floats(0.5, 12.0), st.floats(0.0, 1.0))
def test_the_force_keeps_between_its_bounds(weight, acceleration, importance, swing, response, place):
    found = force(
        weight, acceleration, importance=importance, amplification=swing, response=response, height_share=place
    )
    whole = acceleration * importance * weight

    assert 0.3 * whole - 1e-9 <= found <= 1.6 * whole + 1e-9


@given(weights, shares)
def test_a_fence_wall_bears_one_and_a_fifth_of_its_shaken_weight(weight, acceleration):
    assert force(weight, acceleration) == pytest.approx(1.2 * acceleration * weight)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_what_stands_higher_is_shaken_no_less(one, other):
    low, high = sorted((one, other))

    assert force(height_share=low) <= force(height_share=high)


def test_where_nothing_shakes_nothing_pushes():
    assert force(acceleration=0.0) == 0.0


@given(shares, shares)
def test_a_harder_shaking_leaves_no_more_weight_to_help(one, other):
    low, high = sorted((one, other))

    left = [
        earthquakes.weight_share(weight_factor=0.6, load_factor=0.7, spectral_acceleration=each) for each in (low, high)
    ]

    assert left[0] >= left[1] >= 0.0


def test_no_weight_helps_where_the_ground_drops_as_fast_as_its_share():
    still = earthquakes.weight_share(weight_factor=0.6, load_factor=0.7, spectral_acceleration=0.0)
    gone = earthquakes.weight_share(weight_factor=0.6, load_factor=0.7, spectral_acceleration=0.6 / 0.14)

    assert (still, gone) == (0.6, pytest.approx(0.0, abs=1e-12))


def test_arrays_are_taken_as_numbers_are():
    found = force(np.array([100.0, 200.0]), 0.5)

    assert found == pytest.approx([force(100.0, 0.5), force(200.0, 0.5)])


@pytest.mark.parametrize(
    "more", [{"response": 0.0}, {"importance": 0.0}, {"height_share": 1.1}, {"amplification": -1.0}]
)
def test_what_no_code_knows_is_refused(more):
    with pytest.raises(OutOfRangeError):
        force(**more)


GARDEN = {"importance": 1.0, "behavior": 1.0, "height_share": 0.0, "period_share": 0.0}


def european(weight=1000.0, acceleration=1.0, **more):
    return earthquakes.component_force_en(weight=weight, ground_acceleration=acceleration, **{**GARDEN, **more})


@given(weights, shares)
def test_a_stiff_wall_on_the_ground_shakes_as_the_ground_does(weight, acceleration):
    assert european(weight, acceleration) == pytest.approx(acceleration * weight)


@given(shares, st.floats(0.0, 1.0), st.floats(0.0, 10.0))
def test_no_wall_shakes_less_than_the_ground_nor_more_than_in_time_with_what_it_stands_on(shake, place, period):
    least, most = shake * 1000.0, european(acceleration=shake, height_share=place, period_share=1.0)

    assert least - 1e-9 <= european(acceleration=shake, height_share=place, period_share=period) <= most + 1e-9


def test_in_time_with_the_ground_it_shakes_two_and_a_half_times_and_at_the_top_five_and_a_half():
    assert european(period_share=1.0) == 2500.0
    assert european(period_share=1.0, height_share=1.0) == 5500.0


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_nearer_its_time_it_shakes_no_less(one, other):
    low, high = sorted((one, other))

    assert european(period_share=low) <= european(period_share=high)


def test_the_european_family_takes_arrays_as_numbers():
    found = european(np.array([100.0, 200.0]), 0.5, period_share=np.array([0.0, 1.0]))

    assert found == pytest.approx([european(100.0, 0.5), european(200.0, 0.5, period_share=1.0)])


@pytest.mark.parametrize(
    "more", [{"behavior": 0.0}, {"importance": 0.0}, {"height_share": 1.1}, {"period_share": -1.0}]
)
def test_what_the_european_code_does_not_know_is_refused(more):
    with pytest.raises(OutOfRangeError):
        european(**more)

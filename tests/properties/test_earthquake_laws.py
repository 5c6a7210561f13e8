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

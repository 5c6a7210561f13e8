"""Bays and joints by hand."""

from __future__ import annotations

import math

import pytest

from pinfold.errors import InputError
from pinfold.geometry.spacing import bay_count, bays_between, equal_bays, joint_places


def test_ten_meters_in_bays_of_at_most_three_are_four_of_two_and_a_half():
    bays = equal_bays(10.0, 3.0)
    assert bays.places == (0.0, 2.5, 5.0, 7.5, 10.0)
    assert bays.bay == 2.5
    assert bays.widths == (2.5,) * 4


def test_bays_that_fit_exactly_are_not_cut_smaller_by_rounding():
    assert bay_count(0.1 * 3, 0.1) == 3
    assert bay_count(2.4384 * 7, 2.4384) == 7
    assert bay_count(1.0, 5.0) == 1


@pytest.mark.parametrize(("length", "maximum"), [(0.0, 1.0), (-1.0, 1.0), (1.0, 0.0), (math.nan, 1.0), (1e9, 0.001)])
def test_bays_that_make_no_sense_are_refused(length, maximum):
    with pytest.raises(InputError):
        equal_bays(length, maximum)


def test_fixed_places_are_kept_and_each_stretch_is_shared_out_by_itself():
    bays = bays_between([6.0, 0.0, 10.0, 6.0], 3.5)
    assert bays.places == (0.0, 3.0, 6.0, 8.0, 10.0)
    assert bays.bay == 3.0


def test_nothing_stands_in_an_opening_and_it_is_no_bay():
    bays = bays_between([0.0, 12.0], 2.0, openings=[(3.0, 7.0)])
    assert bays.places == (0.0, 1.5, 3.0, 7.0, pytest.approx(7 + 5 / 3), pytest.approx(7 + 10 / 3), 12.0)
    assert sum(bays.widths) == pytest.approx(8.0)
    assert (3.0, 7.0) not in bays.spans


def test_openings_side_by_side_share_a_post():
    assert bays_between([0.0, 4.0], 9.0, openings=[(1.0, 2.0), (2.0, 3.0)]).places == (0.0, 1.0, 2.0, 3.0, 4.0)


def test_a_post_in_an_opening_is_refused():
    with pytest.raises(InputError, match="stands in the opening"):
        bays_between([0.0, 5.0, 12.0], 2.0, openings=[(3.0, 7.0)])
    with pytest.raises(InputError, match="stands in the opening"):
        bays_between([0.0, 12.0], 2.0, openings=[(3.0, 7.0), (6.0, 8.0)])
    with pytest.raises(InputError, match="two fixed places"):
        bays_between([1.0], 2.0)
    with pytest.raises(InputError, match="no place"):
        bays_between([0.0, math.inf], 2.0)


def test_joints_are_where_they_must_be_and_between_equal():
    assert joint_places(12.0, 4.0) == (4.0, 8.0)
    assert joint_places(12.0, 5.0, at=(9.0, 0.0)) == (4.5, 9.0)
    assert joint_places(3.0, 5.0) == ()
    with pytest.raises(InputError, match="not on a wall"):
        joint_places(3.0, 5.0, at=(4.0,))

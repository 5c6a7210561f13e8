"""Clearances by hand."""

from __future__ import annotations

import math

import pytest

from pinfold.errors import InputError
from pinfold.geometry.clearances import (
    crossings,
    outline_to_path,
    point_to_path,
    post_clearance,
    trench_clearance,
)

PIPE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0))
TRENCH = ((2.0, 3.0), (6.0, 3.0), (6.0, 4.0), (2.0, 4.0))


def rounded(pairs):
    return [tuple(round(number, 9) for number in pair) for pair in pairs]


def test_a_point_beside_a_bent_line():
    closest = point_to_path((13.0, 4.0), PIPE)
    assert (closest.distance, closest.on_line, closest.along) == (3.0, (10.0, 4.0), 14.0)


def test_a_line_that_lies_inside_an_outline_has_no_distance():
    assert outline_to_path(TRENCH, ((3.0, 3.5), (4.0, 3.5))).distance == 0.0
    assert outline_to_path(TRENCH, ((0.0, 3.5), (4.0, 3.5))).on_line == (2.0, 3.5)
    assert outline_to_path(TRENCH, PIPE).distance == 3.0


def test_crossings_in_order_with_their_angles():
    zigzag = ((0.0, -1.0), (2.0, 1.0), (4.0, -1.0), (4.0, 5.0))
    found = crossings(((0.0, 0.0), (9.0, 0.0)), zigzag)
    assert rounded([crossing.place for crossing in found]) == [(1.0, 0.0), (3.0, 0.0), (4.0, 0.0)]
    assert [crossing.angle for crossing in found] == pytest.approx([math.pi / 4, math.pi / 4, math.pi / 2])
    assert found[2].on_line == pytest.approx(4 * math.sqrt(2) + 1)


def test_a_line_along_the_segment_gives_the_ends_of_what_they_share():
    found = crossings(((0.0, 0.0), (4.0, 0.0)), ((3.0, 0.0), (9.0, 0.0)))
    assert [(crossing.place, crossing.angle) for crossing in found] == [((3.0, 0.0), 0.0), ((4.0, 0.0), 0.0)]
    assert crossings(((0.0, 1.0), (4.0, 1.0)), ((3.0, 0.0), (9.0, 0.0))) == ()


def test_a_corner_of_the_line_on_the_segment_is_one_crossing():
    assert len(crossings(((0.0, 0.0), (4.0, 0.0)), ((1.0, -1.0), (2.0, 0.0), (3.0, 1.0)))) == 1


def test_a_line_deeper_than_a_trench_beside_it_is_clear_by_3_4_5():
    clearance = trench_clearance(TRENCH, depth=1.0, line=PIPE, line_depth=5.0, line_radius=0.1)
    assert (clearance.plan, clearance.below) == (3.0, 4.0)
    assert clearance.distance == pytest.approx(4.9)


def test_a_line_above_the_bottom_is_clear_by_its_distance_in_plan_only():
    assert trench_clearance(TRENCH, depth=1.0, line=PIPE, line_depth=0.4).distance == 3.0


def test_a_trench_over_a_line_is_clear_by_the_ground_left_and_through_it_negative():
    over = ((0.0, 3.5), (9.0, 3.5))
    assert trench_clearance(TRENCH, depth=0.5, line=over, line_depth=0.8, line_radius=0.05).distance == pytest.approx(
        0.25
    )
    assert trench_clearance(TRENCH, depth=0.9, line=over, line_depth=0.8, line_radius=0.05).distance == -0.05


def test_a_pin_beside_a_line():
    clearance = post_clearance((5.0, 2.0), radius=0.5, depth=1.0, line=PIPE, line_depth=3.0)
    assert clearance.distance == pytest.approx(2.5)
    assert clearance.place == pytest.approx((5.0, 1.5))
    assert post_clearance((5.0, 0.0), radius=0.5, depth=1.0, line=PIPE, line_depth=0.5).distance == 0.0


def test_depths_go_down():
    with pytest.raises(InputError, match="0 or more"):
        post_clearance((5.0, 2.0), radius=0.5, depth=-1.0, line=PIPE, line_depth=3.0)
    with pytest.raises(InputError, match="at least 2"):
        point_to_path((0.0, 0.0), ((1.0, 1.0),))

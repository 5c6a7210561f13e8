"""Segments, paths, outlines, bands and intervals by hand."""

from __future__ import annotations

import math

import pytest

from pinfold.errors import InputError
from pinfold.geometry import intervals, outlines, segments

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
BOW_TIE = ((0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0))
ELL = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 5.0), (0.0, 5.0))


def test_a_3_4_segment_is_5_long_and_its_left_is_up_and_back():
    assert segments.length(((0.0, 0.0), (3.0, 4.0))) == 5.0
    assert segments.direction((0.0, 0.0), (3.0, 4.0)) == (0.6, 0.8)
    assert segments.left_normal((0.0, 0.0), (3.0, 4.0)) == (-0.8, 0.6)


def test_a_segment_between_one_place_has_no_direction():
    with pytest.raises(InputError, match="no direction"):
        segments.direction((1.0, 1.0), (1.0, 1.0))


def test_points_along_a_bent_path():
    path = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0))
    assert segments.point_along(path, 0.0) == (0.0, 0.0)
    assert segments.point_along(path, 4.0) == (4.0, 0.0)
    assert segments.point_along(path, 5.5) == (4.0, 1.5)
    assert segments.point_along(path, 7.0) == (4.0, 3.0)
    for off in (-0.1, 7.1, math.nan):
        with pytest.raises(InputError, match="not on a path"):
            segments.point_along(path, off)


def test_crossing_segments_meet_and_parallel_ones_keep_their_distance():
    assert segments.segment_to_segment(((0.0, 0.0), (2.0, 2.0)), ((0.0, 2.0), (2.0, 0.0))).near == (1.0, 1.0)
    apart = segments.segment_to_segment(((0.0, 0.0), (4.0, 0.0)), ((1.0, 3.0), (9.0, 3.0)))
    assert apart.distance == 3.0
    assert apart.far[1] == 3.0
    ends = segments.segment_to_segment(((0.0, 0.0), (1.0, 0.0)), ((2.0, 1.0), (2.0, 5.0)))
    assert (ends.near, ends.far, ends.distance) == ((1.0, 0.0), (2.0, 1.0), math.sqrt(2))


def test_a_square_by_hand():
    assert outlines.signed_area(SQUARE) == 100.0
    assert outlines.signed_area(SQUARE[::-1]) == -100.0
    assert outlines.perimeter(SQUARE) == 40.0
    assert outlines.is_clockwise(SQUARE[::-1])
    assert not outlines.is_clockwise(outlines.counterclockwise(SQUARE[::-1]))


def test_an_ell_covers_the_same_either_way_around():
    assert outlines.area(ELL) == outlines.area(ELL[::-1]) == 18.0


def test_a_bow_tie_names_the_edges_that_cross():
    assert outlines.crossing_edges(BOW_TIE) == ((0, 2),)


def test_an_edge_that_folds_back_or_touches_is_not_simple():
    assert outlines.crossing_edges(((0.0, 0.0), (4.0, 0.0), (2.0, 0.0), (2.0, 3.0))) == ((0, 1), (0, 2))
    assert outlines.crossing_edges(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)))
    assert outlines.crossing_edges(((0.0, 0.0), (4.0, 0.0), (2.0, 0.0)))


def test_edges_belong_to_the_inside():
    assert outlines.contains(ELL, (1.0, 4.0))
    assert outlines.contains(ELL, (2.0, 3.0))
    assert not outlines.contains(ELL, (3.0, 3.0))


def test_gates_taken_out_of_a_run():
    assert intervals.subtract((0.0, 10.0), [(2.0, 3.0), (2.5, 4.0), (9.0, 12.0), (-3.0, 0.5)]) == (
        (0.5, 2.0),
        (4.0, 9.0),
    )
    assert intervals.subtract((0.0, 10.0), [(-1.0, 11.0)]) == ()
    assert intervals.subtract((0.0, 10.0), []) == ((0.0, 10.0),)
    assert intervals.subtract((0.0, 10.0), [(12.0, 13.0)]) == ((0.0, 10.0),)


def test_stretches_joined_split_and_shared():
    assert intervals.merged([(4.0, 5.0), (0.0, 1.0), (1.0, 2.0)]) == ((0.0, 2.0), (4.0, 5.0))
    assert intervals.split((0.0, 3.0), [2.0, 0.0, 1.0, 5.0, 1.0]) == ((0.0, 1.0), (1.0, 2.0), (2.0, 3.0))
    assert intervals.overlap((0.0, 2.0), (1.0, 5.0)) == (1.0, 2.0)
    assert intervals.overlap((0.0, 2.0), (2.0, 5.0)) is None
    assert intervals.total([(0.0, 2.0), (1.0, 3.0), (7.0, 8.0)]) == 4.0
    with pytest.raises(InputError, match="go forward"):
        intervals.merged([(2.0, 1.0)])

"""Ground, profiles, contours by hand."""

from __future__ import annotations

import math

import pytest
import shapely

from pinfold.errors import InputError
from pinfold.geometry import ground, profiles, triangulation
from pinfold.geometry.contours import contours
from pinfold.geometry.ground import Ground, height_at, profile, profile_along, slope_at, surface

TENT = Ground(points=((0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 2)))
RAMP = Ground(points=((0, 0, 0), (10, 0, 1), (10, 10, 1), (0, 10, 0)))


def rounded(pairs):
    return [tuple(round(number, 9) for number in pair) for pair in pairs]


def test_a_tent_of_four_triangles_by_hand():
    over = surface(TENT)
    assert len(over.triangles) == 4
    assert len(over.rim) == 4
    assert height_at(over, (5, 5)) == ground.Height(z=2.0, inside=True)
    assert height_at(over, (2.5, 5)).z == pytest.approx(1.0)
    assert height_at(over, (0, 7)) == ground.Height(z=0.0, inside=True)


def test_outside_the_survey_the_nearest_place_counts_and_is_told():
    over = surface(RAMP)
    assert height_at(over, (5, -3)) == ground.Height(z=0.5, inside=False)
    assert height_at(over, (14, 13)) == ground.Height(z=1.0, inside=False)


def test_one_point_makes_level_ground():
    over = surface(Ground(points=((3, 3, 1.5),)))
    assert height_at(over, (50, 8)) == ground.Height(z=1.5, inside=False)
    assert height_at(over, (3, 3)).inside
    assert profile(over, (0, 0), (4, 0)).points == ((0.0, 1.5), (4.0, 1.5))


def test_two_points_slope_along_their_line_and_are_straight_across_it():
    over = surface(Ground(points=((0, 0, 0), (10, 0, 1))))
    assert height_at(over, (5, 40)) == ground.Height(z=0.5, inside=False)
    assert height_at(over, (5, 0)) == ground.Height(z=0.5, inside=True)
    assert height_at(over, (25, 3)).z == 1.0
    along = profile(over, (-5, 2), (15, 2))
    assert rounded(along.points) == [(0, 0), (5, 0), (15, 1), (20, 1)]
    assert along.outside == ((0.0, 20.0),)


def test_points_on_one_line_make_a_chain_in_any_order():
    over = surface(Ground(points=((10, 10, 3), (0, 0, 0), (4, 4, 1))))
    assert over.triangles == ()
    assert height_at(over, (4, 4)) == ground.Height(z=1.0, inside=True)
    assert height_at(over, (7, 7)).z == pytest.approx(2.0)
    assert slope_at(over, (4, 4)) is None
    assert contours(over, 0.5) == ()


def test_ground_that_cannot_be_is_refused():
    with pytest.raises(InputError, match="two heights"):
        Ground(points=((0, 0, 0), (1, 1, 1), (0, 0, 0.1)))
    with pytest.raises(InputError, match="one surveyed point"):
        Ground(points=())
    with pytest.raises(InputError, match="not finite"):
        Ground(points=((0, math.nan, 0),))


def test_a_point_surveyed_twice_at_one_height_counts_once():
    assert len(surface(Ground(points=(*TENT.points, (5, 5, 2)))).points) == 5


def test_a_point_a_hair_off_the_rim_makes_no_triangle_without_width():
    over = surface(Ground(points=((0, 0, 0), (10, 0, 0), (5, 1e-7, 1), (5, 5, 0))))
    assert len(over.triangles) == 2
    assert height_at(over, (5, 0)) == ground.Height(z=pytest.approx(1.0), inside=True)
    assert height_at(over, (2.5, 0)).z == pytest.approx(0.5)


def test_a_fault_of_the_triangulation_is_ours(monkeypatch):
    def failing(_):
        raise shapely.errors.GEOSException("no")

    monkeypatch.setattr(triangulation.shapely, "delaunay_triangles", failing)
    with pytest.raises(InputError, match="cannot be spanned"):
        surface.__wrapped__(TENT)
    monkeypatch.setattr(triangulation.shapely, "delaunay_triangles", lambda _: shapely.GeometryCollection())
    with pytest.raises(InputError, match="cannot be spanned"):
        surface.__wrapped__(TENT)
    monkeypatch.setattr(triangulation.shapely, "delaunay_triangles", lambda _: None)
    with pytest.raises(InputError, match="cannot be spanned"):
        surface.__wrapped__(TENT)


def test_a_profile_over_the_tent_has_its_ridge_and_tells_the_stretches_outside():
    across = profile(surface(TENT), (-2, 5), (12, 5))
    assert rounded(across.points) == [(0, 0), (2, 0), (7, 2), (12, 0), (14, 0)]
    assert rounded(across.outside) == [(0, 2), (12, 14)]


def test_a_profile_along_a_path_counts_on():
    around = profile_along(surface(TENT), ((0, 5), (5, 5), (5, 0), (5, -1)))
    assert rounded(around.points) == [(0, 0), (5, 2), (10, 0), (11, 0)]
    assert rounded(around.outside) == [(10, 11)]
    with pytest.raises(InputError, match="no direction"):
        profile(surface(TENT), (1, 1), (1, 1))


def test_the_ramp_falls_one_in_ten_to_the_left():
    over = surface(RAMP)
    slope = slope_at(over, (3, 4))
    assert slope.grade == pytest.approx(0.1)
    assert slope.downhill == pytest.approx((-1, 0))
    assert slope_at(over, (30, 4)) is None
    assert slope_at(surface(Ground(points=((0, 0, 1), (1, 0, 1), (0, 1, 1)))), (0.2, 0.2)).downhill is None
    assert ground.grade_between(over, (2, 1), (8, 9)) == pytest.approx(0.06)


def test_contours_of_the_tent_are_squares_that_close():
    lines = contours(surface(TENT), 0.5)
    assert [line.z for line in lines] == [0.5, 1.0, 1.5]
    for line in lines:
        assert line.path[0] == line.path[-1]
        half = 5 * (1 - line.z / 2)
        assert shapely.Polygon(line.path).area == pytest.approx((2 * half) ** 2)


def test_contours_of_a_ramp_run_from_rim_to_rim():
    (line,) = [line for line in contours(surface(RAMP), 0.25) if line.z == 0.5]
    assert rounded(sorted((line.path[0], line.path[-1]))) == [(5, 0), (5, 10)]


def test_contours_without_end_are_refused():
    for interval in (0.0, -1.0, math.nan, 1e-6):
        with pytest.raises(InputError, match="contours"):
            contours(surface(TENT), interval)


def test_profiles_by_hand():
    line = ((0.0, 1.0), (4.0, 3.0), (6.0, 2.0))
    assert profiles.height_along(line, 1.0) == 1.5
    assert profiles.height_along(line, 6.0) == 2.0
    assert profiles.part_of(line, 2.0, 5.0) == ((2.0, 2.0), (4.0, 3.0), (5.0, 2.5))
    assert profiles.area_above(line, 1.0) == 4 * 1 + 2 * 1.5
    assert profiles.grades(line) == (0.5, -0.5)
    assert profiles.leaned(((0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 2.0))) == ((0.0, 0.0), (2.0, 2.0), (3.0, 2.0))
    with pytest.raises(InputError, match="off a profile"):
        profiles.height_along(line, 6.5)
    with pytest.raises(InputError, match="no length"):
        profiles.part_of(line, 2.0, 2.0)


@pytest.mark.parametrize("broken", [((0.0, 1.0),), ((0.0, 1.0), (0.0, 2.0)), ((0.0, 1.0), (1.0, math.nan))])
def test_a_broken_profile_is_refused(broken):
    with pytest.raises(InputError):
        profiles.checked_profile(broken)

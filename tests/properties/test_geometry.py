"""Geometry held against what must always be so, and against shapely and scipy as rivals."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.interpolate import LinearNDInterpolator

from pinfold.geometry import clearances, intervals, outlines, profiles, segments, spacing
from pinfold.geometry.contours import contours
from pinfold.geometry.ground import Ground, height_at, profile, slope_at, surface
from pinfold.geometry.stepping import StepRules, TopLine, stepped

settings.register_profile("geometry", max_examples=30, deadline=None)
QUICK = settings.get_profile("geometry")

whole = st.integers(-20, 20).map(float)
points = st.tuples(whole, whole)
paths = st.lists(points, min_size=2, max_size=6, unique=True).map(tuple)
polygons = st.lists(points, min_size=3, max_size=7, unique=True).map(tuple)
turns = st.floats(0, 2 * math.pi)
thicknesses = st.just(0.0) | st.floats(0.01, 0.4)
heights = st.integers(-30, 30).map(lambda number: number / 10)
surveys = st.lists(st.tuples(whole, whole, heights), min_size=4, max_size=25, unique_by=lambda point: point[:2])


@st.composite
def rings(draw, most=9):
    """Outlines around the origin that never cross themselves: corners at ascending bearings."""
    count = draw(st.integers(3, most))
    radii = draw(st.lists(st.floats(6, 20), min_size=count, max_size=count))
    return tuple(
        (radius * math.cos(2 * math.pi * i / count), radius * math.sin(2 * math.pi * i / count))
        for i, radius in enumerate(radii)
    )


@st.composite
def grounds(draw):
    survey = draw(surveys)
    assume(shapely.MultiPoint([point[:2] for point in survey]).convex_hull.area > 1)
    return Ground(points=tuple(survey))


@st.composite
def runs(draw):
    gaps = draw(st.lists(st.floats(0.3, 4), min_size=1, max_size=6))
    levels = draw(st.lists(st.floats(-1.5, 1.5), min_size=len(gaps) + 1, max_size=len(gaps) + 1))
    places = [0.0]
    for gap in gaps:
        places.append(places[-1] + gap)
    return tuple(zip(places, levels, strict=True))


def turned(shape, angle, shift=(3.0, -7.0)):
    cosine, sine = math.cos(angle), math.sin(angle)
    return tuple((x * cosine - y * sine + shift[0], x * sine + y * cosine + shift[1]) for x, y in shape)


def mirrored(shape):
    return tuple((-x, y) for x, y in shape)


@QUICK
@given(polygons)
def test_simple_outlines_are_those_shapely_calls_valid_and_their_measures_agree(outline):
    rival = shapely.Polygon(outline)
    assert (not outlines.crossing_edges(outline)) == rival.is_valid
    assert outlines.perimeter(outline) == pytest.approx(rival.length)
    if rival.is_valid:
        assert outlines.area(outline) == pytest.approx(rival.area)
        assert outlines.is_clockwise(outline) != rival.exterior.is_ccw


@QUICK
@given(rings(), points)
def test_what_an_outline_contains_is_what_shapely_covers(outline, point):
    rival = shapely.Polygon(outline)
    assume(rival.boundary.distance(shapely.Point(point)) > 1e-5)
    assert outlines.contains(outline, point) == rival.covers(shapely.Point(point))


@QUICK
@given(rings(), turns)
def test_turning_and_mirroring_an_outline_changes_no_measure(outline, angle):
    for image in (turned(outline, angle), mirrored(outline), outline[::-1], outline[2:] + outline[:2]):
        assert outlines.area(image) == pytest.approx(outlines.area(outline))
        assert outlines.perimeter(image) == pytest.approx(outlines.perimeter(outline))
        assert not outlines.crossing_edges(image)


@QUICK
@given(paths, st.floats(0, 1))
def test_a_point_along_a_path_is_where_shapely_interpolates(path, share):
    distance = share * segments.length(path)
    rival = shapely.LineString(path).interpolate(distance)
    assert segments.point_along(path, distance) == pytest.approx((rival.x, rival.y), abs=1e-9)


@QUICK
@given(st.lists(st.tuples(whole, whole).map(sorted).map(tuple), max_size=6), st.tuples(whole, whole).map(sorted))
def test_what_is_taken_out_and_what_is_left_make_up_the_whole(holes, stretch):
    left = intervals.subtract(tuple(stretch), holes)
    taken = [common for hole in intervals.merged(holes) if (common := intervals.overlap(hole, tuple(stretch)))]
    assert intervals.total(left) + intervals.total(taken) == pytest.approx(stretch[1] - stretch[0])
    assert intervals.total([*left, *taken]) == pytest.approx(stretch[1] - stretch[0])


@QUICK
@given(st.floats(0.01, 500), st.floats(0.05, 20))
def test_bays_are_equal_not_over_the_maximum_and_the_fewest(length, maximum):
    bays = spacing.equal_bays(length, maximum)
    assert bays.places[0] == 0
    assert bays.places[-1] == length
    assert bays.widths == pytest.approx([length / len(bays.spans)] * len(bays.spans))
    assert bays.bay <= maximum * (1 + 1e-8)
    assert len(bays.spans) == 1 or length / (len(bays.spans) - 1) > maximum


@QUICK
@given(st.lists(st.floats(0, 50), min_size=2, max_size=6, unique=True), st.floats(0.5, 9))
def test_fixed_places_are_all_kept_and_no_bay_or_panel_is_over_the_maximum(fixed, maximum):
    assume(all(after - before > 1e-3 for before, after in pairwise(sorted(fixed))))
    bays = spacing.bays_between(fixed, maximum)
    assert set(fixed) <= set(bays.places)
    assert max(bays.widths) <= maximum * (1 + 1e-8)
    assert sum(bays.widths) == pytest.approx(max(fixed) - min(fixed))
    joints = spacing.joint_places(60.0, maximum, at=fixed)
    panels = intervals.split((0.0, 60.0), joints)
    assert len(panels) == len(joints) + 1
    assert max(end - start for start, end in panels) <= maximum * (1 + 1e-8)


@QUICK
@given(grounds())
def test_surveyed_points_come_back_as_surveyed(survey):
    over = surface(survey)
    for x, y, z in survey.points:
        height = height_at(over, (x, y))
        assert height.z == pytest.approx(z, abs=1e-9)
        assert height.inside


@QUICK
@given(grounds(), st.lists(st.tuples(st.floats(-25, 25), st.floats(-25, 25)), min_size=1, max_size=10))
def test_inside_is_inside_the_hull_and_outside_has_the_height_of_the_nearest_place(survey, places):
    over = surface(survey)
    hull = shapely.MultiPoint([point[:2] for point in survey.points]).convex_hull
    for place in places:
        spot = shapely.Point(place)
        assume(not 0 < hull.boundary.distance(spot) < 1e-5)
        height = height_at(over, place)
        assert height.inside == hull.covers(spot)
        if not height.inside:
            near = shapely.get_coordinates(shapely.shortest_line(hull, spot))[0]
            assert height.z == pytest.approx(height_at(over, tuple(near)).z, abs=1e-6)


@QUICK
@given(st.integers(0, 2**32 - 1))
def test_heights_inside_are_those_of_scipys_linear_interpolation(seed):
    chance = np.random.default_rng(seed)  # off any grid, so that Delaunay's triangles are the only ones
    known = chance.uniform(-20, 20, (30, 3))
    over = surface(Ground(points=tuple(map(tuple, known.tolist()))))
    asked = chance.uniform(-20, 20, (40, 2))
    rival = LinearNDInterpolator(known[:, :2], known[:, 2])(asked)
    for place, z in zip(asked.tolist(), rival.tolist(), strict=True):
        height = height_at(over, tuple(place))
        assert height.inside != math.isnan(z)
        if height.inside:
            assert height.z == pytest.approx(z, abs=1e-9)


@QUICK
@given(st.integers(0, 2**32 - 1), turns)
def test_turning_mirroring_and_shuffling_the_survey_change_no_height(seed, angle):
    chance = np.random.default_rng(seed)
    known = chance.uniform(-20, 20, (15, 3)).tolist()
    asked = tuple(map(tuple, chance.uniform(-25, 25, (8, 2)).tolist()))
    flat, levels = tuple((x, y) for x, y, _ in known), [z for _, _, z in known]

    def heights_over(corners, places):
        over = surface(Ground(points=tuple((x, y, z) for (x, y), z in zip(corners, levels, strict=True))))
        return [height_at(over, place).z for place in places]

    first = heights_over(flat, asked)
    assert heights_over(turned(flat, angle), turned(asked, angle)) == pytest.approx(first, abs=1e-6)
    assert heights_over(mirrored(flat), mirrored(asked)) == pytest.approx(first, abs=1e-6)
    shuffled = surface(Ground(points=tuple(map(tuple, reversed(known)))))
    assert [height_at(shuffled, place).z for place in asked] == first


@QUICK
@given(st.floats(-0.3, 0.3), st.floats(-0.3, 0.3), st.lists(points, min_size=4, max_size=15, unique=True), points)
def test_a_plane_is_reproduced_with_its_slope_whatever_the_triangles(rise_x, rise_y, places, asked):
    assume(shapely.MultiPoint(places).convex_hull.area > 1)
    over = surface(Ground(points=tuple((x, y, rise_x * x + rise_y * y) for x, y in places)))
    height = height_at(over, asked)
    if height.inside:
        assert height.z == pytest.approx(rise_x * asked[0] + rise_y * asked[1], abs=1e-9)
        slope = slope_at(over, asked)
        assert slope is None or slope.grade == pytest.approx(math.hypot(rise_x, rise_y), abs=1e-9)


@QUICK
@given(grounds(), points, points, st.lists(st.floats(0, 1), min_size=1, max_size=8))
def test_a_profile_has_the_ground_height_everywhere_between_its_pairs(survey, start, end, shares):
    assume(start != end)
    over = surface(survey)
    along = profile(over, start, end)
    size = math.dist(start, end)
    assert (along.points[0][0], along.points[-1][0]) == pytest.approx((0.0, size))
    for share in shares:
        height = height_at(over, segments.between(start, end, share))
        assert profiles.height_along(along.points, share * size) == pytest.approx(height.z, abs=1e-6)
    hull = shapely.MultiPoint([point[:2] for point in survey.points]).convex_hull.buffer(1e-7)
    beyond = shapely.LineString((start, end)).difference(hull).length
    assert intervals.total(along.outside) == pytest.approx(beyond, abs=1e-4)


@QUICK
@given(grounds(), points, points, st.floats(0.1, 0.9))
def test_splitting_a_segment_changes_nothing_in_its_profile(survey, start, end, share):
    assume(start != end)
    over = surface(survey)
    middle = segments.between(start, end, share)
    one = profile(over, start, end).points
    two = profiles.joined([profile(over, start, middle).points, profile(over, middle, end).points])
    assert profiles.area_above(two, 0.0) == pytest.approx(profiles.area_above(one, 0.0), abs=1e-6)
    back = profile(over, end, start).points
    assert profiles.area_above(back, 0.0) == pytest.approx(profiles.area_above(one, 0.0), abs=1e-6)


@QUICK
@given(grounds(), st.sampled_from([0.25, 0.7, 1.0]))
def test_contours_lie_at_their_height_inside_the_survey(survey, interval):
    over = surface(survey)
    for line in contours(over, interval):
        for first, second in pairwise(line.path):
            height = height_at(over, segments.between(first, second, 0.5))
            assert height.inside
            assert height.z == pytest.approx(line.z, abs=1e-6)


def rules_for(course, height, minimum, module):
    return StepRules(
        course=course, height=height, minimum_step=minimum, module=module, cover=0.15, footing_thickness=0.2, depth=0.3
    )


rules = st.builds(
    rules_for, st.sampled_from([0.1, 0.2, 0.25]), st.floats(0.2, 1.5), st.floats(0.3, 3), st.sampled_from([None, 0.2])
)


@QUICK
@given(runs(), rules, st.sampled_from(TopLine))
def test_steps_cover_the_run_once_and_keep_every_height(run, wanted, top_line):
    wall = stepped(run, wanted, top_line)
    assert wall.steps[0].start == run[0][0]
    assert wall.steps[-1].end == run[-1][0]
    assert all(before.end == after.start for before, after in pairwise(wall.steps))
    for step, top in zip(wall.steps, wall.tops, strict=True):
        ground = profiles.part_of(run, step.start, step.end)
        slack = 1e-5 * wanted.course
        assert step.top >= profiles.highest(ground) + wanted.height - slack
        assert step.bed <= profiles.lowest(ground) - wanted.cover + slack
        assert step.bed > profiles.lowest(ground) - wanted.sunk - wanted.course - slack
        assert step.footing_bottom <= profiles.lowest(ground) - wanted.depth + slack
        assert step.height == pytest.approx(step.courses * wanted.course)
        assert len(wall.steps) == 1 or step.length >= wanted.minimum_step - 1e-5
        for distance, z in ground:
            assert profiles.height_along(top, distance) >= z + wanted.height - slack
        if top_line is TopLine.STEPPED:
            assert step.top < profiles.highest(ground) + wanted.height + wanted.course + slack


def brute_area(run, wanted, grid):
    """Least wall area by trying every lawful way to break the run on a grid."""
    end = run[-1][0]
    places = [number * grid for number in range(int(end / grid + 1e-9) + 1)]
    places += [end] if end - places[-1] > 1e-6 else [places.pop()]
    datum = profiles.highest(run) + wanted.height

    def cost(first, second):
        ground = profiles.part_of(run, first, second)
        up = math.ceil((profiles.highest(ground) + wanted.height - datum) / wanted.course - 1e-6)
        down = math.floor((profiles.lowest(ground) - wanted.sunk - datum) / wanted.course + 1e-6)
        return (up - down) * wanted.course * (second - first)

    best = [0.0] + [math.inf] * (len(places) - 1)
    for late in range(1, len(places)):
        for early in range(late):
            size = places[late] - places[early]
            if size >= wanted.minimum_step - 1e-6 or (early == 0 and late == len(places) - 1):
                best[late] = min(best[late], best[early] + cost(places[early], places[late]))
    return best[-1]


@settings(QUICK, max_examples=20)
@given(runs(), rules)
def test_no_other_way_to_step_on_the_module_takes_less_wall(run, wanted):
    on_module = replace(wanted, module=0.2)
    assert stepped(run, on_module).face_area == pytest.approx(brute_area(run, on_module, 0.2), abs=1e-4)


@settings(QUICK, max_examples=20)
@given(runs(), rules)
def test_steps_that_may_stand_anywhere_take_hardly_more_than_on_any_module(run, wanted):
    free = stepped(run, replace(wanted, module=None)).face_area
    for module in (0.2, 0.5):
        assert free <= stepped(run, replace(wanted, module=module)).face_area * 1.02 + 1e-6


@QUICK
@given(runs(), rules)
def test_stepping_takes_no_more_than_a_level_top_and_mirroring_or_lifting_a_run_changes_no_area(run, wanted):
    free = replace(wanted, module=None)
    area = stepped(run, free).face_area
    assert area <= stepped(run, free, TopLine.LEVEL).face_area + 1e-6
    assert stepped(run, free, TopLine.RAKED).face_area <= area + 1e-6
    end = run[-1][0]
    back = tuple((end - distance, z) for distance, z in reversed(run))
    assert stepped(back, free).face_area == pytest.approx(area, abs=1e-3)
    assert stepped(profiles.raised(run, 3.0), free).face_area == pytest.approx(area, abs=1e-3)


@QUICK
@given(polygons, paths, points)
def test_distances_in_plan_are_shapelys(outline, path, point):
    line = shapely.LineString(path)
    closest = clearances.point_to_path(point, path)
    assert closest.distance == pytest.approx(line.distance(shapely.Point(point)), abs=1e-9)
    assert math.dist(segments.point_along(path, closest.along), closest.on_line) < 1e-6
    if shapely.Polygon(outline).is_valid:
        found = clearances.outline_to_path(outline, path)
        assert found.distance == pytest.approx(line.distance(shapely.Polygon(outline)), abs=1e-9)
        assert math.dist(found.place, found.on_line) == pytest.approx(found.distance, abs=1e-9)


@QUICK
@given(paths, points, points)
def test_crossings_are_where_shapely_intersects(path, start, end):
    assume(start != end)
    met = shapely.LineString(path).intersection(shapely.LineString((start, end)))
    found = clearances.crossings((start, end), path)
    assert bool(found) != met.is_empty
    assert all(shapely.Point(crossing.place).distance(met) < 1e-6 for crossing in found)
    if met.geom_type in {"Point", "MultiPoint"} and not met.is_empty:
        rival = {(round(x, 5), round(y, 5)) for x, y in shapely.get_coordinates(met).tolist()}
        assert len(found) == len(rival)


@QUICK
@given(points, paths, st.floats(0, 2), st.floats(0, 2), st.floats(0, 2), st.floats(0, 0.3))
def test_a_pin_is_as_clear_as_sampled_points_of_it(center, path, radius, depth, line_depth, line_radius):
    clearance = clearances.post_clearance(
        center, radius=radius, depth=depth, line=path, line_depth=line_depth, line_radius=line_radius
    )
    size = segments.length(path)
    sampled = min(
        math.hypot(
            max(math.dist(center, segments.point_along(path, share * size / 200)) - radius, 0.0),
            max(line_depth - depth, 0.0),
        )
        for share in range(201)
    )
    assert clearance.distance <= sampled - line_radius + 1e-9
    assert clearance.distance >= sampled - line_radius - size / 200

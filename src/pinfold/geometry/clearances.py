"""Clearances in plan and in depth: how close a point, a piece of wall, a trench or a post comes to a line.

Lines (pipes, cables, boundaries) are paths in meters. Depths are below the ground, downward positive, and hold along
the whole line, so the closest place in plan is also the closest in space.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.geometry.outlines import contains, edges
from pinfold.geometry.segments import (
    SAME_PLACE,
    Approach,
    Path,
    Point,
    Segment,
    checked_path,
    crossing_of,
    point_to_segment,
    segment_to_segment,
)
from pinfold.units import Meter, Radian


@dataclass(frozen=True, kw_only=True)
class Closest:
    """Where a shape comes closest to a line in plan.

    Attributes:
        distance: between the two, 0 where they meet.
        place: the place on the shape.
        on_line: the place on the line.
        along: how far along the line that is from its start.
    """

    distance: Meter
    place: Point
    on_line: Point
    along: Meter


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """Where a segment crosses or touches a line.

    Attributes:
        place: where.
        on_segment: how far along the segment from its start.
        on_line: how far along the line from its start.
        angle: between the two, from 0 (along each other) to π/2 (square).
    """

    place: Point
    on_segment: Meter
    on_line: Meter
    angle: Radian


@dataclass(frozen=True, kw_only=True)
class Clearance:
    """How close a body dug or driven from the ground comes to a buried line.

    Attributes:
        distance: shortest way in space from the body to the line's surface; negative where the body cuts into it.
        plan: distance in plan from the body to the line's axis, 0 where the line runs under or through the body.
        below: how far the axis is below the body's bottom, 0 where it is beside the body.
        place: the place on the body's plan.
        on_line: the place on the line.
        along: how far along the line that is from its start.
    """

    distance: Meter
    plan: Meter
    below: Meter
    place: Point
    on_line: Point
    along: Meter


def point_to_path(point: Point, path: Path) -> Closest:
    """Where a path comes closest to a point.

    Raises:
        InputError: the path has fewer than two points or a coordinate that is not finite.
    """
    checked_path(path)
    return _closest([point_to_segment(point, segment) for segment in pairwise(path)], path)


def outline_to_path(outline: Path, path: Path) -> Closest:
    """Where a path comes closest to the area inside an outline; distance 0 where it enters or lies inside.

    Raises:
        InputError: fewer than three corners, or a path of fewer than two points.
    """
    checked_path(path)
    checked_path(outline, fewest=3)
    sides = edges(outline)
    approaches = []
    for other in pairwise(path):
        if contains(outline, other[0]):
            approaches.append(Approach(distance=0.0, near=other[0], far=other[0]))
        else:
            approaches.append(min((segment_to_segment(side, other) for side in sides), key=_distance))
    return _closest(approaches, path)


def crossings(segment: Segment, path: Path) -> tuple[Crossing, ...]:
    """Every place where a segment crosses or touches a path, in order along the segment.

    Where they lie along each other, the ends of the common stretch are given.

    Raises:
        InputError: the path has fewer than two points or a coordinate that is not finite.
    """
    checked_path(path)
    run = 0.0
    found: list[Crossing] = []
    for other in pairwise(path):
        found.extend(
            Crossing(
                place=place,
                on_segment=math.dist(segment[0], place),
                on_line=run + math.dist(other[0], place),
                angle=_angle(segment, other),
            )
            for place in _meetings(segment, other)
        )
        run += math.dist(*other)
    found.sort(key=lambda crossing: (crossing.on_segment, crossing.on_line))
    kept: list[Crossing] = []
    for crossing in found:
        if not kept or math.dist(crossing.place, kept[-1].place) > SAME_PLACE:
            kept.append(crossing)
    return tuple(kept)


def trench_clearance(
    outline: Path, *, depth: Meter, line: Path, line_depth: Meter, line_radius: Meter = 0.0
) -> Clearance:
    """How close a trench or footing with upright sides comes to a buried line.

    Args:
        outline: of the trench in plan, such as the outline or a piece of a band
        depth: of its bottom below ground [m]
        line: the line's axis in plan
        line_depth: of the axis below ground [m]
        line_radius: half the line's outer diameter [m]

    Raises:
        InputError: fewer than three corners, a line of fewer than two points, or a negative depth or radius.
    """
    _refuse_negative(depth, line_depth, line_radius)
    return _clearance(outline_to_path(outline, line), 0.0, line_depth - depth, line_radius)


def post_clearance(
    center: Point, *, radius: Meter, depth: Meter, line: Path, line_depth: Meter, line_radius: Meter = 0.0
) -> Clearance:
    """How close an upright round hole, post or driven pin comes to a buried line.

    Args:
        center: of the post in plan
        radius: of the hole or pin, 0 for a mere line [m]
        depth: of its bottom below ground [m]
        line: the line's axis in plan
        line_depth: of the axis below ground [m]
        line_radius: half the line's outer diameter [m]

    Raises:
        InputError: a line of fewer than two points, or a negative depth or radius.
    """
    _refuse_negative(depth, line_depth, line_radius, radius)
    return _clearance(point_to_path(center, line), radius, line_depth - depth, line_radius)


def _clearance(closest: Closest, radius: Meter, below: Meter, line_radius: Meter) -> Clearance:
    plan, below = max(closest.distance - radius, 0.0), max(below, 0.0)
    share = min(radius / closest.distance, 1.0) if closest.distance > 0 else 0.0
    (x, y), (far_x, far_y) = closest.place, closest.on_line
    return Clearance(
        distance=math.hypot(plan, below) - line_radius,
        plan=plan,
        below=below,
        place=(x + share * (far_x - x), y + share * (far_y - y)),
        on_line=closest.on_line,
        along=closest.along,
    )


def _refuse_negative(*sizes: Meter) -> None:
    if not all(0 <= size < math.inf for size in sizes):
        raise InputError("depths and radii are 0 or more: depths go down from the ground")


def _closest(approaches: list[Approach], path: Path) -> Closest:
    number, best = min(enumerate(approaches), key=lambda pair: pair[1].distance)
    before = math.fsum(math.dist(*segment) for segment in pairwise(path[: number + 1]))
    return Closest(
        distance=best.distance, place=best.near, on_line=best.far, along=before + math.dist(path[number], best.far)
    )


def _distance(approach: Approach) -> Meter:
    return approach.distance


def _meetings(first: Segment, second: Segment) -> list[Point]:
    crossing = crossing_of(first, second)
    if crossing is not None:
        return [crossing]
    touching = [end for end in first if point_to_segment(end, second).distance <= SAME_PLACE]
    return touching + [
        end
        for end in second
        if point_to_segment(end, first).distance <= SAME_PLACE
        and all(math.dist(end, other) > SAME_PLACE for other in touching)
    ]


def _angle(first: Segment, second: Segment) -> Radian:
    across, up = first[1][0] - first[0][0], first[1][1] - first[0][1]
    other_across, other_up = second[1][0] - second[0][0], second[1][1] - second[0][1]
    return math.atan2(abs(across * other_up - up * other_across), abs(across * other_across + up * other_up))

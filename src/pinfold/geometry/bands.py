"""The band a wall covers in plan: a path given thickness to its left and right, mitered at the corners.

Each segment of the path gets one convex piece; pieces share the miter line at a corner and nothing else, so areas and
face lengths add up with every corner counted once. Where a corner is so sharp that the miter would run out farther
than `miter_limit` times the thickness, its outer tip is cut off square to the miter line (a bevel).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations, pairwise

from pinfold.errors import InputError
from pinfold.geometry.outlines import area, is_clockwise
from pinfold.geometry.segments import SAME_PLACE, Path, Point, checked_path, direction, length
from pinfold.units import Meter, Ratio, SquareMeter


@dataclass(frozen=True, kw_only=True)
class Piece:
    """What one segment of the path covers.

    Attributes:
        outline: convex and counterclockwise; four corners, more at bevels, fewer where a face shrinks to a point.
        left: the face to the left from start to end, half a bevel included.
        right: the face to the right, likewise.
    """

    outline: Path
    left: Path
    right: Path

    @property
    def area(self) -> SquareMeter:
        """Area in plan [m2]."""
        return area(self.outline)

    @property
    def left_length(self) -> Meter:
        """Length of the left face [m]."""
        return length(self.left)

    @property
    def right_length(self) -> Meter:
        """Length of the right face [m]."""
        return length(self.right)


@dataclass(frozen=True, kw_only=True)
class Band:
    """What the whole path covers.

    Attributes:
        pieces: one per segment of the path, in its order.
        outline: the outer edge, counterclockwise.
        hole: the inner edge of a closed band, counterclockwise; empty for an open one.
        beveled: the corners of the path, counted from 0, whose tip is cut off.
    """

    pieces: tuple[Piece, ...]
    outline: Path
    hole: Path
    beveled: tuple[int, ...]


@dataclass(frozen=True, kw_only=True)
class _Corner:
    left_in: Path
    left_out: Path
    right_in: Path
    right_out: Path

    @property
    def is_beveled(self) -> bool:
        return len(self.left_in) > 1 or len(self.right_in) > 1


def mitered_band(
    path: Path,
    *,
    thickness_left: Meter,
    thickness_right: Meter,
    closed: bool = False,
    miter_limit: Ratio = 2.0,
) -> Band:
    """The band along a path.

    Args:
        path: the line the wall is set out by; for a closed band the corners of its outline, the first not repeated
        thickness_left: from the line to the left face, 0 or more [m]
        thickness_right: from the line to the right face, 0 or more [m]
        closed: whether the path goes back to its first point
        miter_limit: largest distance from corner to outer tip in thicknesses, at least 1; 2 bevels below 60°

    Raises:
        InputError: too few points, no thickness, a path that turns right back, a segment too short for the corners
            at its ends, or pieces that cover the same ground.
    """
    checked_path(path, fewest=3 if closed else 2)
    if not (min(thickness_left, thickness_right) >= 0 and 0 < thickness_left + thickness_right < math.inf):
        raise InputError(f"a band of {thickness_left:g} m and {thickness_right:g} m thickness covers nothing")
    if not miter_limit >= 1:
        raise InputError(f"a miter limit of {miter_limit:g} is below 1")
    line = (*path, path[0]) if closed else path
    ways = [direction(first, second) for first, second in pairwise(line)]
    sides = (thickness_left, thickness_right)
    if closed:
        corners = [_corner(path[i], (ways[i - 1], ways[i]), sides, miter_limit) for i in range(len(path))]
        corners.append(corners[0])
    else:
        inner = [_corner(path[i], (ways[i - 1], ways[i]), sides, miter_limit) for i in range(1, len(path) - 1)]
        corners = [_end(path[0], ways[0], sides), *inner, _end(path[-1], ways[-1], sides)]
    pieces = tuple(_piece(i, ways[i], corners[i], corners[i + 1]) for i in range(len(ways)))
    _refuse_overlap(pieces, closed=closed)
    outline, hole = _edges(corners[:-1], closed=True) if closed else _edges(corners, closed=False)
    beveled = tuple(i for i, corner in enumerate(corners[: len(path)]) if corner.is_beveled)
    return Band(pieces=pieces, outline=outline, hole=hole, beveled=beveled)


def band_area(band: Band) -> SquareMeter:
    """Area of a band in plan, each corner once [m2]."""
    return math.fsum(piece.area for piece in band.pieces)


def _end(point: Point, way: Point, sides: tuple[Meter, Meter]) -> _Corner:
    left, right = (_moved(point, (-way[1], way[0]), sides[0]),), (_moved(point, (-way[1], way[0]), -sides[1]),)
    return _Corner(left_in=left, left_out=left, right_in=right, right_out=right)


def _corner(point: Point, ways: tuple[Point, Point], sides: tuple[Meter, Meter], miter_limit: Ratio) -> _Corner:
    (coming_x, coming_y), (going_x, going_y) = ways
    normals = (-coming_y, coming_x), (-going_y, going_x)
    agreement = 1 + coming_x * going_x + coming_y * going_y  # 2 cos² of half the turn
    if agreement < 1e-6:
        raise InputError(f"the path turns right back at ({point[0]:g}, {point[1]:g})")
    miter = (normals[0][0] + normals[1][0]) / agreement, (normals[0][1] + normals[1][1]) / agreement
    is_sharp = math.sqrt(2 / agreement) > miter_limit * (1 + 1e-12)
    turns_left = coming_x * going_y - coming_y * going_x > 0
    left_in, left_out = _faces(point, normals, miter, sides[0], beveled=is_sharp and not turns_left)
    right_in, right_out = _faces(point, normals, miter, -sides[1], beveled=is_sharp and turns_left)
    return _Corner(left_in=left_in, left_out=left_out, right_in=right_in, right_out=right_out)


def _faces(
    point: Point, normals: tuple[Point, Point], miter: Point, offset: Meter, *, beveled: bool
) -> tuple[Path, Path]:
    """How the face before a corner ends and the face after it starts."""
    if not beveled or offset == 0:
        tip = (_moved(point, miter, offset),)
        return tip, tip
    first, second = (_moved(point, normal, offset) for normal in normals)
    middle = (first[0] + second[0]) / 2, (first[1] + second[1]) / 2
    return (first, middle), (middle, second)


def _moved(point: Point, vector: Point, distance: Meter) -> Point:
    return point[0] + distance * vector[0], point[1] + distance * vector[1]


def _piece(number: int, way: Point, start: _Corner, end: _Corner) -> Piece:
    for first, second in ((start.left_out[-1], end.left_in[0]), (start.right_out[-1], end.right_in[0])):
        if (second[0] - first[0]) * way[0] + (second[1] - first[1]) * way[1] < -SAME_PLACE:
            raise InputError(f"segment {number + 1} is too short for a band so thick: the corners at its ends meet")
    left, right = start.left_out + end.left_in, start.right_out + end.right_in
    return Piece(outline=_lean((*right, *reversed(left))), left=left, right=right)


def _lean(ring: Path) -> Path:
    return tuple(point for i, point in enumerate(ring) if math.dist(point, ring[i - 1]) > SAME_PLACE)


def _edges(corners: list[_Corner], *, closed: bool) -> tuple[Path, Path]:
    left = _lean(tuple(point for corner in corners for point in (*corner.left_in, *corner.left_out)))
    right = _lean(tuple(point for corner in corners for point in (*corner.right_in, *corner.right_out)))
    if not closed:
        return _lean((*right, *reversed(left))), ()
    return (tuple(reversed(left)), tuple(reversed(right))) if is_clockwise(left) else (right, left)


def _refuse_overlap(pieces: tuple[Piece, ...], *, closed: bool) -> None:
    last = len(pieces) - 1
    for (early, first), (late, second) in combinations(enumerate(pieces), 2):
        if late - early == 1 or (closed and late - early == last):
            continue
        if not (_parted(first.outline, second.outline) or _parted(second.outline, first.outline)):
            raise InputError(f"segments {early + 1} and {late + 1} of the path cover the same ground")


def _parted(first: Path, second: Path) -> bool:
    """Whether a line along an edge of the first convex ring parts it from the second."""
    for i, corner in enumerate(first):
        across, up = corner[0] - first[i - 1][0], corner[1] - first[i - 1][1]
        slack = -SAME_PLACE * math.hypot(across, up)
        x, y = corner
        if all(across * (point[1] - y) - up * (point[0] - x) <= -slack for point in second):
            return True
    return False

"""What share of each face the sun shines on, hour by hour, and how much of the sky each face sees.

In the way stand neighbors and structures, as boxes from their footprints, and the plot's own walls: other stretches,
steps of the same one, and the wall behind the face itself. Looked at from points spread over each face. The sun's
direction in plan is taken to the half degree, which it passes in two minutes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from pinfold.geometry.ground import height_at
from pinfold.geometry.shadows import Array, Spot, horizon, in_front, sides_of, sky_view
from pinfold.plan.outline import Neighbor
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.studies.sun.faces import at_place, lengthened, stretched
from pinfold.studies.sun.records import Face, Hours, Strip, Sun
from pinfold.units import Meter

APART: Meter = 0.5
"""Points on a face stand no farther apart along it; never fewer than LEAST nor more than MOST."""
LEAST, MOST, UP = 4, 20, 3
"""Points along a face at least and at most, and how many stand over each other."""
FINE = math.radians(0.5)
"""The sun's direction in plan is taken to this."""
ROUND = np.radians(np.arange(2.5, 360.0, 5.0))
"""Directions in which the sky is looked at."""
_CLEAR: Meter = 1e-3
"""Points stand this far before their face."""
LEFT_OUT = (
    "Trees, hills and clouds over part of the sky are not known. Mesh, posts, rails and gates count as see-through, "
    "piers and the overhang of a coping as nothing. What hides the sky is taken to throw nothing back."
)


class Points(NamedTuple):
    """Points on a face.

    Attributes:
        spots: (n, 3).
        weights: (n,), share of the face that each stands for.
    """

    spots: Array
    weights: Array


def lit_shares(layout: Layout, faces: Sequence[Face], sun: Sun) -> Hours:
    """What share of each face the sun shines on: (faces, moments)."""
    lit = np.zeros((len(faces), len(sun.altitude)))
    up = np.flatnonzero(sun.is_up)
    steps = np.rint(sun.azimuth[up] / FINE).astype(int) % round(2 * math.pi / FINE)
    steep = np.tan(sun.altitude[up])
    for number, face in enumerate(faces):
        before = np.flatnonzero(incidence(face, sun)[up] > 0)
        ways, at = np.unique(steps[before], return_inverse=True)
        points = _before(layout, face)
        clear = horizon(points.spots, _in_the_way(layout, face), ways * FINE + layout.plan.place.north)
        lit[number, up[before]] = np.minimum(points.weights @ (clear[:, at] < steep[before]), 1.0)
    return lit


def sky_views(layout: Layout, faces: Sequence[Face]) -> Hours:
    """What each face sees of the sky, as a share of what it would see with nothing in the way: (faces,)."""
    found = []
    for face in faces:
        points = _before(layout, face)
        clear = horizon(points.spots, _in_the_way(layout, face), ROUND)
        share = sky_view(clear, ROUND, tilt=face.tilt, facing=face.facing + layout.plan.place.north)
        found.append(float(points.weights @ share))
    return np.array(found)


def incidence(face: Face, sun: Sun) -> Hours:
    """Cosine of the angle between the sun and a face's own straight ahead; below 0 the sun is behind it."""
    from pvlib.irradiance import aoi_projection

    found: Hours = aoi_projection(
        math.degrees(face.tilt), math.degrees(face.facing), 90 - np.degrees(sun.altitude), np.degrees(sun.azimuth)
    )
    return found


def _before(layout: Layout, face: Face) -> Points:
    """Points just before a face, so that it is not in its own way."""
    points, way = points_of(face), face.facing + layout.plan.place.north
    ahead = np.array([math.sin(way) * math.sin(face.tilt), math.cos(way) * math.sin(face.tilt), math.cos(face.tilt)])
    return points._replace(spots=points.spots + _CLEAR * ahead)


def points_of(face: Face) -> Points:
    """Points spread over a face."""
    lengths = [math.dist(strip.low[0][:2], strip.low[-1][:2]) for strip in face.strips]
    count = min(max(math.ceil(sum(lengths) / APART), LEAST), MOST)
    spread = [
        pair for strip, length in zip(face.strips, lengths, strict=True)
        for pair in _spread(strip, max(round(count * length / sum(lengths)), 1), length)
    ]  # fmt: skip
    weights = np.array([weight for _, weight in spread])
    return Points(spots=np.array([spot for spot, _ in spread]), weights=weights / weights.sum())


def _spread(strip: Strip, count: int, length: Meter) -> Iterator[tuple[Spot, float]]:
    """Points between the lines of a strip, each with the area it stands for."""
    for number in range(count):
        share = (number + 0.5) / count
        low, high = _along(strip.low, share), _along(strip.high, share)
        for step in range(UP):
            up = (step + 0.5) / UP
            spot = tuple(a + up * (b - a) for a, b in zip(low, high, strict=True))
            yield (spot[0], spot[1], spot[2]), math.dist(low, high) * length / count


def _along(line: tuple[Spot, ...], share: float) -> Spot:
    """The spot a share of the way along a line that is straight in plan."""
    wanted = share * math.dist(line[0][:2], line[-1][:2])
    for before, after in pairwise(line):
        from_start = math.dist(line[0][:2], after[:2])
        piece = math.dist(before[:2], after[:2])
        if from_start >= wanted and piece > 0:
            back = (from_start - wanted) / piece
            return (
                after[0] + back * (before[0] - after[0]), after[1] + back * (before[1] - after[1]),
                after[2] + back * (before[2] - after[2]),
            )  # fmt: skip
    return line[-1]


def _in_the_way(layout: Layout, face: Face) -> Array:
    """Sides of all that can shade a face."""
    sides = standing(layout)
    if not face.is_upright:
        return sides
    return in_front(sides, face.strips[0].low[0], face.facing + layout.plan.place.north)


@lru_cache(maxsize=4)  # every face asks
def standing(layout: Layout) -> Array:
    """The upright sides of all that casts a shadow: neighbors and the plot's own walls."""
    tops = [_neighbor(layout, neighbor) for neighbor in layout.plan.neighbors]
    tops += [ring for stretch in layout.stretches if stretch.steps for ring in _wall(layout, stretch)]
    return sides_of(tops)


def _neighbor(layout: Layout, neighbor: Neighbor) -> tuple[Spot, ...]:
    """The top of a neighbor: its height over the highest ground at its corners."""
    surface = layout.surface
    grounds = [height_at(surface, corner).z for corner in neighbor.footprint] if surface is not None else [0.0]
    top = max(grounds) + neighbor.height
    return tuple((x, y, top) for x, y in neighbor.footprint)


def _wall(layout: Layout, stretch: Stretch) -> Iterator[tuple[Spot, ...]]:
    """The top of each step of a wall with its coping, mitered where it meets another."""
    wall, coping = stretch.buildup.wall, stretch.buildup.coping
    assert wall is not None
    over, raised = lengthened(layout, stretch), coping.thickness if coping is not None else 0.0
    last = len(stretch.tops) - 1
    for number, top in enumerate(stretch.tops):
        ring: list[Spot] = []
        for aside in (1, -1):
            start = top[0][0] - aside * over[0] * (number == 0)
            end = top[-1][0] + aside * over[1] * (number == last)
            line = stretched(top, start, end)
            spots = [at_place(stretch, place, aside * wall.thickness / 2, z + raised) for place, z in line]
            ring += spots if aside > 0 else reversed(spots)
        yield tuple(ring)

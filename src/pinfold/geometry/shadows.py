"""Shadows of upright things: how high something stands in the way, seen from a point, all round.

Whatever casts a shadow is taken as prisms on the ground; a ray that climbs enters one through an upright side or not at
all, so that the sides with their tops are all there is to look at. Angles are clockwise from the plan's y axis.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from pinfold.units import Meter, Radian

Spot = tuple[Meter, Meter, Meter]
"""x, y and height."""
Array = NDArray[np.float64]

_AT_ONCE = 60_000
"""So many crossings are looked at in one go: few enough to stay near the processor."""


def sides_of(tops: Iterable[Sequence[Spot]]) -> Array:
    """The upright sides of prisms by the rings of their tops: (sides, 2 ends, 3)."""
    sides = [(ring[number - 1], spot) for ring in tops for number, spot in enumerate(ring)]
    return np.array(sides, dtype=float).reshape(-1, 2, 3)


def in_front(sides: Array, spot: Spot, facing: Radian) -> Array:
    """Those sides of which some part lies before the upright plane through a spot that faces so."""
    away = (sides[:, :, 0] - spot[0]) * np.sin(facing) + (sides[:, :, 1] - spot[1]) * np.cos(facing)
    found: Array = sides[(away > 1e-6).any(axis=1)]
    return found


def horizon(points: Array, sides: Array, ways: Array) -> Array:
    """How steep a ray must climb to clear everything: tangent of its altitude, 0 where nothing is in the way.

    Args:
        points: (n, 3), seen from
        sides: (m, 2, 3), as `sides_of` gives them
        ways: (k,), directions in plan

    Returns:
        (n, k)
    """
    found = np.zeros((len(points), len(ways)))
    if not len(points):
        return found
    tall = sides[sides[:, :, 2].max(axis=1) > points[:, 2].min()]
    some = max(_AT_ONCE // max(found.size, 1), 1)
    for first in range(0, len(tall), some):
        np.maximum(found, _steepest(points, tall[first : first + some], ways), out=found)
    return found


def _steepest(points: Array, sides: Array, ways: Array) -> Array:
    """(n, k): the steepest tangent among all sides that a ray crosses; at least 0."""
    (start, end), (east, north) = (sides[:, 0], sides[:, 1]), (np.sin(ways), np.cos(ways))
    along = end - start
    aside = np.outer(along[:, 1], east) - np.outer(along[:, 0], north)  # (m, k), 0 where a ray goes along a side
    aside[np.abs(aside) < 1e-12] = 1e-12
    x, y = start[:, 0] - points[:, :1], start[:, 1] - points[:, 1:2]
    reach = x * along[:, 1] - y * along[:, 0]  # (n, m); over `aside` it is the distance to the crossing
    with np.errstate(divide="ignore", invalid="ignore"):
        per_distance = aside / reach[:, :, None]
        share = (x[:, :, None] * north - y[:, :, None] * east) / aside
        rise = (start[:, 2] - points[:, 2:])[:, :, None] + share * along[:, 2][:, None]
        crossed = (share >= 0) & (share <= 1) & (per_distance > 0)
        steep = np.where(crossed, rise * per_distance, 0.0)
    highest: Array = steep.max(axis=1)
    return highest


def sky_view(tangents: Array, ways: Array, *, tilt: Radian, facing: Radian) -> Array:
    """What is seen of an evenly bright sky, as a share of what the same plane sees without anything in the way.

    Args:
        tangents: (n, k), as `horizon` gives them
        ways: (k,), evenly all round
        tilt: of the plane, 0 lying face up, a quarter turn upright
        facing: of the plane, in plan

    Returns:
        (n,)
    """
    ahead = np.cos(ways - facing)
    edge = np.arctan(np.maximum(-np.tan(min(tilt, np.pi / 2)) * ahead, 0.0))
    open_sky = _seen(edge, ahead, tilt).sum()
    share: Array = _seen(np.maximum(np.arctan(tangents), edge), ahead, tilt).sum(axis=1) / open_sky
    return share


def _seen(from_altitude: Array, ahead: Array, tilt: Radian) -> Array:
    """Cosine of incidence over the sky from an altitude up, by direction."""
    level = np.cos(tilt) * np.cos(from_altitude) ** 2 / 2
    upright = np.sin(tilt) * ahead * (np.pi / 4 - from_altitude / 2 - np.sin(2 * from_altitude) / 4)
    seen: Array = np.maximum(level + upright, 0.0)
    return seen

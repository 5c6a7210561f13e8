"""Where things of a side lie in plan and on the ground."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.geometry.ground import Ground, Surface, height_at, profile, surface
from pinfold.geometry.profiles import Profile
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.outline import Point, Side
from pinfold.units import Meter


@dataclass(frozen=True, kw_only=True)
class Lie:
    """A side in plan.

    Attributes:
        side: as planned.
        start: its first corner in plan.
        way: unit vector from its first corner to its last.
        length: of the side.
        surface: the ground; None where level at 0.
    """

    side: Side
    start: Point
    way: Point
    length: Meter
    surface: Surface | None

    def at(self, along: Meter, aside: Meter = 0.0) -> Point:
        """The place so far along the side and so far left of it."""
        return (
            self.start[0] + along * self.way[0] - aside * self.way[1],
            self.start[1] + along * self.way[1] + aside * self.way[0],
        )

    def ground_at(self, along: Meter, aside: Meter = 0.0) -> Meter:
        """Height of the ground there."""
        return 0.0 if self.surface is None else height_at(self.surface, self.at(along, aside)).z

    def ground(self, start: Meter, end: Meter) -> tuple[Profile, bool]:
        """(distance from `start`, height) along part of the side, and whether any of it is outside the survey."""
        if self.surface is None:
            return ((0.0, 0.0), (end - start, 0.0)), False
        found = profile(self.surface, self.at(start), self.at(end))
        return found.points, bool(found.outside)


def lies(plan: Enclosure) -> tuple[Lie, ...]:
    """Every side of the plan, in order."""
    spots = tuple((spot.x, spot.y, spot.z) for spot in plan.ground)
    ground = surface(Ground(points=spots)) if spots else None
    return tuple(_lie(plan, side, ground) for side in plan.sides)


def _lie(plan: Enclosure, side: Side, ground: Surface | None) -> Lie:
    start, end = plan.corner(side.start), plan.corner(side.end)
    length = math.dist(start, end)
    way = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return Lie(side=side, start=start, way=way, length=length, surface=ground)


def turn_between(before: Lie, after: Lie) -> float:
    """Angle turned to the left at the corner from one side to the next, in radians."""
    cross = before.way[0] * after.way[1] - before.way[1] * after.way[0]
    return math.atan2(cross, before.way[0] * after.way[0] + before.way[1] * after.way[1])

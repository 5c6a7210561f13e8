"""What is dug and driven for the plan: trenches, holes, pins, as bodies in plan and depth."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from pinfold.geometry.clearances import Clearance, post_clearance, trench_clearance
from pinfold.geometry.segments import Path, between, left_normal
from pinfold.plan.outline import BuriedLine, Point
from pinfold.studies.layout.records import Layout, Post, Stretch
from pinfold.studies.stability.factors import PIN_DEPTH, UNMEASURED_POST
from pinfold.units import Meter

Box = tuple[Point, Point]
"""Two corners of a box, the western one to the south, the eastern one to the north."""


def box_around(path: Path) -> Box:
    """The box around a path, which may be a single point."""
    if len(path) == 1:
        return path[0], path[0]
    easts, norths = zip(*path, strict=True)
    return (min(easts), min(norths)), (max(easts), max(norths))


class Body(NamedTuple):
    """Something dug or driven from the ground.

    Attributes:
        says: what it is, such as `the trench of stretch south/1`.
        outline: in plan; a single point for a round hole.
        radius: of a round hole; 0 for a trench.
        depth: of its underside below the ground.
    """

    says: str
    outline: Path
    radius: Meter
    depth: Meter

    def at_least(self, box: Box) -> Meter:
        """A distance to what is in a box that the real one is not under: from the box around itself."""
        (west, south), (east, north) = box
        (left, low), (right, high) = box_around(self.outline)
        apart = math.hypot(max(left - east, west - right, 0.0), max(low - north, south - high, 0.0))
        return max(apart - self.radius, 0.0)

    def clearance(self, line: BuriedLine) -> Clearance:
        """How close it comes to a line."""
        if len(self.outline) == 1:
            return post_clearance(
                self.outline[0], radius=self.radius, depth=self.depth, line=line.path, line_depth=line.depth
            )
        return trench_clearance(self.outline, depth=self.depth, line=line.path, line_depth=line.depth)


def bodies_of(layout: Layout) -> tuple[tuple[str, tuple[Body, ...]], ...]:
    """All bodies by sort: trenches, posts, apron."""
    return (
        ("trenches", tuple(body for stretch in layout.stretches for body in _trenches(stretch))),
        ("posts", tuple(_hole(post) for post in layout.posts if post.hole > 0)),
        ("apron", tuple(body for stretch in layout.stretches for body in _apron(stretch, layout.outer_is_right))),
    )  # fmt: skip


def _trenches(stretch: Stretch) -> Iterator[Body]:
    footing, wall = stretch.buildup.footing, stretch.buildup.wall
    if wall is None:
        return
    width = footing.width if footing is not None else wall.thickness
    for step in stretch.steps:
        depth = step.highest_ground - step.footing_bottom
        if depth > 0:
            ends = _part(stretch, step.start, step.end)
            strip = _strip(ends, width / 2, width / 2)
            yield Body(says=f"the trench of stretch {stretch.name}", outline=strip, radius=0.0, depth=depth)


def _hole(post: Post) -> Body:
    width = post.kind.value("width") if post.kind.has("width") else UNMEASURED_POST.value
    return Body(says=f"post {post.name}", outline=(post.point,), radius=max(post.collar, width) / 2, depth=post.hole)


def _apron(stretch: Stretch, outer_is_right: bool) -> Iterator[Body]:  # noqa: FBT001 - which side is outside
    mesh = stretch.buildup.mesh
    if mesh is None or mesh.apron <= 0:
        return
    ends = _part(stretch, 0.0, stretch.length)
    if mesh.apron_buried:
        slit = _strip(ends, 0.05, 0.05)
        yield Body(says=f"the slit for the apron of stretch {stretch.name}", outline=slit, radius=0.0, depth=mesh.apron)
        return
    left, right = (0.0, mesh.apron) if outer_is_right else (mesh.apron, 0.0)
    yield Body(says=f"the pins of the apron of stretch {stretch.name}", outline=_strip(ends, left, right), radius=0.0,
               depth=PIN_DEPTH.value)  # fmt: skip


def _part(stretch: Stretch, start: Meter, end: Meter) -> tuple[Point, Point]:
    first, last = stretch.points
    return between(first, last, start / stretch.length), between(first, last, end / stretch.length)


def _strip(ends: tuple[Point, Point], left: Meter, right: Meter) -> Path:
    (x, y), (far_x, far_y) = ends
    across, up = left_normal(*ends)
    return (
        (x - right * across, y - right * up), (far_x - right * across, far_y - right * up),
        (far_x + left * across, far_y + left * up), (x + left * across, y + left * up),
    )  # fmt: skip

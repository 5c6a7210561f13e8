"""What is built, in plan: walls, footings, mesh, apron, posts, joints."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.bracing import braces_in_plan
from pinfold.drawings.naming import SMALL, hatch_of, side_of
from pinfold.drawings.piers import piers_in_plan
from pinfold.drawings.scenes import Area, Circle, Label, Point, Polyline, Shape, Tick
from pinfold.drawings.sides import (
    SideView,
    band,
    bays,
    stretches_on,
    width_of_post,
)
from pinfold.studies.layout.posting import stands_behind
from pinfold.studies.layout.records import Layout, Post, Role, Stretch
from pinfold.units import Meter

LEAST_POST = 0.9
"""Width of a post on paper, in millimeters, below which it could not be seen."""


def built_shapes(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """Everything built along a side but its gates.

    Args:
        layout: the plan laid out
        view: the side
        millimeter: about how much ground one millimeter of paper will hold
    """
    for stretch in stretches_on(layout, view):
        yield from _wall(layout, view, stretch)
        yield from _mesh(layout, view, stretch)
        yield from _apron(view, stretch)
        way = view.turn + math.pi / 2
        yield from (Tick(layer="joint", at=joint.point, turn=way, length=3.4) for joint in stretch.joints)
    yield from _posts(layout, view, millimeter)
    yield from braces_in_plan(layout, view, LEAST_POST * millimeter)


def _wall(layout: Layout, view: SideView, stretch: Stretch) -> Iterator[Shape]:
    if stretch.buildup.wall is None:
        return
    if stretch.buildup.footing is not None:
        ring = band(view, stretch, layout, footing=True)
        yield Polyline(layer="footing", points=ring, closed=True, dashed=True)
    yield Area(layer="wall", points=band(view, stretch, layout), hatch=hatch_of(stretch.buildup.wall.kind))
    yield from piers_in_plan(view, stretch)


def _mesh(layout: Layout, view: SideView, stretch: Stretch) -> Iterator[Shape]:
    """The mesh as a thin line where no wall carries it, or where it stands behind the wall."""
    back = stands_behind(stretch.buildup)
    if stretch.buildup.mesh is None or (stretch.buildup.wall is not None and not back):
        return
    for start, end in bays(layout, view, stretch):
        ends = [_mesh_end(layout, view, place) or view.at(place, -back) for place in (start, end)]
        yield Polyline(layer="mesh", points=tuple(ends))


def _mesh_end(layout: Layout, view: SideView, place: Meter) -> Point | None:
    """The post at a place of a side, where it is drawn."""
    for post in layout.posts:
        if post.side == view.side.name and abs(post.along - place) < 1e-6:
            return post.point
    return None


def _apron(view: SideView, stretch: Stretch) -> Iterator[Shape]:
    mesh, wall = stretch.buildup.mesh, stretch.buildup.wall
    if mesh is None or mesh.apron <= 0 or mesh.apron_buried:
        return
    near = wall.thickness / 2 if wall else 0.0
    far = near + mesh.apron
    corners = ((stretch.start, near), (stretch.end, near), (stretch.end, far), (stretch.start, far))
    yield Area(layer="apron", points=tuple(view.at(along, out) for along, out in corners), hatch="gravel")


def _posts(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    for post in layout.posts:
        if post.side != view.side.name:
            continue
        at = post.point
        yield Circle(
            layer="post", center=at, radius=max(width_of_post(post.kind), LEAST_POST * millimeter) / 2, filled=True
        )  # fmt: skip
        if post.collar > 0:
            yield Circle(layer="footing", center=at, radius=post.collar / 2)
        yield Label(
            at=at, text=post.name, layer="post", anchor=side_of(_name_side(view, post)), size=SMALL,
            priority=3 if post.role is Role.LINE else 4,
        )  # fmt: skip


def _name_side(view: SideView, post: Post) -> Point:
    """Names stand inside; those of corner posts in the wall's line outside, where the corner's own name is not."""
    x, y = view.inward
    if post.role is not Role.CORNER or math.dist(post.point, post.line_point) > 1e-6:
        return (x, y)
    first = post.along < view.length / 2
    across, up = view.lie.way
    return (-x - across, -y - up) if first else (across - x, up - y)

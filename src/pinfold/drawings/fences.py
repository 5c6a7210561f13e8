"""Posts, rails and mesh in elevation."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.drawings.faces import panels
from pinfold.drawings.leaves import mesh_shapes
from pinfold.drawings.naming import SMALL
from pinfold.drawings.scenes import Area, Label, Point, Polyline, Shape
from pinfold.drawings.sides import SideView, bays, foot_of_fence, posts_on, stretches_on, width_of_post
from pinfold.studies.layout.records import Layout, Post, Stretch
from pinfold.units import Meter

LEAST_POST = 0.7
"""Width of a post on paper, in millimeters, below which it could not be seen."""
MESH_APART = 2.2
"""Wires nearer than this on paper are thinned out."""


def fence_shapes(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """Mesh and rails bay by bay, then the posts of a side seen from outside."""
    for stretch in stretches_on(layout, view):
        for start, end in bays(layout, view, stretch):
            yield from _bay(view, stretch, (start, end), millimeter)
    for place, post in posts_on(layout, view):
        yield from post_shapes(view, place, post, millimeter)


def _bay(view: SideView, stretch: Stretch, ends: tuple[Meter, Meter], millimeter: Meter) -> Iterator[Shape]:
    buildup, feet = stretch.buildup, tuple(foot_of_fence(view, stretch, along) for along in ends)
    xs = tuple(view.across(along) for along in ends)
    if buildup.mesh is not None:
        top = tuple((along, foot + buildup.mesh.height) for along, foot in zip(ends, feet, strict=True))
        ring = tuple((view.across(along), z) for along, z in (*_foot_line(view, stretch, ends), *reversed(top)))
        slope = math.atan2(feet[1] - feet[0], xs[1] - xs[0])
        if xs[1] < xs[0]:
            slope = math.atan2(feet[0] - feet[1], xs[0] - xs[1])
        yield from mesh_shapes(buildup.mesh.kind, ring, millimeter * MESH_APART / 1.6, turn=slope)
        yield Polyline(layer="mesh", points=ring, closed=True)
    for rail in buildup.rails:
        yield Polyline(
            layer="rail", points=tuple((x, foot + rail.at) for x, foot in zip(xs, feet, strict=True))
        )  # fmt: skip


def _foot_line(view: SideView, stretch: Stretch, ends: tuple[Meter, Meter]) -> tuple[Point, ...]:
    """The lower edge of the mesh from one post to the next: along the wall's top with its steps, or the ground."""
    start, end = ends
    if not stretch.steps:
        inner = tuple(
            (stretch.start + place, z) for place, z in stretch.ground if start < stretch.start + place < end
        )  # fmt: skip
        return ((start, view.lie.ground_at(start)), *inner, (end, view.lie.ground_at(end)))
    coping = stretch.buildup.coping.thickness if stretch.buildup.coping else 0.0
    line: list[Point] = [(start, foot_of_fence(view, stretch, start))]
    for panel in panels(stretch):
        line += [(place, z + coping) for place, z in panel.top if start < place < end]
    return (*line, (end, foot_of_fence(view, stretch, end)))


def post_shapes(view: SideView, place: Meter, post: Post, millimeter: Meter) -> Iterator[Shape]:
    """One post at a place of a side, what is hidden of it dashed; a brace post has no name."""
    x, half = view.across(place), max(width_of_post(post.kind), LEAST_POST * millimeter) / 2
    shown = ((x - half, post.base), (x + half, post.base), (x + half, post.top), (x - half, post.top))
    yield Area(layer="post", points=shown, hatch="timber" if post.kind.word("material") == "wood" else "steel")
    hidden = ((x - half, post.base), (x - half, post.foot), (x + half, post.foot), (x + half, post.base))
    yield Polyline(layer="post", points=hidden, dashed=True)
    if post.collar > 0:
        wide = post.collar / 2
        ring = ((x - wide, post.ground), (x - wide, post.foot), (x + wide, post.foot), (x + wide, post.ground))
        yield Polyline(layer="footing", points=ring, dashed=True)
    if post.name:
        yield Label(at=(x, post.top), text=post.name, layer="post", anchor="above", size=SMALL, priority=3)

"""Braces in plan and in elevation: rail and diagonal to a brace post, or a strut to the ground."""

from __future__ import annotations

from collections.abc import Iterator

from pinfold.drawings.fences import post_shapes
from pinfold.drawings.scenes import Circle, Polyline, Shape, Tick
from pinfold.drawings.sides import SideView, width_of_post
from pinfold.plan.fences import BraceForm
from pinfold.studies.layout.bracing import BracePlace, braces_of
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter


def braces_on(layout: Layout, view: SideView) -> tuple[BracePlace, ...]:
    """The braces along a side."""
    return tuple(place for place in braces_of(layout) if place.stretch.side == view.side.name)


def braces_in_plan(layout: Layout, view: SideView, least: Meter) -> Iterator[Shape]:
    """Each rail or strut from its post, with the brace post or the foot; no post narrower than `least`."""
    for place in braces_on(layout, view):
        yield Polyline(layer="rail", points=(place.post.point, place.point))
        if place.brace_post is not None:
            wide = max(width_of_post(place.brace_post.kind), least)
            yield Circle(layer="post", center=place.point, radius=wide / 2, filled=True)
            if place.brace_post.collar > 0:
                yield Circle(layer="footing", center=place.point, radius=place.brace_post.collar / 2)
        elif place.brace.form is BraceForm.STRUT:
            yield Tick(layer="rail", at=place.point, turn=view.turn, length=1.6)


def braces_seen(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """Rail and diagonal, or strut, of every brace along a side seen from outside, no higher than the posts are."""
    for place in braces_on(layout, view):
        x, far = view.across(place.start), view.across(place.end)
        tops = (post.top for post in (place.post, place.brace_post) if post is not None)
        high = min(place.held_at + place.brace.rail_at, *tops)
        if place.brace.form is BraceForm.STRUT:
            yield Polyline(layer="rail", points=((x, high), (far, view.lie.ground_at(place.end))))
            continue
        yield Polyline(layer="rail", points=((x, high), (far, high)))
        yield Polyline(layer="rail", points=((far, high), (x, place.held_at)))
        if place.brace_post is not None:
            yield from post_shapes(view, place.end, place.brace_post, millimeter)

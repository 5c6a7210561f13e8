"""Panels of wall between control joints: how much of the fence above hangs on the posts that stand in each."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from pinfold.geometry.stepping import Step
from pinfold.studies.layout.records import Layout, Post, Stretch
from pinfold.studies.stability.tipping import IN_WALL, Panel
from pinfold.units import Meter

Held = tuple[tuple[Meter, Meter], ...]
"""(place along the side, width of fence) of every post that hands its wind to the wall."""

_SAME: Meter = 0.02


def held_on(layout: Layout) -> dict[str, Held]:
    """By name of stretch: half of each bay beside every post that stands in its wall, a corner's this side's half."""
    by_side: dict[str, list[Post]] = {}
    for post in sorted(layout.posts, key=lambda each: each.along):
        by_side.setdefault(post.side, []).append(post)
    at_corners = [post for posts in by_side.values() for post in (posts[0], posts[-1])]
    return {
        stretch.name: _held_by(stretch, (*by_side.get(stretch.side, ()), *at_corners))
        for stretch in layout.stretches
    }  # fmt: skip


def _held_by(stretch: Stretch, posts: Iterable[Post]) -> Held:
    own = stretch.buildup.posts
    if own is None or own.setting not in IN_WALL:
        return ()
    placed = {post.name: (place, post.hole == 0.0) for post in posts if (place := _place(stretch, post)) is not None}
    spots = sorted(placed.values())
    shares = dict.fromkeys((place for place, in_wall in spots if in_wall), 0.0)
    for (low, _), (high, _) in pairwise(spots):
        for place in (low, high):
            if place in shares:
                shares[place] += (high - low) / 2
    return tuple(shares.items())


def _place(stretch: Stretch, post: Post) -> Meter | None:
    """Where along its side a post stands, if on this stretch; a gate's post just off its end counts as at the end."""
    if post.side == stretch.side:
        room = (post.kind.value("width") if post.gate and post.kind.has("width") else 0.0) + _SAME
        near = stretch.start - room <= post.along <= stretch.end + room
        return min(max(post.along, stretch.start), stretch.end) if near else None
    for point, place in zip(stretch.points, (stretch.start, stretch.end), strict=True):
        if abs(point[0] - post.line_point[0]) < _SAME and math.dist(post.line_point, point) < _SAME:
            return place
    return None


Panels = tuple[tuple[Meter, Meter, Panel], ...]
"""(start, end, panel) between each joint and the next, along the side."""


def panels_of(stretch: Stretch, held: Held) -> Panels:
    """Every panel of a stretch; a post at a joint may lean on either side of it."""
    places = [stretch.start, *(joint.at for joint in stretch.joints), stretch.end]
    return tuple(
        (
            start, end,
            Panel(shares=math.fsum(share for at, share in held if start - _SAME <= at <= end + _SAME),
                  length=end - start),
        )
        for start, end in pairwise(places)
    )  # fmt: skip


def worst_panel(panels: Panels, stretch: Stretch, step: Step) -> Panel:
    """The panel of a step on whose length the most fence hangs."""
    low, high = stretch.start + step.start, stretch.start + step.end
    within = [panel for start, end, panel in panels if min(end, high) - max(start, low) > _SAME]
    return max(within, key=lambda panel: panel.shares / panel.length)


def shortest_panel(panels: Panels, stretch: Stretch, step: Step) -> Meter:
    """Length of the shortest panel on whose length a step stands."""
    low, high = stretch.start + step.start, stretch.start + step.end
    return min(end - start for start, end, _ in panels if min(end, high) - max(start, low) > _SAME)

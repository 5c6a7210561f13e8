"""Dimensions of an elevation: chains below, heights at one end, steps of wall and footing."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.faces import panels
from pinfold.drawings.naming import SMALL
from pinfold.drawings.plan_dimensions import SAME, marks, together
from pinfold.drawings.scenes import Dimension, Label, PaperMm, Shape, chain
from pinfold.drawings.sides import SideView, foot_of_fence, posts_on, stretches_on
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.units import Meter, System, tape

NEAR: PaperMm = 6.0
TIER: PaperMm = 7.5
LEAST_LEVEL: Meter = 0.05
"""A footing's top nearer to the ground than this is not measured by itself."""


def lowest_of(layout: Layout, view: SideView) -> Meter:
    """The lowest thing of a side: footing, post's foot or ground."""
    lows = [post.foot for _, post in posts_on(layout, view)]
    for stretch in stretches_on(layout, view):
        lows += [step.footing_bottom for step in stretch.steps]
    return min([*lows, *(z for _, z in view.lie.ground(0.0, view.length)[0])])


def elevation_dimensions(layout: Layout, view: SideView) -> Iterator[Shape]:
    """Posts, joints and the whole length below; heights beside the end; what each step rises."""
    low, system = lowest_of(layout, view), layout.plan.units
    chains = [marks(layout, view)]
    if joints := _joint_marks(layout, view):
        chains.append(joints)
    for number, places in enumerate(chains):
        across = tuple(sorted(view.across(place) for place in places))
        ends, texts = together(across, system)
        yield from chain(tuple((x, low) for x in ends), texts, offset=-(NEAR + number * TIER), size=1.6)
    yield Dimension(
        start=(0.0, low), end=(view.length, low), offset=-(NEAR + len(chains) * TIER), text=tape(view.length, system)
    )  # fmt: skip
    yield from _heights(layout, view, system)
    for stretch in stretches_on(layout, view):
        yield from _steps(view, stretch, system)


def _joint_marks(layout: Layout, view: SideView) -> tuple[Meter, ...]:
    """Ends of walls and control joints along a side; empty where there is no joint."""
    stretches = stretches_on(layout, view)
    if not any(stretch.joints for stretch in stretches):
        return ()
    wanted = [0.0, view.length]
    for stretch in stretches:
        wanted += [stretch.start, stretch.end, *(joint.at for joint in stretch.joints)]
    kept: list[Meter] = []
    for place in sorted(wanted):
        if not kept or place - kept[-1] > SAME:
            kept.append(place)
    return tuple(kept)


def _heights(layout: Layout, view: SideView, system: System) -> Iterator[Shape]:
    """At the end farthest left that is built: below ground, wall, mesh."""
    stretches = sorted(stretches_on(layout, view), key=lambda one: min(view.across(one.start), view.across(one.end)))
    if not stretches:
        return
    stretch = stretches[0]
    along = min((stretch.start, stretch.end), key=view.across)
    ground, top = view.lie.ground_at(along), foot_of_fence(view, stretch, along)
    levels = [ground, top, top + stretch.buildup.fence_height]
    if stretch.steps:
        step = stretch.steps[0 if along == stretch.start else -1]
        levels += [step.footing_bottom, *([step.bed] if abs(step.bed - ground) > LEAST_LEVEL else [])]
    levels += [ground - post.hole for place, post in posts_on(layout, view) if abs(place - along) < SAME and post.hole]
    known = sorted({round(level, 4) for level in levels})
    x = view.across(along)
    side = 1 if x < view.length / 2 else -1
    for start, end in pairwise(known):
        yield Dimension(start=(x, start), end=(x, end), offset=side * 7.0, text=tape(end - start, system), size=1.6)


def _steps(view: SideView, stretch: Stretch, system: System) -> Iterator[Shape]:
    for before, after in pairwise(panels(stretch)):
        x = view.across(after.top[0][0])
        rise = after.top[0][1] - before.top[-1][1]
        if abs(rise) > 1e-3:
            at = (x, max(after.top[0][1], before.top[-1][1]))
            yield Label(at=at, text=f"step {tape(abs(rise), system)}", layer="dimension", anchor="above", size=SMALL)
        drop = after.step.bed - before.step.bed
        if abs(drop) > 1e-3:
            at = (x, max(after.step.bed, before.step.bed))
            yield Label(at=at, text=f"step {tape(abs(drop), system)}", layer="dimension", anchor="above", size=SMALL)

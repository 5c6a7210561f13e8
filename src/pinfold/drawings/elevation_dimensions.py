"""Dimensions of an elevation: chains below, heights at one end, steps of wall and footing."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.faces import panels
from pinfold.drawings.naming import SMALL
from pinfold.drawings.plan_dimensions import SAME, kinds_between, marks, together
from pinfold.drawings.scenes import Anchor, Dimension, Label, PaperMm, Point, Shape, chain
from pinfold.drawings.sides import SideView, foot_of_fence, posts_on, stretches_on
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.units import Meter, System, tape

NEAR: PaperMm = 6.0
TIER: PaperMm = 7.5
LEAST_CLEAR: PaperMm = 1.2
"""Between what is measured and its extension lines."""
PASSED: PaperMm = 1.6
"""Extension lines of the second chain begin so far past the line of the first."""
LEAST_LEVEL: PaperMm = 5.0
"""A footing's top nearer than this to the ground or to its underside is left to the section."""


def lowest_of(layout: Layout, view: SideView) -> Meter:
    """The lowest thing of a side: footing, post's foot or ground."""
    lows = [post.foot for _, post in posts_on(layout, view)]
    for stretch in stretches_on(layout, view):
        lows += [step.footing_bottom for step in stretch.steps]
    return min([*lows, *(z for _, z in view.lie.ground(0.0, view.length)[0])])


def elevation_dimensions(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """Posts, joints and the whole length below; heights beside the end; what each step rises.

    Args:
        layout: the plan laid out
        view: the side
        millimeter: about how much of the side one millimeter of paper will hold
    """
    low, system = lowest_of(layout, view), layout.plan.units
    chains = [marks(layout, view)]
    if joints := _joint_marks(layout, view):
        chains.append(joints)
    for number, places in enumerate(chains):
        kinds = kinds_between(layout, view, places)
        if not view.outer_is_right:
            places, kinds = tuple(reversed(places)), tuple(reversed(kinds))
        ends, texts = together(tuple(view.across(place) for place in places), kinds, system)
        offset = NEAR + number * TIER
        clear = offset - TIER + PASSED if number else LEAST_CLEAR
        yield from chain(tuple((x, low) for x in ends), texts, offset=-offset, size=1.6, clear=clear)
    yield Dimension(
        start=(0.0, low), end=(view.length, low), offset=-(NEAR + len(chains) * TIER), text=tape(view.length, system)
    )  # fmt: skip
    yield from _heights(layout, view, millimeter)
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


def _heights(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """At the end farthest left that is built: fence, wall and footing; beside them how deep the post's hole is."""
    stretches = sorted(stretches_on(layout, view), key=lambda one: min(view.across(one.start), view.across(one.end)))
    if not stretches:
        return
    stretch = stretches[0]
    along = min((stretch.start, stretch.end), key=view.across)
    ground, top = view.lie.ground_at(along), foot_of_fence(view, stretch, along)
    levels = [ground, top, top + stretch.buildup.fence_height]
    holes = [ground - post.hole for place, post in posts_on(layout, view) if abs(place - along) < SAME and post.hole]
    if stretch.steps:
        step = stretch.steps[0 if along == stretch.start else -1]
        apart = min(abs(step.bed - ground), abs(step.bed - step.footing_bottom))
        levels += [step.footing_bottom, *([step.bed] if apart > LEAST_LEVEL * millimeter else [])]
        deep = [ground, *holes]
    else:
        levels, deep = [*levels, *holes], []
    x = view.across(along)
    side = 1 if x < view.length / 2 else -1
    for chained, offset in ((levels, NEAR), (deep, NEAR + TIER)):
        for start, end in pairwise(sorted({round(level, 4) for level in chained})):
            text = tape(end - start, layout.plan.units)
            yield Dimension(start=(x, start), end=(x, end), offset=side * offset, text=text, size=1.6)


def _steps(view: SideView, stretch: Stretch, system: System) -> Iterator[Shape]:
    """What each step rises: of the footing under it, of the wall's top over it where that is another figure."""
    for before, after in pairwise(panels(stretch)):
        x = view.across(after.top[0][0])
        rise, drop = after.top[0][1] - before.top[-1][1], after.step.bed - before.step.bed
        if abs(drop) > 1e-3:
            at = (x, min(after.step.footing_bottom, before.step.footing_bottom))
            yield _step(at, drop, system, "below")
        if abs(rise) > 1e-3 and abs(rise - drop) > 1e-3:
            yield _step((x, max(after.top[0][1], before.top[-1][1])), rise, system, "above")


def _step(at: Point, rise: Meter, system: System, anchor: Anchor) -> Label:
    return Label(at=at, text=f"step {tape(abs(rise), system)}", layer="dimension", anchor=anchor, size=SMALL)

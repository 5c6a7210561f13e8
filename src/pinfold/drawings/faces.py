"""The face of a wall in elevation: what shows above the ground, courses, bond, and what is hidden below."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinfold.drawings.fineness import level_spans
from pinfold.drawings.naming import hatch_of
from pinfold.drawings.scenes import Area, Point, Polyline, Shape
from pinfold.drawings.sides import SideView
from pinfold.geometry.profiles import Profile, height_along, part_of, raised
from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Coping, Wall
from pinfold.studies.layout.records import EndKind, Stretch
from pinfold.studies.layout.walls import lift_of
from pinfold.units import Meter

LEAST_COURSE = 0.9
"""Courses lower than this on paper, in millimeters, are not drawn."""
LEAST_BOND = (1.5, 3.0)
"""Height and length on paper from which single units are drawn."""


@dataclass(frozen=True, kw_only=True)
class Panel:
    """One step of a stretch, as seen: heights over places along the side.

    Attributes:
        top: of the wall without coping.
        ground: under it.
    """

    stretch: Stretch
    step: Step
    top: Profile
    ground: Profile

    @property
    def shown(self) -> tuple[Point, ...]:
        """The ring of what shows above the ground, places along the side."""
        return (*self.ground, *reversed(self.top))


def panels(stretch: Stretch) -> Iterator[Panel]:
    """The steps of a stretch with top and ground in places along the side; none without wall."""
    for step, top in zip(stretch.steps, stretch.tops, strict=True):
        ground = part_of(stretch.ground, step.start, step.end)
        yield Panel(
            stretch=stretch, step=step, top=_moved(top, stretch.start), ground=_moved(ground, stretch.start)
        )  # fmt: skip


def _moved(profile: Profile, along: Meter) -> Profile:
    return tuple((place + along, z) for place, z in profile)


def wall_shapes(view: SideView, stretch: Stretch, millimeter: Meter) -> Iterator[Shape]:
    """The wall of a stretch: face, courses, coping, and dashed what the ground hides."""
    wall = stretch.buildup.wall
    if wall is None:
        return
    for panel in panels(stretch):
        hatch = "none" if wall.kind.word("make") == "units" else hatch_of(wall.kind)
        yield Area(layer="wall", points=_seen(view, panel.shown), hatch=hatch)
        yield from _courses(view, panel, wall, millimeter)
        yield from _hidden(view, panel)
        if stretch.buildup.coping is not None:
            yield _coping(view, panel, stretch.buildup.coping)
    for joint in stretch.joints:
        touching = [panel for panel in panels(stretch) if panel.top[0][0] - 1e-6 <= joint.at <= panel.top[-1][0] + 1e-6]
        ends = (max(panel.step.bed for panel in touching), min(panel.step.top for panel in touching))
        yield Polyline(layer="joint", points=tuple((view.across(joint.at), z) for z in ends))


def _seen(view: SideView, points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((view.across(along), z) for along, z in points)


def _courses(view: SideView, panel: Panel, wall: Wall, millimeter: Meter) -> Iterator[Shape]:
    course = lift_of(wall)
    if course < LEAST_COURSE * millimeter or not (wall.kind.has("unit_height") or wall.kind.has("lift")):
        return
    count = math.ceil(panel.step.height / course - 1e-6)
    levels = [*(panel.step.bed + course * number for number in range(count)), panel.step.top]
    for level in levels[1:-1]:
        for start, end in level_spans(panel.shown, level):
            if end - start > 1e-3:
                yield Polyline(layer="course", points=_seen(view, ((start, level), (end, level))))
    if wall.kind.has("unit_length"):
        joint = wall.kind.value("joint") if wall.kind.has("joint") else 0.0
        module = wall.kind.value("unit_length") + joint
        if course >= LEAST_BOND[0] * millimeter and module >= LEAST_BOND[1] * millimeter:
            yield from _bond(view, panel, levels, module)


def _bond(view: SideView, panel: Panel, levels: list[Meter], module: Meter) -> Iterator[Shape]:
    """Head joints, every other course moved by half a unit; counted from the stretch's start and the level 0."""
    course = levels[1] - levels[0]
    for low, high in pairwise(levels):
        shift = module / 2 if round(low / course) % 2 else 0.0
        number = int((panel.top[0][0] - panel.stretch.start - shift) / module) + 1
        place = panel.stretch.start + shift + number * module
        while place < panel.top[-1][0] - 1e-6:
            foot, top = max(low, height_along(panel.ground, place)), min(high, height_along(panel.top, place))
            if foot < top:
                yield Polyline(layer="course", points=_seen(view, ((place, foot), (place, top))))
            place += module


def _hidden(view: SideView, panel: Panel) -> Iterator[Shape]:
    """Below ground: the wall down to its bed and the footing under it, dashed."""
    (start, left), (end, right) = panel.ground[0], panel.ground[-1]
    step, footing = panel.step, panel.stretch.buildup.footing
    below = ((start, left), (start, step.bed), (end, step.bed), (end, right))
    yield Polyline(layer="wall", points=_seen(view, below), dashed=True)
    if footing is not None:
        ring = ((start, step.bed), (start, step.footing_bottom), (end, step.footing_bottom), (end, step.bed))
        yield Polyline(layer="footing", points=_seen(view, ring), closed=True, dashed=True)


def _coping(view: SideView, panel: Panel, coping: Coping) -> Area:
    over = coping.kind.value("overhang") if coping.kind.has("overhang") else 0.0
    stretch, top = panel.stretch, panel.top
    start, end = top[0][0], top[-1][0]
    first = stretch.start_kind in _FREE and abs(start - stretch.start) < 1e-6
    last = stretch.end_kind in _FREE and abs(end - stretch.end) < 1e-6
    under = (
        *(((start - over, top[0][1]),) if first else ()), *top, *(((end + over, top[-1][1]),) if last else ()),
    )  # fmt: skip
    ring = (*under, *reversed(raised(under, coping.thickness)))
    return Area(layer="wall", points=_seen(view, ring), hatch=hatch_of(coping.kind))


_FREE = (EndKind.GATE, EndKind.OPEN)


def return_shapes(view: SideView, along: Meter, thickness: Meter, top: Meter) -> Iterator[Shape]:
    """The end of the next side's wall where it stands at a corner of a side without wall: square on, to its top."""
    x, ground = view.across(along), view.lie.ground_at(along)
    if top > ground:
        left, right = x - thickness / 2, x + thickness / 2
        yield Area(layer="wall", points=((left, ground), (right, ground), (right, top), (left, top)))

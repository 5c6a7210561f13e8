"""A structure on blocks from above: its supports with their heights and lifts, where it falls to, its doors.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from itertools import combinations

from pinfold.plan.outline import Neighbor, Point
from pinfold.reports.level_page import Leveled, signed
from pinfold.studies.leveling.lying import Lie, Standing
from pinfold.studies.leveling.words import fine
from pinfold.units import Meter, System

_INK, _QUIET, _FLOOR, _LIFT = "#1f2326", "#545b60", "#f4f1ea", "#9c3f28"
_CLEAR = f'stroke="{_FLOOR}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"'
"""So that words stand clear of the lines they cross."""
_MARGIN, _TOP = 62.0, 58.0
_APART = 104.0
"""Least distance between two supports in the drawing, so that no words stand over each other."""
_LEAST, _MOST = 420.0, 1500.0
_BLOCK = 17.0
LEGEND = (
    "Supports from above, the fuller the lower; height over the datum under each, lift beside its mark. The arrow "
    "points to where the whole falls."
)


@dataclass(frozen=True)
class _Paper:
    """Places on the plan in the drawing."""

    low: Point
    high: Point
    scale: float

    @property
    def wide(self) -> float:
        return (self.high[0] - self.low[0]) * self.scale + 2 * _MARGIN

    @property
    def tall(self) -> float:
        return (self.high[1] - self.low[1]) * self.scale + 2 * _TOP

    def at(self, point: Point) -> Point:
        return (
            _MARGIN + (point[0] - self.low[0]) * self.scale,
            _TOP + (self.high[1] - point[1]) * self.scale,
        )  # fmt: skip


def level_picture(found: Leveled, neighbor: Neighbor, system: System) -> str:
    """The picture for a page; empty where nothing is shown. The table beside it says the same."""
    if found.lie is None:
        return ""
    told = f"{neighbor.name} from above: {len(found.lie.supports)} supports with their heights and lifts"
    return (
        f'<figure class="leveled"><div class="drawing" tabindex="0" role="group" aria-label="{escape(told)}">'
        f"{_svg(found, found.lie, neighbor, system)}</div><figcaption>{LEGEND}</figcaption></figure>"
    )


def level_sheet(found: Leveled, neighbor: Neighbor, system: System, *, wide_mm: float) -> tuple[str, float]:
    """The picture for paper, and its height in mm; both nothing where nothing is shown."""
    if found.lie is None:
        return "", 0.0
    paper = _paper(found.lie, neighbor)
    high_mm = wide_mm * paper.tall / paper.wide
    svg = _svg(found, found.lie, neighbor, system)
    return svg.replace("<svg ", f'<svg width="{wide_mm:g}mm" height="{high_mm:.1f}mm" ', 1), high_mm


def _paper(lie: Lie, neighbor: Neighbor) -> _Paper:
    points = [*neighbor.footprint, *((each.x, each.y) for each in lie.supports)]
    low = (min(x for x, _ in points), min(y for _, y in points))
    high = (max(x for x, _ in points), max(y for _, y in points))
    places = [(each.x, each.y) for each in lie.supports]
    nearest = min(math.dist(one, other) for one, other in combinations(places, 2))
    longest = max(high[0] - low[0], high[1] - low[1], 0.1)
    scale = min(max(_APART / max(nearest, 0.05), _LEAST / longest), _MOST / longest)
    return _Paper(low, high, scale)


def _svg(found: Leveled, lie: Lie, neighbor: Neighbor, system: System) -> str:
    paper = _paper(lie, neighbor)
    inside = "".join(_drawn(found, lie, neighbor, system))
    told = escape(f"{neighbor.name} from above, highest and lowest support {fine(lie.range, system)} apart")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="leveled" viewBox="0 0 {paper.wide:.0f} {paper.tall:.0f}" '
        f'role="img" aria-label="{told}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="13">'
        f"<g>{inside}</g></svg>"
    )


def _drawn(found: Leveled, lie: Lie, neighbor: Neighbor, system: System) -> Iterator[str]:
    paper = _paper(lie, neighbor)
    outline = "L".join("{:.1f} {:.1f}".format(*paper.at(point)) for point in neighbor.footprint)
    yield f'<path class="floor" d="M{outline}Z" fill="{_FLOOR}" stroke="{_QUIET}" stroke-width="1.5"/>'
    blocks = neighbor.blocks
    for door in blocks.leveling.doors if blocks else ():
        (x, y), (far_x, far_y) = paper.at(door.start), paper.at(door.end)
        yield (
            f'<path class="door" d="M{x:.1f} {y:.1f}L{far_x:.1f} {far_y:.1f}" fill="none" stroke="{_INK}" '
            'stroke-width="5"/>'
        )
    yield from _arrow(lie, paper)
    lifts = {move.mark: move.lift for move in found.moves.touched} if found.moves else {}
    for each in lie.supports:
        yield from _support(each, lie, paper.at((each.x, each.y)), lifts.get(each.mark), system)


def _support(each: Standing, lie: Lie, at: Point, lift: Meter | None, system: System) -> Iterator[str]:
    x, y = at
    share = each.low / lie.range if lie.range > 0 else 0.0
    half = _BLOCK / 2
    yield (
        f'<rect class="block" x="{x - half:.1f}" y="{y - half:.1f}" width="{_BLOCK:g}" height="{_BLOCK:g}" '
        f'fill="{_INK}" fill-opacity="{0.08 + 0.82 * share:.2f}" stroke="{_INK}" stroke-width="1.5"/>'
    )
    raised = (
        ""
        if lift is None
        else f' <tspan class="lift" fill="{_LIFT}" font-weight="700">{escape(signed(lift, system))}</tspan>'
    )
    yield (
        f'<text class="loud" x="{x:.1f}" y="{y - half - 6:.1f}" text-anchor="middle" fill="{_INK}" {_CLEAR}>'
        f"{escape(each.mark)}{raised}</text>"
    )
    yield (
        f'<text class="quiet" x="{x:.1f}" y="{y + half + 15:.1f}" text-anchor="middle" fill="{_QUIET}" {_CLEAR}>'
        f"{escape(fine(each.height, system))}</text>"
    )


def _arrow(lie: Lie, paper: _Paper) -> Iterator[str]:
    """From the middle to where the plane falls."""
    if lie.toward is None:
        return
    x, y = paper.at(lie.middle)
    ux, uy = -lie.slope_x / lie.steepest, lie.slope_y / lie.steepest
    tip = (x + 26 * ux, y + 26 * uy)
    wings = "".join(
        f"M{tip[0]:.1f} {tip[1]:.1f}l{-9 * ux + side * 6 * uy:.1f} {-9 * uy - side * 6 * ux:.1f}" for side in (1, -1)
    )  # fmt: skip
    yield (
        f'<path class="fall" d="M{x - 26 * ux:.1f} {y - 26 * uy:.1f}L{tip[0]:.1f} {tip[1]:.1f}{wings}" fill="none" '
        f'stroke="{_LIFT}" stroke-width="2.2"/>'
    )

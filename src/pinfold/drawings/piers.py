"""Piers in plan, elevation and section, with the pads under them."""

from __future__ import annotations

from collections.abc import Iterator

from pinfold.drawings.callouts import Note
from pinfold.drawings.naming import hatch_of, told
from pinfold.drawings.scenes import Area, Point, Polyline, Shape
from pinfold.drawings.section_frame import Cut, Parts
from pinfold.drawings.section_wall import box
from pinfold.drawings.sides import SideView
from pinfold.geometry.profiles import height_along
from pinfold.plan.buildups import Piers
from pinfold.studies.layout.piering import pier_places
from pinfold.studies.layout.records import Stretch
from pinfold.units import Meter, tape


def piers_in_plan(view: SideView, stretch: Stretch) -> Iterator[Shape]:
    """Each pier of a stretch, its pad dashed."""
    piers, wall = stretch.buildup.piers, stretch.buildup.wall
    if piers is None or wall is None:
        return
    out, within = piers.reach(wall.thickness)
    middle = (out - within) / 2
    for place in pier_places(stretch):
        pad = (middle + piers.pad_width / 2, middle - piers.pad_width / 2)
        yield Polyline(
            layer="footing", points=_ring(view, stretch, place, (piers.pad_length, *pad)), closed=True, dashed=True
        )  # fmt: skip
        ring = _ring(view, stretch, place, (piers.width, out, -within))
        yield Area(layer="wall", points=ring, hatch=hatch_of(wall.kind))


def _ring(view: SideView, stretch: Stretch, place: Meter, size: tuple[Meter, Meter, Meter]) -> tuple[Point, ...]:
    """A rectangle about a place of a stretch: its length along it, and how far out it goes on both sides."""
    length, far, near = size
    along = stretch.start + place
    corners = ((-length, near), (length, near), (length, far), (-length, far))
    return tuple(view.at(along + half / 2, out) for half, out in corners)


def piers_seen(view: SideView, stretch: Stretch) -> Iterator[Shape]:
    """Each pier of a stretch as seen from outside, its pad dashed under the ground; inner ones are dashed."""
    piers, wall = stretch.buildup.piers, stretch.buildup.wall
    if piers is None or wall is None:
        return
    stands_out = piers.reach(wall.thickness)[0] > wall.thickness / 2
    for place in pier_places(stretch):
        for step, top in zip(stretch.steps, stretch.tops, strict=True):
            if step.start - 1e-6 <= place <= step.end + 1e-6:
                ground, head = height_along(stretch.ground, place), height_along(top, place)
                ring = _face(view, stretch.start + place, piers.width, (ground, head))
                yield Polyline(layer="wall", points=ring, closed=True, dashed=not stands_out)
                pad = _face(view, stretch.start + place, piers.pad_length, (step.footing_bottom, step.bed))
                yield Polyline(layer="footing", points=pad, closed=True, dashed=True)
                break


def _face(view: SideView, along: Meter, length: Meter, heights: tuple[Meter, Meter]) -> tuple[Point, ...]:
    left, right = sorted((view.across(along - length / 2), view.across(along + length / 2)))
    return box(left, heights[0], right, heights[1])


def pier_parts(cut: Cut, parts: Parts) -> None:
    """The pier that stands behind the cut, dashed, with its pad, and its figures."""
    piers, wall, footing = cut.buildup.piers, cut.buildup.wall, cut.buildup.footing
    if piers is None or wall is None or footing is None:
        return
    out, within = piers.reach(wall.thickness)
    middle = (within - out) / 2
    pier = box(-out, cut.bed, within, cut.wall_top)
    half = piers.pad_width / 2
    pad = box(middle - half, cut.bottom, middle + half, cut.bed)
    parts.shapes.append(Polyline(layer="wall", points=pier, closed=True, dashed=True))
    parts.shapes.append(Polyline(layer="footing", points=pad, closed=True, dashed=True))
    at = (within if within > wall.thickness / 2 else -out, cut.wall_top * 0.4)
    parts.notes.append(Note(at=at, text=_says(cut, piers)))


def _says(cut: Cut, piers: Piers) -> str:
    system = cut.system
    return told(
        f"pier behind, {tape(piers.width, system)} along the wall, {tape(piers.depth, system)} deep",
        f"every {tape(piers.spacing, system)} at most",
        f"on a pad of {tape(piers.pad_length, system)} x {tape(piers.pad_width, system)}",
    )

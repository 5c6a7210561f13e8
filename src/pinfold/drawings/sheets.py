"""Sheets: a scene laid on paper at a scale a person can measure with, its caption under it (millimeters)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

from pinfold.drawings.captions import SMALL, Caption, bar_of, caption_of
from pinfold.drawings.dimensioning import dimension_lines
from pinfold.drawings.lettering import block_size, lines_of, width_of
from pinfold.drawings.linework import chains, scaled
from pinfold.drawings.placing import Placed, place
from pinfold.drawings.scales import Scale, scales
from pinfold.drawings.scenes import Dimension, Frame, Label, PaperMm, Point, ScaleBar, Scene, bounds, frame_of
from pinfold.errors import NoSolutionError
from pinfold.units import System

MARGIN: PaperMm = 1.0
"""Kept free round everything."""
ROOMS: dict[str, tuple[PaperMm, PaperMm]] = {
    "a4": (187.0, 265.0), "a4 wide": (274.0, 178.0), "a3 wide": (396.0, 265.0),
    "letter": (192.8, 247.0), "letter wide": (256.0, 183.8), "tabloid wide": (407.0, 247.0),
}  # fmt: skip
"""What a drawing may fill of a sheet, width and height, with a margin left for binding."""


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A placed scene with the paper it takes.

    Attributes:
        window: what the drawing with its texts covers, y upward from the scene's origin.
        caption: absent when none was wanted.
    """

    placed: Placed
    window: Frame
    caption: Caption | None

    @property
    def width(self) -> PaperMm:
        """Of the paper."""
        return max(self.window.width, self.caption.width if self.caption else 0.0) + 2 * MARGIN

    @property
    def height(self) -> PaperMm:
        """Of the paper."""
        return self.window.height + 2 * MARGIN + (self.caption.height if self.caption else 0.0)

    @cached_property
    def _corner(self) -> Point:
        """The paper's upper left corner, counted upward from the scene's origin; a narrow drawing is centered."""
        return (self.window.left - (self.width - self.window.width) / 2, self.window.top + MARGIN)

    def on_paper(self, point: Point) -> Point:
        """A point counted upward from the scene's origin, as counted downward from the paper's upper left corner."""
        return (point[0] - self._corner[0], self._corner[1] - point[1])

    def from_scene(self, points: tuple[Point, ...]) -> tuple[Point, ...]:
        """Points of the scene in meters, as counted downward from the paper's upper left corner."""
        return tuple(self.on_paper(point) for point in scaled(points, self.placed.scale.mm_per_meter))


def sheet_of(
    scene: Scene,
    *,
    room: tuple[PaperMm, PaperMm] = ROOMS["a4 wide"],
    system: System = System.METRIC,
    scale: Scale | None = None,
    captioned: bool = True,
) -> Sheet:
    """A scene on paper, at the largest usual scale at which it and its texts fit.

    Args:
        scene: what is drawn
        room: width and height it may take; not looked at when a scale is given
        system: whose scales are usual
        scale: use this one, whatever room it takes
        captioned: whether title, scale, north, bar and notes stand under it

    Raises:
        NoSolutionError: the texts alone need more room.
    """
    if scale is not None:
        return _laid(place(scene, scale), room[0], captioned=captioned)
    return largest_of(scene, rooms=(room,), system=system, captioned=captioned)


def largest_of(
    scene: Scene, *, rooms: tuple[tuple[PaperMm, PaperMm], ...], system: System, captioned: bool = True
) -> Sheet:
    """A scene in that of several rooms which shows it largest; the first of them when they are alike.

    Raises:
        NoSolutionError: the texts alone need more room than any of them has.
    """
    size = bounds(scene)
    for usual in scales(system):
        need = _least_size(scene, usual)
        fitting = [room for room in rooms if need.width <= room[0] - 2 * MARGIN and need.height <= room[1] - 2 * MARGIN]
        if fitting:
            placed = place(scene, usual)
            for room in fitting:
                sheet = _laid(placed, room[0], captioned=captioned)
                if sheet.width <= room[0] and sheet.height <= room[1]:
                    return sheet
        wide, high = size.width * usual.mm_per_meter, size.height * usual.mm_per_meter
        if all(wide < room[0] / 20 and high < room[1] / 20 for room in rooms):
            break
    told = " or ".join(f"{wide:.0f} by {high:.0f} mm" for wide, high in rooms)
    raise NoSolutionError(
        f"the texts of {scene.title!r} need more than {told} of paper; give it a larger sheet or leave some out"
    )


def _least_size(scene: Scene, scale: Scale) -> Frame:
    """What a scene takes whatever place its texts find: its shapes, its dimension lines, its columns of call-outs."""
    k, size = scale.mm_per_meter, bounds(scene)
    points = [*scaled(((size.left, size.bottom), (size.right, size.top)), k)]
    for line in dimension_lines(tuple(one for one in scene.shapes if isinstance(one, Dimension)), k):
        points += line.line
    for label in scene.shapes:
        if isinstance(label, Label) and label.stand is not None and label.anchor in {"left", "right"}:
            wide = block_size(lines_of(label.text), label.size, bold=label.bold)[0] + label.reach
            (x, y) = scaled((label.stand,), k)[0]
            points.append((x + wide if label.anchor == "right" else x - wide, y))
    return frame_of(points)


def _laid(placed: Placed, most: PaperMm, *, captioned: bool) -> Sheet:
    window = frame_of(_reached(placed))
    if not captioned:
        return Sheet(placed=placed, window=window, caption=None)
    caption = caption_of(placed.scene, placed.scale, width=window.width, most=most - 2 * MARGIN)
    return Sheet(placed=placed, window=window, caption=caption)


def _reached(placed: Placed) -> Iterator[Point]:
    """Points that together reach as far as the drawing does."""
    k = placed.scale.mm_per_meter
    if placed.scene.shapes:
        size = bounds(placed.scene)
        yield from scaled(((size.left, size.bottom), (size.right, size.top)), k)
    for _, points in chains(placed.scene, k):
        yield from points
    for text in placed.texts:
        yield from (*text.slab.corners, *text.leader)
    for one in placed.dimensions:
        yield from chain(*one.drawn.extensions, *one.drawn.slants)
    for shape in placed.scene.shapes:
        if isinstance(shape, ScaleBar) and shape.at is not None:
            yield from _bar_reach(shape, scaled((shape.at,), k)[0], placed.scale)


def _bar_reach(shape: ScaleBar, at: Point, scale: Scale) -> tuple[Point, ...]:
    bar, (x, y) = bar_of(scale, shape.system), at
    aside = width_of(bar.text, SMALL) / 2
    return ((x - 2.0, y - 1.0), (x + bar.length + aside, y + 6.0))

"""Scenes: what a drawing shows, as frozen records in meters on named layers; nothing here knows walls or paper scale.

The x-axis runs right and the y-axis up. Angles are in radians, counterclockwise from the x-axis. Only what must be
read on paper (text height, a dimension's distance from what it measures, the length of a tick) is in millimeters on
paper: the alias `PaperMm` says so.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pinfold.units import Meter, Radian, System

Point = tuple[float, float]
"""x and y in meters in a scene; in millimeters on paper once placed."""
PaperMm = float
"""Millimeters on the printed sheet, whatever the scale."""

LAYERS: tuple[str, ...] = (
    "sheet", "zone", "ground", "contour", "neighbor", "trench", "footing", "wall", "course", "coat", "joint", "bar",
    "bank", "apron", "mesh", "rail", "post", "gate", "swing", "line", "outline", "mark", "dimension", "label", "note",
)  # fmt: skip
"""Every layer there is, from the back of the drawing to the front."""

HATCHES: tuple[str, ...] = (
    "none", "block", "brick", "concrete", "foam", "earth", "stone", "timber", "steel", "plaster", "gravel", "ground",
)  # fmt: skip
"""Every filling an area may have."""

Anchor = Literal[
    "right", "left", "above", "below", "over", "above right", "above left", "below right", "below left",
]  # fmt: skip
"""Where a text stands, seen from its point; `over` is centered on it. Seen along the text when it is turned."""


@dataclass(frozen=True, kw_only=True)
class Polyline:
    """A line through points; `closed` returns to the first."""

    layer: str
    points: tuple[Point, ...]
    closed: bool = False
    dashed: bool = False


@dataclass(frozen=True, kw_only=True)
class Area:
    """A closed surface, filled with one of HATCHES.

    Attributes:
        points: the outer ring, not repeated at its end.
        holes: inner rings left empty.
        edged: whether its rings are drawn as lines too.
    """

    layer: str
    points: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()
    hatch: str = "none"
    edged: bool = True


@dataclass(frozen=True, kw_only=True)
class Circle:
    """A full circle, in outline or `filled` with the layer's ink (a bar, a post seen from above)."""

    layer: str
    center: Point
    radius: Meter
    filled: bool = False


@dataclass(frozen=True, kw_only=True)
class Arc:
    """Part of a circle, counterclockwise from `start` to `end`; an end below the start goes on through zero."""

    layer: str
    center: Point
    radius: Meter
    start: Radian
    end: Radian
    dashed: bool = False


@dataclass(frozen=True, kw_only=True)
class Label:
    """A text that belongs to a point.

    Attributes:
        at: the point it names.
        text: one or more lines, parted by newlines.
        anchor: where the text stands from its point when nothing is in the way.
        turn: direction of writing; a text that would stand on its head is turned round, staying on its side.
        size: height of a capital letter on paper.
        priority: higher ones take their place first.
        movable: may stand elsewhere near its point, with a leader when far; otherwise it stays whatever happens.
        reach: least distance on paper between point and text; above about 3 it always has a leader (a call-out).
        bold: in the bold face.
        stand: a point of the scene beside which the text stands instead, tied to its own by a leader; several labels
            with the same x form a column of call-outs. None: it stands beside its own point.
        slide: how far along its writing it may reach to either side of its point, without a leader: the name of what
            it is written along. 0: it is the point that is named.
    """

    at: Point
    text: str
    layer: str = "label"
    anchor: Anchor = "right"
    turn: Radian = 0.0
    size: PaperMm = 2.0
    priority: int = 0
    movable: bool = True
    reach: PaperMm = 0.0
    bold: bool = False
    stand: Point | None = None
    slide: Meter = 0.0


@dataclass(frozen=True, kw_only=True)
class Dimension:
    """A measured distance from `start` to `end` with its text.

    Attributes:
        offset: how far on paper the dimension line stands to the left of the way from start to end (negative: to the
            right); lines that would fall on each other are moved farther out.
        text: what is written, already in the builder's units.
        size: height of a capital letter on paper.
        clear: how far from what is measured its extension lines begin; they pass no figures of a chain before it.
    """

    start: Point
    end: Point
    offset: PaperMm
    text: str
    layer: str = "dimension"
    size: PaperMm = 1.8
    clear: PaperMm = 1.2


@dataclass(frozen=True, kw_only=True)
class Tick:
    """A short stroke centered on a point, of the same length on paper at any scale."""

    layer: str
    at: Point
    turn: Radian
    length: PaperMm = 2.0


@dataclass(frozen=True, kw_only=True)
class NorthArrow:
    """Where north is: `turn` counterclockwise from straight up. Without a point it stands in the caption."""

    turn: Radian = 0.0
    at: Point | None = None
    layer: str = "note"


@dataclass(frozen=True, kw_only=True)
class ScaleBar:
    """A bar of round length in feet or meters. Without a point it stands in the caption."""

    system: System = System.METRIC
    at: Point | None = None
    layer: str = "note"


Shape = Polyline | Area | Circle | Arc | Label | Dimension | Tick | NorthArrow | ScaleBar


@dataclass(frozen=True, kw_only=True)
class Scene:
    """One drawing before it knows its paper.

    Attributes:
        name: short, lower case, such as `elevation-south`; the start of every id in the written file.
        title: its heading.
        shapes: what it shows; within a layer the later ones lie on top.
        notes: lines under the title.
        about: what a person who cannot see it should know; empty: title and notes say enough.

    Raises:
        ValueError: unknown layer or hatch, a number that is not finite, a name that cannot start an id.
    """

    name: str
    title: str
    shapes: tuple[Shape, ...]
    notes: tuple[str, ...] = ()
    about: str = ""

    def __post_init__(self) -> None:
        if not re.fullmatch(r"[a-z][a-z0-9-]*", self.name):
            raise ValueError(f"{self.name!r} cannot name a scene; use lower case letters, digits and hyphens")
        for shape in self.shapes:
            _refuse_odd(shape)


@dataclass(frozen=True, kw_only=True)
class Frame:
    """An upright rectangle by its sides, in meters or in millimeters on paper."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom


def frame_of(points: Iterable[Point]) -> Frame:
    """The smallest upright rectangle round points; all zero when there are none."""
    known = tuple(points) or ((0.0, 0.0),)
    across, up = tuple(x for x, _ in known), tuple(y for _, y in known)
    return Frame(left=min(across), bottom=min(up), right=max(across), top=max(up))


def bounds(scene: Scene) -> Frame:
    """The rectangle in meters round all shapes: of labels and arrows their points, of dimensions what they measure."""
    return frame_of(point for shape in scene.shapes for point in outline(shape))


def outline(shape: Shape) -> tuple[Point, ...]:
    """The points in meters that decide how far a shape reaches."""
    match shape:
        case Polyline() | Area():
            return shape.points
        case Circle(center=(x, y), radius=radius):
            return ((x - radius, y - radius), (x + radius, y + radius))
        case Arc():
            return arc_points(shape)
        case Dimension(start=start, end=end):
            return (start, end)
        case Label(at=at, stand=stand):
            return (at,) if stand is None else (at, stand)
        case _:
            return (shape.at,) if shape.at is not None else ()


def arc_points(arc: Arc, *, steps: int = 0) -> tuple[Point, ...]:
    """Start, end and extreme points of an arc in order along it, with so many further steps between."""
    end = arc.start + arc_span(arc)
    quarter = math.pi / 2
    quarters = [turn * quarter for turn in range(math.ceil(arc.start / quarter), math.floor(end / quarter) + 1)]
    between = [arc.start + (end - arc.start) * step / steps for step in range(1, steps)] if steps else []
    turns = sorted({arc.start, end, *between, *(turn for turn in quarters if arc.start < turn < end)})
    x, y = arc.center
    return tuple((x + arc.radius * math.cos(turn), y + arc.radius * math.sin(turn)) for turn in turns)


def arc_span(arc: Arc) -> Radian:
    """How far an arc turns, above 0 and at most a full turn."""
    span = (arc.end - arc.start) % math.tau
    return span if span > 1e-12 else math.tau


def chain(
    points: tuple[Point, ...], texts: tuple[str, ...], *, offset: PaperMm, size: PaperMm = 1.8, clear: PaperMm = 1.2
) -> tuple[Dimension, ...]:
    """Dimensions from each point to the next, one text each.

    Args:
        points: on one straight line, in order
        texts: one fewer than the points
        offset: as in Dimension
        size: height of a capital letter on paper
        clear: as in Dimension
    """
    return tuple(
        Dimension(start=start, end=end, offset=offset, text=text, size=size, clear=clear)
        for (start, end), text in zip(pairwise(points), texts, strict=True)
    )


def _refuse_odd(shape: Shape) -> None:
    if shape.layer not in LAYERS:
        raise ValueError(f"there is no layer {shape.layer!r}; the layers are {', '.join(LAYERS)}")
    if isinstance(shape, Area) and shape.hatch not in HATCHES:
        raise ValueError(f"there is no hatch {shape.hatch!r}; the hatches are {', '.join(HATCHES)}")
    if not all(math.isfinite(number) for number in _numbers(shape)):
        raise ValueError(f"a {type(shape).__name__} on layer {shape.layer!r} has a number that is not finite")


def _numbers(shape: Shape) -> Iterator[float]:
    for value in vars(shape).values():
        yield from _flat(value)


def _flat(value: object) -> Iterator[float]:
    if isinstance(value, tuple):
        for part in value:
            yield from _flat(part)
    elif isinstance(value, int | float):
        yield value

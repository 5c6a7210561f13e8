"""The lines of a scene on paper, as plain chains of points: what texts keep clear of (millimeters, y upward)."""

from __future__ import annotations

import math

from pinfold.drawings.scenes import (
    Arc,
    Area,
    Circle,
    NorthArrow,
    PaperMm,
    Point,
    Polyline,
    Scene,
    Shape,
    Tick,
    arc_points,
)

ARROW: PaperMm = 12.0
"""Length of the north arrow."""
SMALL_ROUND: PaperMm = 1.5


def chains(scene: Scene, mm_per_meter: float) -> tuple[tuple[str, tuple[Point, ...]], ...]:
    """Every drawn line of a scene with its layer, except those of its texts, dimensions and scale bar."""
    return tuple((shape.layer, chain) for shape in scene.shapes for chain in chains_of(shape, mm_per_meter) if chain)


def chains_of(shape: Shape, mm_per_meter: float) -> tuple[tuple[Point, ...], ...]:
    """The lines of one shape; round ones in short straight steps."""
    match shape:
        case Polyline(points=points, closed=closed):
            return (scaled(points + points[:1] if closed else points, mm_per_meter),)
        case Area(points=points, holes=holes, edged=True):
            return tuple(scaled(ring + ring[:1], mm_per_meter) for ring in (points, *holes))
        case Circle(layer=layer, center=center, radius=radius):
            whole = Arc(layer=layer, center=center, radius=radius, start=0.0, end=0.0)
            steps = 24 if shape.radius * mm_per_meter > SMALL_ROUND else 0  # a dot need not be round here
            return (scaled(arc_points(whole, steps=steps), mm_per_meter),)
        case Arc():
            return (scaled(arc_points(shape, steps=12), mm_per_meter),)
        case Tick(at=at, turn=turn, length=length):
            return (tick_ends(scaled((at,), mm_per_meter)[0], turn, length),)
        case NorthArrow(at=(x, y), turn=turn):
            return arrow((x * mm_per_meter, y * mm_per_meter), turn)
        case _:
            return ()


def scaled(points: tuple[Point, ...], mm_per_meter: float) -> tuple[Point, ...]:
    """Points in meters as points on paper."""
    return tuple((x * mm_per_meter, y * mm_per_meter) for x, y in points)


def tick_ends(at: Point, turn: float, length: PaperMm) -> tuple[Point, Point]:
    """Both ends of a stroke centered on a point of the paper."""
    step = (math.cos(turn) * length / 2, math.sin(turn) * length / 2)
    return ((at[0] - step[0], at[1] - step[1]), (at[0] + step[0], at[1] + step[1]))


def arrow(at: Point, turn: float) -> tuple[tuple[Point, ...], ...]:
    """A north arrow centered on a point of the paper: a shaft, a barb on each side, a bar across its foot."""
    cos, sin = math.cos(turn), math.sin(turn)

    def spot(x: float, y: float) -> Point:
        return (at[0] + x * cos - y * sin, at[1] + x * sin + y * cos)

    tip, foot = ARROW / 2, -ARROW / 2
    return (
        (spot(0, foot), spot(0, tip)),
        (spot(-1.8, tip - 4.2), spot(0, tip), spot(1.8, tip - 4.2)),
        (spot(-1.2, foot), spot(1.2, foot)),
    )


def letter_of_north(at: Point, turn: float) -> Point:
    """The middle of the letter beside an arrow's shaft."""
    return (at[0] + 2.6 * math.cos(turn) + 1.0 * math.sin(turn), at[1] + 2.6 * math.sin(turn) - 1.0 * math.cos(turn))

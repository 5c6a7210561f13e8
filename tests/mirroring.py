"""Plans and scenes as in a mirror: what is drawn of a mirrored plan is the mirrored drawing."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace

from pinfold.drawings.scenes import Arc, Area, Circle, Dimension, Label, Point, Polyline, Scene, Shape, Tick, outline
from pinfold.plan.enclosure import Enclosure, Hand
from pinfold.plan.outline import Neighbor, SurveyPoint

OTHER_HAND = {Hand.LEFT: Hand.RIGHT, Hand.RIGHT: Hand.LEFT, Hand.BOTH: Hand.BOTH}


def mirrored(plan: Enclosure) -> Enclosure:
    """The plan with x turned round: its sides then go the other way about, its outside is on the other hand.

    Its ground must be a plane of three points: four on a square may be joined either way.
    """

    def turned(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((-x, y) for x, y in points)

    return replace(
        plan,
        place=replace(plan.place, north=-plan.place.north),
        ground=tuple(spot._replace(x=-spot.x) for spot in plan.ground),
        corners=tuple(replace(corner, at=(-corner.at[0], corner.at[1])) for corner in plan.corners),
        gates=tuple(replace(gate, hinges=OTHER_HAND[gate.hinges]) for gate in plan.gates),
        neighbors=tuple(_turned(replace(one, footprint=turned(one.footprint))) for one in plan.neighbors),
        lines=tuple(replace(line, path=turned(line.path)) for line in plan.lines),
    )


def _turned(neighbor: Neighbor) -> Neighbor:
    """A neighbor with the supports that it stands on turned round too."""
    if neighbor.blocks is None:
        return neighbor
    leveling = neighbor.blocks.leveling
    supports = tuple(replace(support, at=(-support.at[0], support.at[1])) for support in leveling.supports)
    return replace(neighbor, blocks=replace(neighbor.blocks, leveling=replace(leveling, supports=supports)))


def unmatched(one: Scene, other: Scene, *, axis: float | None, labels: bool) -> list[str]:
    """What of either scene has no like in the other.

    Args:
        one: a scene
        other: the same as in a mirror, or just the same
        axis: `one` is mirrored about x = axis / 2 before it is compared; None: not at all
        labels: whether texts and dimensions are compared too
    """

    def spot(point: Point) -> Point:
        return point if axis is None else (axis - point[0], point[1])

    left = [_told(shape, spot) for shape in one.shapes if _is_wanted(shape, labels=labels)]
    rest: dict[Mark, list[tuple[Point, ...]]] = defaultdict(list)
    for mark, points in (
        _told(shape, lambda point: point) for shape in other.shapes if _is_wanted(shape, labels=labels)
    ):
        rest[mark].append(points)
    missing = []
    for mark, points in left:
        like = next((number for number, twin in enumerate(rest[mark]) if _alike(points, twin)), None)
        if like is None:
            missing.append(f"only in one: {mark} {points}")
        else:
            rest[mark].pop(like)
    return missing + [f"only in other: {mark} {points}" for mark, twins in rest.items() for points in twins]


Mark = tuple[str, str, str, str]


def _is_wanted(shape: Shape, *, labels: bool) -> bool:
    if isinstance(shape, Label):
        return labels and shape.layer != "contour"
    if isinstance(shape, Dimension):
        return labels
    return isinstance(shape, Polyline | Area | Circle | Arc | Tick)


def _told(shape: Shape, spot: Callable[[Point], Point]) -> tuple[Mark, tuple[Point, ...]]:
    size = f"{shape.radius:.4f}" if isinstance(shape, Circle) else ""
    mark = (type(shape).__name__ + size, shape.layer, getattr(shape, "text", ""), getattr(shape, "hatch", ""))
    return mark, tuple(map(spot, (shape.center,) if isinstance(shape, Circle) else outline(shape)))


def _alike(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Whether each point of either lies on one of the other."""
    return all(any(math.dist(a, b) < 1e-6 for b in other) for a in one) and all(
        any(math.dist(a, b) < 1e-6 for b in one) for a in other
    )


def on_a_plane(plan: Enclosure) -> Enclosure:
    """The plan on ground that rises evenly to the back and a little to the right."""
    spots = ((-60.0, -60.0), (90.0, -60.0), (15.0, 120.0))
    return replace(plan, ground=tuple(SurveyPoint(x=x, y=y, z=0.06 * y + 0.02 * x) for x, y in spots))

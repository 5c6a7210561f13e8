"""The faces of a plan on which the sun may shine: outer and inner face and coping of every stretch of wall."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from pinfold.figures import Figure
from pinfold.geometry.profiles import Profile, height_along, part_of
from pinfold.geometry.shadows import Spot
from pinfold.plan.buildups import Buildup, Faces
from pinfold.plan.grounds import Bank
from pinfold.studies.layout.records import EndKind, Layout, Stretch
from pinfold.studies.layout.walls import mitre
from pinfold.studies.sun.records import Face, Part, Strip
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Radian, SquareMeter

_TOUCH: Meter = 1e-6
_NOTHING = 1e-4
"""A face smaller than this, in square meters, does not show."""


@lru_cache(maxsize=4)  # light, drying and the schedule all ask
def faces_of(layout: Layout) -> tuple[Face, ...]:
    """Every face of every stretch with a wall that shows above the ground, in order around the plot."""
    return tuple(
        face for stretch in layout.stretches if stretch.steps for face in _of_stretch(layout, stretch)
        if face.area > _NOTHING
    )  # fmt: skip


def true_way(layout: Layout, way: Radian) -> Radian:
    """A direction in plan, clockwise from its y axis, as clockwise from true north."""
    return (way - layout.plan.place.north) % (2 * math.pi)


def way_of(stretch: Stretch) -> tuple[float, float]:
    """Unit vector along a stretch in plan."""
    (x, y), (far_x, far_y) = stretch.points
    length = math.dist(*stretch.points)
    return (far_x - x) / length, (far_y - y) / length


def lengthened(layout: Layout, stretch: Stretch) -> tuple[Meter, Meter]:
    """How much the left face of a stretch goes past its center line at start and end; the right face goes back."""
    wall = stretch.buildup.wall
    assert wall is not None
    found = []
    for number, kind in enumerate((stretch.start_kind, stretch.end_kind)):
        other = _beyond(layout, stretch, number) if kind is EndKind.CORNER else None
        if other is None or other.buildup.wall is None:
            found.append(0.0)
            continue
        first, second = (stretch, other) if number else (other, stretch)
        found.append(mitre(_turn(first, second), wall.thickness, other.buildup.wall.thickness))
    return found[0], found[1]


def _beyond(layout: Layout, stretch: Stretch, number: int) -> Stretch | None:
    """The stretch of another side that starts where this one ends, or ends where it starts."""
    point = stretch.points[number]
    return next(
        (other for other in layout.stretches
         if other.side != stretch.side and math.dist(other.points[1 - number], point) <= _TOUCH),
        None,
    )  # fmt: skip


def _turn(first: Stretch, second: Stretch) -> Radian:
    (x, y), (on_x, on_y) = way_of(first), way_of(second)
    return math.atan2(x * on_y - y * on_x, x * on_x + y * on_y)


def _of_stretch(layout: Layout, stretch: Stretch) -> Iterator[Face]:
    left, right = (Part.INNER, Part.OUTER) if layout.outer_is_right else (Part.OUTER, Part.INNER)
    by_part = {left: 1, right: -1}
    for part in (Part.OUTER, Part.INNER):
        yield _upright(layout, stretch, part, by_part[part])
    yield _top(layout, stretch)


def _upright(layout: Layout, stretch: Stretch, part: Part, aside: int) -> Face:
    wall = stretch.buildup.wall
    assert wall is not None
    (east, north), over = way_of(stretch), lengthened(layout, stretch)
    ends = (-aside * over[0], stretch.length + aside * over[1])
    banks = tuple(bank for bank in layout.plan.banks if _lies_against(bank, stretch, part))
    strips = tuple(_pieces(stretch, ends, aside * wall.thickness / 2, banks))
    lean = math.atan2((wall.thickness - wall.head) / 2, stretch.tallest) if stretch.tallest > 0 else 0.0
    return _face(
        layout, stretch, part, strips, tilt=math.pi / 2 - lean,
        facing=true_way(layout, math.atan2(-aside * north, aside * east)),
        against=tuple(bank.name for bank in banks),
    )  # fmt: skip


def _lies_against(bank: Bank, stretch: Stretch, part: Part) -> bool:
    if bank.side != stretch.side or bank.face.value != part.value:
        return False
    return bank.end > stretch.start + _TOUCH and bank.start < stretch.end - _TOUCH


def _pieces(stretch: Stretch, ends: tuple[Meter, Meter], aside: Meter, banks: tuple[Bank, ...]) -> Iterator[Strip]:
    """What shows of an upright face, step by step."""
    for number, top in enumerate(stretch.tops):
        start = ends[0] if number == 0 else top[0][0]
        end = ends[1] if number == len(stretch.tops) - 1 else top[-1][0]
        if end - start <= _TOUCH:
            continue
        above = stretched(top, start, end)
        below = tuple((place, min(z, height_along(above, place))) for place, z in _foot(stretch, (start, end), banks))
        yield Strip(*(tuple(at_place(stretch, place, aside, z) for place, z in line) for line in (below, above)))


def _foot(stretch: Stretch, ends: tuple[Meter, Meter], banks: tuple[Bank, ...]) -> Profile:
    """The ground along a face, and the banks that lie on it."""
    ground = stretched(stretch.ground, *ends)
    for bank in banks:
        ground = _banked(ground, bank.start - stretch.start, bank.end - stretch.start, bank.height)
    return ground


def _banked(ground: Profile, start: Meter, end: Meter, height: Meter) -> Profile:
    """A profile raised between two places, with an upright front at either."""
    low, high = max(start, ground[0][0]), min(end, ground[-1][0])
    if high - low <= _TOUCH:
        return ground
    before = part_of(ground, ground[0][0], low) if low - ground[0][0] > _TOUCH else ()
    after = part_of(ground, high, ground[-1][0]) if ground[-1][0] - high > _TOUCH else ()
    raised = tuple((place, z + height) for place, z in part_of(ground, low, high))
    return (*before, *raised, *after)


def stretched(profile: Profile, start: Meter, end: Meter) -> Profile:
    """The part of a profile between two places; level past its ends."""
    first, last = profile[0], profile[-1]
    whole = (
        *(((start, first[1]),) if start < first[0] - _TOUCH else ()), *profile,
        *(((end, last[1]),) if end > last[0] + _TOUCH else ()),
    )  # fmt: skip
    return part_of(whole, start, end)


def at_place(stretch: Stretch, place: Meter, aside: Meter, z: Meter) -> Spot:
    """A place along a stretch and so far left of its center line."""
    (east, north), (x, y) = way_of(stretch), stretch.points[0]
    return x + place * east - aside * north, y + place * north + aside * east, z


def _top(layout: Layout, stretch: Stretch) -> Face:
    buildup = stretch.buildup
    assert buildup.wall is not None
    coping = buildup.coping
    half = (coping.width if coping is not None else buildup.wall.head) / 2
    raised = coping.thickness if coping is not None else 0.0
    strips = tuple(
        Strip(*(tuple(at_place(stretch, place, aside, z + raised) for place, z in top) for aside in (half, -half)))
        for top in stretch.tops
    )
    return _face(layout, stretch, Part.COPING if coping is not None else Part.TOP, strips, tilt=0.0, facing=0.0)


def _face(
    layout: Layout, stretch: Stretch, part: Part, strips: tuple[Strip, ...], *, tilt: Radian, facing: Radian,
    against: tuple[str, ...] = (),
) -> Face:  # fmt: skip
    assert stretch.buildup.wall is not None
    shows = _showing(stretch.buildup, part)
    return Face(
        name=f"{stretch.name} {part.value}", stretch=stretch.name, side=stretch.side, part=part, facing=facing,
        tilt=tilt, strips=strips, area=math.fsum(_area(strip.ring) for strip in strips),
        thickness=stretch.buildup.wall.thickness, buildup=stretch.buildup, shows=shows.says,
        absorptance=_taken_up(shows), against=against,
    )  # fmt: skip


def _taken_up(shows: Kind) -> Figure | None:
    return shows.figure("absorptance") if shows.has("absorptance") else None


def _showing(buildup: Buildup, part: Part) -> Kind:
    """The last coat on a face, else the coping or the bare wall."""
    assert buildup.wall is not None
    if buildup.coping is not None and part is Part.COPING:
        return buildup.coping.kind
    faces = {Part.OUTER: (Faces.BOTH, Faces.OUTER), Part.INNER: (Faces.BOTH, Faces.INNER)}.get(part)
    coats = [coat for coat in buildup.coats if (coat.faces in faces if faces is not None else coat.top)]
    return coats[-1].kind if coats else buildup.wall.kind


def _area(ring: tuple[Spot, ...]) -> SquareMeter:
    """Of a flat ring in space."""
    spots = np.array(ring)
    return float(np.linalg.norm(np.cross(spots, np.roll(spots, -1, axis=0)).sum(axis=0))) / 2

"""One step of a wall as a cantilever: its heights and what it stands on."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.geometry.profiles import Profile, height_along, part_of
from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Buildup, Wall
from pinfold.studies.layout.piering import pier_bays
from pinfold.studies.layout.records import Stretch
from pinfold.tables.shelf import kind, shelf
from pinfold.units import Meter

_SAME_LEVEL: Meter = 1e-9


@dataclass(frozen=True, kw_only=True)
class Base:
    """What a wall turns and slides on.

    Attributes:
        width: across the wall.
        level: of its underside.
        footing: thickness of a footing that goes with the wall; 0 where the wall stands by itself.
        on_stone: whether it stands on tamped stone, not on the ground itself.
    """

    width: Meter
    level: Meter
    footing: Meter
    on_stone: bool


@dataclass(frozen=True, kw_only=True, eq=False)
class Piece:
    """One step of a wall where it stands highest above the ground.

    One is equal to itself alone, so that what was found from it can be kept by it.

    Attributes:
        stretch: it belongs to.
        wall: as planned.
        step: as laid out.
        exposed: height of wall and coping above the ground.
        ground: height of the ground there.
        base: what it stands on.
    """

    stretch: Stretch
    wall: Wall
    step: Step
    exposed: Meter
    ground: Meter
    base: Base

    @property
    def buildup(self) -> Buildup:
        """How it is built."""
        return self.stretch.buildup

    @property
    def sunk(self) -> Meter:
        """Depth of the lowest bed below the ground."""
        return _below(self.ground, self.step.bed)

    @property
    def depth(self) -> Meter:
        """Depth of the underside of its base below the ground."""
        return _below(self.ground, self.base.level)

    @property
    def coping(self) -> Meter:
        """Thickness of the coping."""
        return self.buildup.coping.thickness if self.buildup.coping else 0.0

    @property
    def body(self) -> Meter:
        """Height of the wall itself from its lowest bed to under the coping."""
        return self.exposed - self.coping + self.sunk


def _below(ground: Meter, level: Meter) -> Meter:
    """Depth of a level below the ground; what rounding leaves between two that are one is nothing."""
    depth = ground - level
    return depth if abs(depth) > _SAME_LEVEL else 0.0


def pieces_of(stretch: Stretch) -> tuple[Piece, ...]:
    """Every step of a stretch of wall.

    Raises:
        NotFoundError: no thickness is known, or the footing is none for a wall.
    """
    wall = stretch.buildup.wall
    assert wall is not None
    return tuple(_piece(stretch, wall, step, top) for step, top in zip(stretch.steps, stretch.tops, strict=True))


def _piece(stretch: Stretch, wall: Wall, step: Step, top: Profile) -> Piece:
    coping = stretch.buildup.coping.thickness if stretch.buildup.coping else 0.0
    high, ground = _highest(top, step, stretch.ground)
    return Piece(
        stretch=stretch, wall=wall, step=step, exposed=high + coping, ground=ground,
        base=base_of(stretch.buildup, wall, step),
    )  # fmt: skip


def _highest(top: Profile, step: Step, ground: Profile) -> tuple[Meter, Meter]:
    """Greatest height of the wall's top above the ground, and the ground there."""
    if len({z for _, z in top}) == 1:
        return top[0][1] - step.lowest_ground, step.lowest_ground
    under = part_of(ground, step.start, step.end)
    places = sorted({place for place, _ in (*top, *under) if step.start <= place <= step.end})
    grounds = [height_along(ground, place) for place in places]
    return max((height_along(top, place) - low, low) for place, low in zip(places, grounds, strict=True))


def base_of(buildup: Buildup, wall: Wall, step: Step) -> Base:
    """What the wall turns on: its strip of concrete, else its own lowest bed.

    Raises:
        NotFoundError: a pad, which is no footing for a length of wall.
    """
    footing = buildup.footing
    if footing is None:
        return Base(width=wall.thickness, level=step.bed, footing=0.0, on_stone=False)
    make = footing.kind.word("make")
    if make == "strip":
        return Base(width=footing.width, level=step.footing_bottom, footing=footing.thickness, on_stone=False)
    if make == "rubble-trench":
        return Base(width=wall.thickness, level=step.bed, footing=0.0, on_stone=True)
    raise NotFoundError(f"a footing of kind {footing.kind.name} bears a pier, not a length of wall; plan a strip")


def widest_bay(piece: Piece) -> Meter:
    """Greatest distance between two uprights that hold a wall with piers; its length where one holds all of it."""
    return max(pier_bays(piece.stretch), default=piece.stretch.length)


def has_ledges(buildup: Buildup) -> bool:
    """Whether soil stands on the footing beside the wall and helps to hold it down."""
    footing, wall = buildup.footing, buildup.wall
    return (
        footing is not None and wall is not None and footing.kind.word("make") == "strip"
        and footing.width > wall.thickness and footing.below_ground > footing.thickness
    )  # fmt: skip


def caution(name: str) -> str:
    """The words of a caution."""
    return kind("cautions", name).says


def limit(name: str) -> float:
    """Above which a caution is due."""
    return shelf("cautions")[name].value("over")

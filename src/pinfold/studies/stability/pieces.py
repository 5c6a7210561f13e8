"""One step of a wall as a cantilever: its heights, what it stands on, and the weight of its layers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step as Line
from pinfold.findings import work
from pinfold.formulas import walls
from pinfold.geometry.profiles import Profile, height_along, part_of
from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Buildup, Faces, Grout, Wall
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.factors import COAT_DENSITY, FILL, GROUT_DENSITY, Named
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import KgPerCubicMeter, Meter, NewtonPerMeter


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


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One step of a wall where it stands highest above the ground.

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
        return self.ground - self.step.bed

    @property
    def depth(self) -> Meter:
        """Depth of the underside of its base below the ground."""
        return self.ground - self.base.level

    @property
    def coping(self) -> Meter:
        """Thickness of the coping."""
        return self.buildup.coping.thickness if self.buildup.coping else 0.0

    @property
    def body(self) -> Meter:
        """Height of the wall itself from its lowest bed to under the coping."""
        return self.exposed - self.coping + self.sunk


@dataclass(frozen=True, kw_only=True)
class Weight:
    """Weight of all layers per length of wall.

    Attributes:
        wall: above the lowest bed.
        below: footing, and soil on its ledges.
        fill: of it, the soil on the ledges.
        working: one line per layer.
        figures: densities and masses.
        notes: what was taken or left.
    """

    wall: NewtonPerMeter
    below: NewtonPerMeter
    fill: NewtonPerMeter
    working: tuple[Line, ...]
    figures: Named
    notes: tuple[str, ...] = ()

    @property
    def total(self) -> NewtonPerMeter:
        """On the underside of the base."""
        return self.wall + self.below


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


def weight_of(piece: Piece, soil: Kind | None, *, least: bool) -> Weight:
    """Weight of a piece with the lightest masses known (`least`) or the usual ones.

    Raises:
        NotFoundError: the mass of the wall is not known.
    """
    layers = _layers(piece, least=least)
    lines, figures = [_weighed(layer) for layer in layers], [layer.figure for layer in layers]
    below, more, notes = _below(piece, soil)
    return Weight(
        wall=math.fsum(line.number for line in lines), below=math.fsum(line.number for line in below),
        fill=math.fsum(line.number for line in below[1:]),
        working=(*lines, *below), figures=(*figures, *more), notes=notes,
    )  # fmt: skip


def weight_above(piece: Piece, level: Meter) -> tuple[Line, ...]:
    """Weights, by the lightest masses known, of what stands above a level so far over the lowest bed.

    Raises:
        NotFoundError: the mass of the wall is not known.
    """
    cut = (_cut(layer, level) for layer in _layers(piece, least=True))
    return tuple(_weighed(layer) for layer in cut if layer.high > layer.low)


class _Layer(NamedTuple):
    """One layer of a piece: its mass, its thickness at foot and head, and between which heights over the lowest bed."""

    why: str
    figure: tuple[str, Figure]
    density: KgPerCubicMeter
    foot: Meter
    head: Meter
    low: Meter
    high: Meter


def _weighed(layer: _Layer) -> Line:
    return work(
        walls.layer_weight, why=layer.why, density=layer.density, thickness=(layer.foot + layer.head) / 2,
        height=layer.high - layer.low,
    )  # fmt: skip


def _cut(layer: _Layer, level: Meter) -> _Layer:
    if level <= layer.low or layer.high <= layer.low:
        return layer
    share = min((level - layer.low) / (layer.high - layer.low), 1.0)
    foot = layer.foot + share * (layer.head - layer.foot)
    return layer._replace(low=min(level, layer.high), foot=foot)


def _layers(piece: Piece, *, least: bool) -> list[_Layer]:
    layers, body = [_body(piece, least=least)], piece.body
    grout = _grouted(piece.wall)
    if grout > 0:
        figure = _density_of(piece.wall.grout_mix, GROUT_DENSITY)
        filled = body if piece.wall.grout_height is None else min(piece.wall.grout_height, body)
        named = ("density of grout", figure)
        layers.append(_Layer("grout, spread over the face", named, figure.value, grout, grout, 0.0, filled))
    coats = piece.buildup.coats_thickness(Faces.OUTER) + piece.buildup.coats_thickness(Faces.INNER)
    if coats > 0:
        named, foot = ("density of coats", COAT_DENSITY), body + piece.coping - piece.exposed
        layers.append(
            _Layer("coats above the ground", named, COAT_DENSITY.value, coats, coats, foot, foot + piece.exposed)
        )
    coping = piece.buildup.coping
    if coping is not None:
        named = ("density of the coping", coping.kind.figure("density"))
        layers.append(
            _Layer("coping", named, named[1].value, coping.width, coping.width, body, body + coping.thickness)
        )
    return layers


def _body(piece: Piece, *, least: bool) -> _Layer:
    kind_, thickness = piece.wall.kind, piece.wall.thickness
    for name in ("mass_per_area_least", "mass_per_area") if least else ("mass_per_area",):
        if kind_.has(name):
            named = (name.replace("_", " "), kind_.figure(name))
            why = "wall, its mass per face spread over its thickness"
            return _Layer(why, named, named[1].value / thickness, thickness, thickness, 0.0, piece.body)
    named = ("density of the wall", kind_.figure("density"))
    return _Layer("wall", named, named[1].value, thickness, piece.wall.head, 0.0, piece.body)


def _grouted(wall: Wall) -> Meter:
    """Volume of grout per face area of wall."""
    if wall.grout is Grout.NONE:
        return 0.0
    joint = wall.kind.value("joint") if wall.kind.has("joint") else 0.0
    course = wall.kind.value("unit_height") + joint
    if wall.grout is Grout.FULL:
        return wall.kind.value("grout_per_unit") / (course * (wall.kind.value("unit_length") + joint))
    assert wall.grout_spacing is not None
    return wall.kind.value("grout_per_unit") / wall.kind.value("cells_per_unit") / (course * wall.grout_spacing)


def _density_of(mix: Kind | None, otherwise: Figure) -> Figure:
    return mix.figure("density") if mix is not None and mix.has("density") else otherwise


def _below(piece: Piece, soil: Kind | None) -> tuple[list[Line], list[tuple[str, Figure]], tuple[str, ...]]:
    footing = piece.buildup.footing
    if piece.base.footing <= 0 or footing is None:
        return [], [], ()
    concrete = footing.kind.figure("density")
    lines = [
        work(
            walls.layer_weight, why="footing", density=concrete.value, thickness=footing.width,
            height=footing.thickness,
        )
    ]  # fmt: skip
    figures = [("density of the footing", concrete)]
    ledges = footing.width - piece.wall.thickness
    if ledges <= 0 or piece.sunk <= 0:
        return lines, figures, ()
    if soil is None or not soil.has("density"):
        return lines, figures, ("the soil on the footing is not counted: its density is not known",)
    put_back = min(soil.figure("density"), kind("soils", FILL).figure("density"), key=lambda figure: figure.value)
    lines.append(
        work(
            walls.layer_weight, why="dug soil put back on the ledges of the footing", density=put_back.value,
            thickness=ledges, height=piece.sunk,
        )
    )  # fmt: skip
    return lines, [*figures, ("density of soil put back", put_back)], ()


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

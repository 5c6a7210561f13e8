"""Weight of a piece of wall: layers and piers, footing, the soil on the ledges, and what stands over a level."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.findings import Step as Line
from pinfold.findings import work
from pinfold.formulas import walls
from pinfold.plan.buildups import Faces, Grout, Wall
from pinfold.studies.stability.factors import COAT_DENSITY, FILL, GROUT_DENSITY, Named
from pinfold.studies.stability.pieces import Piece, widest_bay
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KgPerCubicMeter, Meter, NewtonPerMeter


@dataclass(frozen=True, kw_only=True)
class Weight:
    """Weight of all layers per length of wall.

    Attributes:
        wall: above the lowest bed.
        below: footing, and soil on its ledges.
        fill: of it, the soil on the ledges.
        piers: of what stands above the lowest bed, what piers stand out of the wall, spread over their bay.
        pads: of what stands below, what pads stand out of the strip, likewise.
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
    piers: NewtonPerMeter = 0.0
    pads: NewtonPerMeter = 0.0

    @property
    def total(self) -> NewtonPerMeter:
        """On the underside of the base."""
        return self.wall + self.below


@lru_cache(maxsize=1024)  # the same whatever acts on the piece
def weight_of(piece: Piece, soil: Kind | None, *, least: bool) -> Weight:
    """Weight of a piece with the lightest masses known (`least`) or the usual ones.

    Raises:
        NotFoundError: the mass of the wall is not known.
    """
    layers = _layers(piece, least=least)
    lines, figures = [_weighed(layer) for layer in layers], [layer.figure for layer in layers]
    below, more, notes = _below(piece, soil)
    pads = _pads(piece)
    return Weight(
        wall=math.fsum(line.number for line in lines), below=math.fsum(line.number for line in below),
        fill=math.fsum(line.number for line in below[1:]),
        working=(*lines, *below), figures=(*figures, *more), notes=notes,
        piers=lines[-1].number if piece.buildup.piers is not None else 0.0,
        pads=below[0].number * pads / (piece.base.width + pads) if below else 0.0,
    )  # fmt: skip


def weight_above(piece: Piece, level: Meter) -> tuple[Line, ...]:
    """Weights, by the lightest masses known, of what stands above a level so far over the lowest bed.

    Raises:
        NotFoundError: the mass of the wall is not known.
    """
    cut = (_cut(layer, level) for layer in _layers(piece, least=True))
    return tuple(_weighed(layer) for layer in cut if layer.high > layer.low)


def bare_weight(piece: Piece) -> tuple[Line, tuple[str, Figure]]:
    """Weight of the wall alone, before grout, coats and coping, by the lightest mass known, and the figure behind it.

    Raises:
        NotFoundError: the mass of the wall is not known.
    """
    body = _body(piece, least=True)
    return _weighed(body), body.figure


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
    out = _piers(piece)
    if out > 0:
        first = layers[0]
        layers.append(_Layer("piers, spread over their bay", first.figure, first.density, out, out, 0.0, body))
    return layers


def _piers(piece: Piece) -> Meter:
    """What piers stand out of the wall, spread over the widest bay as a thickness; 0 without piers."""
    piers = piece.buildup.piers
    return piers.width * (piers.depth - piece.wall.thickness) / widest_bay(piece) if piers is not None else 0.0


def _pads(piece: Piece) -> Meter:
    """What pads stand out of the strip, likewise."""
    piers = piece.buildup.piers
    return piers.pad_length * (piers.pad_width - piece.base.width) / widest_bay(piece) if piers is not None else 0.0


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
            walls.layer_weight, why="footing" + (", its pads spread over their bay" if piece.buildup.piers else ""),
            density=concrete.value, thickness=footing.width + _pads(piece), height=footing.thickness,
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

"""What a wall is made of for heat and water: its layers from face to face, and the skin that is wetted."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from pinfold.figures import Figure, practice
from pinfold.formulas.drying import conductivity_by_density
from pinfold.plan.buildups import Buildup, Coat, Faces, Grout, Wall
from pinfold.studies.sun.records import Face, Part
from pinfold.tables.shelf import Kind, kind
from pinfold.units import (
    KG_PER_CUBIC_METER,
    METER,
    JoulePerCubicMeterKelvin,
    KgPerCubicMeter,
    Meter,
    WattPerMeterKelvin,
)

GROUTED: Figure = practice("2100 kg/m3", KG_PER_CUBIC_METER, "block and grout together")
DEEP: Figure = practice("40 cm", METER, "below this a day's warmth does not reach")
_UNIT_LENGTH: Meter = 0.4
_OF_COPING = {"precast": "concrete", "cast": "concrete", "brick": "clay", "stone": "stone", "board": "wood"}


class Layer(NamedTuple):
    """One layer between two faces.

    Attributes:
        stuff: kind of shelf `wall_heat`.
        thickness: across the face.
        conductivity: of heat.
        capacity: heat that warms a volume of it.
    """

    stuff: Kind
    thickness: Meter
    conductivity: WattPerMeterKelvin
    capacity: JoulePerCubicMeterKelvin


@lru_cache(maxsize=256)
def across(buildup: Buildup) -> tuple[Layer, ...]:
    """The layers of a build-up with a wall, from its outer face to its inner."""
    outer = [coat_layer(coat) for coat in buildup.coats if coat.faces in (Faces.BOTH, Faces.OUTER)]
    inner = [coat_layer(coat) for coat in buildup.coats if coat.faces in (Faces.BOTH, Faces.INNER)]
    assert buildup.wall is not None
    return (*reversed(outer), _body(buildup.wall, _thick(buildup.wall)), *inner)


@lru_cache(maxsize=256)
def downward(buildup: Buildup) -> tuple[Layer, ...]:
    """The layers of a build-up with a wall, from its top down, as deep as a day's warmth goes."""
    assert buildup.wall is not None
    over = [coat_layer(coat) for coat in reversed(buildup.coats) if coat.top]
    if buildup.coping is not None:
        coping = buildup.coping.kind
        stuff = kind("wall_heat", _OF_COPING[coping.word("make")])
        over = [_layer(stuff, buildup.coping.thickness, coping.value("density"))]
    return (*over, _body(buildup.wall, DEEP.value))


def ground_layers() -> tuple[Layer, ...]:
    """The ground before a wall, from its top down."""
    stuff = kind("wall_heat", "ground")
    return (_layer(stuff, DEEP.value, stuff.value("density")),)


def skin_of(face: Face) -> Kind:
    """What shows on a face, of shelf `wall_heat`."""
    if not face.is_upright:
        return downward(face.buildup)[0].stuff
    return across(face.buildup)[0 if face.part is Part.OUTER else -1].stuff


def coat_layer(coat: Coat) -> Layer:
    """A coat as a layer."""
    stuff = kind("wall_heat", kind("mixes", coat.kind.word("mix")).word("family"))
    return _layer(stuff, coat.thickness, stuff.value("density"))


def _thick(wall: Wall) -> Meter:
    return wall.kind.value("sheet_thickness") if wall.kind.has("sheet_thickness") else (wall.thickness + wall.head) / 2


def _body(wall: Wall, thickness: Meter) -> Layer:
    """The wall itself; of hollow units by how many of its cells are filled."""
    stuff = kind("wall_heat", wall.kind.word("material"))
    if not wall.kind.has("mass_per_area") or stuff.name == "sheet":
        return _layer(stuff, thickness, _density(wall, stuff))
    filled = _filled(wall)
    hollow = wall.kind.value("mass_per_area") / wall.thickness
    density = hollow + filled * (max(GROUTED.value, hollow) - hollow)
    solid = conductivity_by_density(density=GROUTED.value)
    carries = stuff.value("conductivity") + filled * (solid - stuff.value("conductivity"))
    return Layer(stuff, thickness, carries, density * stuff.value("specific_heat"))


def _density(wall: Wall, stuff: Kind) -> KgPerCubicMeter:
    return stuff.value("density") if stuff.has("density") else wall.kind.value("density")


def _filled(wall: Wall) -> float:
    """Share of the wall with filled cells."""
    if wall.grout is Grout.NONE:
        return 0.0
    return 1.0 if wall.grout is Grout.FULL else min(_UNIT_LENGTH / 2 / (wall.grout_spacing or _UNIT_LENGTH), 1.0)


def _layer(stuff: Kind, thickness: Meter, density: KgPerCubicMeter) -> Layer:
    carries = stuff.value("conductivity") if stuff.has("conductivity") else conductivity_by_density(density=density)
    return Layer(stuff, thickness, carries, density * stuff.value("specific_heat"))

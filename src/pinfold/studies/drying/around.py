"""What is around the faces of a plan, hour by hour: the air, the ground before them, sun and sky on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pinfold.formulas.drying import STEFAN_BOLTZMANN, VAPOR, convection_by_side
from pinfold.formulas.moist_air import vapor_pressure
from pinfold.studies.drying.balance import ZERO, Around, march, transfer_of
from pinfold.studies.drying.conduction import Array, Columns, columns_of
from pinfold.studies.drying.records import Asked
from pinfold.studies.drying.stuff import Layer, across, downward, ground_layers, skin_of
from pinfold.studies.sun.light import Lighting
from pinfold.studies.sun.records import Face, Light, Part
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.worlds.replay import on_arrays
from pinfold.tables.shelf import kind

DAY = 24
NEEDED = (Element.TEMPERATURE, Element.HUMIDITY, Element.PRESSURE, Element.WIND, Element.SKY_HEAT)
_FOR = {Element.PRESSURE: "pressure (elevation under [place] gives it)", Element.SKY_HEAT: "heat from the sky"}
GROUND_TAKES = 0.75
"""Share of the sun that dry ground takes in (practice; what it throws back is in the light on the faces)."""


def lacking(weather: Weather) -> tuple[str, ...]:
    """Why nothing can be shown of drying by some weather; empty where it can."""
    missing = [_FOR.get(each, str(each)) for each in NEEDED if not weather.has(each)]
    if not missing:
        return ()
    return (f"{weather.says} has no {', no '.join(missing)}: without it nobody knows how fast water leaves a face",)


@dataclass(frozen=True, kw_only=True, eq=False)
class Air:
    """The air over the plot, hour by hour; hours that are not known go on as the ones before.

    Attributes:
        temperature_c: of the air.
        humidity: of it.
        vapor: pressure of its water.
        pressure: of it.
        wind: 10 m up.
        wind_from: clockwise from true north; None where it is not known.
        sky_heat: from the sky, on the level.
        known: hours in which all of it is known.
    """

    temperature_c: Hours
    humidity: Hours
    vapor: Hours
    pressure: Hours
    wind: Hours
    wind_from: Hours | None
    sky_heat: Hours
    known: NDArray[np.bool_]


def air_of(weather: Weather) -> Air:
    """The air of some weather that lacks nothing."""
    given = {element: weather.of(element) for element in NEEDED}
    known = np.all([np.isfinite(hours) for hours in given.values()], axis=0)
    held = {element: _held(hours) for element, hours in given.items()}
    humidity = np.clip(held[Element.HUMIDITY], 0.0, 1.0)
    warm = held[Element.TEMPERATURE]
    turned = weather.of(Element.WIND_FROM) if weather.has(Element.WIND_FROM) else None
    return Air(
        temperature_c=warm, humidity=humidity, vapor=on_arrays(vapor_pressure)(temperature_c=warm, humidity=humidity),
        pressure=held[Element.PRESSURE], wind=np.maximum(held[Element.WIND], 0.0),
        wind_from=None if turned is None else _held(turned), sky_heat=held[Element.SKY_HEAT], known=known,
    )  # fmt: skip


def _held(hours: Hours) -> Hours:
    """With the last known hour, at the beginning the first one, in place of those that are not known."""
    known = np.flatnonzero(np.isfinite(hours))
    return np.asarray(hours[known[np.maximum(np.searchsorted(known, np.arange(len(hours)), side="right") - 1, 0)]])


@dataclass(frozen=True, kw_only=True, eq=False)
class Walls:
    """Faces as ends of columns.

    Attributes:
        faces: in order.
        columns: every stretch from its outer to its inner face, and every top downward.
        ends: of each face, 0 for the first end of its column, 1 for the last.
        places: of each face, the place of its column.
    """

    faces: tuple[Face, ...]
    columns: Columns
    ends: NDArray[np.int_]
    places: NDArray[np.int_]

    def of_faces(self, at_ends: Array) -> Array:
        """(hours, 2, columns) as (faces, hours)."""
        picked: Array = at_ends[:, self.ends, self.places].T
        return picked


def walls_of(faces: Sequence[Face]) -> Walls:
    """Columns for faces; two faces of one stretch share one."""
    stacks: dict[tuple[str, bool], tuple[Layer, ...]] = {}
    for face in faces:
        stacks.setdefault((face.stretch, face.is_upright), (across if face.is_upright else downward)(face.buildup))
    places = {key: number for number, key in enumerate(stacks)}
    return Walls(
        faces=tuple(faces), columns=columns_of(tuple(stacks.values())),
        ends=np.array([int(face.part is Part.INNER) for face in faces]),
        places=np.array([places[face.stretch, face.is_upright] for face in faces]),
    )  # fmt: skip


def ground_c(air: Air, lighting: Lighting, asked: Asked) -> Hours:
    """Temperature of the bare, dry ground before the walls."""
    stuff, columns = kind("wall_heat", "ground"), columns_of([ground_layers()])
    emittance = stuff.value("emittance")
    gain = GROUND_TAKES * lighting.sky.level + emittance * air.sky_heat
    convection = on_arrays(convection_by_side)(wind=air.wind * asked.wind_share.value, side="windward")
    around = _around(
        air, gain=_lone(gain), convection=_lone(convection),
        emittance=np.array([[emittance], [0.0]]), vapor=np.zeros((2, 1)),
    )  # fmt: skip
    found = march(columns, around, start=spun_up(columns, around), water=np.zeros((2, 1)), steps=1)
    return found.temperature[:, 0, 0]


def _lone(hours: Hours) -> Array:
    """At the first end of a lone column."""
    return np.stack((hours, np.zeros_like(hours)), axis=1)[:, :, None]


def around_faces(walls: Walls, air: Air, light: Light, ground: Hours, asked: Asked, *, wet: bool) -> Around:
    """What is around the faces.

    Args:
        walls: with their faces, in the order of the light
        air: over the plot
        light: on the faces
        ground: temperature of the ground before them
        asked: wind's share and cover
        wet: whether the faces are dark with water
    """
    stuff, cover = [skin_of(face) for face in walls.faces], asked.cover
    emittance = np.array([each.value("emittance") for each in stuff])
    takes = np.array([sun_taken(face, wet=wet) for face in walls.faces])
    gain = takes[:, None] * light.total * cover.value("sun") + emittance[:, None] * _heat_in(air, light, ground, asked)
    return _around(
        air, gain=_at_ends(walls, gain), convection=_at_ends(walls, _convection(walls.faces, air, asked)),
        emittance=_at_ends(walls, emittance), vapor=_at_ends(walls, np.full(len(stuff), cover.value("vapor"))),
    )  # fmt: skip


def sun_taken(face: Face, *, wet: bool) -> float:
    """Share of the sun that a face takes in; water makes it darker."""
    dry = face.absorptance.value if face.absorptance is not None else 0.65
    return 1 - (1 - dry) * skin_of(face).value("kept_when_wet") if wet else dry


def _heat_in(air: Air, light: Light, ground: Hours, asked: Asked) -> Array:
    """Long-wave heat that comes onto each face: from sky, from the ground and what stands on it, from the cover."""
    upright = np.array([(1 + np.cos(face.tilt)) / 2 for face in light.faces])
    sky = (upright * np.clip(np.ravel(light.sky_view), 0.0, 1.0))[:, None]
    black = STEFAN_BOLTZMANN * (np.stack((ground, air.temperature_c)) + ZERO) ** 4
    open_ = asked.cover.value("sky")
    heat: Array = open_ * (sky * air.sky_heat + (1 - sky) * black[0]) + (1 - open_) * black[1]
    return heat


def wind_at_faces(air: Air, asked: Asked) -> Hours:
    """Wind at the faces."""
    return air.wind * asked.wind_share.value * asked.cover.value("wind")


def _convection(faces: Sequence[Face], air: Air, asked: Asked) -> Array:
    """Heat exchanged with the air; where the wind comes from is not known, every face looks into it."""
    wind = wind_at_faces(air, asked)
    into, away = (on_arrays(convection_by_side)(wind=wind, side=side) for side in ("windward", "leeward"))
    if air.wind_from is None:
        return np.tile(into, (len(faces), 1))
    lee = [face.is_upright & (np.cos(air.wind_from - face.facing) < 0) for face in faces]
    return np.where(np.array(lee), away, into)


def _at_ends(walls: Walls, by_face: Array) -> Array:
    """(faces, …) as (…, 2, columns), nothing at ends without a face."""
    spread = np.zeros((*by_face.shape[1:], 2, len(walls.columns.stores)))
    spread[..., walls.ends, walls.places] = by_face.T
    return spread


def _around(air: Air, *, gain: Array, convection: Array, emittance: Array, vapor: Array) -> Around:
    return Around(
        gain=gain, convection=convection, emittance=emittance, air_c=air.temperature_c,
        transfer=vapor * transfer_of(convection, air.pressure - 0.378 * air.vapor),
        density=air.vapor / (VAPOR * (air.temperature_c + ZERO)),
    )  # fmt: skip


def spun_up(columns: Columns, around: Around) -> Array:
    """Temperatures at the beginning: those after the first day has gone by three times, dry, from the air's mean on."""
    first = around.part(slice(0, DAY))
    state = np.full_like(columns.stores, around.air_c[:DAY].mean())
    for _ in range(3):
        state = march(columns, first, start=state, water=np.zeros(first.emittance.shape), steps=1).state
    return state

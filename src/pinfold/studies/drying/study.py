"""A wet wall's day, face by face: how warm dry and wet, how fast water leaves, how long a wetting lasts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.formulas.drying import water_drawn_in
from pinfold.formulas.evaporation import evaporation_by_menzel, evaporation_by_power
from pinfold.studies.drying.around import (
    NEEDED,
    Air,
    Walls,
    air_of,
    around_faces,
    ground_c,
    lacking,
    spun_up,
    walls_of,
    wind_at_faces,
)
from pinfold.studies.drying.balance import ALWAYS, HOUR, Around, march
from pinfold.studies.drying.conduction import Array
from pinfold.studies.drying.records import Asked, Drying
from pinfold.studies.drying.stuff import skin_of
from pinfold.studies.sun.light import Lighting
from pinfold.studies.sun.records import Face, Light
from pinfold.studies.weather.records import Hours, Weather
from pinfold.studies.worlds.replay import on_arrays
from pinfold.units import KgPerSquareMeter

MINUTE = 60.0
SMOOTH = 2
"""Steps in an hour where no water ends within it."""
LEFT_OUT = (
    "Rain, splashes and damp rising from the footing are left out; so are eddies behind corners, and the heat that "
    "cement makes as it sets. Near a wall the wind is not what it is over open ground: put your own share of it."
)


@dataclass(frozen=True, kw_only=True, eq=False)
class Bench:
    """All that a march of faces through hours needs.

    Attributes:
        light: on the faces.
        weather: over the plot.
        asked: how it is asked for.
        walls: with their faces.
        air: over the plot.
        dry: what is around the faces while they are dry.
        wet: what is around them while they are dark with water.
        start: temperatures at the beginning.
    """

    light: Light
    weather: Weather
    asked: Asked
    walls: Walls
    air: Air
    dry: Around
    wet: Around
    start: Array


def bench_of(light: Light, lighting: Lighting, weather: Weather, asked: Asked) -> Bench:
    """Faces set among their air, ground, sun and sky; the weather lacks nothing."""
    walls, air = walls_of(light.faces), air_of(weather)
    ground = ground_c(air, lighting, asked)
    dry, wet = (around_faces(walls, air, light, ground, asked, wet=wetness) for wetness in (False, True))
    return Bench(
        light=light, weather=weather, asked=asked, walls=walls, air=air, dry=dry, wet=wet,
        start=spun_up(walls.columns, dry),
    )  # fmt: skip


def drying_of(light: Light, lighting: Lighting, weather: Weather, asked: Asked | None = None) -> Drying:
    """How each face fares hour by hour, dry and kept wet.

    Args:
        light: on the faces, in the hours of the weather
        lighting: sun and sky behind it
        weather: of the plot
        asked: wind's share and cover; the usual wind and no cover where None
    """
    asked = asked or Asked()
    because = lacking(weather)
    if because or not light.faces:
        return _nothing(light, weather, asked, because)
    return dried(bench_of(light, lighting, weather, asked))


def dried(bench: Bench) -> Drying:
    """The same for faces that are set among their air already."""
    light, weather, asked = bench.light, bench.weather, bench.asked
    dry, wet, rate = _both(bench)
    held = held_by(light.faces, asked)
    wind = wind_at_faces(bench.air, asked)
    fresh, rival = _fresh(bench.air, wet, wind, asked)
    shown = np.where(bench.air.known, 1.0, np.nan)
    return Drying(
        faces=light.faces, start=weather.start, zone=weather.zone, surface_temperature=dry * shown,
        wet_temperature=wet * shown, evaporation=rate * shown, fresh_evaporation=fresh * shown,
        rival_evaporation=rival * shown, wet_interval=lasting(rate, held) * shown,
        wet_interval_least=lasting(rate * (1 + asked.spread), held) * shown,
        wet_interval_most=lasting(rate * (1 - asked.spread), held) * shown, held=held,
        first_drink=np.array([first_drink(face, asked) for face in light.faces]), air_c=bench.air.temperature_c * shown,
        humidity=bench.air.humidity * shown, wind=wind * shown, known=bench.air.known,
        estimated=_estimated(weather) | light.estimated, asked=asked, notes=(*light.notes, LEFT_OUT),
    )  # fmt: skip


def _both(bench: Bench) -> tuple[Array, Array, Array]:
    """Temperatures of the faces dry and kept wet, and what leaves them wet: both at once, for the steps are many."""
    count = len(bench.start)
    water = np.zeros((2, 2 * count))
    water[:, count:] = ALWAYS
    found = march(
        bench.walls.columns.beside(bench.walls.columns), bench.dry.beside(bench.wet), water=water,
        start=np.concatenate((bench.start, bench.start)), steps=SMOOTH,
    )  # fmt: skip
    dry, wet = (bench.walls.of_faces(part) for part in np.split(found.temperature, 2, axis=2))
    return dry, wet, bench.walls.of_faces(found.evaporation[:, :, count:])


def _nothing(light: Light, weather: Weather, asked: Asked, because: tuple[str, ...]) -> Drying:
    nothing, none = np.full((len(light.faces), weather.count), np.nan), np.zeros(weather.count, dtype=bool)
    told = because or ("the plan has no wall that shows above the ground",)
    hours, faces = np.full(weather.count, np.nan), np.full(len(light.faces), np.nan)
    return Drying(
        faces=light.faces, start=weather.start, zone=weather.zone, surface_temperature=nothing, wet_temperature=nothing,
        evaporation=nothing, fresh_evaporation=nothing, rival_evaporation=nothing, wet_interval=nothing,
        wet_interval_least=nothing, wet_interval_most=nothing, held=faces, first_drink=faces, air_c=hours,
        humidity=hours, wind=hours, known=none, estimated=none, asked=asked, because=told,
    )  # fmt: skip


def _estimated(weather: Weather) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    marks = [weather.estimated[each] for each in NEEDED if each in weather.estimated]
    return np.any(marks, axis=0) if marks else np.zeros(weather.count, dtype=bool)


def _fresh(air: Air, warm: Array, wind: Hours, asked: Asked) -> tuple[Array, Array]:
    """What leaves a fresh coat as warm as the wet face, by vapor pressures and by the power of degrees."""
    named = {
        "surface_c": np.clip(warm, -10.0, 80.0), "air_c": np.clip(air.temperature_c, -10.0, 80.0)[None, :],
        "humidity": air.humidity[None, :], "wind": wind[None, :],
    }  # fmt: skip
    through = asked.cover.value("vapor")
    menzel, power = (on_arrays(form)(**named) for form in (evaporation_by_menzel, evaporation_by_power))
    return menzel * through, power * through


def held_by(faces: Sequence[Face], asked: Asked) -> Array:
    """Water that each face, wetted for a minute, holds for drying; its cover's with it, as the log has it."""
    shipped = [_film(face, asked) + skin_of(face).value("gives_back") * _drawn(face) for face in faces]
    return asked.longer * np.array(shipped)


def first_drink(face: Face, asked: Asked) -> KgPerSquareMeter:
    """Water that a dry face takes when it is wetted for a minute."""
    return _film(face, asked) + _drawn(face)


def _film(face: Face, asked: Asked) -> KgPerSquareMeter:
    return skin_of(face).value("film") + asked.cover.value("water")


def _drawn(face: Face) -> KgPerSquareMeter:
    return water_drawn_in(suction=skin_of(face).value("suction"), time=MINUTE)


def lasting(rate: Array, held: Array) -> Array:
    """How long water put on at the beginning of each hour lasts: (faces, hours), infinite past the last hour.

    Args:
        rate: (faces, hours), at which it leaves
        held: (faces,), put on
    """
    gone = np.concatenate((np.zeros((len(rate), 1)), np.cumsum(np.maximum(rate, 0.0) * HOUR, axis=1)), axis=1)
    clock = np.arange(gone.shape[1]) * HOUR
    found = np.empty_like(rate)
    for number, line in enumerate(gone):
        ends = np.interp(line[:-1] + held[number], line, clock, right=np.inf)
        found[number] = ends - clock[:-1]
    return found

"""How the worst hour of a face was reached, in lines of working, and the figures behind it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import drying as heat
from pinfold.formulas import evaporation, moist_air, wind_profile
from pinfold.studies.drying.around import air_of, ground_c, sun_taken
from pinfold.studies.drying.day import DAY, Setting
from pinfold.studies.drying.records import CATCH, SPREAD, TOLD_HEIGHT, WORK_HEIGHT, Drying
from pinfold.studies.drying.stuff import skin_of
from pinfold.studies.drying.wetting import cure_of
from pinfold.studies.sun.records import Face
from pinfold.tables.shelf import Kind
from pinfold.units import Celsius, MeterPerSecond, Pascal, Ratio, WattPerSquareMeter


class _Worst(NamedTuple):
    """The worst hour at a face."""

    face: Face
    skin: Kind
    air_c: Celsius
    humidity: Ratio
    pressure: Pascal
    wind: MeterPerSecond
    side: heat.Lee
    face_c: Celsius
    sky_heat: WattPerSquareMeter
    ground_c: Celsius
    sky_view: Ratio
    sun: WattPerSquareMeter
    takes: Ratio


def steps_of(drying: Drying, setting: Setting, number: int) -> tuple[Step, ...]:
    """The hour of the first day in which a fresh coat on a face loses most, worked with the formulas themselves."""
    worst = _worst(drying, setting, number)
    share = work(
        wind_profile.share_of_wind, why="usual wind at the face over that told", height=WORK_HEIGHT.value,
        told_at=TOLD_HEIGHT.value,
    )  # fmt: skip
    return share, *_of_wall(worst), *_of_coat(worst)


def _worst(drying: Drying, setting: Setting, number: int) -> _Worst:
    hour = int(np.nanargmax(drying.fresh_evaporation[number, :DAY]))
    air, face = air_of(setting.weather), drying.faces[number]
    away = air.wind_from is not None and face.is_upright and np.cos(air.wind_from[hour] - face.facing) < 0
    seen = float(np.ravel(setting.light.sky_view)[number])
    return _Worst(
        face=face, skin=skin_of(face), air_c=float(air.temperature_c[hour]), humidity=float(air.humidity[hour]),
        pressure=float(air.pressure[hour]), wind=float(drying.wind[hour]), side="leeward" if away else "windward",
        face_c=float(drying.wet_temperature[number, hour]), sky_heat=float(air.sky_heat[hour]),
        ground_c=float(ground_c(air, setting.lighting, drying.asked)[hour]),
        sky_view=float((1 + np.cos(face.tilt)) / 2 * min(seen, 1.0)),
        sun=float(setting.light.total[number, hour]), takes=sun_taken(face, wet=True),
    )  # fmt: skip


def _of_wall(worst: _Worst) -> tuple[Step, ...]:
    """Heat and vapor of the wetted wall."""
    vapor = work(moist_air.vapor_pressure, why="water in the air", temperature_c=worst.air_c, humidity=worst.humidity)
    convection = work(heat.convection_by_side, why="heat exchanged with the air", wind=worst.wind, side=worst.side)
    between = (worst.air_c + worst.face_c) / 2
    film = work(
        heat.air_density, why="air on the face", temperature_c=between, pressure=worst.pressure,
        vapor_pressure=vapor.number,
    )  # fmt: skip
    transfer = work(
        heat.vapor_transfer, why="how fast vapor goes off", convection=convection.number, density=film.number,
        lewis=heat.LEWIS,
    )  # fmt: skip
    leaves = work(
        heat.evaporation_from_wall, why="water leaving the wetted wall", transfer=transfer.number,
        surface_c=worst.face_c, air_c=worst.air_c, vapor_pressure=vapor.number,
    )  # fmt: skip
    glow = work(
        heat.long_wave_gain, why="heat from sky and ground", sky_heat=worst.sky_heat, ground_c=worst.ground_c,
        surface_c=worst.face_c, sky_view=worst.sky_view, emittance=worst.skin.value("emittance"),
    )  # fmt: skip
    left = work(
        heat.heat_into_wall, why="what goes on into the wall", sun=worst.sun, absorptance=worst.takes,
        long_wave=glow.number, convection=convection.number, air_c=worst.air_c, surface_c=worst.face_c,
        evaporation=leaves.number,
    )  # fmt: skip
    drawn = work(
        heat.water_drawn_in, why="water the dry skin draws in while it is wetted",
        suction=worst.skin.value("suction"), time=60.0,
    )  # fmt: skip
    return vapor, convection, film, transfer, leaves, glow, left, drawn


def _of_coat(worst: _Worst) -> tuple[Step, ...]:
    """A fresh coat as warm as the wetted wall, by three published forms."""
    named = {"surface_c": worst.face_c, "air_c": worst.air_c, "humidity": worst.humidity, "wind": worst.wind}
    return (
        work(evaporation.evaporation_by_menzel, why="water leaving a fresh coat, by vapor pressures", **named),
        work(evaporation.evaporation_by_power, why="the same by the power of degrees", **named),
        work(evaporation.evaporation_by_uno, why="the same, rounded for SI", **named),
    )


def figures_of(drying: Drying, number: int) -> tuple[tuple[str, Figure], ...]:
    """What of tables and practice went into a face's day."""
    face, cover = drying.faces[number], drying.asked.cover
    skin = skin_of(face)
    names = ("emittance", "kept_when_wet", "film", "suction", "gives_back")
    figures = [(f"{skin.says}: {name.replace('_', ' ')}", skin.figure(name)) for name in names]
    if face.absorptance is not None:
        figures.insert(0, (f"{face.shows}: absorptance", face.absorptance))
    covered = [(f"{cover.name}: {name}", figure) for name, figure in cover.figures.items()]
    return (
        ("wind at the face over that at 10 m", drying.asked.wind_share), ("spread of a rate", SPREAD),
        ("kept damp for", cure_of(face)), ("stays on of what is sprayed", CATCH), *figures,
        *(covered if cover.name != "none" else ()),
    )  # fmt: skip

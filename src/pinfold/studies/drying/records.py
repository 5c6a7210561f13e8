"""What is asked of a wet wall's day, and what comes of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, tzinfo

import numpy as np
from numpy.typing import NDArray

from pinfold.figures import Figure, practice, printed
from pinfold.formulas.wind_profile import share_of_wind
from pinfold.sources import Standing
from pinfold.studies.sun.records import Face
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, Ratio

WORK_HEIGHT: Figure = practice(
    "0.5 m", METER, "over the face, as the chart of fresh concrete asks; half way up a low wall"
)
TOLD_HEIGHT: Figure = practice("10 m", METER, "that forecasts and weather files tell the wind for")
SPREAD: Figure = printed("40 %", RATIO, Standing.READ, "HOVER-2006", "either way of an estimate")
"""How far off a rate of evaporation may be."""
CATCH: Figure = practice("70 %", RATIO, "of what is sprayed stays on the face; the rest runs or blows off")


def usual_wind_share() -> Figure:
    """Wind at the face over that at 10 m, over open ground."""
    share = share_of_wind(height=WORK_HEIGHT.value, told_at=TOLD_HEIGHT.value)
    return Figure(
        value=share, unit=RATIO, standing=Standing.READ, source="WIND-PROFILE",
        where="half a meter over open grass; it does not hold within a wall's height of a wall",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Asked:
    """How a wet wall's day is asked for.

    Attributes:
        wind_share: wind at the face over that at 10 m.
        cover: what hangs before the faces, of shelf `covers`.
        longer: how many times as long a wetting lasts as reckoned, as the log has it.
        spread: share by which rates may be off either way, as far as the log has narrowed it.
    """

    wind_share: Figure = field(default_factory=usual_wind_share)
    cover: Kind = field(default_factory=lambda: kind("covers", "none"))
    longer: Ratio = 1.0
    spread: Ratio = SPREAD.value


@dataclass(frozen=True, kw_only=True, eq=False)
class Drying:
    """How each face fares, hour by hour: arrays of (faces, hours).

    Attributes:
        faces: in the order of the arrays.
        start: of the first hour, in UTC.
        zone: clock of the place.
        surface_temperature: of the face while dry, mean of the hour [°C].
        wet_temperature: of the face kept wet [°C].
        evaporation: from the face kept wet, by heat and vapor of a wall [kg/(m2 s)].
        fresh_evaporation: from a fresh coat, by vapor pressures at the wet face's temperature [kg/(m2 s)].
        rival_evaporation: the same by the power of degrees [kg/(m2 s)].
        wet_interval: how long a wetting at the beginning of each hour lasts; infinite where it outlasts the hours [s].
        wet_interval_least: the same if water leaves faster by the spread [s].
        wet_interval_most: the same if it leaves slower [s].
        held: water that a wetted face holds for drying, of each face [kg/m2].
        first_drink: what the first wetting of a dry face takes, of each face [kg/m2].
        air_c: of the air, hour by hour [°C].
        humidity: of the air.
        wind: at the faces [m/s].
        known: hours in which all that is asked is known.
        estimated: hours in which some of the weather behind it is estimated.
        asked: how it was asked for.
        because: why nothing is shown, in plain words; empty where it is.
        notes: what was taken or left out.
    """

    faces: tuple[Face, ...]
    start: datetime
    zone: tzinfo
    surface_temperature: Hours
    wet_temperature: Hours
    evaporation: Hours
    fresh_evaporation: Hours
    rival_evaporation: Hours
    wet_interval: Hours
    wet_interval_least: Hours
    wet_interval_most: Hours
    held: NDArray[np.float64]
    first_drink: NDArray[np.float64]
    air_c: Hours
    humidity: Hours
    wind: Hours
    known: NDArray[np.bool_]
    estimated: NDArray[np.bool_]
    asked: Asked
    because: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def shown(self) -> bool:
        """Whether anything is."""
        return not self.because

    def of(self, name: str) -> int:
        """Place of a face in the arrays, by its name.

        Raises:
            KeyError: there is no such face.
        """
        return {face.name: number for number, face in enumerate(self.faces)}[name]


@dataclass(frozen=True, kw_only=True)
class Limits:
    """From where on fresh work is in danger.

    Attributes:
        caution: rate of evaporation to watch.
        act: rate at which not to go on without shade, screen and mist.
        too_hot: warmth of a face that is too hot to coat.
    """

    caution: Figure
    act: Figure
    too_hot: Figure


def limits() -> Limits:
    """Those of shelf `evaporation_limits`."""
    caution, act, face = (kind("evaporation_limits", name) for name in ("caution", "act", "face"))
    return Limits(caution=caution.figure("rate"), act=act.figure("rate"), too_hot=face.figure("warm"))

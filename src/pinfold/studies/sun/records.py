"""What is asked of the sun: faces of the plan, where the sun stands over hours, and the light on each face."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.figures import Figure
from pinfold.geometry.shadows import Spot
from pinfold.plan.buildups import Buildup
from pinfold.units import Meter, Radian, SquareMeter

Hours = NDArray[np.float64]


class Part(StrEnum):
    """Which face of a stretch of wall."""

    OUTER = "outer"
    INNER = "inner"
    TOP = "top"  # of a wall without coping
    COPING = "coping"


UPRIGHT = (Part.OUTER, Part.INNER)


class Strip(NamedTuple):
    """A level or stepped piece of a face: what lies between two lines, in plan coordinates, heights with the ground.

    Attributes:
        low: its lower line, or the left one of a top.
        high: its upper line, or the right one, going the same way.
    """

    low: tuple[Spot, ...]
    high: tuple[Spot, ...]

    @property
    def ring(self) -> tuple[Spot, ...]:
        """Its corners, once round."""
        return (*self.low, *reversed(self.high))


@dataclass(frozen=True, kw_only=True, eq=False)
class Face:
    """One face of a stretch of wall, as far as it shows above the ground.

    Attributes:
        name: in the builder's words, such as `south/1a outer`.
        stretch: whose it is.
        side: of the plot.
        part: which of its faces.
        facing: way it looks, clockwise from true north; 0 where it lies face up.
        tilt: from lying face up, a quarter turn where it is upright.
        strips: its pieces, step by step.
        area: of all pieces.
        thickness: of the wall behind it.
        buildup: of the stretch.
        shows: what the sun falls on, in words.
        absorptance: share of the sun's heat that it takes up.
        against: names of the banks of earth that cover some of it.
    """

    name: str
    stretch: str
    side: str
    part: Part
    facing: Radian
    tilt: Radian
    strips: tuple[Strip, ...]
    area: SquareMeter
    thickness: Meter
    buildup: Buildup
    shows: str
    absorptance: Figure | None
    against: tuple[str, ...] = ()

    @property
    def is_upright(self) -> bool:
        """Whether it is a side of the wall, not its top."""
        return self.part in UPRIGHT


@dataclass(frozen=True, kw_only=True)
class Standpoint:
    """Where the sun is seen from.

    Attributes:
        latitude: north positive.
        longitude: east positive.
        elevation: above the sea.
        notes: what was taken for want of better, in plain words.
    """

    latitude: Radian
    longitude: Radian
    elevation: Meter
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class Sun:
    """Where the sun stands at some moments.

    Attributes:
        moments: in UTC.
        altitude: above the level horizon, lifted by the air; negative below it.
        azimuth: clockwise from true north.
        outside: strength of the sun straight on above the air.
    """

    moments: tuple[datetime, ...]
    altitude: Hours
    azimuth: Hours
    outside: Hours

    @property
    def is_up(self) -> NDArray[np.bool_]:
        """Moments at which it shows."""
        return self.altitude > 0


@dataclass(frozen=True, kw_only=True)
class SunDay:
    """One day's sun, by the clock of the place.

    Attributes:
        rise: when it comes over the level horizon; None where it does not on that day.
        noon: when it stands highest.
        set: when it goes.
        always: `up` or `down` where it neither rises nor sets; else empty.
    """

    rise: datetime | None
    noon: datetime
    set: datetime | None
    always: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Sky:
    """What comes from sun and sky, hour by hour.

    Attributes:
        beam: from the sun, straight on.
        diffuse: from the sky, on the level.
        level: from both, on the level.
        estimated: hours in which any of them is estimated.
        notes: how, in plain words.
    """

    beam: Hours
    diffuse: Hours
    level: Hours
    estimated: NDArray[np.bool_]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class Light:
    """Light on faces, hour by hour: arrays of (faces, hours), all but `lit` in watts to the square meter.

    Attributes:
        faces: in the order of the arrays.
        sun: at the middle of each hour.
        lit: share of each face on which the sun shines.
        sky_view: what each face sees of the sky, as a share of what it would see with nothing in the way.
        beam: from the sun, and the brightness close around it.
        sky: from the rest of the sky.
        ground: thrown back by the ground.
        estimated: hours in which the weather's sun is estimated.
        notes: what was estimated or left out, in plain words.
    """

    faces: tuple[Face, ...]
    sun: Sun
    lit: Hours
    sky_view: Hours
    beam: Hours
    sky: Hours
    ground: Hours
    estimated: NDArray[np.bool_]
    notes: tuple[str, ...] = ()

    @property
    def total(self) -> Hours:
        """All that falls on each face."""
        total: Hours = self.beam + self.sky + self.ground
        return total

    def of(self, name: str) -> int:
        """Place of a face in the arrays, by its name.

        Raises:
            KeyError: there is no such face.
        """
        for number, face in enumerate(self.faces):
            if face.name == name:
                return number
        raise KeyError(name)

"""One day of sun and shade, face by face: when the sun is on it, how strong the light is, what is first and last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from pinfold.figures import Figure
from pinfold.studies.layout.records import Layout
from pinfold.studies.sun.positions import sun_at, sun_day
from pinfold.studies.sun.records import UPRIGHT, Face, Hours, Light, Part, Standpoint, SunDay
from pinfold.studies.sun.shade import lit_shares
from pinfold.studies.weather.records import Weather
from pinfold.units import Radian, Ratio, Second, SquareMeter, WattPerSquareMeter

STEP = timedelta(minutes=5)
"""The sun is looked at so often, to tell when it comes and goes."""
ON_IT: Ratio = 0.5
"""The sun is on a face when it shines on this share of it."""
HOUR = timedelta(hours=1)


@dataclass(frozen=True, kw_only=True)
class SunSpell:
    """A time in which the sun is on a face.

    Attributes:
        start: by the clock of the place.
        end: likewise.
    """

    start: datetime
    end: datetime

    @property
    def lasts(self) -> timedelta:
        """How long."""
        return self.end - self.start


@dataclass(frozen=True, kw_only=True)
class FaceDay:
    """One face through one day.

    Attributes:
        name: of the face.
        part: of the wall.
        facing: way it looks, clockwise from true north.
        tilt: from lying face up.
        area: of it.
        shows: what the sun falls on.
        absorptance: share of the sun's heat that it takes up; None where it is not known.
        against: banks of earth that cover some of it.
        sky_view: share of the sky that it sees, of what it would see with nothing in the way.
        spells: when the sun is on half of it or more.
        in_sun: how long that is together.
        lit: share of it on which the sun shines, hour by hour.
        light: all that falls on it, hour by hour.
        beam: of that from the sun.
        sky: of that from the sky.
        ground: of that from the ground.
    """

    name: str
    part: Part
    facing: Radian
    tilt: Radian
    area: SquareMeter
    shows: str
    absorptance: Figure | None
    against: tuple[str, ...]
    sky_view: Ratio
    spells: tuple[SunSpell, ...]
    in_sun: Second
    lit: tuple[Ratio, ...]
    light: tuple[WattPerSquareMeter, ...]
    beam: tuple[WattPerSquareMeter, ...]
    sky: tuple[WattPerSquareMeter, ...]
    ground: tuple[WattPerSquareMeter, ...]

    @property
    def is_upright(self) -> bool:
        """Whether it is a side of the wall, not its top."""
        return self.part in UPRIGHT

    @property
    def strongest(self) -> int:
        """Place of the hour with the most light."""
        return max(range(len(self.light)), key=self.light.__getitem__)


@dataclass(frozen=True, kw_only=True)
class FacesDay:
    """Sun and shade on all faces through one day.

    Attributes:
        day: by the clock of the place.
        sun: when it rises, stands highest and sets.
        hours: the beginning of each, by the clock of the place.
        weather: whose sun it is.
        estimated: hours of daylight in which that is estimated.
        faces: in order around the plot.
        notes: what was estimated or left out.
    """

    day: date
    sun: SunDay
    hours: tuple[datetime, ...]
    weather: str
    estimated: tuple[bool, ...]
    faces: tuple[FaceDay, ...]
    notes: tuple[str, ...]


def faces_day(layout: Layout, place: Standpoint, day: date, weather: Weather, light: Light) -> FacesDay:
    """Sun and shade through a day.

    Args:
        layout: of the plan
        place: where the sun is seen from
        day: by the clock of the place
        weather: the hours of that day
        light: in those hours, on the faces that are asked about
    """
    hours = tuple(moment.astimezone(weather.zone) for moment in weather.times)
    spells = _spells(layout, light.faces, place, hours)
    total = light.total
    rows = tuple(
        _face_day(face, light, total, number, spells[number]) for number, face in enumerate(light.faces)
    )  # fmt: skip
    return FacesDay(
        day=day, sun=sun_day(place, day, weather.zone), hours=hours, weather=weather.says,
        estimated=tuple(bool(each) for each in light.estimated), faces=rows, notes=light.notes,
    )  # fmt: skip


def _face_day(face: Face, light: Light, total: Hours, number: int, spells: tuple[SunSpell, ...]) -> FaceDay:
    lit, whole, beam, sky, ground = (
        tuple(float(each) for each in series[number])
        for series in (light.lit, total, light.beam, light.sky, light.ground)
    )
    return FaceDay(
        name=face.name, part=face.part, facing=face.facing, tilt=face.tilt, area=face.area, shows=face.shows,
        absorptance=face.absorptance, against=face.against, sky_view=float(light.sky_view[number]), spells=spells,
        in_sun=sum(spell.lasts.total_seconds() for spell in spells), lit=lit, light=whole, beam=beam, sky=sky,
        ground=ground,
    )  # fmt: skip


def _spells(
    layout: Layout, faces: Sequence[Face], place: Standpoint, hours: tuple[datetime, ...]
) -> list[tuple[SunSpell, ...]]:
    """When the sun is on each face, looked at in small steps."""
    count = len(hours) * int(HOUR / STEP)
    first, zone = hours[0].astimezone(UTC), hours[0].tzinfo
    edges = [first + number * STEP for number in range(count + 1)]
    lit = lit_shares(layout, faces, sun_at(place, [edge + STEP / 2 for edge in edges[:-1]])) >= ON_IT
    return [tuple(_runs(row, [edge.astimezone(zone) for edge in edges])) for row in lit]


def _runs(row: NDArray[np.bool_], moments: list[datetime]) -> list[SunSpell]:
    """The stretches of a row that are true."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(int), [0]))))
    return [
        SunSpell(start=moments[start], end=moments[end])
        for start, end in zip(edges[::2], edges[1::2], strict=True)
    ]  # fmt: skip

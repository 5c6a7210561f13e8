"""One day of drying told face by face: each hour, when it is too hot, when a fresh coat is in danger, and the water."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.drying.around import lacking
from pinfold.studies.drying.balance import HOUR
from pinfold.studies.drying.records import Asked, Drying, limits
from pinfold.studies.drying.study import bench_of, dried, drying_of
from pinfold.studies.drying.wetting import Wetting, wetting_of
from pinfold.studies.sun.light import Lighting
from pinfold.studies.sun.records import Light
from pinfold.studies.weather.records import Weather
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import (
    Celsius,
    CubicMeter,
    KgPerSquareMeterSecond,
    MeterPerSecond,
    Ratio,
    Second,
    SquareMeter,
)

DAY = 24


class WetHour(NamedTuple):
    """One hour of a face.

    Attributes:
        at: its beginning, by the clock of the place.
        air_c: of the air.
        humidity: of it.
        wind: at the face.
        dry_face_c: of the face while dry, mean of the hour.
        wet_face_c: of it kept wet.
        evaporation: from it kept wet.
        fresh_evaporation: from a fresh coat, by the chart of fresh concrete.
        rival_evaporation: the same by the power of degrees.
        lasts: how long a wetting at the beginning of the hour lasts; infinite past the hours that are known.
        lasts_least: the same if water leaves faster by the spread.
        lasts_most: if it leaves slower.
        water: to spray at the beginning of the hour.
        damp: share of the hour in which the face is damp.
    """

    at: datetime
    air_c: Celsius
    humidity: Ratio
    wind: MeterPerSecond
    dry_face_c: Celsius
    wet_face_c: Celsius
    evaporation: KgPerSquareMeterSecond
    fresh_evaporation: KgPerSquareMeterSecond
    rival_evaporation: KgPerSquareMeterSecond
    lasts: Second
    lasts_least: Second
    lasts_most: Second
    water: CubicMeter
    damp: Ratio


class Span(NamedTuple):
    """Some hours on end.

    Attributes:
        begins: by the clock of the place.
        ends: likewise.
    """

    begins: datetime
    ends: datetime


@dataclass(frozen=True, kw_only=True)
class WetFace:
    """One face on one day.

    Attributes:
        name: of the face.
        shows: what is on it.
        area: of it.
        cure: how long it is kept damp from this day's first round on; 0 for one that is let dry.
        hours: of the day.
        too_hot: when the dry face is too hot to coat.
        watch: when a fresh coat loses more than the rate to watch.
        danger: when it loses more than the rate to act on.
        water: to spray on this day.
        water_in_all: over the whole cure, as far as the weather is known.
        reach: share of the cure that it is known for.
        damp: share of the cure in which the face is damp.
    """

    name: str
    shows: str
    area: SquareMeter
    cure: Second
    hours: tuple[WetHour, ...]
    too_hot: tuple[Span, ...]
    watch: tuple[Span, ...]
    danger: tuple[Span, ...]
    water: CubicMeter
    water_in_all: CubicMeter
    reach: Ratio
    damp: Ratio

    @property
    def rounds(self) -> tuple[WetHour, ...]:
        """Hours at whose beginning it is wetted."""
        return tuple(hour for hour in self.hours if hour.water > 0)

    @property
    def hottest(self) -> WetHour:
        """The hour in which it gets hottest while dry."""
        return max(self.hours, key=lambda hour: _known(hour.dry_face_c))

    @property
    def fastest(self) -> WetHour:
        """The hour in which a fresh coat loses most."""
        return max(self.hours, key=lambda hour: _known(hour.fresh_evaporation))


class Effect(NamedTuple):
    """What something hung before the faces does on one day.

    Attributes:
        cover: kind of shelf `covers`.
        wet_face_c: the hottest that any of the faces gets while wet.
        fresh_evaporation: the most that a fresh coat on any of them loses.
        water: for all of them on this day.
        damp: share of the time in which they are damp.
    """

    cover: Kind
    wet_face_c: Celsius
    fresh_evaporation: KgPerSquareMeterSecond
    water: CubicMeter
    damp: Ratio


class Setting(NamedTuple):
    """Faces in their hours: what drying and wetting are found from."""

    light: Light
    lighting: Lighting
    weather: Weather


def faces_on_day(setting: Setting, asked: Asked, places: Sequence[int]) -> tuple[Drying, tuple[WetFace, ...]]:
    """Drying of all faces over all hours of a setting, and some of them on its first day; none where nothing is shown.

    Args:
        setting: all faces, for a wall is warm from both sides
        asked: wind's share and cover
        places: of the faces that are told of
    """
    if lacking(setting.weather) or not places:
        return drying_of(*setting, asked), ()
    bench = bench_of(*setting, asked)
    drying = dried(bench)
    rounds = wetting_of(bench, drying, slice(None))
    return drying, tuple(_face(drying, rounds, place) for place in places)


def effects(setting: Setting, asked: Asked, places: Sequence[int]) -> tuple[Effect, ...]:
    """What each cover does to some of the faces over the hours of a setting."""
    return tuple(_effect(setting, replace(asked, cover=cover), list(places)) for cover in shelf("covers").values())


def _effect(setting: Setting, asked: Asked, places: list[int]) -> Effect:
    bench = bench_of(*setting, asked)
    drying = dried(bench)
    rounds = wetting_of(bench, drying, slice(None))
    return Effect(
        cover=asked.cover, wet_face_c=float(np.nanmax(drying.wet_temperature[places])),
        fresh_evaporation=float(np.nanmax(drying.fresh_evaporation[places])), water=float(rounds.total[places].sum()),
        damp=float(np.mean([rounds.damp_share(place) for place in places])),
    )  # fmt: skip


def _known(value: float) -> float:
    return -math.inf if math.isnan(value) else value


def _face(drying: Drying, rounds: Wetting, number: int) -> WetFace:
    face, known = drying.faces[number], limits()
    fresh = drying.fresh_evaporation[number, :DAY]
    return WetFace(
        name=face.name, shows=face.shows, area=face.area, cure=float(rounds.kept[number]),
        hours=tuple(_hour(drying, rounds, number, hour) for hour in range(min(DAY, len(drying.known)))),
        too_hot=spans(drying, drying.surface_temperature[number, :DAY] > known.too_hot.value),
        watch=spans(drying, fresh > known.caution.value), danger=spans(drying, fresh > known.act.value),
        water=float(rounds.poured[number, :DAY].sum()), water_in_all=float(rounds.total[number]),
        reach=rounds.reach(number), damp=rounds.damp_share(number),
    )  # fmt: skip


def _hour(drying: Drying, rounds: Wetting, number: int, hour: int) -> WetHour:
    by_face = (
        drying.surface_temperature, drying.wet_temperature, drying.evaporation, drying.fresh_evaporation,
        drying.rival_evaporation, drying.wet_interval, drying.wet_interval_least, drying.wet_interval_most,
        rounds.poured, rounds.damp,
    )  # fmt: skip
    air = (float(each[hour]) for each in (drying.air_c, drying.humidity, drying.wind))
    return WetHour(rounds.moment(hour), *air, *(float(each[number, hour]) for each in by_face))


def spans(drying: Drying, which: NDArray[np.bool_]) -> tuple[Span, ...]:
    """Hours for which something is so, run by run, by the clock of the place."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], which, [False])).astype(int)))
    moments = [(drying.start + timedelta(seconds=int(edge) * HOUR)).astimezone(drying.zone) for edge in edges]
    return tuple(Span(begins, ends) for begins, ends in zip(moments[::2], moments[1::2], strict=True))

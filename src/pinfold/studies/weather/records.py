"""Hours of weather, one after the other, with what of them is estimated."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from pinfold.units import Meter, Radian

Hours = NDArray[np.float64]
"""One number for each hour; not a number where it is not known."""


class Element(StrEnum):
    """What a series of hours is of; all but wind direction and rain are means or values of the hour."""

    TEMPERATURE = "air temperature"  # °C
    HUMIDITY = "humidity"  # share, 0 to 1
    DEW_POINT = "dew point"  # °C
    PRESSURE = "pressure"  # Pa
    WIND = "wind"  # m/s, 10 m above open ground
    WIND_FROM = "wind direction"  # rad, clockwise from north
    GLOBAL = "sun and sky on the level"  # W/m2
    BEAM = "sun straight on"  # W/m2
    DIFFUSE = "sky on the level"  # W/m2
    SKY_HEAT = "heat from the sky"  # W/m2, long wave, on the level
    CLOUD = "cloud"  # share of the sky
    RAIN = "rain"  # m in the hour
    RAIN_CHANCE = "chance of rain"  # share


class WeatherKind(StrEnum):
    """Where hours of weather come from."""

    FORECAST = "forecast"
    TYPICAL = "typical year"
    MEASURED = "measured"
    DAILY = "daily highs and lows"
    NORMALS = "monthly normals"


@dataclass(frozen=True, kw_only=True, eq=False)
class Weather:
    """Hours of weather without a gap.

    Attributes:
        kind: where it comes from.
        says: name of the file or place, in words.
        start: the beginning of the first hour, in UTC.
        zone: clock of the place, by the plan or by the file.
        series: an array for each element that is known at all, all of one length; each stands for the hour that begins
            `start` plus so many hours.
        estimated: for each element, which hours are not as the source gave them.
        latitude: of the source, north positive; None where it does not say.
        longitude: likewise, east positive.
        elevation: likewise, above the sea.
        written: when a forecast was made; None where it does not say.
        notes: what was mended, estimated or left, in plain words.
    """

    kind: WeatherKind
    says: str
    start: datetime
    zone: tzinfo
    series: Mapping[Element, Hours]
    estimated: Mapping[Element, NDArray[np.bool_]]
    latitude: Radian | None = None
    longitude: Radian | None = None
    elevation: Meter | None = None
    written: datetime | None = None
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        assert self.start.tzinfo is UTC, "hours are counted in UTC"
        assert len({len(hours) for hours in self.series.values()}) == 1, "all series are of one length"

    @property
    def count(self) -> int:
        """How many hours."""
        return len(next(iter(self.series.values())))

    @property
    def times(self) -> tuple[datetime, ...]:
        """The beginning of each hour, in UTC."""
        return tuple(self.start + timedelta(hours=hour) for hour in range(self.count))

    def has(self, element: Element) -> bool:
        """Whether any hour of it is known."""
        return element in self.series and bool(np.isfinite(self.series[element]).any())

    def of(self, element: Element) -> Hours:
        """An element hour by hour.

        Raises:
            KeyError: it is not known at all; ask `has` first.
        """
        return self.series[element]

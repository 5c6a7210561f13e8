"""Hours of weather, one after the other, with what of them is estimated."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta, tzinfo

import numpy as np
from numpy.typing import NDArray

from pinfold.plan.weather_file import Element, WeatherKind
from pinfold.units import Meter, Radian

__all__ = ["Element", "Hours", "Weather", "WeatherKind"]

Hours = NDArray[np.float64]
"""One number for each hour; not a number where it is not known."""


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
        estimated: for each element, which hours are neither as the source gave them nor follow from what it gave.
        latitude: of the source, north positive; None where it does not say.
        longitude: likewise, east positive.
        elevation: likewise, above the sea.
        written: when a forecast was made; None where it does not say.
        notes: what was mended, estimated or left, in plain words.
        doubts: those of the notes that speak against relying on it.
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
    doubts: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        assert self.start.tzinfo is UTC, "hours are counted in UTC"
        assert len({len(hours) for hours in self.series.values()}) == 1, "all series are of one length"

    @property
    def count(self) -> int:
        """How many hours."""
        return len(next(iter(self.series.values())))

    def doubted(self, *doubts: str) -> Weather:
        """The same with what speaks against relying on it told."""
        return replace(self, notes=(*self.notes, *doubts), doubts=(*self.doubts, *doubts))

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

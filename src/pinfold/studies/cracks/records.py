"""Readings of a crack, and what they say together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.units import Celsius, Meter, MeterPerSecond, Second

MONTH: Second = 365.25 * 86400 / 12
"""A twelfth of a year."""

YEAR: Second = 365.25 * 86400
"""A year of the calendar, on average."""


class CrackReading(NamedTuple):
    """One measurement of one crack at one mark.

    Attributes:
        at: when, in seconds since the epoch.
        width: of the crack.
        temperature_c: of the wall, or of the air in its shade; None when nobody looked.
        spread: standard deviation of the width.
    """

    at: float
    width: Meter
    temperature_c: Celsius | None
    spread: Meter


class CrackVerdict(StrEnum):
    """What readings say of a crack; too few readings never make it dead."""

    MOVING = "moving"
    DEAD = "dead"
    NOT_SHOWN = "not shown yet"


class PredictedWidth(NamedTuple):
    """A width that a reading would show at some time.

    Attributes:
        width: most likely.
        spread: standard deviation, that of a reading included; grows with the distance from the readings.
    """

    width: Meter
    spread: Meter


@dataclass(frozen=True, kw_only=True)
class CrackFit:
    """A straight line in time, and in temperature where that is known, through the readings.

    Attributes:
        start: time of the middle of the readings, in seconds since the epoch.
        middle_c: mean temperature of the readings; None when the line knows no temperature.
        width: at the start and at the mean temperature.
        slope: growth in time, positive when the crack opens.
        thermal: growth for each °C warmer, in m/°C, negative where warmth closes the crack; None when not known.
        covariance: of width, slope and thermal, row by row, in SI.
        scatter: how much wider the readings scatter than they say themselves, at least 1.
        spare: readings beyond the numbers found.
        reading_spread: usual standard deviation of a reading, as it says itself.
    """

    start: float
    middle_c: Celsius | None
    width: Meter
    slope: MeterPerSecond
    thermal: float | None
    covariance: tuple[tuple[float, ...], ...]
    scatter: float
    spare: int
    reading_spread: Meter

    @property
    def slope_spread(self) -> MeterPerSecond:
        """Standard error of the slope."""
        return float(self.covariance[1][1] ** 0.5)

    @property
    def thermal_spread(self) -> float | None:
        """Standard error of the growth for each °C, in m/°C; None when that is not known."""
        return None if self.thermal is None else float(self.covariance[2][2] ** 0.5)


@dataclass(frozen=True, kw_only=True)
class CrackTrend:
    """Whether a crack moves.

    Attributes:
        verdict: moving, dead, or not shown yet.
        says: the verdict with its numbers, in the builder's words.
        fit: the line through the readings; None when there are too few.
        low: lower end of the slope's interval; None without a fit.
        high: its upper end.
        confidence: share of such intervals that hold the true slope.
        threshold: movement in a year below which a crack is called dead.
        readings: how many readings the line rests on.
        more_readings: how many more are wanted; 0 when the verdict stands, None when no number of them will do.
        more_time: over how long.
        notes: what was left out, and what could mislead.
    """

    verdict: CrackVerdict
    says: str
    fit: CrackFit | None
    low: MeterPerSecond | None
    high: MeterPerSecond | None
    confidence: float
    threshold: Figure
    readings: int
    more_readings: int | None
    more_time: Second
    notes: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CrackClass:
    """A class of crack widths.

    Attributes:
        name: of the class.
        least: narrowest width in it.
        most: widest width in it; None for the last.
        repair: what is usually done.
        damp: what it lets in.
        source: key of the publication of the widths.
        standing: of the widths.
        words_standing: of what is said on repair and damp.
    """

    name: str
    least: Meter
    most: Meter | None
    repair: str
    damp: str
    source: str
    standing: Standing
    words_standing: Standing

"""What a weather file says, as it stands there: columns with their units, before anything is converted or mended."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from enum import StrEnum

from pinfold.units import (
    CELSIUS,
    METER,
    METER_PER_SECOND,
    PASCAL,
    RADIAN,
    RATIO,
    WATT_PER_SQUARE_METER,
    Meter,
    Radian,
    Unit,
)


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


UNIT_OF: Mapping[Element, Unit] = {
    Element.TEMPERATURE: CELSIUS, Element.HUMIDITY: RATIO, Element.DEW_POINT: CELSIUS, Element.PRESSURE: PASCAL,
    Element.WIND: METER_PER_SECOND, Element.WIND_FROM: RADIAN, Element.GLOBAL: WATT_PER_SQUARE_METER,
    Element.BEAM: WATT_PER_SQUARE_METER, Element.DIFFUSE: WATT_PER_SQUARE_METER,
    Element.SKY_HEAT: WATT_PER_SQUARE_METER, Element.CLOUD: RATIO, Element.RAIN: METER, Element.RAIN_CHANCE: RATIO,
}  # fmt: skip
"""The SI unit of each."""


class WeatherKind(StrEnum):
    """Where hours of weather come from."""

    FORECAST = "forecast"
    TYPICAL = "typical year"
    MEASURED = "measured"
    DAILY = "daily highs and lows"
    NORMALS = "monthly normals"


@dataclass(frozen=True, kw_only=True, eq=False)
class Column:
    """One column of a file.

    Attributes:
        values: one for each row, as written; not a number where the row does not say.
        units: symbol of each row's unit, of the closed list.
        before: whether a value is of the hour before its stamp, not at it.
    """

    values: tuple[float, ...]
    units: tuple[str, ...]
    before: bool = False


@dataclass(frozen=True, kw_only=True)
class Source:
    """What a file says about itself.

    Attributes:
        name: of the file.
        form: how it is laid out, in words, such as `EPW`.
        kind: of weather.
        says: the place or whoever made it, in its own words; may be empty.
        latitude: north positive; None where it does not say.
        longitude: east positive; likewise.
        elevation: above the sea; likewise.
        written: when a forecast was made; None where it does not say.
        notes: what the reader left out or met, in plain words.
    """

    name: str
    form: str
    kind: WeatherKind
    says: str = ""
    latitude: Radian | None = None
    longitude: Radian | None = None
    elevation: Meter | None = None
    written: datetime | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class HourFile:
    """A file with a row for each hour or so.

    Attributes:
        source: what it says about itself.
        stamps: the time of each row, in the order of the file: with offset, or by the file's own clock.
        ending: whether a stamp is the end of its hour, not the beginning.
        lines: where each row stands in the file.
        columns: what it has, as written.
        sky: words about the sky, one for each row; empty where it has none.
        zone: clock of stamps without offset; None where the file does not say and the place's is meant.
    """

    source: Source
    stamps: tuple[datetime, ...]
    ending: bool
    lines: tuple[int, ...]
    columns: Mapping[Element, Column]
    sky: tuple[str, ...] = ()
    zone: tzinfo | None = None


@dataclass(frozen=True, kw_only=True, eq=False)
class DayFile:
    """A file or typed text with a row for each day.

    Attributes:
        source: what it says about itself.
        days: by the clock of the place.
        lines: where each row stands in the file.
        lows: the lowest air temperature of each day.
        highs: the highest.
        sky: words about each day's sky; empty where it has none.
    """

    source: Source
    days: tuple[date, ...]
    lines: tuple[int, ...]
    lows: Column
    highs: Column
    sky: tuple[str, ...] = ()


class Normal(StrEnum):
    """What a monthly normal is of."""

    HIGH = "high"  # mean of the days' highest
    LOW = "low"  # mean of their lowest
    HIGH_DEVIATION = "high deviation"  # of single days, K
    LOW_DEVIATION = "low deviation"
    RAIN = "rain"  # of the whole month
    WET_DAYS = "wet days"  # of the month
    RAIN_DAY = "rain per wet day"  # mean
    RAIN_DEVIATION = "rain deviation"  # of single wet days
    WET_AFTER_WET = "wet after wet"  # chance
    WET_AFTER_DRY = "wet after dry"  # chance
    DEW_POINT = "dew point"  # mean
    WIND = "wind"  # mean at 10 m


@dataclass(frozen=True, kw_only=True, eq=False)
class MonthFile:
    """Twelve monthly normals.

    Attributes:
        source: what the file says about itself.
        normals: twelve values each, January first.
    """

    source: Source
    normals: Mapping[Normal, Column]


WeatherFile = HourFile | DayFile | MonthFile

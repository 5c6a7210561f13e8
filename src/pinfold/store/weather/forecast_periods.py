"""Saved hourly forecasts laid out in periods: GeoJSON of the United States' weather service."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import Column, Element, HourFile, Source, WeatherKind
from pinfold.store.weather.spelled import degrees_of, symbol_of
from pinfold.store.weather.wrong import Wrong, refuse, want

MOST_PERIODS = 2000
_WORD = "period"
_SPEED = re.compile(r"(?:(\d{1,3}(?:\.\d+)?) to )?(\d{1,3}(?:\.\d+)?) ?([a-z/]+)")
_AT_HIGHER = "Winds told as a range are taken at its higher end."
Given = tuple[float, str]
"""A value with the symbol of its unit."""
_NOTHING: Given = (math.nan, "")


def is_periods(found: object) -> bool:
    """Whether JSON is such a forecast, or another answer of that service."""
    properties = found.get("properties") if isinstance(found, Mapping) else None
    return isinstance(properties, Mapping) and ("periods" in properties or "forecastHourly" in properties)


def periods_of(found: object, *, name: str) -> HourFile:
    """An hourly forecast out of such JSON.

    Raises:
        InvalidPlan: with every complaint.
    """
    assert isinstance(found, Mapping)
    properties = found["properties"]
    periods = properties.get("periods")
    if not isinstance(periods, list) or not periods or not all(isinstance(each, Mapping) for each in periods):
        raise InvalidPlan(name, [InputError(_no_periods(properties))])
    if len(periods) > MOST_PERIODS:
        raise InvalidPlan(name, [InputError(f"{len(periods)} periods; at most {MOST_PERIODS} are read")])
    wrongs: list[Wrong] = []
    stamps = _stamps(periods, wrongs)
    columns = {element: _column(periods, element, reader, wrongs) for element, reader in _READERS.items()}
    refuse(name, wrongs, word=_WORD)
    ranged = any(" to " in str(each.get("windSpeed")) for each in periods)
    source = Source(
        name=name, form="a saved hourly forecast in periods", kind=WeatherKind.FORECAST,
        says=str(properties.get("forecastGenerator", ""))[:60], elevation=_elevation(properties),
        written=_written(properties), notes=(_AT_HIGHER,) if ranged else (), **_middle(found),
    )  # fmt: skip
    return HourFile(
        source=source, stamps=stamps, ending=False, lines=tuple(range(1, len(periods) + 1)), columns=columns,
        sky=tuple(str(each.get("shortForecast") or "")[:100] for each in periods),
    )  # fmt: skip


def _no_periods(properties: Mapping[str, object]) -> str:
    if isinstance(address := properties.get("forecastHourly"), str):
        return f"this only says where the forecast is; save what stands at {address[:120]} instead"
    return "no periods stand in it; save the hourly forecast again"


def _stamps(periods: Sequence[Mapping[str, object]], wrongs: list[Wrong]) -> tuple[datetime, ...]:
    stamps = []
    for at, period in enumerate(periods, start=1):
        start, end = (_moment(period.get(key)) for key in ("startTime", "endTime"))
        if start is None:
            wrongs.append(Wrong(at, "startTime with its offset is wanted, like 2026-05-03T14:00:00-06:00",
                                str(period.get("startTime"))))  # fmt: skip
            continue
        if end is not None and end - start > timedelta(hours=6):
            wrongs.append(Wrong(at, "lasts half a day; save the hourly forecast (forecast/hourly), not that by day"))
        stamps.append(start)
    return tuple(stamps)


def _moment(text: object) -> datetime | None:
    try:
        found = datetime.fromisoformat(text) if isinstance(text, str) else None
    except ValueError:
        return None
    return found if found is not None and found.tzinfo is not None else None


def _written(properties: Mapping[str, object]) -> datetime | None:
    told = (_moment(properties.get(key)) for key in ("updateTime", "updated", "generatedAt"))
    return next((moment for moment in told if moment is not None), None)


def _elevation(properties: Mapping[str, object]) -> float | None:
    told = properties.get("elevation")
    return (
        want(told, "value") if isinstance(told, Mapping) and symbol_of(str(told.get("unitCode", ""))) == "m" else None
    )


def _middle(found: Mapping[str, object]) -> dict[str, float]:
    """The middle of the square that it is for, where it says."""
    geometry = found.get("geometry")
    rings = geometry.get("coordinates") if isinstance(geometry, Mapping) else None
    ring = rings[0] if isinstance(rings, list) and rings and isinstance(rings[0], list) else []
    corners = [corner for corner in ring[:-1] if _on_earth(corner)]
    if not corners:
        return {}
    longitude, latitude = (math.radians(sum(corner[axis] for corner in corners) / len(corners)) for axis in (0, 1))
    return {"latitude": latitude, "longitude": longitude}


def _on_earth(corner: object) -> bool:
    if not isinstance(corner, list) or len(corner) != 2:
        return False
    longitude, latitude = (want({"at": each}, "at") for each in corner)
    return longitude is not None and latitude is not None and abs(longitude) <= 180 and abs(latitude) <= 90


def _column(
    periods: Sequence[Mapping[str, object]], element: Element, reader: Callable[[Mapping[str, object]], Given | str],
    wrongs: list[Wrong],
) -> Column:  # fmt: skip
    values, units = [], []
    for at, period in enumerate(periods, start=1):
        given = reader(period)
        if isinstance(given, str):
            wrongs.append(Wrong(at, f"{element} cannot be read: {given}"))
            given = _NOTHING
        values.append(given[0])
        units.append(given[1])
    return Column(values=tuple(values), units=tuple(units))


def _quantity(told: object, otherwise: object = None) -> Given | str:
    """A number, or an object of value and unit; missing where it is null."""
    if isinstance(told, Mapping):
        return _quantity(told.get("value") if "unitCode" in told else None, told.get("unitCode"))
    if told is None:
        return _NOTHING
    value = want({"value": told}, "value")
    if value is None:
        return f"{str(told)[:30]!r} is no number"
    symbol = symbol_of(str(otherwise))
    return (value, symbol) if symbol is not None else f"the unit {str(otherwise)[:30]!r} is not known"


def _wind(period: Mapping[str, object]) -> Given | str:
    told = period.get("windSpeed")
    if not isinstance(told, str):
        return _quantity(told)
    if not told.strip():
        return _NOTHING
    if told.strip().lower() == "calm":
        return (0.0, "m/s")
    match = _SPEED.fullmatch(told.strip().lower())
    symbol = symbol_of(match[3]) if match else None
    if match is None or symbol is None:
        return f"{told[:30]!r} is no speed like '5 mph' or '5 to 10 mph'"
    return max(float(match[1] or 0.0), float(match[2])), symbol


def _from(period: Mapping[str, object]) -> Given | str:
    told = period.get("windDirection")
    if isinstance(told, str):
        degrees = degrees_of(told)
        return (degrees, "deg") if degrees is not None else _NOTHING
    return _quantity(told, "deg")


_READERS: Mapping[Element, Callable[[Mapping[str, object]], Given | str]] = {
    Element.TEMPERATURE: lambda period: _quantity(period.get("temperature"), period.get("temperatureUnit")),
    Element.DEW_POINT: lambda period: _quantity(period.get("dewpoint")),
    Element.HUMIDITY: lambda period: _quantity(period.get("relativeHumidity")),
    Element.WIND: _wind,
    Element.WIND_FROM: _from,
    Element.RAIN_CHANCE: lambda period: _quantity(period.get("probabilityOfPrecipitation")),
}

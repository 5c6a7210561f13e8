"""Saved hourly forecasts laid out in columns: lists of values under `hourly`, their units under `hourly_units`."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, timedelta, timezone
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import Column, Element, HourFile, Source, WeatherKind
from pinfold.store.weather.spelled import symbol_of
from pinfold.store.weather.wrong import Wrong, refuse, want

MOST_ROWS = 20_000
_WORD = "hour"
_CREDIT = "Forecasts in this layout are commonly shared under CC BY 4.0: name their maker when you pass them on."


class _Name(NamedTuple):
    element: Element
    names: tuple[str, ...]
    before: bool = False


_NAMES = (
    _Name(Element.TEMPERATURE, ("temperature_2m",)),
    _Name(Element.HUMIDITY, ("relative_humidity_2m", "relativehumidity_2m")),
    _Name(Element.DEW_POINT, ("dew_point_2m", "dewpoint_2m")),
    _Name(Element.PRESSURE, ("surface_pressure",)),
    _Name(Element.WIND, ("wind_speed_10m", "windspeed_10m")),
    _Name(Element.WIND_FROM, ("wind_direction_10m", "winddirection_10m")),
    _Name(Element.CLOUD, ("cloud_cover", "cloudcover")),
    _Name(Element.GLOBAL, ("shortwave_radiation",), before=True),
    _Name(Element.BEAM, ("direct_normal_irradiance",), before=True),
    _Name(Element.DIFFUSE, ("diffuse_radiation",), before=True),
    _Name(Element.RAIN, ("precipitation",), before=True),
    _Name(Element.RAIN_CHANCE, ("precipitation_probability",), before=True),
)


def is_columns(found: object) -> bool:
    """Whether JSON is such a forecast, or several of them, or that service's refusal."""
    if isinstance(found, list) and found:
        return is_columns(found[0])
    if not isinstance(found, Mapping):
        return False
    return "hourly" in found or "utc_offset_seconds" in found or ("error" in found and "reason" in found)


def columns_of(found: object, *, name: str) -> HourFile:
    """An hourly forecast out of such JSON.

    Raises:
        InvalidPlan: with every complaint.
    """
    hourly, units, whole = _parts(found, name)
    wrongs: list[Wrong] = []
    zone = _zone(whole, wrongs)
    stamps = _stamps(hourly["time"], units.get("time"), wrongs)
    columns = {}
    for each in _NAMES:
        key = next((key for key in each.names if key in hourly), None)
        if key is not None:
            columns[each.element] = _column(key, each, (hourly, units), wrongs)
    if Element.TEMPERATURE not in columns:
        wrongs.append(Wrong(0, "temperature_2m is not among its columns; ask for it when the forecast is saved"))
    refuse(name, wrongs, word=_WORD)
    source = Source(
        name=name, form="a saved hourly forecast in columns", kind=WeatherKind.FORECAST,
        latitude=_angle(whole, "latitude"), longitude=_angle(whole, "longitude"), elevation=want(whole, "elevation"),
        notes=(_CREDIT,),
    )  # fmt: skip
    return HourFile(
        source=source, stamps=stamps, ending=False, lines=tuple(range(1, len(stamps) + 1)), columns=columns, zone=zone
    )


def _parts(
    found: object, name: str
) -> tuple[Mapping[str, Sequence[object]], Mapping[str, object], Mapping[str, object]]:
    """Its columns, their units, and the whole around them."""
    if isinstance(found, list):
        if len(found) > 1:
            raise InvalidPlan(name, [InputError(f"{len(found)} places stand in it; save the forecast of one")])
        found = found[0]
    assert isinstance(found, Mapping)
    if found.get("error"):
        raise InvalidPlan(name, [InputError(f"it holds a refusal, no forecast: {str(found.get('reason'))[:120]}")])
    hourly, units = found.get("hourly"), found.get("hourly_units", {})
    if not isinstance(hourly, Mapping) or not isinstance(hourly.get("time"), list) or not isinstance(units, Mapping):
        raise InvalidPlan(name, [InputError("no hours stand in it; ask for hourly columns when the forecast is saved")])
    lists = {str(key): column for key, column in hourly.items() if isinstance(column, list)}
    count = len(lists["time"])
    if not 0 < count <= MOST_ROWS:
        raise InvalidPlan(name, [InputError(f"{count} hours; 1 to {MOST_ROWS} are read")])
    if odd := [key for key, column in lists.items() if len(column) != count]:
        raise InvalidPlan(name, [InputError(f"{len(lists[key])} values beside {count} times; save it again, whole",
                                            place=f"hourly.{key}") for key in odd])  # fmt: skip
    return lists, units, found


def _angle(whole: Mapping[str, object], key: str) -> float | None:
    degrees = want(whole, key)
    most = 90 if key == "latitude" else 180
    return math.radians(degrees) if degrees is not None and abs(degrees) <= most else None


def _zone(whole: Mapping[str, object], wrongs: list[Wrong]) -> timezone | None:
    seconds = want(whole, "utc_offset_seconds")
    if seconds is None or abs(seconds) > 15 * 3600:
        wrongs.append(Wrong(0, "utc_offset_seconds is wanted: without it nobody knows when these hours are"))
        return None
    return timezone(timedelta(seconds=seconds))


def _stamps(column: Sequence[object], unit: object, wrongs: list[Wrong]) -> tuple[datetime, ...]:
    stamps = []
    for at, told in enumerate(column, start=1):
        try:
            if unit == "unixtime" and isinstance(told, int) and not isinstance(told, bool):
                stamps.append(datetime.fromtimestamp(told, UTC))
            elif isinstance(told, str):
                stamps.append(datetime.fromisoformat(told))
            else:
                raise ValueError
        except (ValueError, OverflowError, OSError):
            wrongs.append(Wrong(at, "a time is wanted, like 2026-05-03T14:00", str(told)))
    return tuple(stamps)


def _column(
    key: str, named: _Name, parts: tuple[Mapping[str, Sequence[object]], Mapping[str, object]], wrongs: list[Wrong]
) -> Column:
    hourly, units = parts
    symbol = symbol_of(str(units.get(key, "")))
    if symbol is None:
        wrongs.append(Wrong(0, f"hourly_units names no known unit for {key}", str(units.get(key, ""))))
    values = []
    for at, told in enumerate(hourly[key], start=1):
        value = want({key: told}, key)
        if value is None and told is not None:
            wrongs.append(Wrong(at, f"a number or null is wanted for {key}", str(told)))
        values.append(math.nan if value is None else value)
    return Column(values=tuple(values), units=(symbol or "",) * len(values), before=named.before)

"""EnergyPlus weather files (EPW): eight lines of heads, then a typical year, an hour a line."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime, timedelta, timezone
from typing import NamedTuple

from pinfold.plan.weather_file import Column, Element, HourFile, Source, WeatherKind
from pinfold.store.weather.wrong import Wrong, number, refuse

NO_RAIN = "The rain columns of typical years are broken in nearly all such files and are never used: rain is NOT SHOWN."
CUT = "The file ends in the middle of line {line}; what stands before is used."
_FEWEST = 23
_MOST_LINES = 60_000


class _Field(NamedTuple):
    element: Element
    place: int
    unit: str
    missing: float  # and all above it
    times: float = 1.0


_FIELDS = (
    _Field(Element.TEMPERATURE, 6, "°C", 99.9), _Field(Element.DEW_POINT, 7, "°C", 99.9),
    _Field(Element.HUMIDITY, 8, "%", 999), _Field(Element.PRESSURE, 9, "Pa", 999_999),
    _Field(Element.SKY_HEAT, 12, "W/m2", 9999), _Field(Element.GLOBAL, 13, "W/m2", 9999),
    _Field(Element.BEAM, 14, "W/m2", 9999), _Field(Element.DIFFUSE, 15, "W/m2", 9999),
    _Field(Element.WIND_FROM, 20, "deg", 999), _Field(Element.WIND, 21, "m/s", 999),
    _Field(Element.CLOUD, 22, "%", 99, times=10.0),
)  # fmt: skip


def is_epw(text: str) -> bool:
    """Whether a text is such a file."""
    return text.lstrip().upper().startswith("LOCATION,")


def epw_of(text: str, *, name: str) -> HourFile:
    """A typical year out of an EPW file.

    Raises:
        InvalidPlan: with every complaint.
    """
    lines = text.lstrip().split("\n")
    wrongs: list[Wrong] = []
    first = _first_row(lines, wrongs)
    place = _place(lines[0], wrongs)
    if len(lines) > _MOST_LINES:
        wrongs.append(Wrong(0, f"{len(lines)} lines; a year of hours has 8768"))
    refuse(name, wrongs)
    rows = [(at, line.split(",")) for at, line in enumerate(lines[first:], start=first + 1) if line.strip()]
    notes = [NO_RAIN]
    if rows and len(rows) > 1 and len(rows[-1][1]) < len(rows[0][1]):
        notes.append(CUT.format(line=rows.pop()[0]))
    stamps = _stamps(rows, wrongs)
    columns = {field.element: _column(rows, field, wrongs) for field in _FIELDS}
    if not rows:
        wrongs.append(Wrong(0, "no hours stand below the heads"))
    refuse(name, wrongs)
    source = Source(
        name=name, form="EPW", kind=WeatherKind.TYPICAL, says=place.says, latitude=math.radians(place.latitude),
        longitude=math.radians(place.longitude), elevation=place.elevation, notes=tuple(notes),
    )  # fmt: skip
    return HourFile(
        source=source, stamps=stamps, ending=True, lines=tuple(at for at, _ in rows), columns=columns,
        zone=timezone(timedelta(hours=place.hours)),
    )  # fmt: skip


class _Place(NamedTuple):
    says: str
    latitude: float
    longitude: float
    hours: float
    elevation: float


def _place(line: str, wrongs: list[Wrong]) -> _Place:
    cells = [cell.strip() for cell in line.split(",")]
    numbers = [number(cell) for cell in cells[6:10]]
    limits = (("latitude", 90), ("longitude", 180), ("hours off UTC", 15), ("elevation in m", 9000))
    if len(numbers) < 4:
        wrongs.append(Wrong(1, "LOCATION wants ten fields: city, state, country, source, station, latitude, longitude, "
                               "hours off UTC, elevation in m"))  # fmt: skip
        return _Place("", 0.0, 0.0, 0.0, 0.0)
    good = []
    for value, text, (what, most) in zip(numbers, cells[6:10], limits, strict=True):
        if value is None or abs(value) > most:
            wrongs.append(Wrong(1, f"LOCATION wants {what} there, as a number up to {most}", text))
        good.append(0.0 if value is None else value)
    return _Place(", ".join(filter(None, cells[1:4])), good[0], good[1], good[2], good[3])


def _first_row(lines: Sequence[str], wrongs: list[Wrong]) -> int:
    """Place of the first row of hours."""
    for at, line in enumerate(lines[:40]):
        if line.upper().startswith("DATA PERIODS"):
            cells = line.split(",")
            if len(cells) > 2 and cells[2].strip() not in {"", "1"}:
                wrongs.append(Wrong(at + 1, "rows an hour; files with one row an hour are read", cells[2]))
            return at + 1
    wrongs.append(Wrong(0, "the heads end before DATA PERIODS, the line that stands over the hours; the file is cut"))
    return len(lines)


def _stamps(rows: Sequence[tuple[int, list[str]]], wrongs: list[Wrong]) -> tuple[datetime, ...]:
    stamps = []
    for at, cells in rows:
        if len(cells) < _FEWEST:
            wrongs.append(Wrong(at, f"{len(cells)} fields; an hour of an EPW file has 35"))
            continue
        try:
            year, month, day, hour = (int(cell) for cell in cells[:4])
            if not 1 <= hour <= 24:
                raise ValueError
            stamps.append(datetime(year, month, day) + timedelta(hours=hour))  # noqa: DTZ001 - by the file's clock
        except (ValueError, OverflowError):
            wrongs.append(Wrong(at, "year, month, day and hour from 1 to 24 are wanted", ",".join(cells[:4])))
    return tuple(stamps)


def _column(rows: Sequence[tuple[int, list[str]]], field: _Field, wrongs: list[Wrong]) -> Column:
    values = []
    for at, cells in rows:
        text = cells[field.place] if len(cells) > field.place else ""
        value = number(text) if text.strip() else math.nan
        if value is None:
            wrongs.append(Wrong(at, f"a number is wanted for {field.element} (field {field.place + 1})", text))
        values.append(math.nan if value is None or value >= field.missing else value * field.times)
    return Column(values=tuple(values), units=(field.unit,) * len(values))

"""TMY3 files: a line about the station, a line of heads, then a typical year."""

from __future__ import annotations

import csv
import io
import math
import re
from dataclasses import replace
from datetime import datetime, timedelta, timezone

from pinfold.plan.weather_file import Column, Element, HourFile, Source, WeatherKind
from pinfold.store.weather.csv_hours import columns_in
from pinfold.store.weather.epw import NO_RAIN
from pinfold.store.weather.sheet import Sheet, sheet_of
from pinfold.store.weather.wrong import Wrong, number, refuse

_HEADS = re.compile(r"date \(mm/dd/yyyy\)\s*,\s*time \(hh:mm\)", re.IGNORECASE)
_LIMITS = (("hours off UTC", 15.0), ("latitude", 90.0), ("longitude", 180.0), ("elevation in m", 9000.0))
_CLOUD = "totcld"


def is_tmy3(text: str) -> bool:
    """Whether a text is such a file."""
    _, _, rest = text.lstrip().partition("\n")
    return _HEADS.match(rest.lstrip()) is not None


def tmy3_of(text: str, *, name: str) -> HourFile:
    """A typical year out of a TMY3 file.

    Raises:
        InvalidPlan: with every complaint.
    """
    text = text.lstrip()
    wrongs: list[Wrong] = []
    source, zone = _station(text.partition("\n")[0], name, wrongs)
    refuse(name, wrongs)
    sheet = _plain(sheet_of(text, name=name, above=1))
    stamps = _stamps(sheet, wrongs)
    columns = columns_in(sheet, wrongs)
    if not sheet.rows:
        wrongs.append(Wrong(0, "no hours stand below the heads"))
    refuse(name, wrongs)
    if Element.CLOUD in columns:  # tenths, as shares of a hundred
        tenths = columns[Element.CLOUD].values
        columns[Element.CLOUD] = Column(values=tuple(10 * each for each in tenths), units=("%",) * len(tenths))
    columns.pop(Element.RAIN, None)
    source = replace(source, notes=(*sheet.notes, NO_RAIN))
    return HourFile(source=source, stamps=stamps, ending=True, lines=sheet.lines, columns=columns, zone=zone)


def _station(line: str, name: str, wrongs: list[Wrong]) -> tuple[Source, timezone]:
    cells = [cell.strip() for cell in next(csv.reader(io.StringIO(line)), [])]
    numbers = [number(cell) for cell in cells[3:7]]
    if len(numbers) < 4:
        wrongs.append(Wrong(1, "the station's line wants seven fields: number, name, state, hours off UTC, latitude, "
                               "longitude, elevation in m"))  # fmt: skip
        numbers = [0.0] * 4
    good = []
    for value, text, (what, most) in zip(numbers, (*cells[3:7], *("",) * 4), _LIMITS, strict=False):
        if value is None or abs(value) > most:
            wrongs.append(Wrong(1, f"{what} is wanted there, as a number up to {most:g}", text))
        good.append(0.0 if value is None or abs(value) > most else value)
    hours, latitude, longitude, elevation = good
    source = Source(
        name=name, form="TMY3", kind=WeatherKind.TYPICAL, says=", ".join(filter(None, cells[1:3])),
        latitude=math.radians(latitude), longitude=math.radians(longitude), elevation=elevation,
    )  # fmt: skip
    return source, timezone(timedelta(hours=hours))


def _plain(sheet: Sheet) -> Sheet:
    """With the unit of clouds spelled as a table's: the files write tenths."""
    heads = tuple(head._replace(unit="%") if head.name == _CLOUD else head for head in sheet.heads)
    return sheet._replace(heads=heads)


def _stamps(sheet: Sheet, wrongs: list[Wrong]) -> tuple[datetime, ...]:
    stamps = []
    for line, row in zip(sheet.lines, sheet.rows, strict=True):
        try:
            month, day, year = (int(each) for each in row[0].split("/"))
            hour, minute = (int(each) for each in row[1].split(":"))
            if not 0 <= hour <= 24 or not 0 <= minute < 60:
                raise ValueError
            stamps.append(datetime(year, month, day) + timedelta(hours=hour, minutes=minute))  # noqa: DTZ001 - file's clock
        except (ValueError, OverflowError):
            wrongs.append(Wrong(line, "a date and time are wanted, like 01/31/1988,14:00", ",".join(row[:2])))
    return tuple(stamps)

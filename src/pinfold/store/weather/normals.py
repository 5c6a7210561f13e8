"""Twelve monthly normals: in a table with a column of months, or in TOML with twelve values a key."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping, Sequence

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import Column, MonthFile, Normal, Source, WeatherKind
from pinfold.store.weather.sheet import Sheet, given, head_of, wrongs_in
from pinfold.store.weather.spelled import symbol_of
from pinfold.store.weather.wrong import Wrong, refuse
from pinfold.units import UNIT_BY_SYMBOL

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_KINDS: Mapping[Normal, tuple[str, str]] = {
    Normal.HIGH: ("temperature", "C"), Normal.LOW: ("temperature", "C"), Normal.HIGH_DEVIATION: ("temperature", "C"),
    Normal.LOW_DEVIATION: ("temperature", "C"), Normal.RAIN: ("length", "mm"), Normal.WET_DAYS: ("", ""),
    Normal.RAIN_DAY: ("length", "mm"), Normal.RAIN_DEVIATION: ("length", "mm"),
    Normal.WET_AFTER_WET: ("plain number", "%"), Normal.WET_AFTER_DRY: ("plain number", "%"),
    Normal.DEW_POINT: ("temperature", "C"), Normal.WIND: ("speed", "km/h"),
}  # fmt: skip
"""Kind of unit of each, and one that it may be written in."""
_PLACES = frozenset({"place", "latitude", "longitude", "elevation"})


def has_months(sheet: Sheet) -> bool:
    """Whether a table has a row for each month."""
    names = {head.name for head in sheet.heads}
    return "month" in names and bool(names & {Normal.HIGH, Normal.LOW})


def months_of(sheet: Sheet, *, name: str) -> MonthFile:
    """Normals out of a table.

    Raises:
        InvalidPlan: with every complaint.
    """
    wrongs: list[Wrong] = []
    months = sheet.column(next(at for at, head in enumerate(sheet.heads) if head.name == "month"))
    places = [_month(text, line, wrongs) for text, line in zip(months, sheet.lines, strict=True)]
    if not wrongs and sorted(places) != list(range(12)):
        wrongs.append(Wrong(0, f"{len(places)} months stand in it; each of the twelve is wanted once"))
    refuse(name, wrongs)
    order = sorted(range(12), key=lambda at: places[at])
    columns = {}
    for at, head in enumerate(sheet.heads):
        if head.name in set(Normal):
            cells = sheet.column(at)
            columns[Normal(head.name)] = ([cells[row] for row in order], head.unit, [sheet.lines[row] for row in order])
    return _file(columns, name, "a table of monthly normals", wrongs)


def _month(text: str, line: int, wrongs: list[Wrong]) -> int:
    small = text.lower()[:3]
    if text.isdecimal() and len(text) < 3 and 1 <= int(text) <= 12:
        return int(text) - 1
    if small in MONTHS:
        return MONTHS.index(small)
    wrongs.append(Wrong(line, "a month is wanted, from 1 to 12 or by its name", text))
    return -1


def are_normals(text: str) -> bool:
    """Whether a text is TOML with a table `normals`."""
    return any(line.strip() == "[normals]" for line in text.split("\n"))


def normals_of(text: str, *, name: str) -> MonthFile:
    """Normals out of TOML: `[normals]`, keys like `"high (F)" = [32.9, …]`.

    Raises:
        InvalidPlan: with every complaint.
    """
    try:
        table = tomllib.loads(text).get("normals")
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as fault:
        raise InvalidPlan(name, [InputError(f"not readable as TOML: {str(fault)[:120]}")]) from None
    if not isinstance(table, Mapping):
        raise InvalidPlan(name, [InputError("[normals] is a table of keys like '\"high (F)\" = [32.9, 41.6, …]'")])
    wrongs: list[Wrong] = []
    columns = {}
    for key, values in table.items():
        head = head_of(str(key))
        if head.name in _PLACES:
            continue
        if head.name not in set(Normal):
            wrongs.append(Wrong(0, f"no normal is called so; there are {', '.join(Normal)}", head.name))
        elif not isinstance(values, list) or len(values) != 12:
            wrongs.append(Wrong(0, f"{head.name} wants twelve values in [brackets], January first"))
        else:
            columns[Normal(head.name)] = ([str(value) for value in values], head.unit, [0] * 12)
    return _file(columns, name, "monthly normals", wrongs, says=str(table.get("place", ""))[:60])


def _file(
    columns: Mapping[Normal, tuple[Sequence[str], str, Sequence[int]]], name: str, form: str, wrongs: list[Wrong],
    *, says: str = "",
) -> MonthFile:  # fmt: skip
    normals = {normal: _column(normal, *column, wrongs) for normal, column in columns.items()}
    lacking = [wanted for wanted in (Normal.HIGH, Normal.LOW) if wanted not in normals]
    wrongs += [Wrong(0, f"{wanted} is wanted for each month, like '{wanted} (F)'") for wanted in lacking]
    refuse(name, wrongs)
    source = Source(name=name, form=form, kind=WeatherKind.NORMALS, says=says)
    return MonthFile(source=source, normals=normals)


def _column(normal: Normal, texts: Sequence[str], spelled: str, lines: Sequence[int], wrongs: list[Wrong]) -> Column:
    kind, example = _KINDS[normal]
    bare = kind in ("", "plain number") and not spelled
    unit = "-" if bare else symbol_of(spelled)
    if unit is None or (kind and UNIT_BY_SYMBOL[unit].kind != kind):
        wrongs.append(Wrong(0, f"the head of {normal} names no unit for it; write it like '{normal} ({example})'"))
        unit = ""
    cells = [given(text, unit) for text in texts]
    wrongs += wrongs_in(str(normal), cells, lines, texts, kind=kind)
    empty = [line for cell, line in zip(cells, lines, strict=True) if math.isnan(cell.value) and not cell.wrong]
    wrongs += [Wrong(line, f"{normal}: a value is wanted for each month") for line in empty]
    return Column(values=tuple(cell.value for cell in cells), units=tuple(cell.unit for cell in cells))

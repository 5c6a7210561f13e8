"""Daily lows and highs: typed or pasted, a day a line like `2026-05-03 41 78 F`, or in a table."""

from __future__ import annotations

import re
from datetime import date

from pinfold.plan.weather_file import Column, DayFile, Source, WeatherKind
from pinfold.store.weather.sheet import Given, Sheet, given, wrongs_in
from pinfold.store.weather.spelled import symbol_of
from pinfold.store.weather.wrong import Wrong, number, refuse

LOWS = ("low", "minimum", "min", "lowest", "temp min", "temperature 2m min", "tmin")
HIGHS = ("high", "maximum", "max", "highest", "temp max", "temperature 2m max", "tmax")
DAYS = ("date", "day")
_SKY = ("sky", "forecast", "conditions")
_LINE = re.compile(
    r"(\d{4}-\d{1,2}-\d{1,2})[\s,;:]+([-+]?[\d.]+)\s*(°?\s*[CFcf]?)\s*(?:[\s,;/]|to)\s*([-+]?[\d.]+)\s*(°?\s*[CFcf]?)"
    r"(?:[\s,;]+(.*))?"
)
_WANTED = "a day with its low, high and unit is wanted, like '2026-05-03 41 78 F'"
_SWAPPED = "the low is above the high; write the low first"


def has_days(sheet: Sheet) -> bool:
    """Whether a table has daily lows and highs."""
    names = {head.name for head in sheet.heads}
    return all(names & set(wanted) for wanted in (DAYS, LOWS, HIGHS))


def are_days(text: str) -> bool:
    """Whether a text is days typed one a line."""
    lines = [line.strip() for line in text.split("\n") if line.strip() and not line.lstrip().startswith("#")]
    return bool(lines) and _LINE.fullmatch(lines[0]) is not None


def days_of(sheet: Sheet, *, name: str) -> DayFile:
    """Days out of a table.

    Raises:
        InvalidPlan: with every complaint.
    """
    wrongs: list[Wrong] = []
    days = [_day(text, line, wrongs) for text, line in zip(_cells(sheet, DAYS), sheet.lines, strict=True)]
    both = []
    for names in (LOWS, HIGHS):
        place = _place(sheet, names)
        head, texts = sheet.heads[place], sheet.column(place)
        unit = _degrees(head.unit)
        if unit is None:
            wrongs.append(Wrong(0, f"the head of {head.name} names no unit; write it like '{head.name} (F)' or '(C)'"))
        cells = [given(text, unit or "") for text in texts]
        wrongs += wrongs_in(head.name, cells, sheet.lines, texts, kind="temperature")
        both.append(cells)
    sky = _cells(sheet, _SKY) if _has(sheet, _SKY) else ()
    return _file(name, "a table of days", (days, both[0], both[1]), lines=sheet.lines, sky=sky, wrongs=wrongs,
                 notes=sheet.notes)  # fmt: skip


def days_typed(text: str, *, name: str) -> DayFile:
    """Days out of lines.

    Raises:
        InvalidPlan: with every complaint.
    """
    wrongs: list[Wrong] = []
    days, lows, highs, lines, sky = [], [], [], [], []
    for at, line in enumerate(text.split("\n"), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        match = _LINE.fullmatch(line.strip())
        unit = _degrees((match[5] or match[3]) if match else "")
        if match is None or unit is None:
            wrongs.append(Wrong(at, _WANTED, line.strip()))
            continue
        lines.append(at)
        days.append(_day(match[1], at, wrongs))
        lows.append(_number(match[2], _degrees(match[3]) or unit, at, wrongs))
        highs.append(_number(match[4], unit, at, wrongs))
        sky.append((match[6] or "").strip()[:100])
    return _file(name, "days typed by hand", (days, lows, highs), lines=tuple(lines), sky=tuple(sky), wrongs=wrongs)


def _number(text: str, unit: str, line: int, wrongs: list[Wrong]) -> Given:
    value = number(text)
    if value is None:
        wrongs.append(Wrong(line, _WANTED, text))
    return Given(float("nan") if value is None else value, unit)


def _degrees(spelled: str) -> str | None:
    symbol = symbol_of(spelled.replace(" ", "")) if spelled.strip() else None
    return symbol if symbol in ("°C", "°F") else None


def _day(text: str, line: int, wrongs: list[Wrong]) -> date | None:
    try:
        year, month, day = (int(part) for part in text.split("-"))
        if not 1900 <= year <= 2200:
            raise ValueError
        return date(year, month, day)
    except ValueError:
        wrongs.append(Wrong(line, "a day is wanted, like 2026-05-03", text))
        return None


def _file(
    name: str, form: str, found: tuple[list[date | None], list[Given], list[Given]], *, lines: tuple[int, ...],
    sky: tuple[str, ...], wrongs: list[Wrong], notes: tuple[str, ...] = (),
) -> DayFile:  # fmt: skip
    days, lows, highs = found
    seen: set[date] = set()
    for day, low, high, line in zip(days, lows, highs, lines, strict=True):
        if day is not None and day in seen:
            wrongs.append(Wrong(line, "this day stands there twice; take one of the two out", str(day)))
        seen |= {day} if day is not None else set()
        if low.unit == high.unit and low.value > high.value:
            wrongs.append(Wrong(line, _SWAPPED, f"{low.value:g} {high.value:g}"))
    if not days and not wrongs:
        wrongs.append(Wrong(0, "no days stand in it"))
    refuse(name, wrongs)
    source = Source(name=name, form=form, kind=WeatherKind.DAILY, notes=notes)
    both = [Column(values=tuple(cell.value for cell in cells), units=tuple(cell.unit for cell in cells))
            for cells in (lows, highs)]  # fmt: skip
    whole = tuple(day for day in days if day is not None)
    return DayFile(source=source, days=whole, lines=lines, lows=both[0], highs=both[1], sky=sky)


def _has(sheet: Sheet, names: tuple[str, ...]) -> bool:
    return any(head.name in names for head in sheet.heads)


def _place(sheet: Sheet, names: tuple[str, ...]) -> int:
    return next(at for at, head in enumerate(sheet.heads) if head.name in names)


def _cells(sheet: Sheet, names: tuple[str, ...]) -> tuple[str, ...]:
    return sheet.column(_place(sheet, names))

"""Hours in a plain table: a column of times, and columns whose heads name what they are of and in which unit."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from pinfold.plan.weather_file import UNIT_OF, Column, Element, HourFile, Source, WeatherKind
from pinfold.store.weather.heads import ELEMENT_OF, ENDINGS, EXAMPLES, SKY, TIMES
from pinfold.store.weather.sheet import Given, Sheet, given, wrongs_in
from pinfold.store.weather.spelled import degrees_of, symbol_of
from pinfold.store.weather.wrong import Wrong, refuse
from pinfold.units import UNIT_BY_SYMBOL

_TIME = "a time is wanted, like 2026-05-03 14:00 or 2026-05-03T14:00-06:00"


def has_hours(sheet: Sheet) -> bool:
    """Whether a table has hours: a column of times, or of dates beside one of hours."""
    names = {head.name for head in sheet.heads}
    return bool(names & {*TIMES, *ENDINGS}) or {"date", "hour"} <= names


def hours_of(sheet: Sheet, *, name: str) -> HourFile:
    """Hours out of a table.

    Raises:
        InvalidPlan: with every complaint.
    """
    wrongs: list[Wrong] = []
    if not sheet.rows:
        wrongs.append(Wrong(0, "no rows stand below the heads"))
    stamps = _stamps(sheet, wrongs)
    columns = columns_in(sheet, wrongs)
    if Element.TEMPERATURE not in columns:
        wrongs.append(Wrong(0, f"no column is headed {EXAMPLES[Element.TEMPERATURE]!r} or '(F)'"))
    refuse(name, wrongs)
    ending = any(head.name in ENDINGS for head in sheet.heads)
    notes = (*sheet.notes, *_mixed(columns), *_unused(sheet))
    foreseen = Element.RAIN_CHANCE in columns or bool(_words(sheet))
    kind = WeatherKind.FORECAST if foreseen else WeatherKind.MEASURED
    source = Source(name=name, form="a table of hours", kind=kind, notes=notes)
    return HourFile(
        source=source, stamps=stamps, ending=ending, lines=sheet.lines, columns=columns, sky=_words(sheet)
    )  # fmt: skip


def columns_in(sheet: Sheet, wrongs: list[Wrong]) -> dict[Element, Column]:
    """The columns that are of something known."""
    found: dict[Element, Column] = {}
    for place, head in enumerate(sheet.heads):
        element = ELEMENT_OF.get(head.name)
        if element is None:
            continue
        if element in found:
            wrongs.append(Wrong(0, f"two columns are of {element}; take one out"))
        unit = _unit(element, head.unit, wrongs)
        texts = sheet.column(place)
        cells = [_cell(element, text, unit) for text in texts]
        wrongs += wrongs_in(str(element), cells, sheet.lines, texts, kind=UNIT_OF[element].kind)
        found[element] = Column(values=tuple(cell.value for cell in cells), units=tuple(cell.unit for cell in cells))
    return found


def _cell(element: Element, text: str, unit: str) -> Given:
    degrees = degrees_of(text) if element is Element.WIND_FROM else None
    if degrees is not None:
        return Given(degrees, "deg")
    return given(text, unit)


def _unit(element: Element, spelled: str, wrongs: list[Wrong]) -> str:
    if element is Element.WIND_FROM and not spelled:
        return "deg"
    symbol = symbol_of(spelled) if spelled else None
    if symbol is None:
        why = f"names the unit {spelled[:20]!r}, which is not known" if spelled else "names no unit"
        wrongs.append(Wrong(0, f"the head of {element} {why}; write it like {EXAMPLES[element]!r}"))
        return ""
    if UNIT_BY_SYMBOL[symbol].kind != UNIT_OF[element].kind:
        wrongs.append(Wrong(0, f"the head of {element} names {symbol}; write it like {EXAMPLES[element]!r}"))
        return ""
    return symbol


def _stamps(sheet: Sheet, wrongs: list[Wrong]) -> tuple[datetime, ...]:
    names = [head.name for head in sheet.heads]
    place = next((at for at, name in enumerate(names) if name in {*TIMES, *ENDINGS}), None)
    if "date" in names and (place is None or names[place] == "time"):
        hour = sheet.column(names.index("hour") if place is None else place)
        texts = [f"{day} {_clock(time)}" for day, time in zip(sheet.column(names.index("date")), hour, strict=True)]
    else:
        assert place is not None, "a table of hours has times"
        texts = list(sheet.column(place))
    stamps = []
    for line, text in zip(sheet.lines, texts, strict=True):
        try:
            stamps.append(moment_of(text))
        except (ValueError, OverflowError):
            wrongs.append(Wrong(line, _TIME, text))
    return tuple(stamps)


def _clock(text: str) -> str:
    return f"{int(text):02d}:00" if text.isdecimal() and len(text) < 3 else text


def moment_of(text: str) -> datetime:
    """A time in ISO form; 24:00 is the end of the day.

    Raises:
        ValueError: it is none.
    """
    day, gap, clock = text[:10], text[10:11], text[11:]
    if gap in ("T", " ") and clock.startswith("24:00"):
        return datetime.fromisoformat(f"{day}T00:00{clock[5:]}") + timedelta(days=1)
    found = datetime.fromisoformat(text)
    if not 1900 <= found.year <= 2200 or len(text) < len("2026-05-03T1"):
        raise ValueError
    return found


def _words(sheet: Sheet) -> tuple[str, ...]:
    place = next((at for at, head in enumerate(sheet.heads) if head.name in SKY), None)
    return () if place is None else tuple(text[:100] for text in sheet.column(place))


def _mixed(columns: Mapping[Element, Column]) -> tuple[str, ...]:
    """Which columns have rows in several units."""
    units = {element: sorted(set(column.units)) for element, column in columns.items()}
    return tuple(
        f"{str(element).capitalize()} is given in {' and '.join(several)}; each row is taken in its own."
        for element, several in units.items()
        if len(several) > 1
    )


def _unused(sheet: Sheet) -> tuple[str, ...]:
    known = {*TIMES, *ENDINGS, *SKY, *ELEMENT_OF, "date", "hour"}
    others = [head.name[:30] for head in sheet.heads if head.name and head.name not in known]
    return (f"Columns that are not used: {', '.join(others[:12])}.",) if others else ()

"""Rows onto hours without a gap: a typical year into one year, several rows an hour into their mean."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta, timezone, tzinfo

import numpy as np
from numpy.typing import NDArray

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import UNIT_OF, Column, Element, HourFile, WeatherKind
from pinfold.studies.weather.clocks import HOUR, moments_of
from pinfold.studies.weather.records import Hours, Weather
from pinfold.units import UNIT_BY_SYMBOL

MOST_HOURS = 24 * 800
_DAY = 24


def on_hours(file: HourFile, zone: tzinfo | None, *, year: int) -> Weather:
    """A file's rows as hours, in SI, as it gives them; what no row stands for is not a number.

    Args:
        file: as read
        zone: clock of the place; None where the plan does not say
        year: that a typical year is told in

    Raises:
        InvalidPlan: nobody knows when its hours are, or they are spread over years.
    """
    if file.source.kind is WeatherKind.TYPICAL:
        return _typical(file, zone, year)
    begins, told = moments_of(file, zone)
    start = _floor(min(begins), file.zone or zone or UTC)
    places = np.array([(begin - start) // HOUR for begin in begins])
    count = int(places.max()) + 1
    if count > MOST_HOURS:
        first, last = (f"{moment:%Y-%m-%d}" for moment in (min(begins), max(begins)))
        wrong = InputError(f"its hours go from {first} to {last}; two years are the most; look for a mistyped year")
        raise InvalidPlan(file.source.name, [wrong])
    shifted = any(column.before for column in file.columns.values()) and not file.ending and count > 1
    series = {
        element: _laid(column, element, places - (1 if column.before and not file.ending else 0), count)
        for element, column in file.columns.items()
    }
    kept = {element: hours[: count - 1] if shifted else hours for element, hours in series.items()}
    notes = (*file.source.notes, *told, *_crowded(places))
    return _weather(file, start=start, zone=zone or file.zone or _zone_of(file), series=kept, notes=notes)


def _floor(moment: datetime, clock: tzinfo) -> datetime:
    """Down to the whole hour of a clock; some clocks are half an hour off."""
    there = moment.astimezone(clock)
    return moment - timedelta(minutes=there.minute, seconds=there.second, microseconds=there.microsecond)


def _zone_of(file: HourFile) -> tzinfo:
    return timezone(file.stamps[0].utcoffset() or timedelta())


def _typical(file: HourFile, zone: tzinfo | None, year: int) -> Weather:
    """All of a typical year in one year, by its own standard time; 29 February as the day before where it lacks one."""
    assert file.zone is not None, "a typical year says its offset"
    back = HOUR if file.ending else timedelta()
    first = datetime(year, 1, 1)  # noqa: DTZ001 - by the file's clock, like its stamps
    count = (datetime(year + 1, 1, 1) - first) // HOUR  # noqa: DTZ001
    begins = [stamp - back for stamp in file.stamps]
    leap = count > 365 * _DAY
    keep = np.array([leap or (begin.month, begin.day) != (2, 29) for begin in begins])
    places = np.array([(begin.replace(year=year) - first) // HOUR if kept else 0
                       for begin, kept in zip(begins, keep, strict=True)])[keep]  # fmt: skip
    series = {element: _laid(_kept(column, keep), element, places, count) for element, column in file.columns.items()}
    notes = [*file.source.notes, *_years(begins, year), *_crowded(places)]
    february = slice((31 + 28) * _DAY, (31 + 29) * _DAY)
    copied = leap and not any((begin.month, begin.day) == (2, 29) for begin in begins)
    marks = {element: np.zeros(count, dtype=bool) for element in series}
    if copied:
        for element, hours in series.items():
            hours[february] = hours[february.start - _DAY : february.start]
            marks[element][february] = True
        notes.append("29 February is taken like the day before.")
    start = first.replace(tzinfo=file.zone).astimezone(UTC)
    return _weather(file, start=start, zone=zone or file.zone, series=series, notes=tuple(notes), marks=marks)


def _kept(column: Column, keep: NDArray[np.bool_]) -> Column:
    def of(cells: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(cell for cell, kept in zip(cells, keep, strict=True) if kept)

    return Column(values=of(column.values), units=of(column.units), before=column.before)  # type: ignore[arg-type]


def _years(begins: list[datetime], year: int) -> tuple[str, ...]:
    years = sorted({begin.year for begin in begins})
    if len(years) == 1:
        return (f"A typical year, told in {year}.",)
    return (f"A typical year: its months come from {len(years)} years, {years[0]} to {years[-1]}; told in {year}.",)


def _laid(column: Column, element: Element, places: NDArray[np.int_], count: int) -> Hours:
    """A column in SI, laid on the hours: the mean of all rows of an hour, of rain their sum."""
    values = in_si(column, element)
    good = np.isfinite(values) & (places >= 0) & (places < count)
    if element is Element.WIND_FROM:
        east = _sums(np.sin(values), places, good, count)
        north = _sums(np.cos(values), places, good, count)
        laid = np.arctan2(east, north) % (2 * np.pi)
    else:
        laid = _sums(values, places, good, count)
    rows = np.bincount(places[good], minlength=count)
    if element not in {Element.RAIN, Element.WIND_FROM}:
        laid = laid / np.maximum(rows, 1)
    return np.where(rows > 0, laid, np.nan)


def _sums(values: Hours, places: NDArray[np.int_], good: NDArray[np.bool_], count: int) -> Hours:
    sums: Hours = np.bincount(places[good], weights=values[good], minlength=count).astype(float)
    return sums


def in_si(column: Column, element: Element) -> Hours:
    """A column's values in the SI unit of what it is of, °C for temperatures.

    Raises:
        InvalidPlan: a unit of another kind.
    """
    values, units = np.array(column.values, dtype=float), np.array(column.units)
    for symbol in sorted(set(column.units) - {""}):
        unit = UNIT_BY_SYMBOL[symbol]
        if unit.kind != UNIT_OF[element].kind:
            wanted = UNIT_OF[element].kind
            raise InvalidPlan(str(element), [InputError(f"is given in {symbol}, which is no {wanted}")])
        rows = units == symbol
        values[rows] = values[rows] * unit.factor + unit.offset
    return values


def _crowded(places: NDArray[np.int_]) -> tuple[str, ...]:
    rows = np.bincount(places)
    several = int((rows > 1).sum())
    if not several:
        return ()
    if several > 0.8 * (rows > 0).sum():
        return ("Several rows stand for each hour; their mean is taken, of rain their sum.",)
    return (f"{several} hour{'s have' if several > 1 else ' has'} more than one row; the mean of them is taken.",)


def _weather(
    file: HourFile, *, start: datetime, zone: tzinfo, series: Mapping[Element, Hours], notes: tuple[str, ...],
    marks: Mapping[Element, NDArray[np.bool_]] | None = None,
) -> Weather:  # fmt: skip
    source = file.source
    count = len(next(iter(series.values())))
    return Weather(
        kind=source.kind, says=", ".join(filter(None, (source.name, source.says))), start=start, zone=zone,
        series=series, estimated=marks or {element: np.zeros(count, dtype=bool) for element in series},
        latitude=source.latitude, longitude=source.longitude, elevation=source.elevation, written=source.written,
        notes=notes,
    )  # fmt: skip

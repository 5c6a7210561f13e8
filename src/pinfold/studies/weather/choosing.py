"""Which of several sources the days are reckoned with: the newest forecast that is not over, else a typical year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

import numpy as np

from pinfold.studies.weather.clocks import HOUR
from pinfold.studies.weather.records import Element, Weather, WeatherKind

COMING = frozenset({WeatherKind.FORECAST, WeatherKind.DAILY, WeatherKind.MEASURED})
"""Kinds whose hours are those of a certain day; the others stand for any year."""
STALE = timedelta(days=3)


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """What the days are reckoned with.

    Attributes:
        coming: hours of these days, from the hour that is now; None where no forecast reaches past it.
        year: hours that stand for any year; None where there are none.
        notes: which was taken and why, in plain words, and all doubts.
        doubts: what speaks against relying on what was taken.
    """

    coming: Weather | None
    year: Weather | None
    notes: tuple[str, ...]
    doubts: tuple[str, ...]


def chosen(sources: Sequence[Weather], *, now: datetime) -> Chosen:
    """The newest forecast that reaches past now, and a typical year for the rest.

    Args:
        sources: all that could be read
        now: with its offset
    """
    able = [each for each in sources if each.has(Element.TEMPERATURE)]
    coming = sorted((each for each in able if each.kind in COMING), key=worth)
    years = sorted((each for each in able if each.kind not in COMING), key=lambda each: each.kind is not _BEST)
    ahead = [each for each in coming if _end(each) > now]
    best, year = (ahead[-1] if ahead else None), (years[0] if years else None)
    notes = [f"{each.says} is not used: it has no air temperature." for each in sources if each not in able]
    notes += [text for each in coming for text in over(each, now)]
    notes += [
        f"{each.says} counts for hours that {best.says} does not have." for each in ahead[:-1] if best is not None
    ]
    if best is not None:
        notes += _age(best, now)
    if year is not None:
        notes.append(f"{year.says} stands for {'the days after it' if best is not None else 'every day'}.")
        notes += [f"{each.says} is not used: {year.says} is." for each in years[1:]]
    if best is not None and year is not None:
        notes += _unusual(best, year)
    used = [each for each in (best, year, *(each for each in sources if each not in able)) if each is not None]
    doubts = tuple(f"{each.says}: {doubt}" for each in used for doubt in each.doubts)
    return Chosen(
        coming=None if best is None else from_hour(best, now), year=year, notes=(*notes, *doubts), doubts=doubts
    )  # fmt: skip


_BEST = WeatherKind.TYPICAL
_FAR_OFF = 15.0


def _unusual(weather: Weather, year: Weather) -> list[str]:
    """Whether it is far warmer or colder than such days are, as Fahrenheit marked Celsius in winter is."""
    if not (weather.has(Element.TEMPERATURE) and year.has(Element.TEMPERATURE)):
        return []
    usual = of_any_year(year, weather.start, weather.count).of(Element.TEMPERATURE)
    off = float(np.nanmean(weather.of(Element.TEMPERATURE) - usual))
    if not abs(off) > _FAR_OFF:
        return []
    word = "warmer" if off > 0 else "colder"
    return [f"{weather.says} is {abs(off):.0f} K {word} than {year.says} on such days: look whether its unit is right."]


def worth(weather: Weather) -> tuple[bool, date, bool, datetime]:
    """What was measured counts most, then what is newest; of one day, hours before days that were shaped into hours."""
    made = _made(weather)
    measured, shaped = weather.kind is WeatherKind.MEASURED, weather.kind is WeatherKind.DAILY
    return measured, made.astimezone(weather.zone).date(), not shaped, made


def _made(weather: Weather) -> datetime:
    return weather.written or weather.start


def over(weather: Weather, now: datetime) -> tuple[str, ...]:
    """That hours of certain days are over, where they are."""
    if weather.kind not in COMING or _end(weather) > now:
        return ()
    end = f"{_end(weather).astimezone(weather.zone):%Y-%m-%d %H:%M}"
    if weather.kind is WeatherKind.MEASURED:
        return (f"{weather.says} has measured hours up to {end}.",)
    return (f"{weather.says} ended on {end}: it is over and not used.",)


def _end(weather: Weather) -> datetime:
    return weather.start + weather.count * HOUR


def _age(weather: Weather, now: datetime) -> list[str]:
    end, age = _end(weather).astimezone(weather.zone), now - _made(weather)
    notes = [f"{weather.says} is used up to {end:%Y-%m-%d %H:%M}."]
    if age > STALE:
        notes.append(f"{weather.says} is {age.days} days old: get a newer one before you rely on it.")
    return notes


def from_hour(weather: Weather, now: datetime) -> Weather:
    """Its hours from the one that is now; all of them where they begin later."""
    gone = max((now.astimezone(UTC) - weather.start) // HOUR, 0)
    return cut(weather, gone, weather.count)


def cut(weather: Weather, first: int, end: int) -> Weather:
    """Its hours from one place up to another."""
    return replace(
        weather, start=weather.start + first * HOUR,
        series={each: hours[first:end] for each, hours in weather.series.items()},
        estimated={each: marks[first:end] for each, marks in weather.estimated.items()},
    )  # fmt: skip


def of_any_year(weather: Weather, start: datetime, count: int) -> Weather:
    """So many hours of a source that stands for any year, from any hour on, by the place in the year.

    Args:
        weather: all hours of one year
        start: of the first hour, with its offset
        count: how many
    """
    first = start.astimezone(UTC)
    turned = (first - weather.start) // HOUR
    places = np.arange(turned, turned + count) % weather.count
    return replace(
        weather, start=weather.start + turned * HOUR,
        series={each: hours[places] for each, hours in weather.series.items()},
        estimated={each: marks[places] for each, marks in weather.estimated.items()},
    )  # fmt: skip

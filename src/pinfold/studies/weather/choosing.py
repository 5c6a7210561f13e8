"""Which of several sources the days are reckoned with: the newest forecast that is not over, else a typical year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

import numpy as np

from pinfold.studies.weather.clocks import HOUR
from pinfold.studies.weather.records import Weather, WeatherKind

COMING = frozenset({WeatherKind.FORECAST, WeatherKind.DAILY, WeatherKind.MEASURED})
"""Kinds whose hours are those of a certain day; the others stand for any year."""
STALE = timedelta(days=3)


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """What the days are reckoned with.

    Attributes:
        coming: hours of these days, from the hour that is now; None where no forecast reaches past it.
        year: hours that stand for any year; None where there are none.
        notes: which was taken and why, in plain words.
    """

    coming: Weather | None
    year: Weather | None
    notes: tuple[str, ...]


def chosen(sources: Sequence[Weather], *, now: datetime) -> Chosen:
    """The newest forecast that reaches past now, and a typical year for the rest.

    Args:
        sources: all that could be read
        now: with its offset
    """
    coming = sorted((each for each in sources if each.kind in COMING), key=_newness)
    years = sorted((each for each in sources if each.kind not in COMING), key=lambda each: each.kind is not _BEST)
    ahead = [each for each in coming if _end(each) > now]
    notes = [f"{each.says} ended on {_end(each).astimezone(each.zone):%Y-%m-%d %H:%M}: it is over and not used."
             for each in coming if each not in ahead]  # fmt: skip
    best, year = (ahead[-1] if ahead else None), (years[0] if years else None)
    notes += [f"{each.says} is not used: {best.says} is newer or finer." for each in ahead[:-1] if best is not None]
    if best is not None:
        notes += _age(best, now)
    if year is not None:
        notes.append(f"{year.says} stands for {'the days after it' if best is not None else 'every day'}.")
        notes += [f"{each.says} is not used: {year.says} is." for each in years[1:]]
    return Chosen(coming=None if best is None else from_hour(best, now), year=year, notes=tuple(notes))


_BEST = WeatherKind.TYPICAL


def _made(weather: Weather) -> datetime:
    return weather.written or weather.start


def _newness(weather: Weather) -> tuple[date, bool, datetime]:
    """Of one day, hours come before days that were shaped into hours."""
    made = _made(weather)
    return made.astimezone(weather.zone).date(), weather.kind is not WeatherKind.DAILY, made


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

"""The rules of the season told day by day: for each work the spells in which it may be done, and people's heat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np

from pinfold.studies.seasons.elements import element
from pinfold.studies.seasons.people import EFFORTS, HeatHours
from pinfold.studies.seasons.records import May, SeasonHours
from pinfold.studies.seasons.sections import section_of
from pinfold.studies.weather.records import Element, Weather
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Celsius, CubicMeter, Second


@dataclass(frozen=True, kw_only=True)
class SeasonSpell:
    """Hours of a day, one after the other, of which the same is true.

    Attributes:
        start: of the first.
        end: of the last.
        may: whether the work may be done, in words of `May`.
        rules: names of the rules that hold something against it, of shelf `season_rules`.
        unseen: names of those that the weather does not say enough for.
        measures: names of what is done then, of shelf `season_measures`.
    """

    start: datetime
    end: datetime
    may: str
    rules: tuple[str, ...]
    unseen: tuple[str, ...]
    measures: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class WorkDay:
    """One work on one day.

    Attributes:
        says: what it is.
        layer: of the build-up.
        section: row of shelf `cold_concrete` that concrete so thin falls under; empty for all else.
        spells: of the day's hours of work, in order.
    """

    says: str
    layer: str
    section: str
    spells: tuple[SeasonSpell, ...]


@dataclass(frozen=True, kw_only=True)
class HeatSpell:
    """People's heat in one hour of a day.

    Attributes:
        start: of the hour.
        shade_c: heat index in the shade.
        sun_c: the same as the sun is.
        level: of risk, of shelf `heat_levels`.
        work: time to work in the hour in the sun for a body used to heat, by effort.
        work_in_shade: likewise in the shade.
        work_unused: likewise in the sun, for a body not used to it.
        drink: water to drink in the hour.
    """

    start: datetime
    shade_c: Celsius
    sun_c: Celsius
    level: str
    work: tuple[Second, ...]
    work_in_shade: tuple[Second, ...]
    work_unused: tuple[Second, ...]
    drink: CubicMeter


@dataclass(frozen=True, kw_only=True)
class SeasonDay:
    """One day.

    Attributes:
        day: by the clock of the place.
        lowest: air of the whole day; None where it is not known.
        highest: likewise.
        works: each of them.
        heat: hour by hour of the hours of work, from caution on; nothing where nothing is to be minded.
        heat_shown: whether the weather says enough for people's heat.
    """

    day: date
    lowest: Celsius | None
    highest: Celsius | None
    works: tuple[WorkDay, ...]
    heat: tuple[HeatSpell, ...]
    heat_shown: bool


@dataclass(frozen=True, kw_only=True, eq=False)
class Watch:
    """What is told day by day.

    Attributes:
        weather: hours, from the beginning of a day on.
        works: what each may be done in.
        heat: of people.
        opens: hour of the day at which work may begin.
        closes: at which it ends.
    """

    weather: Weather
    works: Sequence[SeasonHours]
    heat: HeatHours
    opens: int
    closes: int

    def day(self, day: date) -> SeasonDay:
        """One day of it."""
        moments = [moment.astimezone(self.weather.zone) for moment in self.weather.times]
        whole = [hour for hour, moment in enumerate(moments) if moment.date() == day]
        open_hours = [hour for hour in whole if self.opens <= moments[hour].hour < self.closes]
        air = element(self.weather, Element.TEMPERATURE)[whole]
        known = np.isfinite(air)
        felt = [hour for hour in open_hours if np.isfinite(self.heat.sun_c[hour])]
        return SeasonDay(
            day=day, lowest=float(np.nanmin(air)) if known.any() else None,
            highest=float(np.nanmax(air)) if known.any() else None,
            works=tuple(_work_day(each, open_hours, moments) for each in self.works),
            heat=tuple(_heat(self.heat, hour, moments) for hour in felt if _level(self.heat, hour).name != "lower"),
            heat_shown=len(felt) == len(open_hours) and bool(open_hours),
        )  # fmt: skip


def _work_day(season: SeasonHours, hours: Sequence[int], moments: Sequence[datetime]) -> WorkDay:
    runs: list[list[int]] = []
    for hour in hours:
        if runs and season.verdicts[runs[-1][-1]] == season.verdicts[hour]:
            runs[-1].append(hour)
        else:
            runs.append([hour])
    spells = tuple(_spell(season, run, moments) for run in runs)
    section = section_of(season.work)
    return WorkDay(
        says=season.work.says, layer=season.work.layer, section="" if section is None else section.name, spells=spells
    )


def _spell(season: SeasonHours, run: Sequence[int], moments: Sequence[datetime]) -> SeasonSpell:
    may = May(season.verdicts[run[0]])
    fired = _each_once(rule for hour in run for rule in season.fired(hour))
    if may is May.NO:
        fired = tuple(rule for rule in fired if rule.words.get("no"))
    unseen = _each_once(rule for hour in run for rule in season.not_shown(hour)) if may is May.NOT_SHOWN else ()
    return SeasonSpell(
        start=moments[run[0]], end=moments[run[-1]] + timedelta(hours=1), may=may.says,
        rules=tuple(rule.name for rule in fired), unseen=tuple(rule.name for rule in unseen),
        measures=measures_of(fired),
    )  # fmt: skip


def _each_once(rules: object) -> tuple[Kind, ...]:
    return tuple(dict.fromkeys(rules))  # type: ignore[call-overload]


def measures_of(rules: Sequence[Kind]) -> tuple[str, ...]:
    """Names of what is done for some rules, each once, the lightest first."""
    named = [str(name) for rule in rules for name in _listed(rule)]
    return tuple(sorted(dict.fromkeys(named), key=lambda name: int(str(kind("season_measures", name).words["burden"]))))


def _listed(rule: Kind) -> list[object]:
    listed = rule.words.get("measures", [])
    return listed if isinstance(listed, list) else []


def _level(heat: HeatHours, hour: int) -> Kind:
    level = heat.level(hour)
    assert level is not None, "only hours whose heat is known are told"
    return level


def _heat(heat: HeatHours, hour: int, moments: Sequence[datetime]) -> HeatSpell:
    return HeatSpell(
        start=moments[hour], shade_c=float(heat.shade_c[hour]), sun_c=float(heat.sun_c[hour]),
        level=_level(heat, hour).name, work=tuple(float(heat.work[each][hour]) for each in EFFORTS),
        work_in_shade=tuple(float(heat.work_in_shade[each][hour]) for each in EFFORTS),
        work_unused=tuple(float(heat.work_unused[each][hour]) for each in EFFORTS), drink=float(heat.drink[hour]),
    )  # fmt: skip

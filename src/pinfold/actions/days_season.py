"""What the season allows day by day: each work of the plan under its rules, and people's heat."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_site import AHEAD, SiteDays, days_site
from pinfold.actions.sites import Site
from pinfold.errors import InputError
from pinfold.plan.people import HOUR
from pinfold.reports.days_season import rules_sheet, season_page
from pinfold.reports.pages import Block
from pinfold.studies.seasons.days import SeasonDay, Watch
from pinfold.studies.seasons.hours import falls_on, season_hours
from pinfold.studies.seasons.people import heat_hours
from pinfold.studies.seasons.works import season_works
from pinfold.tables.shelf import shelf

_BEFORE = timedelta(days=2)
"""Hours before the first day that rules look back into."""
_AFTER = 100
"""Days after the last that rules look ahead into."""
_MOST = 370


@dataclass(frozen=True, kw_only=True)
class SeasonAnswer:
    """What the season allows.

    Attributes:
        told: what is to be known of the weather behind it, and what is left out.
        days: in order.
    """

    told: tuple[str, ...]
    days: tuple[SeasonDay, ...]


def days_season(folder: Path, day: str = "", *, now: datetime | None = None) -> Answer:
    """What the season allows on one day or on the next ones.

    Args:
        folder: of the site
        day: as 2026-05-03; empty for today and the days the forecast reaches, at most a week
        now: with its offset; the clock's where it is not given

    Raises:
        InputError: the day cannot be read or lies too far off.
        StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    days = days_site(folder, now=now)
    first = _day(days, day)
    record = season_told(days, first, 1 if day else AHEAD)
    return answer_from(days.site, record, season_page(record.days, record.told, system=days.site.plan.units))


def _day(days: SiteDays, text: str) -> date:
    found = days.day_of(text)
    if abs(found - days.now.date()) > timedelta(days=_MOST):
        raise InputError(f"{text} is more than a year off", place="date")
    return found


def season_told(days: SiteDays, first: date, count: int) -> SeasonAnswer:
    """So many days from one on; those that no weather is known of are left out.

    Args:
        days: site and weather
        first: the first of them
        count: how many
    """
    found = watch_over(days, first, count)
    if found is None:
        return SeasonAnswer(told=days.told, days=())
    watch, left_out = found
    each = (watch.day(first + timedelta(days=number)) for number in range(count))
    return SeasonAnswer(told=(*days.told, *left_out), days=tuple(day for day in each if day.lowest is not None))


def watch_over(days: SiteDays, first: date, count: int) -> tuple[Watch, tuple[str, ...]] | None:
    """Rules and heat over so many days, and what is not looked at; None where no weather is known at all."""
    start = datetime.combine(first, datetime.min.time(), days.zone) - _BEFORE
    joined = days.over(start, (count + _BEFORE.days + _AFTER) * 24)
    if joined is None:
        return None
    family, people = days.site.plan.family, days.site.plan.people
    works = tuple(
        season_hours(work, joined.weather, family=family, lessons=days.site.lessons, foreseen=joined.foreseen)
        for work in season_works(days.site.layout, days.site.lessons)
    )
    watch = Watch(
        weather=joined.weather, works=works, heat=heat_hours(joined.weather),
        opens=int(people.start / HOUR), closes=round(people.end / HOUR),
    )  # fmt: skip
    left_out = dict.fromkeys(text for each in works for text in each.left_out)
    return watch, tuple(f"{text[:1].upper()}{text[1:]}." for text in left_out)


def season_sheet(site: Site) -> tuple[Block, ...]:
    """All rules that fall on a plan, for paper; nothing where the plan places nothing."""
    works = season_works(site.layout, site.lessons)
    family = site.plan.family
    rules = [
        rule for rule in shelf("season_rules").values() if any(falls_on(rule, work, family) for work in works)
    ]  # fmt: skip
    return rules_sheet(works, rules) if works else ()

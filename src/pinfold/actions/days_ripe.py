"""When what was placed is strong enough: out of the log, or as if it were placed at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.clock import SiteClock
from pinfold.actions.days_site import SiteDays, days_site
from pinfold.errors import InputError, NotFoundError
from pinfold.reports.days_ripe import ripe_page
from pinfold.studies.ripening.placed import Placed, as_if, placed_of
from pinfold.studies.ripening.records import Ripening
from pinfold.studies.ripening.ripe import Warmth, ripening_of
from pinfold.studies.seasons.records import SeasonWork
from pinfold.studies.seasons.works import season_works
from pinfold.studies.weather.joining import Joined
from pinfold.studies.weather.records import Element, Hours

_BACK = timedelta(days=120)
"""What was placed before is not told of any more."""
_AHEAD = timedelta(days=120)
_MOST = 40


@dataclass(frozen=True, kw_only=True)
class RipeAnswer:
    """When what was placed is strong enough.

    Attributes:
        asked: as if placed at a time; empty where the log is told.
        told: what is to be known of the weather behind it.
        ripening: one for each mix and place, the newest first.
        left: how many more there are.
    """

    asked: str
    told: tuple[str, ...]
    ripening: tuple[Ripening, ...]
    left: int


@dataclass(frozen=True, kw_only=True)
class RipeForm:
    """The form of a question after ripeness.

    Attributes:
        name: of place, layer, mix or coat; empty for all.
        names: to choose from.
        placed: when, as typed.
        wrong: what is wrong with it; empty when nothing is.
    """

    name: str
    names: tuple[str, ...]
    placed: str
    wrong: str


def days_ripe(folder: Path, name: str = "", placed: str = "", *, now: datetime | None = None) -> Answer:
    """When what was placed is strong enough for what comes next.

    Args:
        folder: of the site
        name: of a place, layer, mix or coat; empty for all
        placed: as if it were placed at this time or day; empty for what the log says, and as if now where it says
            nothing
        now: with its offset; the clock's where it is not given

    Raises:
        NotFoundError: the plan has nothing of that name; the message says what there is.
        InputError: the time cannot be read, or lies too far off.
        StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    days = days_site(folder, now=now)
    works = _named(season_works(days.site.layout, days.site.lessons), name)
    found = _placed(days, works, name, placed)
    record = RipeAnswer(
        asked=found[0].when.isoformat(timespec="minutes") if found and not found[0].logged else "", told=days.told,
        ripening=ripenings(days, found[:_MOST]), left=max(len(found) - _MOST, 0),
    )  # fmt: skip
    page = ripe_page(record.ripening, record.told, asked=record.asked, left=record.left, now=days.now,
                     system=days.site.plan.units)  # fmt: skip
    return answer_from(days.site, record, page)


def ripe_form(folder: Path, name: str, placed: str, wrong: str) -> RipeForm:
    """The form with what was typed and what is wrong with it.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    works = season_works(days_site(folder).site.layout)
    return RipeForm(name=name, names=_names(works), placed=placed, wrong=wrong)


def _names(works: Sequence[SeasonWork]) -> tuple[str, ...]:
    found = [each for work in works if work.placing is not None for each in (*_of(work), *work.places)]
    return tuple(dict.fromkeys(found))


def _of(work: SeasonWork) -> tuple[str, ...]:
    assert work.placing is not None
    coat = (work.placing.coat.name,) if work.placing.coat is not None else ()
    return (work.layer, work.placing.mix.name, *coat)


def _named(works: Sequence[SeasonWork], name: str) -> tuple[SeasonWork, ...]:
    placing = tuple(work for work in works if work.placing is not None)
    if not name:
        return placing
    found = tuple(work for work in placing if name in (*_of(work), *work.places))
    if not found:
        raise NotFoundError(f"nothing is placed by the name {name!r}; there are {', '.join(_names(works))}")
    return found


def _placed(days: SiteDays, works: Sequence[SeasonWork], name: str, placed: str) -> tuple[Placed, ...]:
    placings = [work.placing for work in works if work.placing is not None]
    if not placed:
        logged = placed_of(days.site.entries, days.site.plan, placings, since=days.now - _BACK)
        places = {place for work in works for place in work.places}
        told = tuple(each for each in logged if name not in places or each.place == name)
        return told or as_if(placings, days.now)
    moment = SiteClock(zone=days.zone).edge(placed, "--placed")
    if not days.now - _BACK <= moment <= days.now + _AHEAD:
        raise InputError(f"{placed!r} is too far off; from 120 days ago to 120 days ahead is looked at",
                         place="--placed")  # fmt: skip
    return as_if(placings, moment)


def ripenings(days: SiteDays, placed: Sequence[Placed]) -> tuple[Ripening, ...]:
    """What becomes of each, in its weather.

    Args:
        days: site and weather
        placed: what, where and when
    """
    if not placed:
        return ()
    start = min(min(each.when for each in placed), days.now).astimezone(UTC)
    count = round((max(days.now, max(each.when for each in placed)) + _AHEAD - start) / timedelta(hours=1))
    joined = days.over(start.replace(minute=0, second=0, microsecond=0), count)
    lessons = days.site.lessons
    return tuple(
        ripening_of(each, _warmth(days, each, joined, start), now=days.now, lessons=lessons) for each in placed
    )


def _warmth(days: SiteDays, placed: Placed, joined: Joined | None, start: datetime) -> Warmth:
    if joined is None or not joined.weather.has(Element.TEMPERATURE):
        return Warmth(start=start, zone=days.zone, temperatures=np.full(1, np.nan), estimated=np.zeros(1))
    weather = joined.weather
    air, marks = weather.of(Element.TEMPERATURE), weather.estimated[Element.TEMPERATURE]
    by_face = _on_face(days, placed, weather.start, air)
    return Warmth(
        start=weather.start, zone=days.zone, temperatures=air if by_face is None else by_face,
        estimated=(marks | ~joined.foreseen).astype(float), by_face=by_face is not None,
    )  # fmt: skip


def _on_face(days: SiteDays, placed: Placed, start: datetime, air: Hours) -> Hours | None:
    """Warmth of the face a coat is on, the colder of both where nobody says which, as far as it is known."""
    drying = days.drying if placed.placing.coat is not None and placed.place else None
    if drying is None or not drying.shown:
        return None
    named = {face.name: number for number, face in enumerate(drying.faces)}
    sides = [placed.face] if placed.face in ("outer", "inner") else ["outer", "inner"]
    rows = [named[name] for side in sides if (name := f"{placed.place} {side}") in named]
    if not rows:
        return None
    coldest = drying.wet_temperature[rows].min(axis=0)
    at = round((drying.start - start) / timedelta(hours=1))
    ours = slice(max(at, 0), min(at + len(coldest), len(air)))
    theirs = coldest[ours.start - at : ours.stop - at]
    warm = air.copy()
    warm[ours] = np.where(np.isfinite(theirs), theirs, air[ours])
    return warm

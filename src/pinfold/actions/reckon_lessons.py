"""What the log taught: figures before and now, what was most wrong and what that changed, what batch changes did."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import Reckoning, count_all, reckon_all
from pinfold.actions.sites import Site, entries_now, open_site
from pinfold.logbook.entries import Entry
from pinfold.reports.pages import Block
from pinfold.reports.reckon_lessons import lessons_page, lessons_sheet
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.lessons.batch_changes import batch_changes, effects
from pinfold.studies.lessons.holding import volumes_of
from pinfold.studies.lessons.lessons_told import LessonsTold
from pinfold.studies.lessons.put_back import Wrong, acts, moved, put_back
from pinfold.studies.lessons.records import Lesson
from pinfold.studies.lessons.things import Measures
from pinfold.units import CubicMeter, Second

_COMPARED = ("batch", "trial")
"""Kinds of entries that are held against the one before."""
_NEWEST = 400


def lessons_of(folder: Path, *, working: bool = False) -> Answer:
    """What a site's log taught, beside what was thought before.

    Args:
        folder: of the site
        working: whether the lines of working are shown

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    entries_now(folder)  # what the log taught is not told without the log
    record = _answer(site)
    return answer_from(site, record, lessons_page(site.plan, site.lessons, record, working=working))


def lessons_part(site: Site) -> tuple[Block, ...]:
    """What the log taught, for the binder; a log that cannot be read has taught nothing."""
    return lessons_sheet(site.plan, site.lessons, _answer(site))


@lru_cache(maxsize=4)  # page, JSON and binder ask for the same
def _answer(site: Site) -> LessonsTold:
    taught = site.lessons
    changes = batch_changes(_compared(site), Measures(mixing=taught.mixing, volumes=volumes_of(taught.mixing)))
    return LessonsTold(
        lessons=taught.lessons, figures=taught.figures, pile=taught.pile_told, set_aside=taught.set_aside,
        carried=site.carried.sites, alike=site.carried.alike, carried_told=taught.carried_told, wrong=_wrong(site),
        changes=changes, effects=effects(changes),
    )  # fmt: skip


def _compared(site: Site) -> tuple[Entry, ...]:
    from pinfold.store.log import open_log

    if site.log_told:
        return ()
    with open_log(site.folder) as log:
        return tuple(
            entry for kind in _COMPARED for entry in log.entries(kind=kind, standing=True, limit=_NEWEST)
        )  # fmt: skip


def _wrong(site: Site) -> tuple[Wrong, ...]:
    """What moved the most spreads first; what has no first spread, such as a listed price, after them."""
    now = _totals(site.layout, reckon_all(site), site)
    found = [_one_wrong(site, lesson, now) for lesson in site.lessons.lessons if acts(lesson) and _moved(lesson)]
    return tuple(sorted(found, key=lambda each: (each.moved is None, -(each.moved or 0.0), -abs(each.money))))


def _moved(lesson: Lesson) -> bool:
    return lesson.prior.first.value is not None and lesson.value != lesson.prior.first.value


@dataclass(frozen=True, kw_only=True)
class _Totals:
    """What a plan takes."""

    money: int
    water: CubicMeter
    hours: Second


def _one_wrong(site: Site, lesson: Lesson, now: _Totals) -> Wrong:
    without = put_back(lesson, site.lessons, site.plan, site.prices)
    layout = lay_out(without.plan)
    then = _totals(layout, count_all(layout, without, site.entries), site)
    return Wrong(
        lesson=lesson, moved=moved(lesson), money=now.money - then.money, water=now.water - then.water,
        hours=now.hours - then.hours,
    )  # fmt: skip


def _totals(layout: Layout, counted: Reckoning, site: Site) -> _Totals:
    missing = Counted(counted.quantities, counted.cards).missing
    job = job_of(tasks_of(layout, counted.quantities, counted.cards), site.plan.people, missing)
    hours = math.fsum(pace.labor for pace in job.paces.values() if pace.is_known)
    return _Totals(money=counted.costs.total, water=counted.gathered.water.total, hours=hours)

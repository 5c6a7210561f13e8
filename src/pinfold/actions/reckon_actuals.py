"""Plan against actual of a site, found once for page, forecast and binder."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_laid import work_logged
from pinfold.actions.days_site import days_site
from pinfold.actions.reckonings import Reckoning, count_all, reckon_all
from pinfold.actions.sites import Site, as_drawn
from pinfold.logbook.entries import Entry
from pinfold.plan.stock import Prices
from pinfold.reports.reckon_actuals import against_page
from pinfold.store.log import open_log
from pinfold.studies.actuals.against import actuals
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.records import Actuals
from pinfold.studies.costing import run_by_place
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.progress import progress_of
from pinfold.studies.days.tasks import tasks_of


@dataclass(frozen=True, kw_only=True, eq=False)
class Held:
    """A site's plan held against its log.

    Attributes:
        site: with its log.
        planned: counted as if nothing had been logged; a thing without a listed price at what was paid for it.
        done: the job by the plan's own figures, and how far it is.
        entries: of the log: work, weather and purchases.
        actuals: what the work done should have taken, and what it took.
    """

    site: Site
    planned: Reckoning
    done: Done
    entries: tuple[Entry, ...]
    actuals: Actuals


def held_against(folder: Path, *, now: datetime | None = None) -> Held:
    """A site's plan held against its log.

    Args:
        folder: of the site
        now: with its offset; the clock's where it is not given

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    days = days_site(folder, now=now)
    return _held(days.site, days.now.astimezone(days.zone).date())


@lru_cache(maxsize=4)
def _held(site: Site, today: date) -> Held:
    drawn = as_drawn(site)
    planned = _planned(drawn, site.lessons.prices)
    missing = Counted(planned.quantities, planned.cards).missing
    job = job_of(tasks_of(drawn.layout, planned.quantities, planned.cards), drawn.plan.people, missing)
    work = work_logged(site)
    progress = progress_of(job, work)
    done = Done(job=job, left=progress.left, runs=run_by_place(drawn.layout), by_order=progress.by_order)
    entries = (*work, *_bought(site))
    found = actuals(done, entries, drawn.plan, (planned.gathered, drawn.prices), today)
    return Held(site=site, planned=planned, done=done, entries=entries, actuals=found)


def _planned(drawn: Site, paid: Prices) -> Reckoning:
    listed = drawn.prices
    if paid.by_item.keys() <= listed.by_item.keys():
        return reckon_all(drawn)
    prices = replace(listed, by_item={**paid.by_item, **listed.by_item})
    return count_all(drawn.layout, replace(drawn.lessons, prices=prices), drawn.entries)


def _bought(site: Site) -> tuple[Entry, ...]:
    """All purchases; none where the log cannot be read, which the answer's cautions tell."""
    if site.log_told:
        return ()
    with open_log(site.folder) as log:
        return log.entries(kind="purchase", standing=True, limit=None)


def against_site(folder: Path, *, now: datetime | None = None) -> Answer:
    """Plan against actual: hours, batches, goods and prices, with reasons that add up.

    Raises:
        As `held_against`.
    """
    held = held_against(folder, now=now)
    prices = held.site.prices
    page = against_page(
        held.site.plan.name, held.actuals, prices.currency, prices.digits, is_read=not held.site.log_told
    )
    return answer_from(held.site, held.actuals, page)

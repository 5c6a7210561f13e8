"""The forecast to complete of a site, its picture, and both for the binder."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_laid import JobAsked, Laid, Told, laid_out
from pinfold.actions.reckon_actuals import Held, held_against
from pinfold.actions.reckonings import count_all
from pinfold.actions.sites import Site
from pinfold.reports.binder.records import BinderPart, Sheet
from pinfold.reports.forecast_chart import forecast_chart, forecast_sheet
from pinfold.reports.reckon_actuals import against_page
from pinfold.reports.reckon_forecast import forecast_page
from pinfold.store.log import open_log
from pinfold.studies.completing.forecast import Given, forecast
from pinfold.studies.forecasting.hands import elsewhere
from pinfold.studies.forecasting.records import Forecast
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.lessons.records import Topic


class ForecastShown(NamedTuple):
    """The forecast for a page.

    Attributes:
        answer: record and page.
        picture: of it; empty where the log has no hours.
    """

    answer: Answer
    picture: str


def forecast_site(folder: Path, *, now: datetime | None = None, told: Told | None = None) -> ForecastShown:
    """The forecast to complete: earned value, pace with its learning, days really worked, goods, finish with spread.

    Args:
        folder: of the site
        now: with its offset; the clock's where it is not given
        told: of the progress of doing the job over

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    laid = laid_out(folder, JobAsked(), now=now)
    held = held_against(folder, now=now)
    found = _forecast(laid, held, told)
    site, prices = held.site, held.site.prices
    page = forecast_page(site.plan.name, found, prices.currency, prices.digits)
    return ForecastShown(answer=answer_from(site, found, page), picture=forecast_chart(found))


@lru_cache(maxsize=4)
def _forecast(laid: Laid, held: Held, told: Told | None) -> Forecast:
    site = held.site
    return forecast(
        Given(
            done=held.done, actuals=held.actuals, entries=held.entries, rest=laid.rest,
            carried=elsewhere(laid.rest.norms, site.lessons.about(Topic.PACE)), taught=_whole_list(site),
            paid_back=_paid_back(site), days_kept=laid.days_kept, finish=laid.finish(told), people=laid.people,
            today=laid.days.now.astimezone(laid.days.zone).date(),
        )
    )  # fmt: skip


def _whole_list(site: Site) -> Gathered:
    """The buying list of the whole job with what the log taught, and the pile as it was with all that came onto it.

    What was bought and lies there since, what came off it and what is cut already are among what went in or was paid
    for: none of it counts once more.
    """
    return count_all(site.layout, replace(site.lessons, pile=site.lessons.pile_whole), ()).gathered


def _paid_back(site: Site) -> int:
    """Worth of what was left over, in the smallest coin."""
    if site.log_told:  # the answer's cautions tell that it cannot be read
        return 0
    with open_log(site.folder) as log:
        left = log.entries(kind="leftover", standing=True, limit=None)
    return sum(int(entry.number("worth") or 0) for entry in left)


def reckoned_parts(site: Site, *, now: datetime, wide_mm: float) -> tuple[BinderPart, ...]:
    """The binder's chapters: plan against actual, and the forecast with its picture.

    Args:
        site: as read
        now: when it is printed, with its offset
        wide_mm: width of a picture on paper
    """
    held = held_against(site.folder, now=now)
    prices = site.prices
    found = _forecast(laid_out(site.folder, JobAsked(), now=now), held, None)
    against = against_page(site.plan.name, held.actuals, prices.currency, prices.digits)
    ahead = forecast_page(site.plan.name, found, prices.currency, prices.digits)
    svg, high = forecast_sheet(found, wide_mm=wide_mm)
    sheets = (Sheet(title="Time in all, as foreseen", svg=svg, width_mm=wide_mm, height_mm=high),) if svg else ()
    return (
        BinderPart(title="Planned and done", blocks=against.blocks),
        BinderPart(title="How it will go on", blocks=ahead.blocks, sheets=sheets),
    )

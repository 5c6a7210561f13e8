"""What a phone keeps of the coming days: the work, when to wet and to cover, in short."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from pinfold.actions.beside import Beside
from pinfold.actions.sites import Site
from pinfold.errors import PinfoldError, StoreError
from pinfold.store.weather.folder import weather_stamps

if TYPE_CHECKING:
    from pinfold.reports.days_job import WorkTold
    from pinfold.reports.days_sheet import SheetTold

KEPT = 4
"""Days, today among them, that a phone keeps: so long it may be out of reach."""
_PATIENCE = 0.04
"""Seconds that an answer waits for days whose laying out has only begun."""


@dataclass(frozen=True, kw_only=True)
class PhoneWork:
    """A piece of work.

    Attributes:
        when: from and to.
        says: what and where.
        more: batches, what the season asks, what is not shown.
    """

    when: str
    says: str
    more: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class PhoneSheet:
    """One day.

    Attributes:
        day: by the clock of the place, ISO.
        work: in order.
        also: what else there is to see to, each with its word in front: wet, cover, water, heat.
    """

    day: str
    work: tuple[PhoneWork, ...]
    also: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class PhoneDays:
    """The coming days.

    Attributes:
        sheets: of each, from today on; none where nothing could be laid out.
        told: what is to be known of the weather, or why there is none.
        pending: whether the first ones are still being laid out.
    """

    sheets: tuple[PhoneSheet, ...]
    told: tuple[str, ...]
    pending: bool = False


NONE_YET = PhoneDays(sheets=(), told=(), pending=True)


def phone_days(site: Site, *, now: datetime | None = None, patience: float = _PATIENCE) -> PhoneDays:
    """The coming days of a site: as last laid out while they are laid out anew for log, weather or the hour.

    Args:
        site: as read
        now: with its offset; the clock's where it is not given
        patience: seconds to wait for them
    """
    moment = now or datetime.now(UTC)
    try:
        stamps = weather_stamps(site.folder)
    except StoreError as fault:
        return PhoneDays(sheets=(), told=(str(fault),))
    key = (stamps, site, moment.astimezone(UTC).replace(minute=0, second=0, microsecond=0))
    found = _beside(site.folder).latest(key, lambda: _laid_out(site.folder, moment), patience=patience)
    return found.answer or NONE_YET


@lru_cache(maxsize=4)
def _beside(folder: Path) -> Beside[PhoneDays]:  # each folder has its own
    del folder
    return Beside()


def _laid_out(folder: Path, now: datetime) -> PhoneDays:
    from pinfold.actions.days_job import NOBODY
    from pinfold.actions.days_laid import JobAsked, laid_out
    from pinfold.actions.days_sheet import sheet_told

    try:
        laid = laid_out(folder, JobAsked(), now=now)
        if laid.schedule is None:
            return PhoneDays(sheets=(), told=(NOBODY,))
        today = laid.days.now.date()
        coming = [sheet_told(laid, today + timedelta(days=ahead)) for ahead in range(KEPT)]
    except PinfoldError as fault:
        return PhoneDays(sheets=(), told=(str(fault),))
    return PhoneDays(sheets=tuple(map(_sheet, coming)), told=laid.days.told)


def _sheet(told: SheetTold) -> PhoneSheet:
    return PhoneSheet(day=told.day, work=tuple(map(_work, told.works)), also=tuple(_also(told)))


def _work(told: WorkTold) -> PhoneWork:
    batches = [f"{told.batches:.1f} batches of {', '.join(told.mixes)}"] if told.mixes and told.batches else []
    return PhoneWork(
        when=f"{told.start:%H:%M}–{told.end:%H:%M}", says=f"{told.named}, {told.where}: {told.says}",
        more=(*batches, *told.steps, *told.not_shown),
    )  # fmt: skip


def _also(told: SheetTold) -> Iterator[tuple[str, str]]:
    for hours, places in _alike([(", ".join(f"{time:%H:%M}" for time in each.times), each.place) for each in told.wet]):
        yield "wet", f"at {hours}: {places}"
    for by, places in _alike([(f"by {each.by:%H:%M}, {each.because}", each.place) for each in told.covers]):
        yield "cover", f"{by}: {places}"
    if told.heat:
        yield "heat", told.heat.removeprefix("Heat: ")


def _alike(pairs: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Places that are seen to at the same time, together."""
    for when in dict.fromkeys(when for when, _ in pairs):
        yield when, ", ".join(place for each, place in pairs if each == when)

"""The ledger of a site: followed entry by entry, listed, out of a file and into one."""

from __future__ import annotations

from datetime import date, datetime
from functools import lru_cache
from pathlib import Path

from pinfold.actions import log_following
from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.clock import site_clock
from pinfold.actions.log_following import Following
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site
from pinfold.errors import StoreError
from pinfold.reports.binder.records import BinderPart
from pinfold.reports.pages import Page, Paragraph
from pinfold.reports.reckon_ledger import ledger_page
from pinfold.studies.ledger.adding import ledger_of
from pinfold.studies.ledger.records import Ledger, LedgerLine
from pinfold.studies.ledger.running import Books, RunningLedger
from pinfold.studies.ledger.sharing import Uses, uses_of

SHOWN = 100
"""Lines that are shown unless more are asked for."""
COUNTING = "The log is still being added up; ask again in a moment."


def ledger_now(site: Site, *, patience_s: float | None = None) -> Ledger | None:
    """What the work took so far; None where the log cannot be read, or takes longer than one is willing to wait.

    Args:
        site: as read
        patience_s: how long to wait for a log that was not read before; None for as long as it takes
    """
    try:
        books = _followed(site.folder.absolute(), site.prices.currency, site.prices.digits).asked(patience_s)
    except StoreError:  # the site's own cautions tell it
        return None
    return None if books is None else ledger_of(books, site.prices, _uses(site), today_of(site))


@lru_cache(maxsize=4)
def _followed(folder: Path, currency: str, digits: int) -> Following[Books]:
    from pinfold.actions.taking import log_of

    return Following(log_of(folder), lambda: RunningLedger(currency, digits))


@lru_cache(maxsize=4)
def _uses(site: Site) -> Uses:
    return uses_of(reckon_all(site).gathered.lines, site.layout)


def today_of(site: Site) -> date:
    """The day that it is on the plot."""
    return datetime.fromisoformat(site_clock(site.plan).now()).date()


def list_ledger(folder: Path, *, limit: int = SHOWN, patience_s: float | None = None) -> Answer:
    """The ledger line by line, the newest first.

    Args:
        folder: of the site
        limit: lines that the page shows; the record has all
        patience_s: how long to wait for a long log that was not read before; None for as long as it takes

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    ledger = ledger_now(site, patience_s=patience_s)
    if ledger is None:
        told = () if site.log_told else (Paragraph(text=COUNTING),)
        return answer_from(site, {"ledger": None}, Page(title=f"{site.plan.name}: the ledger", blocks=told))
    page = ledger_page(site.plan.name, ledger, site.plan.units, newest(ledger, limit))
    return answer_from(site, {"ledger": ledger}, page)


def newest(ledger: Ledger, limit: int) -> tuple[LedgerLine, ...]:
    """The last lines, the newest first."""
    return ledger.lines[: -limit - 1 : -1]


def ledger_parts(site: Site) -> tuple[BinderPart, ...]:
    """What the work took so far, for the binder; nothing before the first line."""
    ledger = ledger_now(site)
    if ledger is None or not ledger.lines:
        return ()
    page = ledger_page(site.plan.name, ledger, site.plan.units, newest(ledger, SHOWN))
    return (BinderPart(title="What it took so far", blocks=page.blocks),)


def page_patience() -> float:
    """How long a page waits for a log that was not read before."""
    return log_following.PATIENCE_S

"""What a site will cost, and what it took so far."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckon_ledger import COUNTING, ledger_now
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site
from pinfold.reports.lessons_page import with_taught
from pinfold.reports.pages import Block, Heading, Paragraph
from pinfold.reports.reckon_ledger import pointed_out, so_far
from pinfold.reports.reckon_page import reckon_page
from pinfold.studies.costing import Costs
from pinfold.studies.ledger.records import Ledger
from pinfold.studies.lessons.records import Topic


@dataclass(frozen=True, kw_only=True)
class Reckoned:
    """What a site costs.

    Attributes:
        planned: by the plan and the price list.
        so_far: by the log, without its lines, which the ledger lists; None where it holds none, cannot be read, or is
            still being added up.
    """

    planned: Costs
    so_far: Ledger | None


def reckon_site(folder: Path, *, patience_s: float | None = None) -> Answer:
    """Planned cost by layer, run and build-up; then what was spent and worked so far, and what is pointed out in it.

    Args:
        folder: of the site
        patience_s: how long to wait for a long log that was not read before; None for as long as it takes

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    costs = reckon_all(site).planned
    ledger = ledger_now(site, patience_s=patience_s)
    page = with_taught(reckon_page(site.plan.name, costs, site.plan.units), site.lessons, tuple(Topic))
    page = replace(page, blocks=(*page.blocks, *_so_far(site, ledger)))
    record = Reckoned(planned=costs, so_far=replace(ledger, lines=()) if ledger and ledger.lines else None)
    return answer_from(site, record, page)


def _so_far(site: Site, ledger: Ledger | None) -> tuple[Block, ...]:
    """Nothing where nothing was bought or worked yet; where the log cannot be read the answer's caution tells it."""
    if ledger is None:
        return () if site.log_told else (Heading(text="so far"), Paragraph(text=COUNTING))
    return (Heading(text="so far"), *so_far(ledger, site.plan.units), *pointed_out(ledger)) if ledger.lines else ()

"""What to gather for a site."""

from __future__ import annotations

from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site
from pinfold.reports.gather_page import gather_csv, gather_page
from pinfold.reports.lessons_page import BOUGHT, with_taught
from pinfold.store.writing import write_text


def gather_list(folder: Path) -> str:
    """The buying list as CSV text.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    return gather_csv(reckon_all(site).gathered, site.prices, site.plan.units)


def gather_site(folder: Path, csv_file: Path | None) -> Answer:
    """Buying list, trips and water; the list also as CSV where a file is named.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and writing the file tell.
    """
    site = open_site(folder)
    gathered, system = reckon_all(site).gathered, site.plan.units
    if csv_file is not None:
        write_text(csv_file, gather_list(folder))
    page = with_taught(gather_page(site.plan.name, gathered, site.prices, system), site.lessons, BOUGHT)
    return answer_from(site, gathered, page)

"""What to cut for a site."""

from __future__ import annotations

from pathlib import Path

from pinfold.actions.answers import Answer
from pinfold.actions.sites import open_site
from pinfold.reports.cut_page import cut_page
from pinfold.studies.parts import parts


def cut_site(folder: Path) -> Answer:
    """The part list.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    pieces = parts(site.layout)
    return Answer(record=pieces, page=cut_page(site.plan.name, pieces, site.plan.units), system=site.plan.units)

"""What a site will cost."""

from __future__ import annotations

from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site
from pinfold.reports.lessons_page import with_taught
from pinfold.reports.reckon_page import reckon_page
from pinfold.studies.lessons.records import Topic


def reckon_site(folder: Path) -> Answer:
    """Planned cost by layer, run and build-up.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    costs = reckon_all(site).costs
    page = with_taught(reckon_page(site.plan.name, costs, site.plan.units), site.lessons, tuple(Topic))
    return answer_from(site, costs, page)

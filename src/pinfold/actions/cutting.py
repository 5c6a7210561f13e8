"""What to cut for a site."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import open_site
from pinfold.reports.cut_page import cut_page
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.records import Part


@dataclass(frozen=True, kw_only=True)
class CutAnswer:
    """What to cut.

    Attributes:
        parts: pieces of all kinds and lengths.
    """

    parts: tuple[Part, ...]


def cut_site(folder: Path) -> Answer:
    """The part list.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    pieces = parts(site.layout)
    return answer_from(site, CutAnswer(parts=pieces), cut_page(site.plan.name, pieces, site.plan.units))

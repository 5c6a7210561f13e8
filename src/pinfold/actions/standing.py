"""Will it stand: every finding on a site's plan."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer
from pinfold.actions.sites import open_site
from pinfold.findings import Finding, Verdict, by_urgency, overall
from pinfold.reports.stand_page import stand_page
from pinfold.studies.stability.assess import assess


@dataclass(frozen=True, kw_only=True)
class Assessment:
    """All findings on a plan.

    Attributes:
        name: of the plot.
        verdict: on the whole: HOLDS only if every finding does.
        findings: what fails first, then what is not shown, then what holds.
    """

    name: str
    verdict: Verdict
    findings: tuple[Finding, ...]


def assess_site(folder: Path, *, working: bool) -> Answer:
    """Check whether what a site's plan shows will stand.

    Args:
        folder: site folder; its plan, prices and pile are read
        working: whether the page shows the lines of working

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    findings = by_urgency(assess(site.layout))
    return Answer(
        record=Assessment(name=site.plan.name, verdict=overall(findings), findings=findings),
        page=stand_page(site.plan.name, findings, working=working),
        system=site.plan.units,
    )

"""Will it stand: every finding on a site's plan."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer
from pinfold.actions.sites import Site, open_site
from pinfold.errors import NotFoundError
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


def worked_html(folder: Path) -> str:
    """All findings with all their working as HTML, kept as long as the site does not change.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return _worked(open_site(folder))


@lru_cache(maxsize=2)
def _worked(site: Site) -> str:
    from pinfold.reports.html import html_of

    findings = by_urgency(assess(site.layout))
    return html_of(stand_page(site.plan.name, findings, working=True), site.plan.units)


def working_of(folder: Path, name: str, *, alone: bool) -> tuple[str, str]:
    """The working of one finding as HTML, and what it is about.

    Args:
        folder: site folder
        name: the finding's anchor on the page
        alone: whether it stands on a page of its own, with its verdict and sources

    Raises:
        NotFoundError: the plan has no finding of that name, or not any more.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    from pinfold.reports.html_findings import names_of, sources_html, verdict_html, working_html
    from pinfold.reports.html_text import safe

    site = open_site(folder)
    findings = by_urgency(assess(site.layout))
    found = dict(zip(names_of(findings), findings, strict=True)).get(name)
    if found is None:
        raise NotFoundError(f"the plan has no finding {name!r}; it may have changed: look at the list again")
    parts = [*working_html(found, site.plan.units)]
    if alone:
        parts = [f"<p>{verdict_html(found.verdict)} {safe(found.because)}</p>", *parts, *sources_html((found,))]
    return "\n".join(parts), f"{found.check}, {found.subject}"

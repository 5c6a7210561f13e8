"""Will it stand: every finding on a site's plan."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.mending import Told, mends_of, put_mend, revision_at
from pinfold.actions.sites import Site, open_site
from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Verdict, by_urgency, overall
from pinfold.reports.cracking_section import cracking_section
from pinfold.reports.mend_section import mend_section, named, written
from pinfold.reports.mix_strength import lowered_blocks
from pinfold.reports.pages import Block, Page, Paragraph
from pinfold.reports.skins_section import skins_section
from pinfold.reports.stand_page import stand_page
from pinfold.reports.storm_section import storm_section
from pinfold.studies.mending.records import Mending
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.cracking.compare import CrackComparison, compare_cracking
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.skins.compare import SkinComparison, compare_skins
from pinfold.studies.worlds.records import ManyWorlds


@dataclass(frozen=True, kw_only=True)
class Assessment:
    """All findings on a plan.

    Attributes:
        name: of the plot.
        verdict: on the whole: HOLDS only if every finding does.
        findings: what fails first, then what is not shown, then what holds.
        mends: what would mend what fails; None where it was not asked.
        skins: for each coated build-up, what its coats add.
        cracking: for each build-up with a wall, the crack its longest panel opens.
        worlds: chances of cracking and falling, build-up by build-up; None where they were not asked.
    """

    name: str
    verdict: Verdict
    findings: tuple[Finding, ...]
    mends: Mending | None = None
    skins: tuple[SkinComparison, ...] = ()
    cracking: tuple[CrackComparison, ...] = ()
    worlds: tuple[ManyWorlds, ...] | None = None


class MendFor(StrEnum):
    """For which findings changes of the plan are tried."""

    NONE = "none"
    FAILS = "fails"
    NEAR = "near"  # also for what holds with less than a tenth to spare


def assess_site(
    folder: Path, *, working: bool, each: bool = False, mending: MendFor = MendFor.NONE, storms: bool = False,
    told: Told | None = None,
) -> Answer:  # fmt: skip
    """Check whether what a site's plan shows will stand.

    Args:
        folder: site folder; its plan, prices and pile are read
        working: whether the page shows the lines of working
        each: whether the page tells what holds one by one, not check by check
        mending: for which findings changes of the plan are tried, each assessed anew
        storms: whether walls are left to the storms of many years
        told: of the progress of trying

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    mends = None if mending is MendFor.NONE else mends_of(folder, near=mending is MendFor.NEAR, told=told)
    record = _assessment(site, storms=storms, mends=mends)
    page = stand_page(site.plan.name, record.findings, working=working, each=each, sections=_sections(site, record))
    return answer_from(site, record, page)


def _assessment(site: Site, *, storms: bool, mends: Mending | None = None) -> Assessment:
    findings = by_urgency(assess(site.layout))
    exposures = exposures_of(site.layout)
    return Assessment(
        name=site.plan.name, verdict=overall(findings), findings=findings, mends=mends,
        skins=compare_skins(exposures), cracking=compare_cracking(exposures),
        worlds=worlds_of(site) if storms else None,
    )  # fmt: skip


def mends_page(folder: Path, *, mending: MendFor) -> tuple[Answer, tuple[tuple[str, str], ...], str]:
    """What would mend what is weak, by itself: the answer, (name, words) of every mend, and the plan file's mark.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site, revision = open_site(folder), revision_at(folder)
    mends = mends_of(folder, near=mending is MendFor.NEAR)
    blocks = mend_section(mends, site.prices.currency, site.prices.digits)[1:] or (Paragraph(text=_ALL_WELL[mending]),)
    answer = answer_from(site, mends, Page(title=mends_title(folder), blocks=blocks))
    return answer, tuple((name, f"{name}: {mend.says}") for name, mend in named(mends)), revision


def mends_title(folder: Path) -> str:
    """What the page of mends is headed, known before anything is tried.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return f"{open_site(folder).plan.name}: what would mend it"


_ALL_WELL = {
    MendFor.NONE: "", MendFor.FAILS: "Nothing fails that a change of the plan could mend.",
    MendFor.NEAR: "Everything that holds has a tenth of its strength to spare, and nothing fails.",
}  # fmt: skip


def put_named(
    folder: Path, name: str, *, mending: MendFor, revision: str = "", told: Told | None = None
) -> str:  # fmt: skip
    """Write a mend into the plan file by its name, and tell what was written.

    Args:
        folder: site folder
        name: such as `2b`, as the answer lists it
        mending: the findings the answer was asked for; the names count through them
        revision: mark of the plan file the names were told for; empty for the one that stands there
        told: of the progress of trying

    Raises:
        InputError: the plan file is another one by now.
        NotFoundError: there is no mend of that name.
        StoreError, NewerFileError, InvalidPlan: as reading and writing the plan tell; nothing is written then.
    """
    mends = dict(named(mends_of(folder, near=mending is MendFor.NEAR, told=told)))
    if name not in mends:
        raise NotFoundError(f"there is no mend {name!r}; there are: {', '.join(mends) or 'none'}")
    path = put_mend(folder, mends[name], revision=revision)
    lines = "\n".join(f"  {written(put)}" for put in mends[name].puts)
    return f"Written into {path}: {mends[name].says}\n{lines}\nAsk 'pinfold stand' again before the next."


def _sections(site: Site, record: Assessment) -> tuple[Block, ...]:
    """What stands beside the findings."""
    prices, mends = site.prices, record.mends
    mended = mend_section(mends, prices.currency, prices.digits) if mends is not None else ()
    return (*mended, *_beside(site, record))


def _beside(site: Site, record: Assessment) -> tuple[Block, ...]:
    coats = skins_section(record.skins, site.plan.units)
    cracks = cracking_section(record.cracking, site.plan.units)
    return (*lowered_blocks(site.lessons), *coats, *cracks, *storm_section(record.worlds or ()))


def compared(site: Site) -> tuple[Block, ...]:
    """What is told side by side of the build-ups, for the binder: what coats add, and walls in many worlds."""
    return _beside(site, _assessment(site, storms=True))


@lru_cache(maxsize=4)  # kept as long as the site does not change
def worlds_of(site: Site) -> tuple[ManyWorlds, ...]:
    """Chances of cracking and falling of every build-up with a wall."""
    from pinfold.studies.worlds.chances import many_worlds

    return many_worlds(site.layout)


def storms_page(folder: Path) -> Answer:
    """The chances of cracking and falling by themselves.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    worlds = worlds_of(site)
    nothing = (Paragraph(text="No build-up of this plan has a wall that stands by itself."),)
    page = Page(title=f"{site.plan.name}: in many worlds", blocks=storm_section(worlds)[1:] or nothing)
    return answer_from(site, worlds, page)


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
    return html_of(stand_page(site.plan.name, findings, working=True), site.plan.units, titled=False)


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

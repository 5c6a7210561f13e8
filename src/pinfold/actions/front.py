"""The first page: what stands open in a plan, at a glance, and whose book it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import fault_of_log, open_site
from pinfold.errors import PinfoldError, StoreError
from pinfold.findings import Finding, Verdict, by_urgency, overall
from pinfold.reports.html_findings import names_of
from pinfold.reports.reckon_page import total_sentence
from pinfold.reports.stand_page import summary
from pinfold.studies.stability.assess import assess
from pinfold.units import METER, SQUARE_METER, System, show

LAST = 5
"""Entries of the log on the first page."""
UNITS = {System.US: "US units", System.METRIC: "metric units"}


@dataclass(frozen=True, kw_only=True)
class Head:
    """What stands over every page.

    Attributes:
        name: of the plot.
        units: in words.
        cautions: what is to be known of every answer before it is used.
    """

    name: str
    units: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Point:
    """Findings of one check with one verdict.

    Attributes:
        check: what was asked.
        subjects: of what, each with the name of its finding.
        mend: what would mend the first of them, empty where nothing is known.
        because: why they are not shown, or what the verdict rests on, where all say the same; else empty.
    """

    check: str
    subjects: tuple[tuple[str, str], ...]
    mend: str
    because: str


class Logged(NamedTuple):
    """An entry of the log in a line.

    Attributes:
        when: day and time as they were at the place.
        who: wrote it.
        kind: of entry.
        says: its fields.
    """

    when: str
    who: str
    kind: str
    says: str


@dataclass(frozen=True, kw_only=True)
class Front:
    """What the first page tells.

    Attributes:
        name: of the plot.
        says: its place and kind in a line, may be empty.
        size: area and length in words.
        verdict: on the whole: HOLDS, FAILS or NOT SHOWN.
        summary: the same in a sentence.
        failing: what does not hold.
        unshown: what could not be shown.
        cost: planned, in a sentence.
        unpriced: how many things are missing from the cost.
        batches: how many are to be mixed.
        pieces: how many are to be cut.
        trips: to the shop; None when not known.
        logged: what was logged last, the newest first.
        log_told: why the log cannot be read; empty when it can.
    """

    name: str
    says: str
    size: str
    verdict: str
    summary: str
    failing: tuple[Point, ...]
    unshown: tuple[Point, ...]
    cost: str
    unpriced: int
    batches: int
    pieces: int
    trips: int | None
    logged: tuple[Logged, ...] = ()
    log_told: str = ""


def head_of(folder: Path) -> Head | None:
    """Name and units of a plot; None while its plan cannot be read."""
    try:
        site = open_site(folder)
    except PinfoldError:
        return None
    return Head(name=site.plan.name, units=UNITS[site.plan.units], cautions=site.cautions)


def front_of(folder: Path) -> Front:
    """What stands open.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    plan, layout, counted = site.plan, site.layout, reckon_all(site)
    findings = by_urgency(assess(layout))
    logged, log_told = _logged(folder)
    around = f"{show(layout.length, METER, plan.units)} to build"
    area = "an open plot" if layout.area is None else f"{show(layout.area, SQUARE_METER, plan.units)} enclosed"
    return Front(
        name=plan.name,
        says=plan.place.says,
        size=f"{area}, {around}",
        verdict=overall(findings).value,
        summary=summary(findings),
        failing=tuple(_points(findings, Verdict.FAILS)),
        unshown=tuple(_points(findings, Verdict.NOT_SHOWN)),
        cost=total_sentence(counted.planned, plan.units),
        unpriced=len(counted.planned.missing),
        batches=sum(card.batches for card in counted.cards),
        pieces=sum(part.count for part in counted.parts),
        trips=counted.gathered.haulage.trips,
        logged=logged,
        log_told=log_told,
    )


def _logged(folder: Path) -> tuple[tuple[Logged, ...], str]:
    """The newest entries, or why there are none to be had: a log out of order keeps no plan from being told."""
    from pinfold.actions.log_pages import line_of
    from pinfold.store.log import open_log

    try:
        with open_log(folder) as log:
            entries = log.entries(limit=LAST, standing=True)
    except StoreError as told:
        return (), fault_of_log(folder, told)
    return tuple(
        Logged(when=f"{entry.when:%Y-%m-%d %H:%M}", who=entry.who, kind=entry.kind, says=line_of(entry))
        for entry in entries
    ), ""


def _points(findings: Sequence[Finding], verdict: Verdict) -> Iterator[Point]:
    by_check: dict[str, list[tuple[str, Finding]]] = {}
    for name, finding in zip(names_of(findings), findings, strict=True):
        if finding.verdict is verdict:
            by_check.setdefault(finding.check, []).append((name, finding))
    for check, named in by_check.items():
        reasons = {finding.because for _, finding in named}
        yield Point(
            check=check,
            subjects=tuple((finding.subject, name) for name, finding in named),
            mend=next((finding.mend for _, finding in named if finding.mend), ""),
            because=reasons.pop() if len(reasons) == 1 else "",
        )

"""Which publications stand behind the findings, and how far each can be trusted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.findings import Finding, Step
from pinfold.formulas.catalog import contract_named
from pinfold.reports.binder.records import BinderPart
from pinfold.reports.pages import Table, table
from pinfold.reports.working import pairs_of
from pinfold.sources import Standing, publication

STANDINGS: dict[Standing, tuple[str, str]] = {
    Standing.READ: ("read", "read in the publication named, or in a copy of it that is named too"),
    Standing.DERIVED: ("derived", "plain statics or algebra, worked in the open"),
    Standing.GIVEN: ("given", "said by the builder in the plan"),
    Standing.LEARNED: ("learned", "taught by the site's own log: at least half of it is what was read there"),
    Standing.PRACTICE: ("common practice", "what the trade does, without a source"),
    Standing.MEMORY: ("from memory", "remembered, not read: look it up before relying on it"),
}
"""Every standing as printed, and what it means."""


@dataclass(frozen=True, kw_only=True)
class Use:
    """Lines of working and figures that lead to something other than a finding, such as a batch.

    Attributes:
        what: word for what they lead to.
        working: lines of working.
        figures: figures that went in.
    """

    what: str
    working: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()


def sources_of(findings: Iterable[Finding], uses: Iterable[Use] = ()) -> Table:
    """Every publication behind findings and other uses: key, title with the copy read, standings, and what for.

    Args:
        findings: their formulas and figures
        uses: formulas and figures of batches and the like

    Returns:
        one row per publication by key; no rows when nothing was used

    Raises:
        NotFoundError: a figure names a publication that is not on the shelf.
    """
    behind: dict[str, tuple[set[Standing], set[str]]] = {}
    for use in (*(_use(finding) for finding in findings), *uses):
        for key, standing in _named(use):
            standings, whats = behind.setdefault(key, (set(), set()))
            standings.add(standing)
            whats.add(use.what)
    rows = [
        (key, _title(key), _words(standings), ", ".join(sorted(whats)))
        for key, (standings, whats) in sorted(behind.items())
    ]
    return table(("key", "publication", "standing", "used for"), rows, wide=1)


def sources_part(findings: Iterable[Finding], uses: Iterable[Use] = ()) -> BinderPart:
    """The last chapter of a binder: all sources and what the standings mean; empty when nothing was used."""
    listed = sources_of(findings, uses)
    return BinderPart(
        title="Sources",
        intro="Where equations and figures come from, by the short key that the calculation sheets print.",
        blocks=(legend(), listed) if listed.rows else (),
    )


def legend() -> Table:
    """What each standing means."""
    return table(("standing", "means"), tuple(STANDINGS.values()), wide=1, title="Standing of a figure")


def _use(finding: Finding) -> Use:
    return Use(what=finding.check, working=finding.working, figures=finding.figures)


def _named(use: Use) -> Iterator[tuple[str, Standing]]:
    for step in use.working:
        yield from pairs_of(contract_named(step.formula))
    for _, figure in use.figures:
        yield figure.source, figure.standing


def _title(key: str) -> str:
    found = publication(key)
    return f"{found.title} (via {found.via})" if found.via else found.title


def _words(standings: Iterable[Standing]) -> str:
    return ", ".join(word for standing, (word, _) in STANDINGS.items() if standing in set(standings))

"""Findings as a page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pinfold.findings import Finding, Verdict, by_urgency, overall
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, table
from pinfold.reports.sides import side
from pinfold.tables.shelf import kind
from pinfold.units import System


def stand_page(
    name: str, findings: Sequence[Finding], *, working: bool, each: bool = False, sections: Sequence[Block] = ()
) -> Page:  # fmt: skip
    """The verdict on the whole, the usual caution, every finding by urgency, and what else was asked."""
    return Page(
        title=f"{name}: will it stand",
        blocks=(
            Paragraph(text=summary(findings)),
            Caution(text=kind("cautions", "engineer").says),
            Findings(findings=tuple(findings), working=working, each=each),
            *sections,
        ),
    )


def sheets_of(findings: Sequence[Finding], system: System) -> tuple[Block, ...]:
    """Findings for paper: with their working all that do not hold and, for each check, the one nearest its limit;
    the others in a table."""
    worked = [finding for finding in by_urgency(findings) if finding.verdict is not Verdict.HOLDS]
    holding = [finding for finding in by_urgency(findings) if finding.verdict is Verdict.HOLDS]
    nearest = {finding.check: finding for finding in reversed(holding)}
    worked += [finding for finding in holding if nearest[finding.check] is finding]
    rest = [finding for finding in holding if nearest[finding.check] is not finding]
    blocks: list[Block] = [Findings(findings=tuple(worked), working=True)]
    if rest:
        rows = [
            (f.check, f.subject, side(f.demand, f, system), side(f.capacity, f, system), f"{f.use:.0%}") for f in rest
        ]
        note = "For each check the working above is of the case nearest its limit; 'pinfold stand --working' shows all."
        heads = ("holds too", "of what", "acts", "resists", "used")
        blocks += [Heading(text="Holds too"), table(heads, rows, right=(2, 3, 4), wide=1, note=note)]
    return tuple(blocks)


def summary(findings: Sequence[Finding]) -> str:
    """One sentence: how many of how many hold, fail, are not shown."""
    if not findings:
        return "Nothing of this plan was checked: there is nothing in it that wind or ground could move."
    counts = Counter(finding.verdict for finding in findings)
    parts = [f"{counts[verdict]} {word}" for verdict, word in _WORDS.items() if counts[verdict]]
    whole = {Verdict.HOLDS: "All that was checked holds", Verdict.FAILS: "Something does not hold"}.get(
        overall(findings), "Not all could be shown"
    )
    return f"{whole}: of {len(findings)} findings {', '.join(parts) or 'none'}."


_WORDS = {Verdict.FAILS: "FAIL", Verdict.NOT_SHOWN: "NOT SHOWN", Verdict.HOLDS: "HOLD"}

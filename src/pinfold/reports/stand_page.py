"""Findings as a page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pinfold.findings import Finding, Verdict, overall
from pinfold.reports.pages import Caution, Findings, Page, Paragraph
from pinfold.tables.shelf import kind


def stand_page(name: str, findings: Sequence[Finding], *, working: bool) -> Page:
    """The verdict on the whole, the usual caution, and every finding by urgency."""
    return Page(
        title=f"{name}: will it stand",
        blocks=(
            Paragraph(text=summary(findings)),
            Caution(text=kind("cautions", "engineer").says),
            Findings(findings=tuple(findings), working=working),
        ),
    )


def summary(findings: Sequence[Finding]) -> str:
    """One sentence: how many of how many hold, fail, are not shown."""
    counts = Counter(finding.verdict for finding in findings)
    parts = [f"{counts[verdict]} {word}" for verdict, word in _WORDS.items() if counts[verdict]]
    whole = {Verdict.HOLDS: "All that was checked holds", Verdict.FAILS: "Something does not hold"}.get(
        overall(findings), "Not all could be shown"
    )
    return f"{whole}: of {len(findings)} findings {', '.join(parts) or 'none'}."


_WORDS = {Verdict.FAILS: "FAIL", Verdict.NOT_SHOWN: "NOT SHOWN", Verdict.HOLDS: "HOLD"}

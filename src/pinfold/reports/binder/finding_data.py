"""Findings as the calculation sheets of a binder: plain data for the typesetter."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from pinfold.findings import Finding, Step, Verdict, by_urgency
from pinfold.formulas.catalog import contract_named
from pinfold.reports.binder.sources import STANDINGS
from pinfold.reports.binder.wording import equation_pieces, opened, worded
from pinfold.reports.sides import side
from pinfold.reports.working import line_of, pairs_of
from pinfold.units import System

GROUPS = {
    Verdict.FAILS: "What does not hold", Verdict.NOT_SHOWN: "What could not be shown", Verdict.HOLDS: "What holds",
}  # fmt: skip
_LONG = 20
"""Letters of a result above which it gets a line of its own."""


def findings_data(findings: Sequence[Finding], system: System, *, working: bool) -> list[dict[str, object]]:
    """Findings by verdict, the most urgent first, each group under its heading with the number in it."""
    groups = [(verdict, list(group)) for verdict, group in groupby(by_urgency(findings), key=lambda f: f.verdict)]
    return [
        {
            "kind": "findings",
            "title": GROUPS[verdict],
            "count": len(group),
            "findings": [finding_data(finding, system, working=working) for finding in group],
        }
        for verdict, group in groups
    ]


def finding_data(finding: Finding, system: System, *, working: bool) -> dict[str, object]:
    """One finding; `share` is null when not shown and is held to 99 for drawing."""
    use = finding.use
    return {
        "verdict": finding.verdict.value,
        "check": opened(worded(finding.check)),
        "subject": worded(finding.subject),
        "acts": side(finding.demand, finding, system),
        "resists": side(finding.capacity, finding, system),
        "share": None if use is None else min(use, 99.0),
        "percent": "" if use is None else _percent(use),
        "because": worded(finding.because),
        "mend": worded(finding.mend),
        "left_out": worded(finding.left_out),
        "caution": worded(finding.caution),
        "working": [step_data(step, system) for step in finding.working] if working else [],
    }


def step_data(step: Step, system: System) -> dict[str, object]:
    """One line of working, its sources by key and standing."""
    line = line_of(step, system)
    pairs = pairs_of(contract_named(step.formula))
    return {
        "says": worded(line.says),
        "why": worded(line.why),
        "equation": equation_pieces(line.equation),
        "put_in": [worded(text) for text in line.put_in],
        "gives": worded(line.gives),
        "long": len(line.gives) > _LONG,
        "source": ", ".join(f"{key} ({STANDINGS[standing][0]})" for key, standing in pairs),
    }


def _percent(use: float) -> str:
    return f"{use:.0%}" if use < 9.995 else "over 999%"

"""Findings told together: what fails or is not shown for the same reason, and what holds, check by check."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from pinfold.findings import Finding, Verdict, by_urgency

Group = tuple[Finding, ...]
"""Findings of one check and verdict, the worst first."""


def open_groups(findings: Iterable[Finding]) -> tuple[Group, ...]:
    """What fails and what is not shown, by urgency; those of one check with one reason and one mend together."""
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for finding in by_urgency(findings):
        if finding.verdict is not Verdict.HOLDS:
            key = (finding.verdict.value, finding.check, finding.because, finding.mend)
            groups.setdefault(key, []).append(finding)
    return tuple(tuple(group) for group in groups.values())


def holding_groups(findings: Iterable[Finding]) -> tuple[Group, ...]:
    """What holds, check by check: the check nearest its limit first."""
    groups: dict[str, list[Finding]] = {}
    for finding in by_urgency(findings):
        if finding.verdict is Verdict.HOLDS:
            groups.setdefault(finding.check, []).append(finding)
    return tuple(tuple(group) for group in groups.values())


def subjects(group: Sequence[Finding]) -> str:
    """What a group speaks of: `stretches a, b` where all are of one kind."""
    names = list(dict.fromkeys(finding.subject for finding in group))
    first, _, _ = names[0].partition(" ")
    if len(names) > 1 and first in _PLURALS and all(name.startswith(f"{first} ") for name in names):
        return f"{_PLURALS[first]} {', '.join(name.removeprefix(f'{first} ') for name in names)}"
    return "; ".join(names)


_PLURALS = {"stretch": "stretches", "gate": "gates"}

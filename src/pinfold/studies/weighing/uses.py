"""How checks came out together: what uses most of its strength, whether any fails, and which are not shown."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from pinfold.findings import Finding, Verdict


class Uses(NamedTuple):
    """How some checks came out together.

    Attributes:
        use: the most that any of them uses of its strength.
        check: which one.
        where: on what.
        fails: whether any fails.
        unshown: the checks that are not shown somewhere.
    """

    use: float
    check: str
    where: str
    fails: bool
    unshown: frozenset[str]


def uses_of(findings: Iterable[Finding]) -> Uses:
    """The worst of some findings, and which of them are not shown."""
    use, check, where, fails, unshown = 0.0, "", "", False, set()
    for finding in findings:
        verdict = finding.verdict
        if verdict is Verdict.NOT_SHOWN:
            unshown.add(finding.check)
            continue
        fails |= verdict is Verdict.FAILS
        if (found := finding.use or 0.0) > use:
            use, check, where = found, finding.check, finding.subject
    return Uses(use, check, where, fails, frozenset(unshown))

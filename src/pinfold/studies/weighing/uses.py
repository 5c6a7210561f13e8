"""How checks came out together: what uses most of its strength, whether any fails, and which are not shown."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from pinfold.findings import Finding, Verdict
from pinfold.studies.weighing.safety_scores import is_strength


class Uses(NamedTuple):
    """How some checks came out together.

    Attributes:
        use: the most that any check of strength of wall or fence uses of it.
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


def uses_of(findings: Iterable[Finding], *, to_first_failing: bool = False) -> Uses:
    """The worst of some findings, and which of them are not shown.

    Args:
        findings: of checks
        to_first_failing: whether one that fails says enough, and no more are asked
    """
    use, check, where, fails, unshown = 0.0, "", "", False, set[str]()
    for finding in findings:
        verdict = finding.verdict
        if verdict is Verdict.NOT_SHOWN:
            unshown.add(finding.check)
            continue
        fails |= verdict is Verdict.FAILS
        if (found := finding.use or 0.0) > use and is_strength(finding):
            use, check, where = found, finding.check, finding.subject
        if fails and to_first_failing:
            break
    return Uses(use, check, where, fails, frozenset(unshown))

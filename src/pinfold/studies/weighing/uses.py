"""How checks came out together: what uses most of its strength, whether any fails, and which are not shown."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import NamedTuple

from pinfold.findings import Finding, Verdict
from pinfold.studies.weighing.safety_scores import is_given, is_strength


class Uses(NamedTuple):
    """How some checks came out together.

    Attributes:
        use: the most that any check of strength of wall or fence uses of it.
        check: which one.
        where: on what.
        fails: whether any fails that hangs on what is picked.
        unshown: what is not shown, check and part.
        given: what fails of that which the plan gives whatever is picked, leaves of gates and neighbors.
    """

    use: float
    check: str
    where: str
    fails: bool
    unshown: frozenset[str]
    given: frozenset[str] = frozenset()


def uses_of(findings: Iterable[Finding], *, to_first_failing: bool = False) -> Uses:
    """The worst of some findings, and which of them are not shown.

    Args:
        findings: of checks
        to_first_failing: whether one that fails says enough, and no more are asked
    """
    use, check, where, fails, unshown, given = 0.0, "", "", False, set[str](), set[str]()
    for finding in findings:
        verdict = finding.verdict
        if verdict is Verdict.NOT_SHOWN:
            unshown.add(part_of(finding))
            continue
        if verdict is Verdict.FAILS and is_given(finding):
            given.add(part_of(finding))
            continue
        fails |= verdict is Verdict.FAILS
        if (found := finding.use or 0.0) > use and is_strength(finding):
            use, check, where = found, finding.check, finding.subject
        if fails and to_first_failing:
            break
    return Uses(use, check, where, fails, frozenset(unshown), frozenset(given))


_PIECE = re.compile(r"\bstretch ([^,]*/\d+)[a-z]*\b")
_MANY = re.compile(r"(^|, |\band )(stretch|post)(?:es|s)? .*$")

_ALL = {"stretch": "stretches", "post": "posts"}


def part_of(finding: Finding) -> str:
    """A check and the part of the plot it is of, as they are called whatever is picked: runs, not their pieces, and
    all posts, however many there are."""
    runs = _PIECE.sub(r"run \1", finding.subject)
    subject = _MANY.sub(lambda found: f"{found[1]}{_ALL[found[2]]}", runs)
    return f"{finding.check}, {subject}"


def hardest_first(
    failed: Counter[Hashable], asked: Iterable[tuple[Hashable, Callable[[], Iterable[Finding]]]]
) -> Uses:  # fmt: skip
    """The worst of some checks, up to the first that fails; what failed most often before is asked first.

    Args:
        failed: how often each failed; counted on
        asked: checks by name
    """
    parts: list[Uses] = []
    for name, find in sorted(asked, key=lambda each: -failed[each[0]]):
        parts.append(uses_of(find(), to_first_failing=True))
        if parts[-1].fails:
            failed[name] += 1
            break
    return _together(parts)


def _together(parts: Sequence[Uses]) -> Uses:
    unshown, given = (frozenset[str]().union(*(getattr(part, name) for part in parts)) for name in ("unshown", "given"))
    if not parts:
        return Uses(0.0, "", "", fails=False, unshown=unshown)
    worst = max(parts, key=lambda part: part.use)
    return Uses(worst.use, worst.check, worst.where, parts[-1].fails, unshown, given)

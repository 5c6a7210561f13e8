"""Findings of one question told together: the same check under the wind, under a push and in an earthquake."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from pinfold.findings import Finding, Verdict, by_urgency
from pinfold.reports.alike import Group
from pinfold.studies.stability.earthquakes.walls import UNDER as SHAKEN
from pinfold.studies.stability.pushes.walls import UNDER as PUSHED


def question_groups(findings: Iterable[Finding]) -> tuple[Group, ...]:
    """Findings of one question and verdict together, by urgency: the one nearest its limit, or past it most, first."""
    groups: dict[tuple[Verdict, str], list[Finding]] = {}
    for finding in by_urgency(findings):
        groups.setdefault((finding.verdict, question_of(finding.check)[0]), []).append(finding)
    return tuple(tuple(group) for group in groups.values())


def question_of(check: str) -> tuple[str, str]:
    """A check in two: what is asked, and under what; empty where that is the wind or the weight."""
    for under in (PUSHED, SHAKEN):
        if check.endswith(f" {under}"):
            return check.removesuffix(f" {under}"), under
    return check, ""


class Telling(NamedTuple):
    """How a group is told.

    Attributes:
        what: what is asked, such as `sliding`.
        times: how often, such as `14 times, 7 of them under a push`.
        worst: what is nearest its limit or past it most, and under what.
    """

    what: str
    times: str
    worst: str


def telling(group: Group) -> Telling:
    """How a group is told; under what is said beside the question where not all are under the same."""
    worst, times, checks = group[0], f"{len(group)} times", {finding.check for finding in group}
    if len(checks) == 1:
        return Telling(worst.check, times, worst.subject)
    under = Counter(question_of(finding.check)[1] for finding in group)
    counts = [f"{count} of them {name}" for name, count in under.items() if name]
    question, acts = question_of(worst.check)
    return Telling(question, ", ".join([times, *counts]), f"{worst.subject} {acts}".rstrip())

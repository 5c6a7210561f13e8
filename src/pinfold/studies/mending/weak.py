"""Which checks want mending: those that fail, and those that hold with less than a tenth to spare."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pinfold.findings import Finding, Verdict
from pinfold.studies.layout.records import Layout
from pinfold.studies.mending.records import Weak
from pinfold.studies.stability.subjects import Owner, owners_of

NEAR = 0.9
"""A check that uses more of its strength than this has little to spare."""
Key = tuple[str, str, Owner]
"""A check of the wall, a bank against it, the posts or the gate of one build-up or gate."""


def worst_by_owner(findings: Iterable[Finding], layout: Layout) -> Mapping[Key, Finding]:
    """The worst finding of every check of every build-up and gate."""
    worst: dict[Key, Finding] = {}
    for finding in findings:
        for owner in owners_of(finding, layout):
            key = (finding.check, _part(finding), owner)
            if key not in worst or badness(finding) > badness(worst[key]):
                worst[key] = finding
    return worst


def _part(finding: Finding) -> str:
    word = finding.subject.partition(" ")[0]
    if word == "stretch" and ", bank " in finding.subject:
        return "bank"
    return {"stretch": "wall", "stretches": "wall", "gate": "gate"}.get(word, "posts")


def badness(finding: Finding) -> tuple[int, float]:
    """Orders findings from what holds best to what fails worst."""
    return _ORDER[finding.verdict], finding.use or 0.0


_ORDER = {Verdict.HOLDS: 0, Verdict.NOT_SHOWN: 1, Verdict.FAILS: 2}


def weak_of(findings: Iterable[Finding], layout: Layout, *, near: bool) -> tuple[Weak, ...]:
    """Every check that fails, and with `near` those that hold with less than a tenth to spare; the worst first."""
    found = [
        weak_in(key, finding) for key, finding in worst_by_owner(findings, layout).items()
        if finding.verdict is Verdict.FAILS or (near and (finding.use or 0.0) > NEAR)
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda weak: (weak.verdict is not Verdict.FAILS, -weak.use)))


def weak_in(key: Key, finding: Finding) -> Weak:
    """A check that wants mending, by its worst finding."""
    check, part, owner = key
    return Weak(
        check=check, part=part, owner=owner, verdict=finding.verdict, use=finding.use or 0.0, subject=finding.subject,
        hint=finding.mend,
    )  # fmt: skip

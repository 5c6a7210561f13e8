"""Findings of one question stand together, whatever acts."""

from __future__ import annotations

import pytest

from pinfold.findings import Finding
from pinfold.reports.questions import question_groups, question_of, telling
from pinfold.units import NEWTON


def finding(check, subject, demand):
    return Finding(check=check, subject=subject, demand=demand, capacity=10.0, unit=NEWTON)


@pytest.mark.parametrize(
    ("check", "told"),
    [
        ("sliding", ("sliding", "")),
        ("sliding under a push", ("sliding", "under a push")),
        ("sliding in an earthquake", ("sliding", "in an earthquake")),
        ("bed-joint tension under a push", ("bed-joint tension", "under a push")),
    ],
)
def test_a_check_is_a_question_and_what_acts(check, told):
    assert question_of(check) == told


def test_one_question_with_one_verdict_stands_once_the_worst_first():
    findings = (
        finding("sliding", "stretch a", 8.0), finding("sliding under a push", "stretch b", 9.0),
        finding("sliding", "stretch c", 12.0), finding("overturning", "stretch a", 1.0),
    )  # fmt: skip
    groups = question_groups(findings)
    assert [[each.subject for each in group] for group in groups] == [
        ["stretch c"],
        ["stretch b", "stretch a"],
        ["stretch a"],
    ]
    assert telling(groups[1]) == ("sliding", "2 times, 1 of them under a push", "stretch b under a push")


def test_where_all_are_under_the_same_the_check_keeps_its_whole_name():
    findings = [finding("sliding under a push", f"stretch {name}", 5.0) for name in "ab"]
    (group,) = question_groups(findings)
    assert telling(group) == ("sliding under a push", "2 times", "stretch a")

"""Fewest lengths of public instances, each against its published optimum."""

from __future__ import annotations

from functools import cache

import pytest

from cutting_cases import BESIDE, FEW, lines_of, public_order, wrong_with
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.records import CutPlan, Proof
from published import Printed
from rows import Row

INSTANCES = {instance["name"]: instance for instance in lines_of(FEW)}
LONGEST = 300.0
"""Seconds; it takes a tenth of one, but not on a machine with much else to do."""


@cache
def plan_of(name: str) -> CutPlan:
    return cut_lengths(public_order(INSTANCES[name]), limit=LONGEST)


def row(name: str) -> Row:
    instance = INSTANCES[name]
    printed = Printed(str(instance["ub"]), "LENGTH-INSTANCES", f"{instance['set']}, {name}", "A2")
    what = f"fewest lengths of {instance['capacity']} for the {instance['n']} parts of {name}"
    return Row(what, printed, lambda: plan_of(name).money, f"set {instance['set']}")


ROWS = tuple(row(name) for name in INSTANCES)


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())


@pytest.mark.parametrize("name", INSTANCES)
def test_the_plan_of_a_public_instance_keeps_to_it_and_is_proven(name):
    assert wrong_with(plan_of(name)) == []
    assert plan_of(name).proof is Proof.OPTIMUM


@pytest.mark.skipif(not BESIDE.exists(), reason="the public instances do not lie beside the project")
@pytest.mark.cutting
@pytest.mark.parametrize("number", range(142))
def test_no_public_instance_takes_more_than_its_known_optimum_or_leaves_a_gap_over_one(number):
    instance = lines_of(BESIDE / "one_length.jsonl")[number]
    plan = cut_lengths(public_order(instance), limit=LONGEST)

    assert wrong_with(plan) == []
    assert plan.gap <= 1
    assert instance["ub"] in (None, plan.money)

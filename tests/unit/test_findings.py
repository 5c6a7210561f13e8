"""A finding never passes without both its sides."""

from __future__ import annotations

import math

import pytest

from pinfold.figures import Figure, given
from pinfold.findings import Finding, Verdict, by_urgency, overall, work
from pinfold.formulas import bearing
from pinfold.sources import Standing, weakest
from pinfold.units import METER


@pytest.mark.parametrize(
    ("demand", "capacity", "verdict"),
    [
        (1.0, 2.0, Verdict.HOLDS),
        (2.0, 2.0, Verdict.HOLDS),
        (2.1, 2.0, Verdict.FAILS),
        (math.inf, 2.0, Verdict.FAILS),
        (None, 2.0, Verdict.NOT_SHOWN),
        (1.0, None, Verdict.NOT_SHOWN),
        (math.nan, 2.0, Verdict.NOT_SHOWN),
        (1.0, math.nan, Verdict.NOT_SHOWN),
        (1.0, math.inf, Verdict.NOT_SHOWN),
        (math.inf, math.inf, Verdict.NOT_SHOWN),
        (-math.inf, 1.0, Verdict.NOT_SHOWN),
    ],
)
def test_verdict_needs_demand_and_capacity(demand, capacity, verdict):
    assert Finding(check="x", subject="y", demand=demand, capacity=capacity).verdict is verdict


def test_use_is_endless_without_capacity_and_unknown_when_not_shown():
    assert Finding(check="x", subject="y", demand=1.0, capacity=0.0).use == math.inf
    assert Finding(check="x", subject="y", demand=0.0, capacity=0.0).use == 0.0
    assert Finding(check="x", subject="y").use is None


def test_a_whole_holds_only_if_every_part_does():
    holds = Finding(check="a", subject="s", demand=1.0, capacity=2.0)
    fails = Finding(check="b", subject="s", demand=3.0, capacity=2.0)
    unknown = Finding(check="c", subject="s")

    assert overall([holds]) is Verdict.HOLDS
    assert overall([holds, unknown]) is Verdict.NOT_SHOWN
    assert overall([holds, unknown, fails]) is Verdict.FAILS
    assert overall([]) is Verdict.NOT_SHOWN
    assert [f.check for f in by_urgency([holds, unknown, fails])] == ["b", "c", "a"]


def test_a_finding_stands_as_weakly_as_its_weakest_figure():
    read = Figure(value=1.0, unit=METER, standing=Standing.READ, source="STATICS")
    memory = Figure(value=1.0, unit=METER, standing=Standing.MEMORY, source="STATICS")

    assert Finding(check="x", subject="y", figures=(("a", read), ("b", memory))).standing is Standing.MEMORY
    assert Finding(check="x", subject="y", figures=(("a", given(1.0, METER)),)).standing is Standing.GIVEN
    assert weakest([]) is Standing.DERIVED


def test_work_keeps_the_formula_its_figures_and_its_result():
    step = work(bearing.eccentricity, why="tipping", moment=500.0, load=5000.0)

    assert (step.formula, step.inputs, step.number, step.why) == (
        "bearing.eccentricity", (("moment", 500.0), ("load", 5000.0)), 0.1, "tipping",
    )  # fmt: skip

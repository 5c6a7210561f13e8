"""Earned value and learning curves against printed examples."""

from __future__ import annotations

import math

import pytest

from pinfold.formulas import earned_value as value
from pinfold.formulas import learning_curves as curves
from published import Printed
from rows import Row

MANUAL = "pages of cpi, spi, eac and tcpi: budget 100 000, 35 % done; spent 36 000 or 63 000; indices 0.83 and 0.875"
EXERCISE = "chapter 7, activity 1"
TASKS = "as of April 30: earned 400, spent 380, planned 600"
CURVES = "printed results of unit_curve, unit_cum, ca_unit and ca_block"


def row(what: str, digits: str, ours: float, *, name: str, of: tuple[str, str]) -> Row:
    source, where = of
    formula = f"learning_curves.{name}" if hasattr(curves, name) else f"earned_value.{name}"
    return Row(what, Printed(digits, source, where, "R"), lambda: ours, f"{source}, {where[:20]}", formula=formula)


BUDGET, EARNED, SPENT = 120_000.0, 20_000.0, 25_000.0
OF_EXERCISE, OF_MANUAL = ("EARNED-VALUE-EXERCISE", EXERCISE), ("EARNED-VALUE-MANUAL", MANUAL)
OF_TASKS, OF_CURVES = ("EARNED-VALUE-TASKS", TASKS), ("WRIGHT-CURVES", CURVES)
UNITS = math.fsum(curves.time_of_unit(first=100.0, number=float(n), rate=0.85) for n in range(1, 126))
FIRST_OF_201 = 125.0 / 201.0 ** curves.learning_exponent(rate=0.75)
ROWS = (
    row("cost difference", "-5000", value.cost_difference(earned=EARNED, spent=SPENT), name="cost_difference",
        of=OF_EXERCISE),
    row("schedule difference", "-3000", value.schedule_difference(earned=EARNED, planned=23_000.0),
        name="schedule_difference", of=OF_EXERCISE),
    row("cost index", "0.8", value.cost_index(earned=EARNED, spent=SPENT), name="cost_index", of=OF_EXERCISE),
    row("in all by the cost index", "150000", value.at_completion(budget=BUDGET, cost_index=0.8),
        name="at_completion", of=OF_EXERCISE),
    row("cost index, spent 36 000", "0.9722222", value.cost_index(earned=35_000.0, spent=36_000.0), name="cost_index",
        of=OF_MANUAL),
    row("schedule index, planned 40 000", "0.875", value.schedule_index(earned=35_000.0, planned=40_000.0),
        name="schedule_index", of=OF_MANUAL),
    row("in all by a cost index of 0.83", "120481.9", value.at_completion(budget=100_000.0, cost_index=0.83),
        name="at_completion", of=OF_MANUAL),
    row("in all, the rest as planned", "128000",
        value.at_completion_as_planned(budget=100_000.0, earned=35_000.0, spent=63_000.0),
        name="at_completion_as_planned", of=OF_MANUAL),
    row("in all, the rest as dear and as late", "152500.9",
        value.at_completion_by_both(
            budget=100_000.0, earned=35_000.0, spent=63_000.0, cost_index=0.83, schedule_index=0.875),
        name="at_completion_by_both", of=OF_MANUAL),
    row("index to complete within the budget", "1.76",
        value.index_to_complete(budget=100_000.0, earned=35_000.0, spent=63_000.0, goal=100_000.0),
        name="index_to_complete", of=OF_MANUAL),
    row("index to complete within what is foreseen", "1.13",
        value.index_to_complete(budget=100_000.0, earned=35_000.0, spent=63_000.0, goal=120_482.0),
        name="index_to_complete", of=OF_MANUAL),
    row("cost difference of eight tasks", "20", value.cost_difference(earned=400.0, spent=380.0),
        name="cost_difference", of=OF_TASKS),
    row("cost index of eight tasks", "1.05", value.cost_index(earned=400.0, spent=380.0), name="cost_index",
        of=OF_TASKS),
    row("the fourth of a 70 % curve, hours", "4.9",
        curves.time_of_unit(first=10.0, number=4.0, rate=0.7), name="time_of_unit",
        of=("DOUBLING-EXAMPLE", "arithmetic approach")),
    row("the 125th of an 85 % curve, hours", "32.23647",
        curves.time_of_unit(first=100.0, number=125.0, rate=0.85), name="time_of_unit", of=OF_CURVES),
    row("the first 125 of an 85 % curve, hours", "5201.085", UNITS, name="time_of_unit", of=OF_CURVES),
    row("units 201 to 250 by the average, hours", "806.772",
        curves.wright_time(first=75.0, before=200.0, until=250.0, rate=0.85), name="wright_time", of=OF_CURVES),
    row("unit 2200 by the average, hours", "23.34001",
        curves.wright_time(first=110.0, before=2199.0, until=2200.0, rate=0.885), name="wright_time", of=OF_CURVES),
    row("the 334.6103rd of a 75 % curve, hours", "101.1683",
        curves.time_of_unit(first=FIRST_OF_201, number=334.6103, rate=0.75), name="time_of_unit", of=OF_CURVES),
)  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())

"""The worthiest fill of one sheet in public guillotine problems: reached, and never outdone; the grid lets in no less."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import NamedTuple

import numpy as np
import pytest

from pinfold.studies.cutting.sheet_fill import fill
from pinfold.studies.cutting.sheet_grid import Grid, filled
from pinfold.studies.cutting.sheet_records import SheetOrder, SheetPart, SheetStock
from published import Printed
from rows import Row


class Problem(NamedTuple):
    """A sheet, and (wide, high, worth, how many at most) of each part; parts may not turn."""

    wide: int
    high: int
    parts: tuple[tuple[int, int, int, int], ...]


PROBLEMS = {
    "gcut1": Problem(250, 250, (
        (167, 184, 30728, 1), (114, 118, 13452, 1), (167, 152, 25384, 1), (83, 140, 11620, 1), (70, 86, 6020, 1),
        (143, 166, 23738, 1), (120, 160, 19200, 1), (66, 148, 9768, 1), (87, 141, 12267, 1), (69, 165, 11385, 1),
    )),
    "cgcut1": Problem(15, 10, (
        (8, 4, 66, 2), (3, 7, 35, 1), (8, 2, 24, 3), (3, 4, 17, 5), (3, 3, 11, 2), (3, 2, 8, 2), (2, 1, 2, 1),
    )),
}  # fmt: skip
OPTIMA = {"gcut1": "48368", "cgcut1": "244"}
TRIES = 3000


def order_of(problem: Problem) -> SheetOrder:
    parts = tuple(SheetPart(mark=f"S{at}", wide=wide, high=high, count=many, turns=False)
                  for at, (wide, high, _, many) in enumerate(problem.parts))  # fmt: skip
    sheet = SheetStock(mark="N1", wide=problem.wide, high=problem.high, count=None, price=1, old=False)
    return SheetOrder(parts=parts, stock=(sheet,), kerf=0, keep=0)


def by_chance(problem: Problem) -> float:
    """The most that fills by chance come to, each part no more often than it may be."""
    order, chance = order_of(problem), Random(1)
    worth = {f"S{at}": float(each[2]) for at, each in enumerate(problem.parts)}
    left = Counter({part.mark: part.count for part in order.parts})
    fills = (fill(order, order.stock[0], left, worth=worth, chance=chance) for _ in range(TRIES))
    return max(sum(worth[part.mark] for part in each.parts) for each in fills)


def on_grid(problem: Problem) -> float:
    """The most with any number of each part, on a grid that rounds nothing."""
    shapes = tuple((at, wide, high) for at, (wide, high, _, _) in enumerate(problem.parts))
    worths = np.array([float(each[2]) for each in problem.parts])
    fills = filled(Grid(1, shapes, ((problem.wide, problem.high),)), worths)
    return float(fills.worth[problem.wide, problem.high])


ROWS = tuple(
    Row(f"most worth of one sheet of {name}", Printed(printed, "SHEET-INSTANCES", name, "A2"),
        lambda name=name: by_chance(PROBLEMS[name]), "sheet instances")
    for name, printed in OPTIMA.items()
)  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())


@pytest.mark.parametrize("name", PROBLEMS)
def test_with_any_number_of_each_part_a_sheet_holds_no_less(name):
    assert on_grid(PROBLEMS[name]) >= float(OPTIMA[name])

"""Pricing fills of sheets in: what each part is worth in the best mix of those known says which further ones pay."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np
from scipy.optimize import linprog

from pinfold.studies.cutting.sheet_grid import Fills, Grid, Real, counts_of, filled
from pinfold.studies.cutting.sheet_records import SheetOrder

_SLACK = 1e-7

Column = tuple[int, Real]
"""Number of a sheet, and how many of each part lie on it."""


class Priced(NamedTuple):
    """One round of pricing.

    Attributes:
        worths: of each part in the best mix of the fills known.
        fills: the worthiest by that.
        gains: worth of the fill of each sheet.
        pay: sheets whose fill is worth more than the sheet.
    """

    worths: Real
    fills: Fills
    gains: Real
    pay: tuple[int, ...]


def columns_of(order: SheetOrder, known: Sequence[tuple[str, Mapping[str, int]]]) -> list[Column]:
    """Fills by mark of their sheet and counts by mark of the part, in numbers."""
    place = {stock.mark: at for at, stock in enumerate(order.stock)}
    return [
        (place[stock], np.array([float(many.get(part.mark, 0)) for part in order.parts])) for stock, many in known
    ]  # fmt: skip


def rounds(order: SheetOrder, grid: Grid, known: Sequence[Column], *, until: float) -> Iterator[Priced]:
    """Round after round, until no fill pays that is not known already, or until a moment of `time.monotonic`."""
    columns = [*_alone(order, grid), *known]
    while True:
        duals = _duals(order, columns)
        if duals is None:
            return
        worths, rents = duals
        fills = filled(grid, worths)
        gains = np.array([fills.worth[wide, high] for wide, high in grid.sheets])
        better = [at for at, gain in enumerate(gains) if gain > order.stock[at].price + rents[at] + _SLACK]
        new = [(at, counts_of(fills, *grid.sheets[at], len(order.parts))) for at in better]
        new = [each for each in new if not any(each[0] == at and (each[1] == old).all() for at, old in columns)]
        yield Priced(worths, fills, gains, tuple(at for at, _ in new))
        if not new or time.monotonic() > until:
            return
        columns += new


def _alone(order: SheetOrder, grid: Grid) -> Iterator[Column]:
    """A column for each part alone on each sheet that takes it."""
    for at, (wide, high) in enumerate(grid.sheets):
        for part, across, up in grid.shapes:
            many = (wide // across) * (high // up)
            if many:
                column = np.zeros(len(order.parts))
                column[part] = many
                yield at, column


def _duals(order: SheetOrder, columns: Sequence[Column]) -> tuple[Real, Real] | None:
    """Worth of each part and rent of each sheet in the best mix of the columns; None where they do not give all."""
    if not columns:
        return None
    body = np.array([column for _, column in columns]).T
    used = np.array([[at == stock for at, _ in columns] for stock in range(len(order.stock))], dtype=float)
    limited = [at for at, stock in enumerate(order.stock) if stock.count is not None]
    upper = np.vstack([-body, used[limited]]) if limited else -body
    limits = [*(-float(part.count) for part in order.parts), *(float(order.stock[at].count or 0) for at in limited)]
    answer = linprog([order.stock[at].price for at, _ in columns], A_ub=upper, b_ub=limits, method="highs")
    if answer.status != 0:
        return None
    marginals: Real = np.maximum(-answer.ineqlin.marginals, 0.0)
    rents = np.zeros(len(order.stock))
    rents[limited] = marginals[len(order.parts) :]
    return marginals[: len(order.parts)], rents

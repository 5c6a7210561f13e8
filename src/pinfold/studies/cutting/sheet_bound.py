"""What sheets cost at least: a relaxed question on a grid, solved by pricing fills in until none pays.

Every size with one kerf is rounded down to the grid, and any number of a part may lie on a sheet, so that each true
pattern is one of the relaxed ones and no plan can cost less than the relaxed optimum. A coarse grid answers first, then
finer ones.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from pinfold.studies.cutting.sheet_grid import Real, Rounding, grid_of
from pinfold.studies.cutting.sheet_pricing import Priced, columns_of, rounds
from pinfold.studies.cutting.sheet_records import SheetOrder

_FINENESS = (96, 200, 400)
"""Cells of the grids along the longest sheet, about."""


class SheetBound(NamedTuple):
    """A bound, and what each part is worth in it.

    Attributes:
        least: money that no plan undercuts.
        worths: of one part of each sort.
    """

    least: float
    worths: Real


def sheet_bound(
    order: SheetOrder, *, until: float, known: Sequence[tuple[str, Mapping[str, int]]] = (),
    enough: Callable[[float], bool] = lambda _: False,
) -> SheetBound:  # fmt: skip
    """The best bound found.

    Args:
        order: parts and sheets
        until: a moment of the clock that `time.monotonic` reads
        known: mark of a sheet, and how many of each part are known to lie on it together
        enough: whether a bound is as high as it can be, so that no finer grid is asked
    """
    start = columns_of(order, known)
    best = SheetBound(0.0, np.zeros(len(order.parts)))
    for fineness in _FINENESS:
        if fineness == _FINENESS[0] or (time.monotonic() < until and not enough(best.least)):
            for priced in rounds(order, grid_of(order, fineness, Rounding.DOWN), start, until=until):
                bound = _lagrange(order, priced)
                if bound > best.least or not best.worths.any():
                    best = SheetBound(bound, priced.worths)
    return best


def _lagrange(order: SheetOrder, priced: Priced) -> float:
    """What the worths prove: lowered until no endless sheet gains, less what the counted ones gain."""
    pairs = list(zip(order.stock, map(float, priced.gains), strict=True))
    endless = [stock.price / gain for stock, gain in pairs if stock.count is None and gain > stock.price]
    scale = min(endless, default=1.0)
    taken = sum(stock.count * max(scale * gain - stock.price, 0.0) for stock, gain in pairs if stock.count is not None)
    whole = sum(float(worth) * part.count for worth, part in zip(priced.worths, order.parts, strict=True))
    return max(scale * whole - taken, 0.0)

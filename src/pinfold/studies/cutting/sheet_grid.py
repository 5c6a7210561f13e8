"""Sheets on a grid of cells, and the worthiest guillotine fill of every rectangle of it.

Rounded down, every size with one kerf in it loses up to a cell: whatever can be cut fits the grid, and more does.
Rounded up, the parts gain up to a cell: whatever fits the grid can be cut.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.cutting.records import Steps
from pinfold.studies.cutting.sheet_fill import shapes_of
from pinfold.studies.cutting.sheet_records import SheetOrder

_LEEWAY = (0.8, 1.15)
"""A grid may have so much fewer or more cells than asked, whichever loses least by rounding."""

Real = NDArray[np.float64]


class Rounding(StrEnum):
    """Which way parts are rounded; sheets are rounded down."""

    DOWN = "down"  # nothing that can be cut is left out
    UP = "up"  # nothing is let in that cannot be cut


class Grid(NamedTuple):
    """Parts and sheets in cells, kerfs in them.

    Attributes:
        cell: how long one is.
        shapes: number of the part, cells wide, cells high; one turned is a shape of its own.
        sheets: cells wide, cells high.
    """

    cell: Steps
    shapes: tuple[tuple[int, int, int], ...]
    sheets: tuple[tuple[int, int], ...]


class Fills(NamedTuple):
    """The worthiest fill of every rectangle, by cells wide and cells high.

    Attributes:
        worth: of it.
        split: above 0 cut upright so many cells from its left edge, below 0 level so many from its lower one; 0 where
            it holds a single part or nothing.
        part: number of that single part; -1 for nothing.
    """

    worth: Real
    split: NDArray[np.int32]
    part: NDArray[np.int32]


def grid_of(order: SheetOrder, fineness: int, rounding: Rounding) -> Grid:
    """A grid of about so many cells along the longest sheet."""
    kerf = order.kerf
    longest = max(max(stock.wide, stock.high) for stock in order.stock) + kerf
    shortest = min(min(part.wide, part.high) for part in order.parts) + kerf
    fewest, finest = (max(min(int(longest / (fineness * share)), shortest), 1) for share in _LEEWAY)
    cell = max(range(finest, fewest + 1), key=lambda each: (_true(order, each, rounding), each))
    number = {part.mark: at for at, part in enumerate(order.parts)}
    shapes = tuple(
        (number[each.part.mark], _cells(each.wide + kerf, cell, rounding), _cells(each.high + kerf, cell, rounding))
        for each in shapes_of(order.parts)
    )
    sheets = tuple(((stock.wide + kerf) // cell, (stock.high + kerf) // cell) for stock in order.stock)
    return Grid(cell, shapes, sheets)


def _true(order: SheetOrder, cell: Steps, rounding: Rounding) -> float:
    """How true areas stay: the parts' over the sheets', the other way about where parts are rounded up."""
    kerf = order.kerf
    sheets = [stock for stock in order.stock if not stock.old] or list(order.stock)
    part = sum(each.count * _area(each.wide + kerf, each.high + kerf, cell, rounding) for each in order.parts)
    sheet = sum(_area(each.wide + kerf, each.high + kerf, cell, Rounding.DOWN) for each in sheets)
    return part / max(sheet, 1) if rounding is Rounding.DOWN else sheet / max(part, 1)


def _area(wide: Steps, high: Steps, cell: Steps, rounding: Rounding) -> int:
    return _cells(wide, cell, rounding) * _cells(high, cell, rounding) * cell * cell


def _cells(length: Steps, cell: Steps, rounding: Rounding) -> int:
    return length // cell if rounding is Rounding.DOWN else -(-length // cell)


def filled(grid: Grid, worths: Real) -> Fills:
    """The worthiest guillotine fill of every rectangle of the grid."""
    wide, high = max(sheet[0] for sheet in grid.sheets), max(sheet[1] for sheet in grid.sheets)
    worth = np.zeros((wide + 1, high + 1))
    split = np.zeros((wide + 1, high + 1), dtype=np.int32)
    part = np.full((wide + 1, high + 1), -1, dtype=np.int32)
    for index, across, up in grid.shapes:
        better = worth[across:, up:] < worths[index]
        worth[across:, up:][better] = worths[index]
        part[across:, up:][better] = index
    for at in range(1, wide + 1):
        _upright(worth, split, at)
        _level(worth[at], split[at])
    return Fills(worth, split, part)


def _upright(worth: Real, split: NDArray[np.int32], at: int) -> None:
    half = at // 2
    if half:
        both = worth[1 : half + 1] + worth[at - 1 : at - half - 1 : -1]
        best = both.argmax(axis=0)
        found = both[best, np.arange(both.shape[1])]
        better = found > worth[at] + 1e-12
        worth[at][better] = found[better]
        split[at][better] = best[better] + 1


def _level(worth: Real, split: NDArray[np.int32]) -> None:
    for up in range(2, len(worth)):
        half = up // 2
        both = worth[1 : half + 1] + worth[up - 1 : up - half - 1 : -1]
        best = int(both.argmax())
        if both[best] > worth[up] + 1e-12:
            worth[up] = both[best]
            split[up] = -(best + 1)


def counts_of(fills: Fills, wide: int, high: int, parts: int) -> Real:
    """How many of each part the worthiest fill of a rectangle holds."""
    found = np.zeros(parts)
    waiting = [(wide, high)]
    while waiting:
        across, up = waiting.pop()
        at = int(fills.split[across, up])
        if at > 0:
            waiting += [(at, up), (across - at, up)]
        elif at < 0:
            waiting += [(across, -at), (across, up + at)]
        elif fills.part[across, up] >= 0:
            found[fills.part[across, up]] += 1
    return found

"""What sheets cost at least: a relaxed question on a grid, solved by pricing patterns in until none pays.

Every size with one kerf is rounded down to the grid, and any number of a part may lie on a sheet, so that each true
pattern is one of the relaxed ones and no plan can cost less than the relaxed optimum. A coarse grid answers first, then
finer ones; of those about as fine the one that loses least by rounding is taken.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog

from pinfold.studies.cutting.sheet_fill import shapes_of
from pinfold.studies.cutting.sheet_records import SheetOrder

_FINENESS = (96, 200, 400)
"""Cells of the grids along the longest sheet, about."""
_LEEWAY = (0.8, 1.15)
"""So much fewer or more they may be."""
_SLACK = 1e-7

Real = NDArray[np.float64]


class SheetBound(NamedTuple):
    """A bound, and what each part is worth in it.

    Attributes:
        least: money that no plan undercuts.
        worths: of one part of each sort.
    """

    least: float
    worths: Real


class _Grid(NamedTuple):
    shapes: tuple[tuple[int, int, int], ...]  # part, cells wide, cells high
    sheets: tuple[tuple[int, int], ...]


class _Fills(NamedTuple):
    worth: Real
    split: NDArray[np.int32]  # > 0 upright at, < 0 level at, 0 a single part or nothing
    part: NDArray[np.int32]  # of a single one; -1 for nothing


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
    start = _columns(order, known)
    best = SheetBound(0.0, np.zeros(len(order.parts)))
    for fineness in _FINENESS:
        if fineness == _FINENESS[0] or (time.monotonic() < until and not enough(best.least)):
            found = _on_grid(order, _gridded(order, fineness), start, until=until)
            best = found if found.least > best.least or not best.worths.any() else best
    return best


def _columns(order: SheetOrder, known: Sequence[tuple[str, Mapping[str, int]]]) -> list[tuple[int, Real]]:
    place = {stock.mark: at for at, stock in enumerate(order.stock)}
    return [
        (place[stock], np.array([float(many.get(part.mark, 0)) for part in order.parts])) for stock, many in known
    ]  # fmt: skip


def _on_grid(order: SheetOrder, grid: _Grid, start: list[tuple[int, Real]], *, until: float) -> SheetBound:
    """The best bound that one grid gives until then."""
    prices = np.array([stock.price for stock in order.stock], dtype=float)
    counts = np.array([part.count for part in order.parts], dtype=float)
    most = [stock.count for stock in order.stock]
    columns: list[tuple[int, Real]] = [*_first(order, grid), *start]
    best = SheetBound(0.0, np.zeros(len(counts)))
    while True:
        priced = _duals(columns, prices, counts, most=most)
        if priced is None:
            return best
        duals, rents = priced
        fills = _filled(grid, duals)
        gains = np.array([fills.worth[wide, high] for wide, high in grid.sheets])
        bound = _lagrange(duals, gains, prices, counts=counts, most=most)
        best = SheetBound(bound, duals) if bound > best.least or not best.worths.any() else best
        new = [
            (at, _counts(fills, *grid.sheets[at], len(counts)))
            for at, gain in enumerate(gains) if gain > prices[at] + rents[at] + _SLACK
        ]  # fmt: skip
        new = [each for each in new if not any(at == each[0] and (old == each[1]).all() for at, old in columns)]
        if not new or time.monotonic() > until:
            return best
        columns += new


def _gridded(order: SheetOrder, fineness: int) -> _Grid:
    kerf = order.kerf
    longest = max(max(stock.wide, stock.high) for stock in order.stock) + kerf
    shortest = min(min(part.wide, part.high) for part in order.parts) + kerf
    fewest, finest = (max(min(int(longest / (fineness * share)), shortest), 1) for share in _LEEWAY)
    cell = max(range(finest, fewest + 1), key=lambda each: (_keeps(order, each), each))
    number = {part.mark: at for at, part in enumerate(order.parts)}
    shapes = tuple(
        (number[shape.part.mark], (shape.wide + kerf) // cell, (shape.high + kerf) // cell)
        for shape in shapes_of(order.parts)
    )
    return _Grid(shapes, tuple(((stock.wide + kerf) // cell, (stock.high + kerf) // cell) for stock in order.stock))


def _keeps(order: SheetOrder, cell: int) -> float:
    """The share of the parts' area that is left when it is rounded, over that of the sheets for sale."""
    sheets = [stock for stock in order.stock if not stock.old] or list(order.stock)
    area = [part.count * (part.wide + order.kerf) * (part.high + order.kerf) for part in order.parts]
    rounded = [part.count * _cells(part.wide + order.kerf, cell) * _cells(part.high + order.kerf, cell)
               for part in order.parts]  # fmt: skip
    shares = [
        _cells(stock.wide + order.kerf, cell) * _cells(stock.high + order.kerf, cell)
        / ((stock.wide + order.kerf) * (stock.high + order.kerf))
        for stock in sheets
    ]  # fmt: skip
    return sum(rounded) / sum(area) * len(shares) / max(sum(shares), 1e-9)


def _cells(length: int, cell: int) -> int:
    return length // cell * cell


def _first(order: SheetOrder, grid: _Grid) -> Iterator[tuple[int, Real]]:
    """A column for each part alone on each sheet that takes it."""
    for at, (wide, high) in enumerate(grid.sheets):
        for part, across, up in grid.shapes:
            many = (wide // across) * (high // up)
            if many:
                column = np.zeros(len(order.parts))
                column[part] = many
                yield at, column


def _duals(
    columns: list[tuple[int, Real]], prices: Real, counts: Real, *, most: list[int | None]
) -> tuple[Real, Real] | None:  # fmt: skip
    """Worth of each part and rent of each sheet in the best mix of the columns; None where they do not give all."""
    if not columns:
        return None
    body = np.array([column for _, column in columns]).T
    used = np.array([[at == stock for at, _ in columns] for stock in range(len(prices))], dtype=float)
    limited = [stock for stock, many in enumerate(most) if many is not None]
    upper = np.vstack([-body, used[limited]]) if limited else -body
    limits = np.concatenate([-counts, [float(most[stock] or 0) for stock in limited]])
    answer = linprog([prices[at] for at, _ in columns], A_ub=upper, b_ub=limits, method="highs")
    if answer.status != 0:
        return None
    marginals: Real = np.maximum(-answer.ineqlin.marginals, 0.0)
    rents = np.zeros(len(prices))
    rents[limited] = marginals[len(counts) :]
    return marginals[: len(counts)], rents


def _lagrange(duals: Real, gains: Real, prices: Real, *, counts: Real, most: list[int | None]) -> float:
    """What the worths prove: lowered until no endless sheet gains, less what the counted ones gain."""
    scale = 1.0
    for gain, price, many in zip(gains, prices, most, strict=True):
        if many is None and gain > price:
            scale = min(scale, float(price / gain))
    taken = sum(
        many * max(scale * float(gain) - float(price), 0.0)
        for gain, price, many in zip(gains, prices, most, strict=True) if many is not None
    )  # fmt: skip
    return max(scale * float(duals @ counts) - taken, 0.0)


def _filled(grid: _Grid, worths: Real) -> _Fills:
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
    return _Fills(worth, split, part)


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


def _counts(fills: _Fills, wide: int, high: int, parts: int) -> Real:
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

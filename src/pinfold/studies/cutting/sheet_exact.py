"""Fills of sheets that pay, found on a grid whose every fill can be cut, and laid out with their cuts.

Chance lays part after part into corners; what pairs of parts only make together, such as two short ones beside a long
one, comes out here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from random import Random

from pinfold.studies.cutting.sheet_fill import Filled, Sheet, fill, laid
from pinfold.studies.cutting.sheet_grid import Fills, Grid, Rounding, grid_of
from pinfold.studies.cutting.sheet_pricing import columns_of, rounds
from pinfold.studies.cutting.sheet_records import Area, SheetOrder, Through

_FINENESS = 400


def paying(
    order: SheetOrder, *, known: Sequence[tuple[str, Mapping[str, int]]], until: float, seed: int
) -> Iterator[Filled]:  # fmt: skip
    """Fills that pay beside those known, one after the other, until none does or until then."""
    grid = grid_of(order, _FINENESS, Rounding.UP)
    chance = Random(seed)
    left = Counter({part.mark: part.count for part in order.parts})
    for priced in rounds(order, grid, columns_of(order, known), until=until):
        worth = {part.mark: float(each) for part, each in zip(order.parts, priced.worths, strict=True)}
        for at in priced.pay:
            begin = partial(_begun, on=(grid, priced.fills), cells=grid.sheets[at])
            yield fill(order, order.stock[at], left, worth=worth, chance=chance, begin=begin)


def _begun(sheet: Sheet, area: Area, *, on: tuple[Grid, Fills], cells: tuple[int, int]) -> list[Area]:
    return list(_laid(sheet, area, on, cells))


def _laid(sheet: Sheet, area: Area, on: tuple[Grid, Fills], cells: tuple[int, int]) -> Iterator[Area]:
    """Cuts an area as the fill of its cells has it and lays the parts in; what is left over comes back."""
    (grid, fills), (across, up) = on, cells
    split = int(fills.split[across, up])
    if split > 0:
        first, second = _parted(area, split * grid.cell, sheet.order.kerf, upright=True)
        sheet.cuts += [Through(area, upright=True, at=first.wide)] * (first.wide < area.wide)
        yield from _laid(sheet, first, on, (split, up))
        yield from _laid(sheet, second, on, (across - split, up))
    elif split < 0:
        first, second = _parted(area, -split * grid.cell, sheet.order.kerf, upright=False)
        sheet.cuts += [Through(area, upright=False, at=first.high)] * (first.high < area.high)
        yield from _laid(sheet, first, on, (across, -split))
        yield from _laid(sheet, second, on, (across, up + split))
    else:
        yield from laid(sheet, area, _part_in(grid, int(fills.part[across, up]), cells))


def _parted(area: Area, far: int, kerf: int, *, upright: bool) -> tuple[Area, Area]:
    """Both sides of a cut whose blade ends so far from the left or lower edge."""
    if upright:
        return area._replace(wide=far - kerf), area._replace(x=area.x + far, wide=area.wide - far)
    return area._replace(high=far - kerf), area._replace(y=area.y + far, high=area.high - far)


def _part_in(grid: Grid, part: int, cells: tuple[int, int]) -> int:
    """Number of the shape that a rectangle holds; -1 for none."""
    across, up = cells
    shapes = enumerate(grid.shapes)
    return next((at for at, (of, wide, high) in shapes if of == part and wide <= across and high <= up), -1)

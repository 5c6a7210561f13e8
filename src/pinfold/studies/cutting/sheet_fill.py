"""Filling a sheet by guillotine cuts: part after part into a corner of what is left, by chance and by worth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import NamedTuple

from pinfold.studies.cutting.records import Steps
from pinfold.studies.cutting.sheet_records import Area, Laid, Rest, SheetOrder, SheetPart, SheetStock, Through


class Filled(NamedTuple):
    """A sheet with its parts.

    Attributes:
        stock: mark of the sheet.
        parts: on it.
        cuts: in their order.
        rests: left over.
    """

    stock: str
    parts: tuple[Laid, ...]
    cuts: tuple[Through, ...]
    rests: tuple[Rest, ...]

    @property
    def counts(self) -> Counter[str]:
        """Parts on it by mark."""
        return Counter(part.mark for part in self.parts)


class _Shape(NamedTuple):
    part: SheetPart
    wide: Steps
    high: Steps
    turned: bool


@dataclass
class Sheet:
    """A sheet being filled.

    Attributes:
        order: with kerf and parts.
        left: how many of each part are still wanted.
        worth: of a part, by mark.
        chance: what decides between parts that serve alike.
        parts: on it so far.
        cuts: so far, in their order.
        rests: left over so far.
    """

    order: SheetOrder
    left: Counter[str]
    worth: Mapping[str, float]
    chance: Random
    parts: list[Laid] = field(default_factory=list)
    cuts: list[Through] = field(default_factory=list)
    rests: list[Rest] = field(default_factory=list)


Begin = Callable[[Sheet, Area], list[Area]]


def shapes_of(parts: Sequence[SheetPart]) -> tuple[_Shape, ...]:
    """Each part as it lies, and turned where it may be."""
    return tuple(_each(parts))


def _each(parts: Sequence[SheetPart]) -> Iterator[_Shape]:
    for part in parts:
        yield _Shape(part, part.wide, part.high, turned=False)
        if part.turns and part.wide != part.high:
            yield _Shape(part, part.high, part.wide, turned=True)


def fill(
    order: SheetOrder, stock: SheetStock, left: Mapping[str, int], *, worth: Mapping[str, float], chance: Random,
    begin: Begin | None = None,
) -> Filled:  # fmt: skip
    """A sheet filled with parts that are left.

    Args:
        order: with kerf and parts
        stock: the sheet
        left: how many of each part are still wanted
        worth: of a part, by mark; its area where nothing better is known
        chance: what decides between parts that serve alike
        begin: what lays the first parts in, and gives the areas that are left; none unless told
    """
    sheet = Sheet(order=order, left=Counter(left), worth=worth, chance=chance)
    shapes = shapes_of(order.parts)
    whole = Area(0, 0, stock.wide, stock.high)
    free = [whole] if begin is None else begin(sheet, whole)
    while free:
        area = free.pop()
        shape = _choice(sheet, shapes, area)
        if shape is None:
            sheet.rests.append(Rest(area, min(area.wide, area.high) >= order.keep > 0))
            continue
        free += _put(sheet, area, shape)
    return Filled(stock.mark, tuple(sheet.parts), tuple(sheet.cuts), tuple(sheet.rests))


def laid(sheet: Sheet, area: Area, number: int) -> list[Area]:
    """Lays one of `shapes_of` its parts into the corner of an area, and gives what is left; -1 for none of them."""
    if min(area.wide, area.high) <= 0:
        return []
    shape = shapes_of(sheet.order.parts)[number] if number >= 0 else None
    return [area] if shape is None or sheet.left[shape.part.mark] <= 0 else _put(sheet, area, shape)


def _put(sheet: Sheet, area: Area, shape: _Shape) -> list[Area]:
    sheet.left[shape.part.mark] -= 1
    sheet.parts.append(Laid(shape.part.mark, Area(area.x, area.y, shape.wide, shape.high), shape.turned))
    return _split(sheet, area, shape)


def _choice(sheet: Sheet, shapes: Sequence[_Shape], area: Area) -> _Shape | None:
    """The worthiest that fits, as chance has it."""
    best, most = None, 0.0
    for shape in shapes:
        if shape.wide <= area.wide and shape.high <= area.high and sheet.left[shape.part.mark] > 0:
            snug = 1.0 + (shape.wide == area.wide) + (shape.high == area.high)
            found = (sheet.worth.get(shape.part.mark, 0.0) + 1e-9) * snug * sheet.chance.uniform(0.5, 1.0)
            if found > most:
                best, most = shape, found
    return best


def _split(sheet: Sheet, area: Area, shape: _Shape) -> list[Area]:
    """What is left of an area beside and above a part in its lower left corner, with the cuts that free it."""
    kerf, (wide, high) = sheet.order.kerf, (shape.wide, shape.high)
    aside, above = area.wide - wide, area.high - high
    upright = sheet.chance.random() < (0.75 if aside > above else 0.25)
    strip = area._replace(wide=wide) if upright else area._replace(high=high)
    along = Through(area if upright else strip, upright=True, at=wide)
    across = Through(strip if upright else area, upright=False, at=high)
    for cut, spare in ((along, aside), (across, above)) if upright else ((across, above), (along, aside)):
        sheet.cuts += [cut] * (spare > 0)
    right = Area(area.x + wide + kerf, area.y, aside - kerf, area.high if upright else high)
    top = Area(area.x, area.y + high + kerf, wide if upright else area.wide, above - kerf)
    return sorted((each for each in (right, top) if each.wide > 0 and each.high > 0), key=_size, reverse=True)


def _size(area: Area) -> int:
    return area.wide * area.high
